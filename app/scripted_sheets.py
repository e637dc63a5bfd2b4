"""The sheets without a window: any kind as PDF, on either paper, for everybody or for one cook or station."""

from __future__ import annotations

import argparse
from datetime import datetime
from typing import TYPE_CHECKING, Any

from app.scripted import MEETS, appearing, plan_and_timetable, read_plan, require_place, timetable_given, told
from core.measures.refusal import Refusal

if TYPE_CHECKING:
    from core.sheets.page import Page
    from core.sheets.whose import Whose

KINDS = ("run", "prep", "station", "order", "pull", "fridge", "temperatures", "menu", "plating", "labels")
"""The values of core.sheets.kinds.SheetKind, here so that the command starts without it."""
KIND_HELP = (
    "run: by the clock (usual); prep: what to make ready, by day and dish; station: what passes through ovens, grill "
    "and burners; order: what to buy; pull: vessels and tools; fridge: by shelf and hour; temperatures: a log; menu: a "
    "card for the table; plating: the last half hour; labels: for boxes made ahead"
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Let a parser of the sheet way take what only sheets have; which kinds, `scripted_out` adds."""
    one = (
        "a copy for one cook or one station, by name (run, prep, calendar), one station's sheet (station), a page that "
        "opens with one cook's lines (phone)"
    )
    parser.add_argument("--for", dest="whose", default="", metavar="COOK|STATION", help=one)
    parser.add_argument("--paper", type=str.lower, choices=("a4", "letter"), default="a4")
    parser.add_argument("--landscape", action="store_true", help="across; of the menu two cards to a page")
    parser.add_argument("--dense", action="store_true", help="in small type, on fewer pages")
    parser.set_defaults(run=sheet)


def sheet(options: argparse.Namespace) -> int:
    """Write one sheet or several as one PDF: `options.kind` holds their kinds, in the order in which they come.

    Of several, those that come in copies are for whom `--for` names, the others for everybody. The order list and the
    menu card take the timetable given or last seen, and arrange none.
    """
    require_place(options.to, (".pdf",))
    from core.safety import rules_at_hand
    from core.sheets.bundle import Wanted, sheets_pdf
    from core.sheets.kinds import CUT, TIMELESS, TITLES, SheetKind
    from core.sheets.whose import EVERYBODY

    kinds = [SheetKind(kind) for kind in options.kind]
    if options.whose and not CUT.intersection(kinds):
        raise Refusal(f"There is one {TITLES[kinds[0]].lower()} for everybody: leave out --for.")
    of = _whose(options)
    if SheetKind.STATION in kinds and of.cook is not None:
        raise Refusal(f"A station sheet is for a station, and {of.name} is a cook: give --kind run, or a station.")
    timeless = TIMELESS.issuperset(kinds)
    plan, timetable, clashes, fit = _timeless(options) if timeless else plan_and_timetable(options)
    page = _page(options)
    wanted = [Wanted(kind, page, of if kind in CUT else EVERYBODY) for kind in kinds]
    rules = rules_at_hand(plan.decisions.rules, options.plan.parent / "rules")
    pdf = sheets_pdf(wanted, plan, timetable, clashes, rules=rules)
    with appearing(options.to) as draft:
        draft.write_bytes(pdf)
    return MEETS if timeless else told(plan, timetable, clashes, fit)


def _whose(options: argparse.Namespace) -> Whose:
    """Return whose copy is asked for; a name that is nobody's is refused here, before anything is arranged."""
    from core.sheets.whose import EVERYBODY, whose

    return whose(read_plan(options.plan)[0], options.whose) if options.whose else EVERYBODY


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
