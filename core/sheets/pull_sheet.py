"""The pull list on paper: vessels and tools to stand ready, tins of the recipes, dishes and tools for the table."""

from __future__ import annotations

from core.food.pull_list import PullLine, PullList
from core.food.speak_lists import brief, said_short
from core.plan.plan import Plan
from core.sheets.list_text import clock_of
from core.sheets.table import Column, Group, Look, Row, TableSheet
from core.sheets.words import clock_at, plain, same_day

_TICK = Column("", Look.TICK)
_VESSELS = (
    _TICK,
    Column("pull", Look.STRONG),
    Column("what", Look.TEXT, share=1.2),
    Column("from", Look.STRONG),
    Column("most at once", Look.SMALL, share=1.05),
    Column("for", Look.SMALL, share=1.4),
)
_PANS = (_TICK, Column("tin or pan", Look.STRONG, share=1), Column("for", Look.SMALL, share=2))
_TABLE = (
    _TICK,
    Column("dish", Look.STRONG, share=1.6),
    Column("at", Look.STRONG),
    Column("how it comes to the table", Look.SMALL, share=1.4),
)


def pull_table(plan: Plan, pulled: PullList) -> TableSheet:
    """Return the pull list as rows."""
    clock = clock_of(plan)
    groups = []
    if pulled.vessels:
        rows = tuple(_row(each, plan) for each in sorted(pulled.vessels, key=lambda each: each.first))
        groups.append(Group("Vessels and tools", rows, columns=_VESSELS))
    if pulled.pans:
        rows = tuple(Row(("", plain(pan), plain(dish))) for dish, pan in pulled.pans)
        groups.append(Group("Tins and pans of the recipes", rows, columns=_PANS))
    if pulled.table:
        rows = tuple(Row(("", plain(dish), clock(at), plain(words))) for dish, at, words in pulled.table)
        about = "a dish to serve from and what to serve with; a note with the dish's name in each"
        groups.append(Group("For the table", rows, about, columns=_TABLE))
    short = tuple(plain(said_short(each, clock)) for each in pulled.vessels if each.short_by)
    return TableSheet(_VESSELS, tuple(groups), notes=short, empty="No step names a vessel and no dish is served.")


def _row(each: PullLine, plan: Plan) -> Row:
    clock, vessel = clock_of(plan), each.vessel
    many = f"{each.most} of {vessel.count}"
    size = f", {plain(vessel.size)}" if vessel.size.strip() else ""
    most = "" if each.most == 1 else f"{each.most}, {_span(plan, each.start, each.end)}"
    dishes = "; ".join(brief(plain(dish)) for dish in each.dishes)
    return Row(("", many, f"{plain(vessel.name) or vessel.id}{size}", clock(each.first), most, dishes))


def _span(plan: Plan, start: int, end: int) -> str:
    """Return "Sat 13:28 to 16:41", with the second day only where it is another one."""
    ends = clock_at(plan, end) if same_day(plan, start, end) else clock_of(plan)(end)
    return f"{clock_of(plan)(start)} to {ends}"
