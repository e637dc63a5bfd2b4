"""The arranging process: works on the newest request that comes in, one at a time, until its input ends."""

from __future__ import annotations

import os
import pickle
import sys
import traceback
from collections.abc import Callable
from threading import Event, Lock, Thread
from typing import IO

from core.arrange.apart import Answer, Ask, DayTold, WishTold, Work
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
        def better(outcome: Outcome) -> None:
            self._send(Answer(work.number, outcome, last=False))

        def part(told: object) -> None:
            self._send(Answer(work.number, None, last=False, told=told))

        try:
            if work.ask in _TELLING:
                told = _TELLING[work.ask](work, self._stop, part)
                return Answer(work.number, None, last=True, told=told)
            return Answer(work.number, _outcome(work, self._stop, better), last=True)
        except Exception:  # noqa: BLE001  # our own fault: told with its trace, and the process lives on
            return Answer(work.number, None, last=True, fault=traceback.format_exc())


def _outcome(work: Work, stop: Event, better: Callable[[Outcome], None]) -> Outcome | None:
    from core.arrange.arranging import arrange
    from core.arrange.reflowing import reflow

    if work.near and work.seen is not None:
        return reflow(work.plan, work.seen, stop=stop, better=better)
    return arrange(work.plan, work.effort, seen=work.seen, better=better, stop=stop)


def _why(work: Work, stop: Event, _part: Callable[[object], None]) -> object:
    from core.arrange.why.answer import why_not

    return why_not(work.plan, work.seen, work=work.effort.work, stop=stop)


def _ways(work: Work, stop: Event, part: Callable[[object], None]) -> object:
    from core.arrange.ways.seeking import ways_out

    each = work.effort.work
    return ways_out(work.plan, seen=work.seen, work=each, demands=work.demands, hear=part, stop=stop)


def _chances(work: Work, _stop: Event, _part: Callable[[object], None]) -> object:
    from core.arrange.chances import chances

    return None if work.seen is None else chances(work.plan, work.seen, seed=work.effort.seed)


def _late(work: Work, _stop: Event, _part: Callable[[object], None]) -> object:
    from core.arrange.late_guests import guests_late, how_late

    if work.seen is None:
        return None
    put_off = guests_late(work.plan, work.seen, work.at, work.minutes) if work.minutes else None
    return how_late(work.plan, work.seen, work.at), put_off


def _quality(work: Work, stop: Event, part: Callable[[object], None]) -> object:
    from core.arrange.quality import Quality, quality, reached_of
    from core.arrange.speak.quality import say_price, say_wish

    def told(value: Quality) -> tuple[WishTold, ...]:
        return tuple(
            WishTold(each.wish, say_wish(work.plan, each))
            if each.price is None
            else WishTold(
                each.wish, say_wish(work.plan, each), say_price(work.plan, each.price), each.price.timetable
            )
            for each in value.wishes
        )

    if work.seen is None:
        return None
    part(told(reached_of(work.plan, work.seen)))
    effort = work.effort
    return told(quality(work.plan, work.seen, work=effort.work, stop=stop, seed=effort.seed))


def _several(work: Work, stop: Event, part: Callable[[object], None]) -> object:
    from core.arrange.several import Several, several
    from core.arrange.speak.quality import say_several

    def told(days: tuple[Several, ...]) -> tuple[DayTold, ...]:
        return tuple(DayTold(each.favours, say_several(work.plan, each), each.timetable) for each in days)

    return told(several(work.plan, work.effort, better=lambda days: part(told(days)), stop=stop))


_TELLING: dict[Ask, Callable[[Work, Event, Callable[[object], None]], object]] = {
    Ask.WHY: _why,
    Ask.WAYS: _ways,
    Ask.CHANCES: _chances,
    Ask.LATE: _late,
    Ask.QUALITY: _quality,
    Ask.SEVERAL: _several,
}
"""What tells instead of arranging: called with the work, what ends it, and what hears the parts."""


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
