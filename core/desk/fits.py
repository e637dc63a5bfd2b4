"""Whether a kept day still fits the plan: what is gone from it, what is new in it, and what clashes."""

from __future__ import annotations

from dataclasses import dataclass

from core.desk.kept import KeptDay, plan_mark
from core.desk.seen import still_there
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Fits:
    """How a kept day stands in a plan. `gone`: steps that the plan has no longer; `new`: steps that the day has not.

    `clashes`: what the validator finds in what is left of it, less that new steps are missing.
    """

    gone: tuple[StepId, ...]
    new: tuple[StepId, ...]
    clashes: tuple[Clash, ...]
    same_plan: bool

    @property
    def whole(self) -> bool:
        """Tell whether it can be cooked as it was kept."""
        return not (self.gone or self.new or self.clashes)


def fits(day: KeptDay, plan: Plan) -> Fits:
    """Return how a kept day stands in a plan as it is now."""
    placed = dict.fromkeys(each.step for each in day.timetable.placed)
    gone = tuple(step for step in placed if step not in plan.steps)
    new = tuple(step for step in plan.steps if step not in placed)
    left = still_there(day.timetable, plan) or Timetable()
    found = (each for each in clashes(plan, left) if not _only_new(each, frozenset(new)))
    return Fits(gone, new, tuple(found), plan_mark(plan) == day.mark)


def as_kept(day: KeptDay, plan: Plan, seen: Timetable | None) -> bool:
    """Tell whether what is seen is the day as it was kept, as far as its steps are still there."""
    return seen is not None and (seen is day.timetable or seen == still_there(day.timetable, plan))


def _only_new(clash: Clash, new: frozenset[StepId]) -> bool:
    return clash.kind is ClashKind.MISSING and new.issuperset(clash.steps)
