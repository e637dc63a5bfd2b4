"""Plans with their timetables that the sheets are tried on, and their sheets, each printed once."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import demo_data
from core.intake.text_plan import read_text
from core.plan.plan import Plan
from core.sheets.food_said import food_said
from core.sheets.kinds import SheetKind
from core.sheets.page import Page
from core.sheets.printing import sheet_pdf
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.gallery import sheet_pages
from tests.support.clock_nights import NIGHTS, a_night
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


def arranged(name: str) -> tuple[Plan, Timetable]:
    """Return a demo plan with a timetable that was arranged: everything meets."""
    return sheet_pages.feast(name.removesuffix(".toml"))


FEASTS: dict[str, Callable[[], tuple[Plan, Timetable]]] = {
    "harvest by hand": harvest,
    "harvest": lambda: arranged(HARVEST),
    "hall": lambda: arranged(HALL),
    "weeknight": lambda: arranged(WEEKNIGHT),
    **{name: lambda name=name: a_night(name) for name in NIGHTS},  # type: ignore[misc]
}
"""All of them meet: nothing clashes."""

PAGES = {
    "A4": Page(printed="made 25 Sep 2026, 14:02"),
    "A4 across": Page(landscape=True),
    "Letter": Page("us-letter"),
    "Letter across": Page("us-letter", landscape=True),
    "A4 dense": Page(dense=True),
}


def printed(kind: SheetKind, feast: str, page: str = "A4") -> bytes:
    """Return a sheet of a feast on a paper."""
    return _printed(kind, feast, page)  # the cache would take an argument left out for another one


@cache
def _printed(kind: SheetKind, feast: str, page: str) -> bytes:
    plan, timetable = FEASTS[feast]()
    return sheet_pdf(kind, plan, timetable, (), page=PAGES[page], found=said_of(feast))


@cache
def said_of(feast: str) -> tuple[str, ...]:
    """Return what each sheet would find of food limits, found once for all."""
    return food_said(*FEASTS[feast]())
