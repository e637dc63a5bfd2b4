"""Arranges in a process of its own, started once and kept warm: a window never waits and never falls with it."""

from __future__ import annotations

import contextlib
import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from threading import Lock, Thread, current_thread
from typing import IO

from core.arrange.demand import Demand
from core.arrange.effort import Effort
from core.arrange.outcome import Outcome, WishKind
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


class Ask(StrEnum):
    """What the process can be asked, with what it tells.

    ARRANGE answers with outcomes. The others tell: WHY a WhyNot; WAYS each WayOut as it is found, last the
    tuple of all; CHANCES a Chances; LATE a pair of Patience and LateGuests (None where nothing is put off); QUALITY a
    tuple of WishTold, first what was reached, last with what no day can beat and what more costs; SEVERAL a tuple of
    DayTold each time it changes. These two are told in words, since their values would bring the solver along.
    """

    ARRANGE = "arrange"
    WHY = "why not"
    WAYS = "ways out"
    CHANCES = "how sure it is"
    LATE = "guests late"
    QUALITY = "how good it is"
    SEVERAL = "other good days"


@dataclass(frozen=True, slots=True)
class WishTold:
    """One wish of a timetable in words (core.arrange.speak.quality).

    `price`: what more of it costs, "" where nothing better is known; `better`: the timetable that has more of it.
    """

    wish: WishKind
    reached: str
    price: str = ""
    better: Timetable | None = None


@dataclass(frozen=True, slots=True)
class DayTold:
    """One of several good days in words, and its timetable. `favours` None: as the cook weighed it."""

    favours: WishKind | None
    words: str
    timetable: Timetable


@dataclass(frozen=True, slots=True)
class Work:
    """One request. `near`: only find the nearest timetable that holds (after a drop).

    CHANCES, LATE and QUALITY are about `seen`.

    `demands` (of reasons) say to WAYS where the trouble lies; `at` and `minutes` to LATE, at which offset the guests
    are heard of and how much later they come (0: only how long the menu can stand).
    """

    number: int
    plan: Plan
    seen: Timetable | None = None
    effort: Effort = Effort()
    near: bool = False
    ask: Ask = Ask.ARRANGE
    demands: tuple[Demand, ...] = ()
    at: int = 0
    minutes: int = 0


@dataclass(frozen=True, slots=True)
class Answer:
    """What came back for a request: an `outcome`, or what it `told` (see Ask).

    `last`: nothing follows. `fault`: our own failure, for the log.
    """

    number: int
    outcome: Outcome | None
    last: bool
    fault: str = ""
    told: object = None


class Apart:
    """Sends work to the process and passes answers on. `hear` is called on a thread of this object's own.

    The process runs this program's own code and nothing else; what passes between them is pickled.
    """

    def __init__(self, hear: Callable[[Answer], None]) -> None:
        """Start nothing yet."""
        self._hear = hear
        self._lock = Lock()
        self._process: subprocess.Popen[bytes] | None = None
        self._reader: Thread | None = None
        self._running: int | None = None
        self._silent: subprocess.Popen[bytes] | None = None

    def warm(self) -> None:
        """Start the process now, so that the first request need not wait for it."""
        with self._lock:
            self._ensure()

    def ask(self, work: Work) -> None:
        """Stop what runs and begin this; its answers bear its number. Raise OSError where none can be started."""
        with self._lock:
            try:
                _send(self._ensure(), work)
            except BrokenPipeError:  # it died unseen: once more with a fresh one
                _send(self._ensure(), work)
            self._running = work.number

    def stop(self) -> None:
        """Ask the running request to end with the best it has."""
        with self._lock:
            if self._process is not None and self._running is not None:
                with contextlib.suppress(OSError):
                    _send(_stream(self._process.stdin), self._running)

    def close(self) -> None:
        """End the process."""
        with self._lock:
            process, self._process, self._running = self._process, None, None
        if process is not None:
            _let_go(process, self._reader)

    def _ensure(self) -> IO[bytes]:
        # one that has said its last may take a moment to be seen as ended
        silent = self._process is not None and self._process is self._silent
        if self._process is not None and (silent or self._process.poll() is not None):
            _let_go(self._process, self._reader)
            self._process = None
        if self._process is None:
            root = str(Path(__file__).resolve().parents[2])
            paths = [root, *filter(None, [os.environ.get("PYTHONPATH")])]
            self._process = subprocess.Popen(  # our own interpreter and module
                [sys.executable, "-m", "core.arrange.serve"],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                env={**os.environ, "PYTHONPATH": os.pathsep.join(paths)},
            )
            self._reader = Thread(
                target=self._read, args=(self._process,), daemon=True, name="cookday-answers"
            )
            self._reader.start()
        return _stream(self._process.stdin)

    def _read(self, process: subprocess.Popen[bytes]) -> None:
        stream = _stream(process.stdout)
        while True:
            try:
                answer = pickle.load(stream)  # noqa: S301  # written by our own child
            except (EOFError, OSError, ValueError, pickle.UnpicklingError):
                break
            if answer.last:
                with self._lock:
                    if self._running == answer.number:
                        self._running = None
            self._hear(answer)
        with self._lock:
            self._silent = process
            lost = self._running if self._process is process else None
            if lost is not None:
                self._running = None
        if lost is not None:
            self._hear(Answer(lost, None, True, "the arranging process ended by itself"))


def _let_go(process: subprocess.Popen[bytes], reader: Thread | None) -> None:
    """End a process, if it has not ended, and close its pipes."""
    with contextlib.suppress(OSError):
        _stream(process.stdin).close()
    try:
        process.wait(1)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait(5)
    if reader is not None and reader is not current_thread():
        reader.join(0.5)  # it may be waiting for the lock that its caller holds
    _stream(process.stdout).close()


def _stream(stream: IO[bytes] | None) -> IO[bytes]:
    if stream is None:
        raise OSError("the arranging process has no pipe")
    return stream


def _send(stream: IO[bytes], message: Work | int) -> None:
    pickle.dump(message, stream)
    stream.flush()
