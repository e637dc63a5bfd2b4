"""The validator's word on a timetable, with the facts of the day where there are some."""

from __future__ import annotations

from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable


def judged(plan: Plan, timetable: Timetable, day: Day | None = None) -> tuple[Clash, ...]:
    """Return every clash of a timetable."""
    return clashes(plan, timetable) if day is None else clashes(plan, timetable, day=day)
