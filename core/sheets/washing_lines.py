"""The lines of washing up: which vessels, who, and for what they are wanted next."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from core.measures.minutes import show_minutes, show_tminus
from core.plan.kitchen import Vessel
from core.plan.plan import Plan
from core.plan.runs import Run, vessel_runs
from core.sheets.lines import Act, Line
from core.sheets.places import vessel_words
from core.sheets.step_lines import cook_names
from core.sheets.step_words import done_as
from core.sheets.words import clock_at, lowered, shortened, when
from core.timetable.timetable import Placed, Timetable, Washing

_BRIEF = 50


class _Begun(NamedTuple):
    """A run as it is placed: its first load, and how many of its vessels no washing has been found for yet."""

    first: Placed
    run: Run
    wanting: int


def washing_lines(plan: Plan, timetable: Timetable) -> Iterator[Line]:
    """Yield a line for each washing of vessels that the kitchen has."""
    runs = vessel_runs(plan)
    for vessel in plan.kitchen.vessels:
        own = [run for run in runs if run.vessel == vessel.id]
        begun = _begun(timetable, own)
        washings = [each for each in timetable.washings if each.vessel == vessel.id]
        for washing in sorted(washings, key=lambda each: (each.end, each.start)):
            count = next((run.count for run in own if washing.after in run.steps), 1)
            yield _line(plan, vessel, washing, count, _next_use(begun, washing, count))


def _begun(timetable: Timetable, runs: list[Run]) -> list[_Begun]:
    found = []
    for run in runs:
        loads = [each for step in run.steps for each in timetable.loads_of.get(step, ())]
        if loads:
            found.append(_Begun(min(loads, key=lambda each: each.start), run, run.count))
    return sorted(found, key=lambda each: each.first.start)


def _next_use(begun: list[_Begun], washing: Washing, count: int) -> Placed | None:
    """Return the load for which washed vessels are wanted: each run is met by the washings before it, in turn."""
    found: Placed | None = None
    for at, each in enumerate(begun):
        if count and each.wanting and each.first.start >= washing.end and washing.after not in each.run.steps:
            taken = min(count, each.wanting)
            begun[at] = each._replace(wanting=each.wanting - taken)
            count -= taken
            found = found or each.first
    return found


def _line(plan: Plan, vessel: Vessel, washing: Washing, count: int, wanted: Placed | None) -> Line:
    said = lowered(vessel_words(vessel, count))
    the = said if count > 1 else f"the {said}"
    until = f"{show_minutes(washing.minutes)}, until {when(plan, washing.end, washing.start)}"
    details = [until if vessel.by_hand else f"{until}, takes nobody"]
    if wanted is not None:
        step, dish = plan.steps[wanted.step], plan.dish_of[wanted.step]
        what = f"{shortened(dish.name, _BRIEF) or dish.id}, {shortened(done_as(step, wanted.way), _BRIEF)}"
        details.append(f"wanted at {when(plan, wanted.start, washing.start)} for: {what}")
    return Line(
        washing.start,
        clock_at(plan, washing.start),
        show_tminus(washing.start),
        Act.WASH,
        f"Wash {the}" if vessel.by_hand else f"Put {the} to wash",
        details=tuple(details),
        who=cook_names(plan, [washing.cook]) if vessel.by_hand or washing.cook is not None else "",
        minutes=washing.minutes if vessel.by_hand else 0,
        vessel=vessel.id,
    )
