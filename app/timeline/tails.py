"""The waits behind bars: from when until when, and until when that is as it should be."""

from __future__ import annotations

from app.timeline.bars import Tail
from core.plan.ids import StepId
from core.plan.meaning import keep_of, reserved
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.timetable.timetable import Placed, Timetable


def tail_of(plan: Plan, timetable: Timetable, placed: Placed, *, stays: bool = True) -> Tail | None:
    """Return the wait behind a placed load, or None; with `stays`, waits in a scarce place are left to its lane."""
    early = reserved(plan, placed.step, placed.way).early
    ends: list[tuple[int, int | None]] = []
    for link in plan.links_from[placed.step]:
        if link.kind is LinkKind.END_TO_START and not (stays and link.wait.use is not None):
            until = _taken_up(timetable, placed, link)
            if until is not None:
                ends.append((until, None if link.most is None else placed.end - early + link.most))
    step = plan.steps[placed.step]
    keep = keep_of(plan, step)
    dish = plan.dish_of[placed.step]
    if keep is not None and not (stays and keep.wait.use is not None):
        ends.append((dish.course, None if keep.most is None else placed.end - early + keep.most))
    ends = [(until, limit) for until, limit in ends if until > placed.end]
    if not ends:
        return None
    broken = [limit for until, limit in ends if limit is not None and limit < until]
    return Tail(placed.end, max(until for until, _limit in ends), min(broken, default=None))


def same_loads(timetable: Timetable, before: StepId, after: StepId) -> bool:
    """Tell whether two steps have the same number of loads, more than one: then load feeds load."""
    count = len(timetable.loads_of.get(before, ()))
    return count > 1 and count == len(timetable.loads_of.get(after, ()))


def _taken_up(timetable: Timetable, placed: Placed, link: Link) -> int | None:
    loads = timetable.loads_of.get(link.after, ())
    if not loads:
        return None
    if same_loads(timetable, link.before, link.after):
        return next((each.start for each in loads if each.load == placed.load), None)
    return loads[-1].start
