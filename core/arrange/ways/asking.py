"""Asks the scheduler whether a plan with a change can be met, within a budget, and keeps what helps the next ask."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from threading import Event

from core.arrange.outcome import Fit
from core.arrange.possible import Possible, possible
from core.arrange.ways.easing import Easing
from core.measures.refusal import Refusal
from core.plan.day import Day
from core.plan.edits import Edit
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable


@dataclass(slots=True)
class Asking:
    """`each` is the work of one ask, `budget` that of a kind, in the units of Effort; `near` helps the solver."""

    plan: Plan
    day: Day | None
    near: Timetable | None
    each: float
    budget: float
    stop: Event = field(default_factory=Event)
    spent: float = 0.0

    @property
    def over(self) -> bool:
        """Tell whether nothing more may be asked of this kind."""
        return self.stop.is_set() or self.spent >= self.budget

    def begin(self) -> None:
        """Begin another kind: its budget is whole."""
        self.spent = 0.0

    def with_edit(self, edit: Edit, later: int = 0) -> tuple[Fit, Timetable | None]:
        """Return what the plan with an edit comes to; an edit that it does not bear is impossible."""
        try:
            plan = edit(self.plan)
        except Refusal:
            return Fit.IMPOSSIBLE, None
        day = None if self.day is None else later_day(self.day, later)
        near = None if self.near is None else moved(self.near, -later)
        found = self._possible(plan, near, day)
        if found.fit is Fit.MEETS and found.timetable is not None:
            self.near = moved(found.timetable, later)
            return Fit.MEETS, found.timetable
        return found.fit, None

    def _possible(self, plan: Plan, near: Timetable | None, day: Day | None) -> Possible:
        found = possible(plan, self.each, near=near, day=day, stop=self.stop)
        self.spent += found.work
        return found

    def at(self, easing: Easing, size: int) -> Timetable | None:
        """Return a timetable that meets with an easing of this size, or None."""
        return self.with_edit(easing.make(size), size if easing.later else 0)[1]

    def holds(self, edit: Edit, timetable: Timetable) -> bool:
        """Tell whether a timetable has no clash in the plan with an edit that leaves plating where it is."""
        try:
            return clashes(edit(self.plan), timetable, day=self.day) == ()
        except Refusal:
            return False


def later_day(day: Day, minutes: int) -> Day:
    """Return a day as it looks from a plating so many minutes later: the clock stays, the offsets move."""
    if not minutes:
        return day
    facts = tuple(
        replace(fact, start=fact.start - minutes, end=None if fact.end is None else fact.end - minutes)
        for fact in day.facts
    )
    return Day(day.now - minutes, facts)


def moved(timetable: Timetable, by: int) -> Timetable:
    """Return a timetable with all its offsets so many minutes more: as it looks from another plating."""
    if not by:
        return timetable
    return Timetable(
        tuple(
            replace(
                each,
                start=each.start + by,
                hands=tuple(replace(hand, start=hand.start + by) for hand in each.hands),
            )
            for each in timetable.placed
        ),
        tuple(replace(each, start=each.start + by, end=each.end + by) for each in timetable.stays),
        tuple(replace(each, start=each.start + by, end=each.end + by) for each in timetable.heatings),
        tuple(replace(each, start=each.start + by) for each in timetable.washings),
    )
