"""A sheet that is a table: columns, groups of rows, notes. Values; the template lays them out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


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

    `serving` has a black band for its heading, as serving has on the run sheet.
    """

    title: str
    rows: tuple[Row, ...]
    about: str = ""
    alone: bool = False
    together: bool = False
    serving: bool = False
    columns: tuple[Column, ...] = ()


@dataclass(frozen=True, slots=True)
class TableSheet:
    """The groups of a sheet, each with its own columns or these; `intro` before, `notes` after; `empty` for none."""

    columns: tuple[Column, ...]
    groups: tuple[Group, ...]
    intro: str = ""
    notes: tuple[str, ...] = ()
    empty: str = "There is nothing on this sheet."
