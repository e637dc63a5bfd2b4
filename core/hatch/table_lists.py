"""The order list and the pull list as tables."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from core.food.pull_list import pull_list
from core.food.shopping import Purchase, shopping
from core.hatch.table import Cell, Table, columns
from core.hatch.table_steps import amount_cells
from core.plan.plan import Plan
from core.sheets.list_text import first_starts
from core.sheets.words import plain
from core.timetable.timetable import Timetable

_ORDER = columns(
    ("buy on", 11), ("item", 26), ("aisle", 16), ("amount", 10), ("unit", 8), ("packs", 7), ("sold as", 10),
    ("pack", 9), ("pack unit", 8), ("wanted", 10), ("in the house", 11), ("wanted by", 17), ("for dishes", 44),
)  # fmt: skip
_PULL = columns(
    ("vessel", 26), ("size", 18), ("most at once", 10), ("there are", 9), ("short by", 9), ("first wanted", 17),
    ("most from", 17), ("most to", 17), ("for dishes", 44),
)  # fmt: skip


def order_table(plan: Plan, timetable: Timetable) -> Table:
    """Return a row for each item of each trip, then, without a day, what is in the house already."""
    bought = shopping(plan, first_starts(timetable))
    plated = plan.plating.local.date()
    rows = [
        _purchase(plan, each, plated - timedelta(days=trip.days_before))
        for trip in bought.trips
        for each in trip.purchases
    ]
    rows += [_purchase(plan, each, None) for each in bought.at_home]
    return Table("order", _ORDER, tuple(rows))


def _purchase(plan: Plan, each: Purchase, day: date | None) -> tuple[Cell, ...]:
    line = each.line
    pack, pack_unit = (None, "") if line.pack is None else amount_cells(line.pack)
    amount, unit = amount_cells(line.buy)
    by = None if line.by is None else plan.wall(line.by).replace(tzinfo=None)
    return (
        day, plain(line.item), plain(each.aisle), amount, unit, line.packs, plain(line.sold_as) if line.packs else "",
        pack, pack_unit, amount_cells(line.purchased)[0], amount_cells(line.at_home)[0], by,
        "; ".join(plain(dish) for dish in line.dishes),
    )  # fmt: skip


def pull_table(plan: Plan, timetable: Timetable) -> Table:
    """Return a row for each vessel that the day uses, then the tins that recipes name."""
    return Table("pull", _PULL, tuple(_pulled(plan, timetable)))


def _pulled(plan: Plan, timetable: Timetable) -> Iterator[tuple[Cell, ...]]:
    pulled = pull_list(plan, timetable)
    for each in pulled.vessels:
        first, start, end = (plan.wall(at).replace(tzinfo=None) for at in (each.first, each.start, each.end))
        yield (
            plain(each.vessel.name) or each.vessel.id, plain(each.vessel.size), each.most, each.vessel.count,
            each.short_by, first, start, end, "; ".join(plain(dish) for dish in each.dishes),
        )  # fmt: skip
    for dish, pan in pulled.pans:
        yield (plain(pan), "", 1, None, None, None, None, None, plain(dish))
