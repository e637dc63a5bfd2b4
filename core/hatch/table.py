"""A table as data: named columns, rows of values. What a table program gets, whatever its format."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction

Cell = str | int | Fraction | date | datetime | None
"""A text, a number, a day, a wall-clock time (naive, of the plan's zone), or nothing."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column's heading, and how many characters wide it is shown."""

    name: str
    width: int = 12


@dataclass(frozen=True, slots=True)
class Table:
    """Rows as long as there are columns. `name` is one plain word: a sheet's and a file's name."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def __post_init__(self) -> None:
        """Refuse a row of another length: a cell would stand under the wrong heading."""
        for row in self.rows:
            if len(row) != len(self.columns):
                raise ValueError(f"{self.name}: {len(row)} cells for {len(self.columns)} columns")


def columns(*named: tuple[str, int]) -> tuple[Column, ...]:
    """Return columns of (name, width)."""
    return tuple(Column(name, width) for name, width in named)
