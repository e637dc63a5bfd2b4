"""A real Chromium without a screen, driven by its own DevTools protocol over two pipes: no port, no other library."""

from __future__ import annotations

import base64
import fcntl
import json
import os
import select
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome")
OPTIONS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update", "--disable-extensions", "--hide-scrollbars",
    "--autoplay-policy=user-gesture-required", "--mute-audio", "--remote-debugging-pipe", "--lang=en-GB",
)  # fmt: skip
MISSING = (
    "There is no Chromium here, in which the phone page is tried. make test installs it where that is allowed "
    "(scripts/system-libraries browser); elsewhere install the package chromium."
)
_PATIENCE = 30.0
_ON_THREE_AND_FOUR = (
    "import os, sys; os.dup2(int(sys.argv[1]), 3); os.dup2(int(sys.argv[2]), 4); os.execvp(sys.argv[3], sys.argv[3:])"
)
"""The browser reads calls from its file 3 and answers on 4."""


class Chromium:
    """A browser process. Every call waits for its answer; what the browser tells by itself is kept in `events`."""

    def __init__(self, folder: Path, zone: str = "Europe/London") -> None:
        program = next(filter(None, map(shutil.which, NAMES)), None)
        assert program is not None, MISSING
        to_it, self._write = os.pipe()
        self._read, from_it = os.pipe()
        ends = [fcntl.fcntl(end, fcntl.F_DUPFD, 10) for end in (to_it, from_it)]
        homes = dict.fromkeys(("HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME"), str(folder))
        self._process = subprocess.Popen(
            [
                *(sys.executable, "-c", _ON_THREE_AND_FOUR, *map(str, ends)),
                *(program, *OPTIONS, f"--user-data-dir={folder / 'profile'}", "about:blank"),
            ],
            pass_fds=ends, env={**os.environ, **homes, "TZ": zone}, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, start_new_session=True,
        )  # fmt: skip
        for end in (to_it, from_it, *ends):
            os.close(end)
        self._rest = b""
        self._number = 0
        self.events: list[dict[str, Any]] = []

    def call(self, method: str, session: str | None = None, **parameters: Any) -> Any:
        """Return what the browser answers to a call; raise AssertionError for an error."""
        self._number += 1
        asked: dict[str, Any] = {"id": self._number, "method": method, "params": parameters}
        if session is not None:
            asked["sessionId"] = session
        os.write(self._write, json.dumps(asked).encode() + b"\0")
        end = time.monotonic() + _PATIENCE
        while True:
            answer = self._next(end)
            assert answer is not None, f"Chromium did not answer {method} within {_PATIENCE:g} s."
            if answer.get("id") == self._number:
                assert "error" not in answer, f"{method}: {answer['error']}"
                return answer["result"]
            self.events.append(answer)

    def listen(self, seconds: float) -> None:
        """Take in what the browser tells for so long."""
        end = time.monotonic() + seconds
        while (told := self._next(end)) is not None:
            self.events.append(told)

    def close(self) -> None:
        """End the browser with all its processes, which are in a session of their own."""
        for way in (signal.SIGTERM, signal.SIGKILL):
            with suppress(ProcessLookupError):
                os.killpg(self._process.pid, way)
            with suppress(subprocess.TimeoutExpired):
                self._process.wait(5)
                break
        with suppress(ProcessLookupError):
            os.killpg(self._process.pid, signal.SIGKILL)
        os.close(self._write)
        os.close(self._read)

    def _next(self, end: float) -> dict[str, Any] | None:
        while b"\0" not in self._rest:
            ready, _, _ = select.select([self._read], [], [], max(0.0, end - time.monotonic()))
            if not ready:
                return None
            more = os.read(self._read, 1 << 20)
            assert more, "Chromium ended."
            self._rest += more
        one, self._rest = self._rest.split(b"\0", 1)
        found: dict[str, Any] = json.loads(one)
        return found


