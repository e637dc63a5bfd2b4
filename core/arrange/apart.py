"""Arranges in a process of its own, spawned once and kept warm: a window never waits and never falls with it."""

from __future__ import annotations

import multiprocessing
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from threading import Event, Lock, Thread

from core.arrange.effort import Effort
from core.arrange.outcome import Outcome
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Work:
    """One request. `near`: only find the nearest timetable that holds (after a drop); else arrange."""

    number: int
    plan: Plan
    seen: Timetable | None = None
    effort: Effort = Effort()
    near: bool = False


@dataclass(frozen=True, slots=True)
class Answer:
    """What came back for a request. `last`: nothing follows. `fault`: our own failure, for the log."""

    number: int
    outcome: Outcome | None
    last: bool
    fault: str = ""


class Apart:
    """Sends work to the process and passes answers on. `hear` is called on a thread of this object's own."""

    def __init__(self, hear: Callable[[Answer], None]) -> None:
        self._hear = hear
        self._lock = Lock()
        self._pipe: Connection | None = None
        self._process: multiprocessing.process.BaseProcess | None = None
        self._running: int | None = None

    def warm(self) -> None:
        """Start the process now, so that the first request need not wait for it."""
        with self._lock:
            self._ensure()

    def ask(self, work: Work) -> None:
        """Stop what runs and begin this; its answers bear its number."""
        with self._lock:
            pipe = self._ensure()
            self._running = work.number
            pipe.send(work)

    def stop(self) -> None:
        """Ask the running request to end with the best it has."""
        with self._lock:
            if self._pipe is not None and self._running is not None:
                self._pipe.send(self._running)

    def close(self) -> None:
        """End the process."""
        with self._lock:
            if self._pipe is not None:
                try:
                    self._pipe.send("end")
                except (BrokenPipeError, OSError):
                    pass
            process, self._process, self._pipe = self._process, None, None
        if process is not None:
            process.join(2)
            if process.is_alive():
                process.kill()
                process.join(2)

    def _ensure(self) -> Connection:
        if self._pipe is not None and self._process is not None and self._process.is_alive():
            return self._pipe
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        self._process = context.Process(target=serve, args=(theirs,), daemon=True, name="cookday-arranging")
        self._process.start()
        theirs.close()
        self._pipe = ours
        Thread(target=self._read, args=(ours,), daemon=True, name="cookday-answers").start()
        return ours

    def _read(self, pipe: Connection) -> None:
        while True:
            try:
                answer = pipe.recv()
            except (EOFError, OSError):
                break
            if answer.last:
                with self._lock:
                    if self._running == answer.number:
                        self._running = None
            self._hear(answer)
        with self._lock:
            lost, self._running = (self._running, None) if self._pipe is pipe else (None, self._running)
        if lost is not None:
            self._hear(Answer(lost, None, True, "the arranging process ended by itself"))


def serve(pipe: Connection) -> None:
    """Run in the child: work on the newest request, one at a time, until told to end."""
    waiting: list[Work] = []
    dropped: set[int] = set()
    ready, ended, stop = Event(), Event(), Event()

    def listen() -> None:
        while True:
            try:
                message = pipe.recv()
            except (EOFError, OSError):
                message = "end"
            if isinstance(message, Work):
                waiting[:] = [message]
            elif isinstance(message, int):
                dropped.add(message)
            if message == "end":
                ended.set()
            stop.set()
            ready.set()
            if message == "end":
                return

    Thread(target=listen, daemon=True).start()
    from core.arrange import arranging, reflow  # the slow import, done while idle

    while not ended.is_set():
        ready.wait()
        ready.clear()
        while waiting and not ended.is_set():
            work = waiting.pop()
            stop.clear()
            if work.number in dropped:  # told to stop before it began
                stop.set()
            pipe.send(_answered(work, pipe, stop, arranging.arrange, reflow.reflow))


def _answered(
    work: Work,
    pipe: Connection,
    stop: Event,
    arrange: Callable[..., Outcome],
    near: Callable[..., Outcome | None],
) -> Answer:
    try:
        if work.near and work.seen is not None:
            return Answer(work.number, near(work.plan, work.seen, stop=stop), True)

        def better(outcome: Outcome) -> None:
            pipe.send(Answer(work.number, outcome, False))

        outcome = arrange(work.plan, work.effort, seen=work.seen, better=better, stop=stop)
        return Answer(work.number, outcome, True)
    except Exception:  # our own fault: told with its trace, and the process lives on
        return Answer(work.number, None, True, traceback.format_exc())
