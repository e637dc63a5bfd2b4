"""The order list on paper: by trip and aisle, what is needed, what is on hand, what to buy, for which dishes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta

from core.food.shopping import Purchase, Shopping, shopping
from core.food.speak_lists import said_apart, said_at_home, said_parts, to_buy
from core.food.speak_order import at_most, to_order
from core.measures.words import plural
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.sheets.list_text import NOTHING, ON_PAPER, clock_of, day_of
from core.sheets.table import Column, Group, Look, Row, TableSheet
from core.sheets.words import day_about, plain


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One thing to buy: its aisle, needed in all, on hand, what to buy, for which dishes by when."""

    aisle: str
    buy: str
    needed: str
    on_hand: str
    what_for: str


@dataclass(frozen=True, slots=True)
class OrderTrip:
    """A trip to the shops: its day, what to buy, aisle by aisle, and how long before plating that day is."""

    day: str
    rows: tuple[OrderRow, ...]
    about: str = ""


@dataclass(frozen=True, slots=True)
class OrderSheet:
    """All trips; what is in the house; what stands on two trips and why; whether times were counted back on paper."""

    trips: tuple[OrderTrip, ...]
    at_home: tuple[str, ...]
    apart: tuple[str, ...]
    on_paper: bool


def order_sheet(plan: Plan, starts: Mapping[StepId, int] | None) -> OrderSheet:
    """Return the order list; `starts` are first starts (None: counted back from serving)."""
    found: Shopping = shopping(plan, starts)
    clock, day = clock_of(plan), day_of(plan)
    trips = tuple(
        OrderTrip(
            day(trip.days_before), tuple(_row(each, clock) for each in trip.purchases), _about(plan, trip.days_before)
        )
        for trip in found.trips
    )
    return OrderSheet(
        trips,
        tuple(plain(said_at_home(each.line)) for each in found.at_home),
        tuple(plain(said_apart(each, day)) for each in found.apart),
        starts is None,
    )


def _about(plan: Plan, days_before: int) -> str:
    return day_about(plan, plan.plating.local.date() - timedelta(days=days_before))


def _row(each: Purchase, clock: object) -> OrderRow:
    line = each.line
    _what, what_for = said_parts(each, clock)  # type: ignore[arg-type]
    loose = "" if each.loose is None else f"; sold by {each.loose}"
    return OrderRow(
        plain(each.aisle).capitalize() or "Other",
        plain(to_buy(line)) + loose,
        "to taste" if line.buy.to_taste else to_order(line.purchased),
        "" if line.buy.to_taste or not line.at_home.amount else at_most(line.at_home),
        plain(what_for),
    )


def order_table(sheet: OrderSheet) -> TableSheet:
    """Return the order list as rows: tick, buy, needed, on hand, for what."""
    columns = (
        Column("", Look.TICK),
        Column("buy", Look.STRONG, share=1.1),
        Column("needed", Look.TEXT),
        Column("on hand", Look.TEXT),
        Column("for, by", Look.SMALL, share=1.75),
    )
    groups = []
    for trip in sheet.trips:
        about = ": ".join(filter(None, (trip.about, plural(len(trip.rows), "thing"))))
        groups.append(Group(f"Buy on {trip.day}", tuple(_banded(trip.rows)), about))
    if sheet.at_home:
        home = (Column("", Look.TICK), Column("in the house already", Look.SMALL, share=1))
        rows = tuple(Row(("", each)) for each in sheet.at_home)
        groups.append(Group("Look that it is there, and enough", rows, columns=home))
    fresh = ("How long fresh things keep is what is usual; the date on the pack goes before it.",) if groups else ()
    intro = ON_PAPER if sheet.on_paper and groups else ""
    return TableSheet(columns, tuple(groups), intro, (*sheet.apart, *fresh), NOTHING)


def _banded(rows: tuple[OrderRow, ...]) -> list[Row]:
    found: list[Row] = []
    aisle = ""
    for row in rows:
        if row.aisle != aisle:
            aisle = row.aisle
            found.append(Row((aisle,), band=True))
        found.append(Row(("", row.buy, row.needed, row.on_hand, row.what_for)))
    return found
