"""What the scheduler's tests share: an answer with its fit, and where and when things stand in it."""

from __future__ import annotations

from core.arrange import Effort, Fit, Outcome, arrange
from core.plan.check import problems
from core.plan.kitchen import Heater, StationKind
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Heat, Keep, Use
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.support.builders import a_dish, hands_off

LITTLE = Effort(work=1.5)
ALWAYS_HOT = Heater(from_cold=())


def answer(plan: Plan, effort: Effort = LITTLE) -> Outcome:
    """Return the outcome of a plan that is one."""
    assert problems(plan) == ()
    outcome = arrange(plan, effort)
    assert outcome.clashes == clashes(plan, outcome.timetable)
    return outcome


def meets(plan: Plan, effort: Effort = LITTLE) -> Timetable:
    """Return the timetable of a plan that must meet."""
    outcome = answer(plan, effort)
    assert outcome.fit is Fit.MEETS, (outcome.fit, [each.sentence for each in outcome.clashes])
    assert outcome.clashes == ()
    return outcome.timetable


def refused(plan: Plan, effort: Effort = LITTLE) -> Outcome:
    """Return the outcome of a plan that cannot meet."""
    outcome = answer(plan, effort)
    assert outcome.fit is Fit.IMPOSSIBLE
    assert outcome.clashes != ()
    return outcome


def bake(name: str, minutes: int, heat: Heat | int, keep: int | None = 0, oven: str | None = None) -> Dish:
    """Return a dish that bakes on one rack, hands-off, and must leave the oven at serving unless it keeps."""
    heat = Heat(heat, heat, heat) if isinstance(heat, int) else heat
    use = Use(StationKind.OVEN, station=oven, heat=heat)  # type: ignore[arg-type]  # ids are strings
    return a_dish(name, hands_off(f"{name}.bake", minutes, uses=(use,)), keep=Keep(keep))


def starts(timetable: Timetable) -> dict[str, int]:
    """Return the start of each load; a later load is "step/2"."""
    return {each.step + (f"/{each.load + 1}" if each.load else ""): each.start for each in timetable.placed}


def where(timetable: Timetable, step: str, load: int = 0) -> list[str]:
    """Return the stations on which a load stands."""
    return [spot.station for spot in next(p for p in timetable.placed if p.key == (step, load)).spots]
