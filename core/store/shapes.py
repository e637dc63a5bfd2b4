"""How the values of a plan lie in tables: for each table its dataclass, its key, and what lies elsewhere.

A field becomes a column of its own name: text, numbers and yes/no as such, everything else as JSON text.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import Enum
from fractions import Fraction
from functools import cached_property

from core.plan.decisions import Choice, LengthOf, Order, Pin
from core.plan.kitchen import Cook, Shelf, Station, Vessel
from core.plan.menu import Dish, Guest, Ingredient, Link, Stock
from core.plan.step import Step
from core.store.plain import Unreadable, decode, encode, field_types, from_plain, made, to_plain

_SCALARS = (bool, int, float, str, types.NoneType, Fraction, datetime)

Cell = None | bool | int | float | str
Row = dict[str, Cell]
Key = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A column made of one field, or of one field of a field that is spread."""

    name: str
    field: str
    part: str | None
    kind: typing.Any


@dataclass(frozen=True)
class Shape:
    """One table: `apart` fields have tables of their own, `spread` ones a column for each of their fields.

    `owner` is the column that names what a row belongs to (the dish of a step).
    """

    table: str
    kind: type
    key: tuple[str, ...]
    apart: frozenset[str] = frozenset()
    spread: frozenset[str] = frozenset()
    owner: str = ""

    @cached_property
    def columns(self) -> tuple[Column, ...]:
        """The columns that fields come to, in the fields' order."""
        found: list[Column] = []
        for name, kind in field_types(self.kind).items():
            if name in self.spread:
                found += [
                    Column(f"{name}_{part}", name, part, each) for part, each in field_types(kind).items()
                ]
            elif name not in self.apart:
                found.append(Column(name, name, None, kind))
        return tuple(found)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all columns."""
        owner = (self.owner,) if self.owner else ()
        return (*owner, "position", *(each.name for each in self.columns))


SHAPES = {
    shape.table: shape
    for shape in (
        Shape("station", Station, ("id",), apart=frozenset({"shelves"})),
        Shape("shelf", Shelf, ("station", "position"), owner="station"),
        Shape("vessel", Vessel, ("id",)),
        Shape("cook", Cook, ("id",)),
        Shape("dish", Dish, ("id",), apart=frozenset({"steps", "ingredients"})),
        Shape("step", Step, ("id",), spread=frozenset({"length"}), owner="dish"),
        Shape("ingredient", Ingredient, ("dish", "position"), owner="dish"),
        Shape("link", Link, ("before", "after", "kind")),
        Shape("stock", Stock, ("item",)),
        Shape("guest", Guest, ("name",)),
        Shape("pin", Pin, ("step", "load")),
        Shape("choice", Choice, ("step",)),
        Shape("length_choice", LengthOf, ("step",)),
        Shape("precedence", Order, ("first", "then")),
    )
}
"""All tables but the plan's own, each after those that it refers to."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A value with its place in order and what it belongs to: what a row is made of."""

    position: int
    value: object
    owner: str | None = None


def row_of(shape: Shape, entry: Entry) -> Row:
    """Return the row that an entry comes to."""
    row: Row = {shape.owner: entry.owner} if shape.owner else {}
    row["position"] = entry.position
    for column in shape.columns:
        value = getattr(entry.value, column.field)
        row[column.name] = write_cell(column.kind, getattr(value, column.part) if column.part else value)
    return row


def value_of(shape: Shape, row: Mapping[typing.Any, typing.Any], **parts: object) -> typing.Any:
    """Return the value of a row, with the parts that lie in other tables; raise Unreadable."""
    fields: dict[str, typing.Any] = dict(parts)
    for column in shape.columns:
        cell = read_cell(column.kind, row[column.name])
        if column.part is None:
            fields[column.field] = cell
        else:
            fields.setdefault(column.field, {})[column.part] = cell
    for name in shape.spread:
        fields[name] = made(field_types(shape.kind)[name], fields[name])
    return made(shape.kind, fields)


def write_cell(kind: typing.Any, value: object) -> Cell:
    """Return a field's value as its column holds it; raise Unreadable if it would not come back as it is."""
    cell = cell_of(value) if value is None or is_scalar(kind) else encode(value)
    if read_cell(kind, cell) != value:
        raise Unreadable(f"{value!r} reads as {cell!r}")
    return cell


def cell_of(value: object) -> Cell:
    """Return what a scalar is to the database: an enum is its word, a fraction or a moment its spelling."""
    return typing.cast("Cell", to_plain(value))


def read_cell(kind: typing.Any, cell: object) -> typing.Any:
    """Return a column's content as the field's value; raise Unreadable."""
    if is_scalar(kind):
        return from_plain(kind, cell)
    if cell is None:
        if not is_optional(kind):
            raise Unreadable("nothing where something belongs")
        return None
    return decode(kind, cell)


def is_optional(kind: typing.Any) -> bool:
    """Say whether a type includes None."""
    return types.NoneType in typing.get_args(kind)


def is_scalar(kind: typing.Any) -> bool:
    """Say whether a type of field is kept as a plain column."""
    kind = getattr(kind, "__supertype__", kind)
    if typing.get_origin(kind) in (typing.Union, types.UnionType):
        return all(is_scalar(each) for each in typing.get_args(kind))
    if not isinstance(kind, type):
        return False
    return kind in _SCALARS or issubclass(kind, Enum)
