"""Pages of every kind of sheet as pictures: drawn by poppler, kept as small grids of how dark each place is."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

import demo_data
from core.intake.text_plan import read_text
from core.plan.plan import Plan
from core.sheets.kinds import SheetKind
from core.sheets.page import Page
from core.sheets.printing import sheet_pdf
from core.timetable.as_text import read_timetable
from core.timetable.timetable import Timetable

_HERE = Path(__file__).parent
_DPI = 36
_CELL = 6  # dots: 4.2 mm
_LEVELS = 15
_SIGNS = "0123456789abcdef"
_MOST = 3
"""Pages of a sheet that are kept: the first ones, in which each of its parts is met."""

Grid = tuple[str, ...]
"""Rows of a page, a sign for each place: 0 white, f black."""


@dataclass(frozen=True, slots=True)
class SheetView:
    """One sheet of one plan on one paper."""

    name: str
    plan: str
    kind: SheetKind
    page: Page

    @property
    def approved(self) -> Path:
        """Return where its grids are kept."""
        return _HERE / "approved_pages" / f"{self.name}.txt"

    def pdf(self) -> bytes:
        """Return the sheet."""
        plan, timetable = feast(self.plan)
        return sheet_pdf(self.kind, plan, timetable, (), page=self.page)


def sheet_views() -> Iterator[SheetView]:
    """Yield every kind of the feast; across, small and on Letter; and what a celebration does to four of them."""
    upright, across = Page(printed="made 25 Sep 2026, 14:02"), Page("us-letter", landscape=True)
    for kind in SheetKind:
        yield SheetView(f"feast-{kind}", "harvest_supper", kind, upright)
        yield SheetView(f"feast-{kind}-letter-across", "harvest_supper", kind, across)
    for kind in (SheetKind.RUN, SheetKind.PREP, SheetKind.STATION):
        yield SheetView(f"feast-{kind}-small", "harvest_supper", kind, Page(dense=True))
    for kind in (SheetKind.RUN, SheetKind.STATION, SheetKind.FRIDGE, SheetKind.ORDER):
        yield SheetView(f"celebration-{kind}", "hall_celebration", kind, upright)


@cache
def feast(name: str) -> tuple[Plan, Timetable]:
    """Return a demo plan with a timetable that was arranged once."""
    plan = read_text(demo_data.text_of(f"{name}.toml"))
    return plan, read_timetable((_HERE / "timetables" / f"{name}.json").read_text(encoding="utf-8"))


def drawn(pdf: bytes, most: int = _MOST) -> list[Grid]:
    """Return the first pages of a PDF as grids."""
    run = ["pdftoppm", "-r", str(_DPI), "-gray", "-l", str(most)]
    made = subprocess.run(run, input=pdf, capture_output=True, check=True).stdout
    return [_grid(dots) for dots in _pages(made)]


def _pages(made: bytes) -> Iterator[np.ndarray]:
    """Yield the pages of a stream of portable greymaps."""
    at = 0
    while head := re.compile(rb"P5\s+(\d+)\s+(\d+)\s+255\s").match(made, at):
        wide, high = int(head[1]), int(head[2])
        at = head.end() + wide * high
        yield np.frombuffer(made, np.uint8, wide * high, head.end()).reshape(high, wide)


def _grid(dots: np.ndarray) -> Grid:
    high, wide = dots.shape[0] // _CELL, dots.shape[1] // _CELL
    cells = dots[: high * _CELL, : wide * _CELL].reshape(high, _CELL, wide, _CELL).mean(axis=(1, 3))
    dark = np.rint((255 - cells) / 255 * _LEVELS).astype(int)
    return tuple("".join(_SIGNS[each] for each in row) for row in dark)


def write_approved(path: Path, pages: list[Grid]) -> None:
    """Keep grids, a page after the other with an empty line between."""
    path.parent.mkdir(exist_ok=True)
    path.write_text("\n\n".join("\n".join(page) for page in pages) + "\n", encoding="ascii", newline="\n")


def read_approved(path: Path) -> list[Grid]:
    """Return grids that were kept."""
    return [tuple(page.split("\n")) for page in path.read_text(encoding="ascii").rstrip("\n").split("\n\n")]


def unlike(one: Grid, other: Grid, levels: int = 3) -> list[tuple[int, int]]:
    """Return places (row, column) that are darker or lighter by more than some levels; every one where sizes differ."""
    if [len(row) for row in one] != [len(row) for row in other]:
        return [(row, column) for row, signs in enumerate(one) for column in range(len(signs))]
    return [
        (row, column)
        for row, (a, b) in enumerate(zip(one, other, strict=True))
        for column in range(len(a))
        if abs(int(a[column], 16) - int(b[column], 16)) > levels
    ]


def write_pictures(view: SheetView, folder: Path, dpi: int = 80) -> None:
    """Write every page of a sheet as a picture for the eye."""
    run = ["pdftoppm", "-r", str(dpi), "-png", "-", str(folder / view.name)]
    subprocess.run(run, input=view.pdf(), check=True, capture_output=True)