class Page:
    """One page (a tab) of a browser: a phone's screen with a thumb on it."""

    def __init__(self, browser: Chromium, width: int = 390, height: int = 844) -> None:
        self.browser = browser
        self._target = browser.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = browser.call("Target.attachToTarget", targetId=self._target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log"):
            self.ask(f"{domain}.enable")
        self.ask(
            "Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=True
        )
        self.ask("Emulation.setTouchEmulationEnabled", enabled=True)

    def ask(self, method: str, **parameters: Any) -> Any:
        """Return the browser's answer to a call for this page."""
        return self.browser.call(method, self.session, **parameters)

    def prepare(self, script: str) -> None:
        """Run a script before those of every page that is opened from now on."""
        self.ask("Page.addScriptToEvaluateOnNewDocument", source=script)

    def open(self, address: str) -> None:
        """Open an address and wait until it has loaded."""
        self.ask("Page.navigate", url=address)
        self.until("document.readyState === 'complete' && location.href !== 'about:blank'")

    def reload(self) -> None:
        """Load the page anew and wait for it."""
        self.run("window.old = true")
        self.ask("Page.reload")
        self.until("document.readyState === 'complete' && !window.old")

    def run(self, expression: str) -> Any:
        """Return the value of an expression in the page; a promise's once it is kept."""
        found = self.ask("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in found, found.get("exceptionDetails")
        return found["result"].get("value")

    def until(self, expression: str, seconds: float = 10.0) -> None:
        """Wait until an expression is true."""
        end = time.monotonic() + seconds
        while True:
            with suppress(AssertionError):  # between two documents there is nothing to ask
                if self.run(f"Boolean({expression})"):
                    return
            assert time.monotonic() < end, f"It did not come true in {seconds:g} s: {expression}"
            self.browser.listen(0.05)

    def tap(self, selector: str) -> None:
        """Scroll to an element and touch it in the middle, as a finger does."""
        box = self.run(
            f"(() => {{ const it = document.querySelector({json.dumps(selector)});"
            "it.scrollIntoView({block: 'center'}); const box = it.getBoundingClientRect();"
            "return [box.x + box.width / 2, box.y + box.height / 2]; })()"
        )
        point = [{"x": box[0], "y": box[1]}]
        self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=point)
        self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        self.browser.listen(0.05)

    def press(self, key: str, *, ctrl: bool = False) -> None:
        """Press and let go a key by its name: Enter, Tab, Escape, " ", a letter."""
        codes = {"Enter": 13, "Tab": 9, "Escape": 27, " ": 32}
        code = codes.get(key) or ord(key.upper())
        text = {"Enter": "\r", " ": " "}.get(key, "")
        about = {"key": key, "code": "Space" if key == " " else key, "windowsVirtualKeyCode": code}
        about["modifiers"] = 2 if ctrl else 0
        down = "keyDown" if text and not ctrl else "rawKeyDown"
        self.ask("Input.dispatchKeyEvent", type=down, **about, **({"text": text} if text and not ctrl else {}))
        self.ask("Input.dispatchKeyEvent", type="keyUp", **about)
        self.browser.listen(0.05)

    def picture(self, file: Path) -> None:
        """Write what the screen shows as PNG."""
        found = self.ask("Page.captureScreenshot", format="png")
        file.write_bytes(base64.b64decode(found["data"]))

    def told(self, method: str) -> list[dict[str, Any]]:
        """Return what the browser told of this page by itself under a name."""
        return [
            each["params"]
            for each in self.browser.events
            if each.get("method") == method and each.get("sessionId") == self.session
        ]

    def close(self) -> None:
        """Close the page."""
        self.browser.call("Target.closeTarget", targetId=self._target)


@contextmanager
def chromium(folder: Path, zone: str = "Europe/London") -> Iterator[Chromium]:
    """Give a browser of its own, with an empty profile; it is ended afterwards."""
    browser = Chromium(folder, zone)
    try:
        yield browser
    finally:
        browser.close()
