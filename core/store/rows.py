"""A plan as rows of tables and back. Pure: no database here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from typing import Any

from core.measures.refusal import Refusal, quoted
from core.plan.decisions import Decisions, Wishes
from core.plan.kitchen import Kitchen
from core.plan.menu import Menu
from core.plan.plan import Plan
from core.plan.step import Manner
from core.store.plain import Unreadable, field_types, from_plain, made
from core.store.shapes import SHAPES, Entry, Key, Row, read_cell, row_of, value_of, write_cell

PLAN = "plan"
"""The table of one row with what is said once in a plan."""

Rows = dict[str, dict[Key, Row]]
Read = Mapping[str, Sequence[Mapping[Any, Any]]]
"""Rows as read from a file: by table, in the order of positions (first by owner, where rows have one)."""

_PLATING = field_types(Plan)["plating"]

_SOURCES: dict[str, tuple[str, str, str]] = {
    "station": ("kitchen", "stations", ""),
    "shelf": ("kitchen", "stations", "shelves"),
    "vessel": ("kitchen", "vessels", ""),
    "cook": ("kitchen", "cooks", ""),
    "dish": ("menu", "dishes", ""),
    "step": ("menu", "dishes", "steps"),
    "ingredient": ("menu", "dishes", "ingredients"),
    "link": ("menu", "links", ""),
    "stock": ("menu", "stocks", ""),
    "guest": ("menu", "guests", ""),
    "pin": ("decisions", "pins", ""),
    "choice": ("decisions", "choices", ""),
    "length_choice": ("decisions", "lengths", ""),
    "precedence": ("decisions", "orders", ""),
}
"""Where in a plan a table's values stand: part of the plan, its field, and what of each thing in it."""


def source(table: str, plan: Plan) -> tuple[Any, ...]:
    """Return the values that a table's rows are made from, or what these belong to."""
    part, name, _inner = _SOURCES[table]
    values: tuple[Any, ...] = getattr(getattr(plan, part), name)
    return values


def entries(table: str, plan: Plan) -> dict[Key, Entry]:
    """Return what the rows of a table are made of, by key; refuse twins."""
    inner = _SOURCES[table][2]
    found: dict[Key, Entry] = {}
    if inner:
        for owner in source(table, plan):
            _add(table, found, getattr(owner, inner), owner.id)
    else:
        _add(table, found, source(table, plan), None)
    return found


def plan_row(plan: Plan) -> Row:
    """Return the one row of the plan's own table (its revision is the file's business, not the plan's)."""
    row: Row = {
        "id": 1,
        "name": plan.name,
        "kitchen_name": plan.kitchen.name,
        "kitchen_walk": plan.kitchen.walk,
        "transfer": plan.transfer,
        "opens": plan.opens,
        "manner": plan.decisions.manner.value,
        "covers": plan.menu.covers,
        "kitchen_room": plan.kitchen.room,
        "rules": plan.decisions.rules,
        "mark": plan.mark,
    }
    for name, kind in field_types(_PLATING).items():
        row[f"plating_{name}"] = write_cell(kind, getattr(plan.plating, name))
    for name, kind in field_types(Wishes).items():
        row[f"wish_{name}"] = write_cell(kind, getattr(plan.decisions.wishes, name))
    return row


def to_rows(plan: Plan) -> Rows:
    """Return all rows of a plan by table and key; refuse twins where only one thing may bear a name."""
    rows: Rows = {PLAN: {(1,): plan_row(plan)}}
    for table, shape in SHAPES.items():
        rows[table] = {key: row_of(shape, entry) for key, entry in entries(table, plan).items()}
    return rows


def to_plan(rows: Read) -> Plan:
    """Return the plan that rows come to; raise Unreadable where they come to none."""
    if len(rows[PLAN]) != 1:
        raise Unreadable(f"{len(rows[PLAN])} plans in one file")
    row = rows[PLAN][0]
    steps, ingredients, shelves = (_by_owner(table, rows[table]) for table in ("step", "ingredient", "shelf"))
    station, dish = SHAPES["station"], SHAPES["dish"]
    return Plan(
        name=from_plain(str, row["name"]),
        plating=_spread(_PLATING, "plating", row),
        menu=Menu(
            dishes=tuple(
                value_of(
                    dish, each, steps=steps.get(each["id"], ()), ingredients=ingredients.get(each["id"], ())
                )
                for each in rows["dish"]
            ),
            links=_values("link", rows),
            stocks=_values("stock", rows),
            guests=_values("guest", rows),
            covers=from_plain(int | None, row["covers"]),
        ),
        kitchen=Kitchen(
            name=from_plain(str, row["kitchen_name"]),
            stations=tuple(
                value_of(station, each, shelves=shelves.get(each["id"], ())) for each in rows["station"]
            ),
            vessels=_values("vessel", rows),
            cooks=_values("cook", rows),
            walk=from_plain(int, row["kitchen_walk"]),
            room=from_plain(int | None, row["kitchen_room"]),
        ),
        decisions=Decisions(
            manner=from_plain(Manner, row["manner"]),
            pins=_values("pin", rows),
            choices=_values("choice", rows),
            lengths=_values("length_choice", rows),
            orders=_values("precedence", rows),
            wishes=_spread(Wishes, "wish", row),
            rules=from_plain(str, row["rules"]),
        ),
        transfer=from_plain(int, row["transfer"]),
        opens=from_plain(int | None, row["opens"]),
        mark=from_plain(str, row["mark"]),
    )


def _add(table: str, found: dict[Key, Entry], values: Iterable[object], owner: str | None) -> None:
    shape = SHAPES[table]
    by_place = "position" in shape.key
    for position, value in enumerate(values):
        key = (owner, position) if by_place else tuple([getattr(value, part) for part in shape.key])
        if key in found:
            name = " ".join(str(part) for part in key)
            raise Refusal(f"The plan has {quoted(name)} twice ({table}); take one of them out.")
        found[key] = Entry(position, value, owner)


def _values(table: str, rows: Read) -> tuple[Any, ...]:
    return tuple(value_of(SHAPES[table], row) for row in rows[table])


def _by_owner(table: str, rows: Sequence[Mapping[Any, Any]]) -> dict[object, tuple[Any, ...]]:
    shape = SHAPES[table]
    families = groupby(rows, key=lambda row: row[shape.owner])
    return {owner: tuple(value_of(shape, row) for row in family) for owner, family in families}


def _spread(kind: type, prefix: str, row: Mapping[Any, Any]) -> Any:
    found = {name: read_cell(each, row[f"{prefix}_{name}"]) for name, each in field_types(kind).items()}
    return made(kind, found)
