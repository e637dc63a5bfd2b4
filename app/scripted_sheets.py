"""The sheets without a window: any kind as PDF, on either paper, for everybody or for one cook or station."""

from __future__ import annotations

import argparse
from datetime import datetime
from typing import TYPE_CHECKING, Any

from app.scripted import MEETS, appearing, plan_and_timetable, read_plan, require_place, timetable_given, told
from core.measures.refusal import Refusal

if TYPE_CHECKING:
    from core.sheets.page import Page

KINDS = ("run", "prep", "station", "order", "pull", "fridge", "temperatures", "menu", "plating", "labels")
"""The values of core.sheets.kinds.SheetKind, here so that the command starts without it."""
KIND_HELP = (
    "run: by the clock (usual); prep: what to make ready, by day and dish; station: what passes through ovens, grill "
    "and burners; order: what to buy; pull: vessels and tools; fridge: by shelf and hour; temperatures: a log; menu: a "
    "card for the table; plating: the last half hour; labels: for boxes made ahead"
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Let a parser of the sheet way take what only sheets have."""
    parser.add_argument("--kind", choices=KINDS, default="run", help=KIND_HELP)
    one = "a copy for one cook or one station, by name (run, prep), or one station's sheet (station)"
    parser.add_argument("--for", dest="whose", default="", metavar="COOK|STATION", help=one)
    parser.add_argument("--paper", choices=("a4", "letter"), default="a4")
    parser.add_argument("--landscape", action="store_true", help="across; of the menu two cards to a page")
    parser.add_argument("--dense", action="store_true", help="in small type, on fewer pages")
    parser.set_defaults(run=sheet)


def sheet(options: argparse.Namespace) -> int:
    """Write a sheet. The order list and the menu card take the timetable given or last seen, and arrange none."""
    require_place(options.to, (".pdf",))
    from core.sheets.kinds import CUT, TIMELESS, TITLES, SheetKind
    from core.sheets.printing import sheet_pdf
    from core.sheets.whose import whose

    kind = SheetKind(options.kind)
    if options.whose and kind not in CUT:
        raise Refusal(f"There is one {TITLES[kind].lower()} for everybody: leave out --for.")
    plan, timetable, clashes, fit = _timeless(options) if kind in TIMELESS else _timed(options)
    of = whose(plan, options.whose)
    if kind is SheetKind.STATION and of.cook is not None:
        raise Refusal(f"A station sheet is for a station, and {of.name} is a cook: give --kind run, or a station.")
    pdf = sheet_pdf(kind, plan, timetable, clashes, page=_page(options), of=of)
    with appearing(options.to) as draft:
        draft.write_bytes(pdf)
    return MEETS if kind in TIMELESS else told(plan, timetable, clashes, fit)


def _timed(options: argparse.Namespace) -> Any:
    """Return plan, timetable, clashes and fit; a name for a copy that is nobody's is refused before arranging."""
    if options.whose:
        from core.sheets.whose import whose

        whose(read_plan(options.plan)[0], options.whose)
    return plan_and_timetable(options)


def _timeless(options: argparse.Namespace) -> Any:
    plan, timetable = read_plan(options.plan)
    if options.timetable is not None:
        timetable = timetable_given(plan, options.timetable)
    return plan, timetable, (), ""


def _page(options: argparse.Namespace) -> Page:
    from core.sheets.page import Page, Paper

    now = datetime.now().astimezone()
    paper: Paper = "us-letter" if options.paper == "letter" else "a4"
    return Page(paper, options.landscape, options.dense, f"made {now.day} {now:%b %Y, %H:%M}")
