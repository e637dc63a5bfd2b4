"""The arranging process: works on the newest request that comes in, one at a time, until its input ends."""

from __future__ import annotations

import os
import pickle
import sys
import traceback
from threading import Event, Lock, Thread
from typing import IO

from core.arrange.apart import Answer, Work
from core.arrange.outcome import Outcome


class _Server:
    """Listens on one thread, works on another: a newer request or a stop ends the one that runs."""

    def __init__(self, come_in: IO[bytes], go_out: IO[bytes]) -> None:
        self._in = come_in
        self._out = go_out
        self._newest: Work | None = None
        self._dropped: set[int] = set()
        self._lock = Lock()
        self._ready, self._ended, self._stop = Event(), Event(), Event()

    def run(self) -> None:
        """Work until the input ends."""
        Thread(target=self._listen, daemon=True).start()
        from core.arrange import arranging, reflowing  # noqa: F401  # the slow import, done while idle

        while not self._ended.is_set():
            self._ready.wait()
            self._ready.clear()
            while (work := self._take()) is not None and not self._ended.is_set():
                self._send(self._answer(work))

    def _take(self) -> Work | None:
        """Return the newest request and let it begin, or None."""
        with self._lock:
            work, self._newest = self._newest, None
            if work is not None and work.number not in self._dropped:
                self._stop.clear()
            return work

    def _listen(self) -> None:
        while True:
            try:
                message = pickle.load(self._in)  # noqa: S301  # written by our own parent
            except (EOFError, OSError, pickle.UnpicklingError):
                self._ended.set()
                self._stop.set()
                self._ready.set()
                return
            with self._lock:
                if isinstance(message, Work):
                    self._newest = message
                else:
                    self._dropped.add(message)
                self._stop.set()
                self._ready.set()

    def _send(self, answer: Answer) -> None:
        try:
            pickle.dump(answer, self._out)
            self._out.flush()
        except OSError:  # nobody reads any more
            self._ended.set()
            self._stop.set()

    def _answer(self, work: Work) -> Answer:
        from core.arrange.arranging import arrange
        from core.arrange.reflowing import reflow

        def better(outcome: Outcome) -> None:
            self._send(Answer(work.number, outcome, last=False))

        try:
            if work.near and work.seen is not None:
                return Answer(work.number, reflow(work.plan, work.seen, stop=self._stop), last=True)
            outcome = arrange(work.plan, work.effort, seen=work.seen, better=better, stop=self._stop)
            return Answer(work.number, outcome, last=True)
        except Exception:  # noqa: BLE001  # our own fault: told with its trace, and the process lives on
            return Answer(work.number, None, last=True, fault=traceback.format_exc())


def main() -> None:
    """Serve on the standard streams; what libraries print goes to stderr, so that answers stay whole."""
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    try:
        _Server(sys.stdin.buffer, answers).run()
    except Exception:  # noqa: BLE001  # told on stderr, and the window hears that the process ended
        traceback.print_exc()
    finally:
        sys.stderr.flush()
        os._exit(0)  # a listener may still wait for input; nothing here needs an orderly end


if __name__ == "__main__":
    main()
