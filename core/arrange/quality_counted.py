"""What no timetable can beat, by counting: cheap, exact, and often more than the solver can prove."""

from __future__ import annotations

from collections.abc import Iterable

from core.arrange.goals_meaning import RUSH, mornings
from core.arrange.outcome import WishKind
from core.arrange.problem import Piece, Problem, Task
from core.arrange.tighten import tighten
from core.arrange.variables import start_domain
from core.plan.kitchen import HEATED, Station
from core.plan.step import Attention, Use

Range = tuple[int, int]


def counted(problem: Problem, seen: dict[int, int] | None = None) -> dict[WishKind, int]:
    """Return lower bounds in the cook's units (core.arrange.quality); {} where the waits contradict each other."""
    low, high = tighten(problem, problem.high)
    if any(first > last for first, last in zip(low, high, strict=True)):
        return {}
    found = {
        WishKind.FRESH: _fresh(problem),
        WishKind.CALM: _calm(problem, low, high),
        WishKind.OVEN: _oven(problem, low, high),
        WishKind.SLEEP: _sleep(problem, low, high),
    }
    if seen is not None:
        found[WishKind.KEEP] = sum(max(0, low[task] - at, at - high[task]) for task, at in seen.items())
    return found


def _fresh(problem: Problem) -> int:
    """Return waiting that the hands before a serving bring: no more dishes end at once than there are cooks.

    Cooks as alike machines without calendars: the least sum of waits puts the shortest last (Conway, Maxwell and
    Miller 1967, the rule of shortest processing time, in reversed time).
    """
    cooks = len(problem.plan.kitchen.cooks)
    by_course: dict[int, list[int]] = {}
    for wait in problem.waits:
        if wait.after is None and wait.cost > 1:
            by_course.setdefault(wait.until, []).append(_hands_at_the_end(problem.tasks[wait.before]))
    total = 0
    for lengths in by_course.values():
        ends = [0] * max(1, cooks)
        for minutes in sorted(lengths):
            if minutes:
                soonest = ends.index(min(ends))
                total += ends[soonest]
                ends[soonest] += minutes
    return total


def _hands_at_the_end(task: Task) -> int:
    """Return for how long somebody surely works at a task right up to its end."""
    if task.begun is not None:
        return 0
    if task.cuts > 1:
        return min(task.step.least_piece or 1, task.length)
    if task.step.attention is Attention.HANDS_ON:
        return task.shortest
    last = {
        way.number: max((p.minutes for p in task.pieces if p.way == way.number and _last(p)), default=0)
        for way in task.ways
    }
    return min(last.values())


def _last(piece: Piece) -> bool:
    return piece.from_end and piece.offset == 0


def _calm(problem: Problem, low: list[int], high: list[int]) -> int:
    """Return hands-on minutes that lie in the last three quarters of an hour wherever their steps go."""
    total = 0
    for task in problem.tasks:
        if task.step.attention is not Attention.HANDS_ON:
            continue
        first, last, minutes = low[task.index], high[task.index], task.shortest
        if task.cuts > 1:
            inside = minutes if first >= -RUSH and last + task.longest <= 0 else 0
        else:
            inside = min(_in_rush(first, minutes), _in_rush(last, minutes))
        total += inside * task.step.hands
    return total


def _in_rush(start: int, minutes: int) -> int:
    return max(0, min(start + minutes, 0) - max(start, -RUSH))


def _oven(problem: Problem, low: list[int], high: list[int]) -> int:
    """Return how often heated stations are brought to a temperature: ranges that do not meet, day by day.

    Between two stretches in which anything can be hot lies more than the time for which a station is kept on.
    """
    surely: list[tuple[Range, Range]] = []
    anything: list[Range] = []
    keep_on = max((s.heater.keep_on for s in problem.plan.kitchen.stations if s.heater is not None), default=0)
    for task in problem.tasks:
        span = (low[task.index], high[task.index] + task.longest)
        heated = [_degrees(problem, way.uses, [c for c, _minutes in way.settings]) for way in task.ways]
        if any(degrees is not None for degrees in heated):
            anything.append(span)
        some = [degrees for degrees in heated if degrees is not None]
        if len(some) == len(heated) and task.begun is None:
            surely.append((span, (min(a for a, _b in some), max(b for _a, b in some))))
    for wait in problem.waits:
        if wait.use is not None and wait.use.kind in HEATED:
            before = problem.tasks[wait.before]
            until = high[wait.after] if wait.after is not None else wait.until
            anything.append((low[before.index] + before.shortest, until))
    total = 0
    for begins, ends in _joined(anything, keep_on):
        total += _apart([degrees for (start, _end), degrees in surely if begins <= start <= ends])
    return total


def _degrees(problem: Problem, uses: tuple[Use, ...], settings: list[int]) -> Range | None:
    """Return the least and greatest °C of a way that surely stands where heating up takes time."""
    for use in uses:
        if use.heat is not None and use.kind in HEATED and settings:
            stations: Iterable[Station] = problem.plan.kitchen.of_kind(use.kind)
            if all(each.heater is not None and each.heater.from_cold for each in stations):
                return min(settings), max(settings)
    return None


def _joined(spans: list[Range], apart: int) -> list[Range]:
    """Return the spans with all that lie no more than so many minutes apart made one."""
    found: list[Range] = []
    for begins, ends in sorted(spans):
        if found and begins <= found[-1][1] + apart:
            found[-1] = (found[-1][0], max(found[-1][1], ends))
        else:
            found.append((begins, ends))
    return found


def _apart(ranges: list[Range]) -> int:
    """Return the greatest number of ranges of which no two meet."""
    count, reached = 0, -1
    for low, high in sorted(ranges, key=lambda each: each[1]):
        if low > reached:
            count, reached = count + 1, high
    return count


def _sleep(problem: Problem, low: list[int], high: list[int]) -> int:
    """Return the minutes of mornings in which some hands must begin whatever happens."""
    latest: dict[int, int] = {}
    days = mornings(problem.plan, problem.low, problem.high)
    for task in problem.tasks:
        if task.cuts > 1 or task.begun is not None or len(task.ways) > 1:
            continue
        can = start_domain(problem, task, low[task.index], high[task.index])
        for piece in task.pieces:
            if piece.from_end or not piece.minutes or can.is_empty():
                continue
            first, last = can.min() + piece.offset, can.max() + piece.offset
            for morning in days:
                if morning.dawn <= first and last < morning.until:
                    early = morning.until - last
                    latest[morning.day] = max(latest.get(morning.day, 0), early)
    return sum(latest.values())
