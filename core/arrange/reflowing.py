"""After a drop: the nearest timetable that holds, moving as little as can be.

A ladder, of which each step costs more than the one before: what was seen as it is; pushed along the waits, with
nothing else moved; a small part solved in which all else stays (reflow_part), then wider ones; the whole.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from threading import Event

from core.arrange.effort import Effort
from core.arrange.goals_meaning import PRICES, weights_of
from core.arrange.outcome import Fit, Outcome, WishKind, WishReached
from core.arrange.quality_measure import measure
from core.arrange.reading import read
from core.arrange.reflow_free import hanging, involved, rivals
from core.arrange.reflow_part import alone, cut
from core.arrange.reflow_seen import Seen
from core.arrange.reflow_solve import impossible, polish, shifted, solve
from core.arrange.reflow_whole import whole
from core.arrange.tighten import tighten
from core.arrange.watch import Watch
from core.plan.day import Day
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clash import Clash
from core.timetable.clashes import Checker
from core.timetable.facts import Facts
from core.timetable.timetable import Timetable

_WINDOW = 120  # minutes by which what is freed may move at first
_NEAR_AIMS = 30  # minutes beyond where it was by which what is put back may move
_AT_ONCE = 14  # tasks put back at once
_LITTLE, _MUCH = 2, 40  # how often something is put back
_AGAIN = 2  # how often a part is widened by what its answer clashes with
_WIDER = (10, 40, 90)  # others that may move too, those that contend most first
_WHOLE = 600  # tasks up to which the whole can be built and searched in a few seconds

Hear = Callable[[Outcome], None]


def reflow(
    plan: Plan,
    seen: Timetable,
    *,
    day: Day | None = None,
    limit: float = 3.0,
    stop: Event | None = None,
    better: Callable[[Outcome], None] | None = None,
) -> Outcome | None:
    """Return a clash-free timetable that moves little away from `seen`, or None where none was found in time.

    The same for a drop, an edit and the running day, whose facts `day` holds. Pins of the
    plan hold. First only what no longer fits may move, then what is near it, then everything. Any thread; `limit`
    is wall-clock seconds. `better` hears the first that holds at once, then each in which less moves; without it
    little is done beyond the first.
    """
    day = day if day is None else with_seen(day, seen)
    return _Reflow(plan, seen, day, Watch(Effort(work=limit, limit=limit), stop), better).run()


class _Reflow:
    def __init__(self, plan: Plan, seen: Timetable, day: Day | None, watch: Watch, better: Hear | None) -> None:
        self.plan, self.timetable, self.day, self.watch, self.better = plan, seen, day, watch, better
        self.bound: set[int] = set()
        self.hopeless = False
        self.checker = Checker(plan, day)
        self.problem = read(plan, day, seen)
        self.facts = Facts(plan, day)
        self.seen = Seen(self.problem, self.facts, seen)

    def run(self) -> Outcome | None:
        """Climb the ladder until something holds."""
        earliest, latest = tighten(self.problem, self.problem.high)
        if any(low > high for low, high in zip(earliest, latest, strict=True)):
            return None
        elsewhere = self._elsewhere()
        new = {task.index for task in self.problem.tasks if task.index not in self.seen.starts}
        near = self._pushed(elsewhere) if not new else elsewhere
        tried = shifted(self.seen, near)
        left = self.checker.clashes(tried)
        if not left and not new:
            return self._outcome(tried)
        self.bound = set(elsewhere)
        found = self._in_parts(new | set(elsewhere) | set(near) | involved(self.seen, left), near, tried)
        if found is None:
            return None if self.hopeless else self._as_whole()
        if self.better is None:
            return self._outcome(self._polished(found, _LITTLE))
        self.better(self._outcome(found))
        return self._outcome(self._polished(found, _MUCH))

    def _elsewhere(self) -> dict[int, int]:
        """Return where pins and the day have tasks that were seen elsewhere."""
        found = {}
        for index, at in self.seen.starts.items():
            task, fixed = self.problem.tasks[index], self.problem.fixed.get(index)
            if task.begun is not None:
                if (task.begun.start, task.begun.end) != (at, self.seen.placed(index).end):
                    found[index] = task.begun.start
            elif fixed is not None and fixed.start is not None and fixed.start != at:
                found[index] = fixed.start
            elif self.problem.now is not None and at < self.problem.now:
                found[index] = self.problem.now
        return found

    def _pushed(self, elsewhere: dict[int, int]) -> dict[int, int]:
        """Return what else must move, and whereto, if one task is pinned elsewhere; the waits alone say so."""
        if not elsewhere or self.day is not None:
            return elsewhere
        placed = self.timetable.placed
        lengths = {each.key: each.length for each in placed}
        pusher = Pusher(self.plan, {each.key: each.start for each in placed}, lengths=lengths)
        push = pusher.pushed_all({self.problem.tasks[index].key: start for index, start in elsewhere.items()})
        if push.broken:
            return elsewhere
        return {self.problem.index[key]: at for key, at in push.moved.items()}

    def _in_parts(self, first: set[int], near: dict[int, int], shown: Timetable) -> Timetable | None:
        """Solve ever wider parts; return the first timetable that holds."""
        asked = False
        for free in self._wider(first, shown):
            moving = free
            for _again in range(_AGAIN + 1):
                if self.watch.over:
                    return None
                part = cut(self.seen, moving, _WINDOW)
                solved = None if part is None else solve(self.seen, part, self.seen.starts, near, self.watch)
                if not asked and (solved is None or solved.impossible):
                    asked = True
                    if self._hopeless():
                        return None
                if solved is None or solved.timetable is None:
                    break
                left = self.checker.clashes(solved.timetable)
                if not left:
                    return solved.timetable
                more = moving | involved(self.seen, left)
                if more == moving:
                    break
                moving = more
        return None

    def _hopeless(self) -> bool:
        """Tell whether what is pinned elsewhere could not be there even in an empty kitchen."""
        if not self.bound or self.day is not None:
            return False
        part = alone(self.seen, self.bound)
        self.hopeless = part is None or impossible(part, self.watch)
        return self.hopeless

    def _polished(self, timetable: Timetable, rounds: int) -> Timetable:
        """Return a timetable in which less moves, if that is found by moving back a few at a time."""
        aims, idle = self.seen.starts, set[int]()
        for _round in range(rounds):
            now = Seen(self.problem, self.facts, timetable)
            by = {index: abs(at - aims[index]) for index, at in now.starts.items() if index in aims}
            far = [index for index in by if by[index] and index not in idle and index not in self.bound]
            if not far or self.watch.over:
                break
            worst = max(far, key=lambda index: (by[index], index))
            moving = self._to_put_back(now, worst, by)
            idle |= {worst}
            part = cut(now, moving, _NEAR_AIMS, {index: aims[index] for index in moving if index in aims})
            better = None if part is None else polish(now, part, aims, self.watch)
            if better is None or self.checker.clashes(better):
                continue
            starts = self.problem.starts_in(better)
            if sum(abs(starts[index] - aims[index]) for index in by) < sum(by.values()):
                timetable, idle = better, {worst}
                if self.better is not None:
                    self.better(self._outcome(timetable))
        return timetable

    def _to_put_back(self, now: Seen, worst: int, by: dict[int, int]) -> set[int]:
        """Return a task with what hangs on it and what else has moved and is in its way."""
        moving = hanging(now, {worst}, 1)
        others = [index for index in rivals(now, moving, self.timetable) if by.get(index)]
        return moving | set(others[: max(0, _AT_ONCE - len(moving))])

    def _wider(self, first: set[int], tried: Timetable) -> Iterator[set[int]]:
        """Give ever wider sets of tasks that may move."""
        seen = self.seen
        base = hanging(seen, first, 1)
        yield base
        others = rivals(seen, base, tried)
        for count in _WIDER:
            yield hanging(seen, base | set(others[:count]), 1)
            if count >= len(others):
                break

    def _as_whole(self) -> Outcome | None:
        if len(self.problem.tasks) > _WHOLE or self.watch.over:
            return None
        timetable = whole(self.plan, self.problem, self.timetable, self.watch, self.day)
        if timetable is None:
            return None
        return self._outcome(timetable, self.checker.clashes(timetable))

    def _outcome(self, timetable: Timetable, left: tuple[Clash, ...] = ()) -> Outcome:
        weights = weights_of(self.plan.decisions.wishes)
        weights[WishKind.KEEP] = max(PRICES[WishKind.KEEP], weights[WishKind.KEEP])
        reached = measure(self.problem.plan, timetable, self.timetable)
        wishes = tuple(WishReached(wish, reached[wish]) for wish, weight in weights.items() if weight)
        score = sum(weight * reached[wish] for wish, weight in weights.items())
        fit = Fit.NOT_FOUND if left else Fit.MEETS
        return Outcome(fit, timetable, left, score, None, wishes, rounds=self.watch.rounds)
