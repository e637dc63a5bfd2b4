"""A sheet that is a table: columns, groups of rows, notes. Values; the template lays them out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

WHO = "who"
"""The head of the column of cooks."""


class Look(StrEnum):
    """How the cells of a column are set. In TIME and THING the first line is large or bold, the rest small below it."""

    TICK = "tick"
    BLANK = "blank"
    TIME = "time"
    THING = "thing"
    TEXT = "text"
    SMALL = "small"
    STRONG = "strong"


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, how it looks, and its width in mm or as a share of what is left (both 0: its words')."""

    head: str
    look: Look = Look.TEXT
    wide: float = 0
    share: float = 0


@dataclass(frozen=True, slots=True)
class Row:
    """One row, a text for each column. A band goes over all columns and is repeated where its rows go on.

    `over`: the cell of this number goes over so many columns more (number, how many); theirs are empty.
    """

    cells: tuple[str, ...]
    band: bool = False
    over: tuple[int, int] = (0, 0)


@dataclass(frozen=True, slots=True)
class Group:
    """Rows under a heading; `alone` begins a page, `together` stays on one if it is not too long for that.

    `serving` has a black band for its heading, as serving has on the run sheet. `goes_on`: a page that goes on with the
    group bears its title.
    """

    title: str
    rows: tuple[Row, ...]
    about: str = ""
    alone: bool = False
    together: bool = False
    serving: bool = False
    goes_on: bool = True
    columns: tuple[Column, ...] = ()


@dataclass(frozen=True, slots=True)
class TableSheet:
    """The groups of a sheet, each with its own columns or these; `intro` before, `notes` after; `empty` for none."""

    columns: tuple[Column, ...]
    groups: tuple[Group, ...]
    intro: str = ""
    notes: tuple[str, ...] = ()
    empty: str = "There is nothing on this sheet."


def cells_of(group: Group, head: str, columns: tuple[Column, ...] = ()) -> list[str]:
    """Return the texts in the column of this head; `columns` are the sheet's, for a group that has none itself."""
    at = _number(head, group.columns or columns)
    return [] if at is None else [row.cells[at] for row in group.rows if not row.band]


def without(group: Group, head: str, columns: tuple[Column, ...] = ()) -> Group:
    """Return a group without the column of this head."""
    own = group.columns or columns
    at = _number(head, own)
    if at is None:
        return group
    rows = (row if row.band else replace(row, cells=row.cells[:at] + row.cells[at + 1 :]) for row in group.rows)
    return replace(group, rows=tuple(rows), columns=own[:at] + own[at + 1 :])


def _number(head: str, columns: tuple[Column, ...]) -> int | None:
    return next((number for number, each in enumerate(columns) if each.head == head), None)
