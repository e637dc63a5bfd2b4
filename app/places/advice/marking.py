"""Where a reason shows on the timeline: its steps and minutes, as a mark that the timeline can draw."""

from __future__ import annotations

from core.arrange.why.reason import Reason
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.timetable.clash import Clash, ClashKind
from core.timetable.timetable import Timetable


def mark_of(plan: Plan, timetable: Timetable, reason: Reason, sentence: str) -> Clash | None:
    """Return a mark on all steps that a reason names; None where the timetable has none of them.

    Its minutes are those in which the steps stand on the timetable, so that all of them come into sight.
    """
    steps = tuple(step for step in steps_of(reason) if step in plan.steps and timetable.loads_of.get(step))
    if not steps:
        return None
    loads = [placed for step in steps for placed in timetable.loads_of[step]]
    start, end = min(each.start for each in loads), max(each.end for each in loads)
    return Clash(ClashKind.LATE, sentence, start, end, steps)


def steps_of(reason: Reason) -> tuple[StepId, ...]:
    """Return the steps that a reason names, each once: those that take part first."""
    found = [share.step for share in reason.shares]
    for tie in reason.chain:
        found += [key[0] for key in (tie.limit.before, tie.limit.after) if key is not None]
    for turn in reason.turns:
        found += [turn.first[0], turn.then[0]]
    for demand in reason.demands:
        found += [step for step in (demand.step, demand.after) if step is not None]
    return tuple(dict.fromkeys(found))
