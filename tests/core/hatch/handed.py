"""Plans with what is handed out of them, and the shapes of time that they are tried on."""

from __future__ import annotations

from functools import cache

from core.plan.plan import Plan
from core.plan.step import Attention
from core.sheets.lines import RunSheet
from core.sheets.run_sheet import run_sheet
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.sheets.feasts import HALL, counted_back, harvest
from tests.support.builders import a_bench, a_kitchen, a_step, chained
from tests.support.hostile import HOSTILE

Handed = tuple[Plan, Timetable, RunSheet]

CHANGES = {
    "back in London": ("Europe/London", "2026-10-25 04:00"),
    "forward in London": ("Europe/London", "2026-03-29 04:00"),
    "back in New York": ("America/New_York", "2026-11-01 05:00"),
    "half an hour back on Lord Howe": ("Australia/Lord_Howe", "2026-04-05 05:00"),
    "no change in Kathmandu": ("Asia/Kathmandu", "2026-10-25 04:00"),
    "winter by law in Dublin": ("Europe/Dublin", "2026-10-25 04:00"),
    "UTC": ("UTC", "2026-10-25 04:00"),
}
"""Nights in which a plan's clock is put back or on, and three in which it is not."""


@cache
def of_harvest() -> Handed:
    """Return the harvest supper by hand."""
    plan, timetable = harvest()
    return plan, timetable, run_sheet(plan, timetable)


@cache
def of_hall() -> Handed:
    """Return the celebration in the hall, counted back on paper."""
    plan, timetable = counted_back(HALL)
    return plan, timetable, run_sheet(plan, timetable)


@cache
def of_change(name: str) -> Handed:
    """Return a plan with a step at every twenty minutes of a night, through its change of the clock."""
    zone, plating = CHANGES[name]
    steps = tuple(
        a_step(f"soup.part-{number:02}", f"Part {number}", 20, attention=Attention.HANDS_ON) for number in range(18)
    )
    plan = a_bench(*steps, links=chained(*steps), zone=zone, plating=plating, kitchen=a_kitchen(), name=name)
    timetable = on_paper(plan)
    return plan, timetable, run_sheet(plan, timetable)


def of(name: str) -> Handed:
    """Return one of all by name."""
    return of_harvest() if name == "harvest" else of_hall() if name == "hall" else of_change(name)


WORDS = HOSTILE | {
    "surrogate": "Stew \ud800 and \udfff",
    "control": "a\x00b\x01c\x1fd\x7fe\x85f\u2028g",
    "hebrew": "תבשיל ירקות",
    "overrides": "\u202e\u2067\u200fstew\u2069\u061c\u202c and \u2066more",
    "hash template": "#{7*7} {{constructor}} ${alert(1)} [[${7}]] <!--:days--> %(x)s",
    "style": "</style></title></textarea><svg/onload=window.hurt=3>",
}
"""What a careless writer would take for more than words, with signs that cannot stand in a file as they are."""

ALL = ("harvest", "hall", *CHANGES)
