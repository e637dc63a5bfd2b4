"""Printed sheets: each kind of a feast of some 300 steps, all ten as one document, and the phone page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from bench.feasts import feast
from bench.row import Row, show, timed_twice
from core.hatch.phone import as_page
from core.sheets import run_sheet
from core.sheets.bundle import Wanted, sheets_pdf
from core.sheets.kinds import SheetKind
from core.sheets.printing import sheet_pdf

_DISHES = 43
_TO_REACH = "2 s"


def rows(_seconds: float) -> Iterator[Row]:
    """Measure each kind once, after the typesetter has been loaded; the clock, and what the process worked."""
    one = feast(_DISHES)
    plan, timetable, size = one.plan, one.planted, one.size
    sheet_pdf(SheetKind.MENU, plan, None)
    for kind in SheetKind:
        yield _row(f"{kind.value} sheet as PDF", size, partial(sheet_pdf, kind, plan, timetable, ()), _TO_REACH)
    every = [Wanted(kind) for kind in SheetKind]
    yield _row("all ten as one PDF", size, partial(sheets_pdf, every, plan, timetable, ()))
    yield _row("phone page", size, lambda: as_page(plan, timetable, run_sheet(plan, timetable, ())))


def _row(what: str, size: str, work: Callable[[], object], target: str = "") -> Row:
    clock, worked = timed_twice(work)
    return Row(what, size, f"{show(clock)} (proc. {show(worked)})", target, met=clock <= 2 if target else None)
