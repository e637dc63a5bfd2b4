"""Plans with their timetables that the sheets are tried on."""

from __future__ import annotations

from functools import cache

import demo_data
from core.intake.text_plan import read_text
from core.plan.plan import Plan
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.support.hand_made import hand_made

HARVEST, WEEKNIGHT, HALL = "harvest_supper.toml", "weeknight_supper.toml", "hall_celebration.toml"


@cache
def plan_of(name: str) -> Plan:
    """Return a demo plan."""
    return read_text(demo_data.text_of(name))


@cache
def harvest() -> tuple[Plan, Timetable]:
    """Return the harvest supper with the timetable made by hand: everything meets."""
    plan = plan_of(HARVEST)
    return plan, hand_made(plan)


@cache
def counted_back(name: str) -> tuple[Plan, Timetable]:
    """Return a demo plan with the timetable counted back on paper: it clashes."""
    plan = plan_of(name)
    return plan, on_paper(plan)
