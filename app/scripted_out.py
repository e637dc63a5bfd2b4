"""`cookday sheet` for what is not paper: a page for a phone, a calendar file, tables, a picture; and which kinds."""

from __future__ import annotations

import argparse
from argparse import Namespace
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from functools import partial
from typing import TYPE_CHECKING

from app.scripted import appearing, picture, plan_and_timetable, read_plan, require_place, told
from core.measures.refusal import Refusal
from core.measures.words import join_words

if TYPE_CHECKING:
    from core.plan.plan import Plan
    from core.sheets.lines import RunSheet
    from core.sheets.whose import Whose
    from core.timetable.timetable import Timetable

KINDS = {
    "phone": (".html",), "calendar": (".ics",), "csv": (".csv", ".zip"), "spreadsheet": (".xlsx",),
    "picture": (".png", ".svg"),
}  # fmt: skip
"""Each kind with what its file's name may end in."""
_LEAD = 10
WIDTH = 1800
"""Pixels of a picture unless another width is asked for."""
_ALL = {"csv": "A table names who does what, line by line", "spreadsheet": "A table names who does what, line by line",
        "picture": "The picture shows the whole day"}  # fmt: skip
"""Why there is no copy of these for one cook."""

_SAID = (
    "phone: a page that works without a network (.html); calendar: lines with alarms (.ics); "
    "csv: one table (.csv) or all of them (.zip); spreadsheet: all tables (.xlsx); picture: the timeline (.png, .svg; "
    "cookday picture says how wide and by what). Several kinds of paper, as in run,prep,order, come in one PDF"
)


def add_arguments(parser: argparse.ArgumentParser, on_paper: Sequence[str], said: str) -> None:
    """Add the kinds on paper (`on_paper`, told by `said`; the parser has their arguments) and these."""
    paper = parser.get_default("run")
    kinds = (*on_paper, *KINDS)
    parser.add_argument(
        "--kind", action="extend", type=partial(_kinds, kinds), metavar="KIND[,KIND ...]",
        help=f"{said}; {_SAID}",
    )  # fmt: skip
    parser.add_argument("--ahead", action="store_true", help="calendar: only what comes before the day itself")
    lead = f"calendar: ring so many minutes before each line ({_LEAD})"
    parser.add_argument("--lead", type=_lead, metavar="MIN", help=lead)
    parser.add_argument("--table", metavar="NAME", help="csv: which table a .csv holds (times)")
    parser.set_defaults(run=partial(_either, paper, on_paper[0]))


def _kinds(known: Sequence[str], text: str) -> list[str]:
    """Return the kinds that a text names, with commas between them."""
    found = [each.strip().lower() for each in text.split(",")]
    if "" in found:
        raise argparse.ArgumentTypeError(f"“{text}” lacks a kind; write them as in run,prep,order")
    for each in found:
        if each not in known:
            near = get_close_matches(each, known, 1)
            mend = f"did you mean {near[0]}?" if near else f"give one of {', '.join(known)}"
            raise argparse.ArgumentTypeError(f"there is no kind “{each}”; {mend}")
    return found


def _either(paper: Callable[[argparse.Namespace], int], usual: str, options: argparse.Namespace) -> int:
    """Write sheets on paper or what is none; refuse what was asked of the wrong one."""
    kinds = list(dict.fromkeys(options.kind or (usual,)))
    told = join_words(kinds)
    if kinds != ["calendar"] and (options.ahead or options.lead is not None):
        raise Refusal(f"--ahead and --lead are for --kind calendar; leave them out for {told}.")
    if kinds != ["csv"] and options.table is not None:
        raise Refusal(f"--table is for --kind csv; leave it out for {told}.")
    other = [kind for kind in kinds if kind in KINDS]
    if other and len(kinds) > 1:
        raise Refusal(f"Only kinds on paper go into one PDF; write {join_words(other)} to a file of its own.")
    if not other:
        return paper(Namespace(**{**vars(options), "kind": kinds}))
    return out(Namespace(**{**vars(options), "kind": kinds[0]}))


def out(options: argparse.Namespace) -> int:
    """Write the kind that is asked for: everybody's, or one cook's or station's lines where `--for` names one."""
    if options.landscape or options.dense or options.paper != "a4":
        raise Refusal(f"--paper, --landscape and --dense are for paper; leave them out for {options.kind}.")
    if options.whose and options.kind in _ALL:
        raise Refusal(f"{_ALL[options.kind]}: leave out --for. Run sheet, calendar and phone page have copies.")
    if options.kind == "picture":
        return picture(Namespace(**vars(options), by="station", dark=False, width=WIDTH))
    require_place(options.to, KINDS[options.kind])
    _require_table(options)
    of = _require_whose(options)
    plan, timetable, clashes, fit = plan_and_timetable(options)
    from core.sheets import run_sheet

    made = _made(options, plan, timetable, run_sheet(plan, timetable, clashes), of)
    with appearing(options.to) as draft:
        draft.write_bytes(made)
    return told(plan, timetable, clashes, fit)


def _require_whose(options: argparse.Namespace) -> Whose:
    """Return whose lines are asked for, before anything is arranged.

    Refuse a name that is nobody's, and a station for the page, which chooses its lines by who does them.
    """
    from core.sheets.whose import EVERYBODY, whose

    of = whose(read_plan(options.plan)[0], options.whose) if options.whose else EVERYBODY
    if options.kind == "phone" and of.stations:
        raise Refusal(
            f"The phone page chooses lines by cook, and {of.name} is a station: give a cook, or --kind calendar."
        )
    return of


def _made(options: argparse.Namespace, plan: Plan, timetable: Timetable, sheet: RunSheet, of: Whose) -> bytes:
    if options.kind == "phone":
        from core.hatch.phone import as_page

        return as_page(plan, timetable, sheet, cook=of.name)
    if options.kind == "calendar":
        from core.hatch.calendar_file import as_calendar
        from core.sheets import run_sheet

        lead = _LEAD if options.lead is None else options.lead
        copy = run_sheet(plan, timetable, (), of=of, found=()) if options.whose else None
        return as_calendar(plan, sheet, which="ahead" if options.ahead else "all", lead=lead, copy=copy)
    from core.hatch.tables import tables_of

    tables = tables_of(plan, timetable, sheet)
    if options.kind == "spreadsheet":
        from core.hatch.spreadsheet import as_spreadsheet

        return as_spreadsheet(tables)
    from core.hatch.csv_file import as_csv, as_zip

    if options.to.suffix.lower() == ".zip":
        return as_zip(tables)
    return as_csv(next(each for each in tables if each.name == (options.table or tables[0].name)))


def _require_table(options: argparse.Namespace) -> None:
    """Refuse, before any work is done, a table that there is not, and one that nothing asks for."""
    from core.hatch.tables import NAMES

    if options.table is not None and options.table not in NAMES:
        raise Refusal(f"There is no table “{options.table}”. Give one of {join_words(NAMES)}.")
    if options.table is not None and options.to.suffix.lower() != ".csv":
        raise Refusal(f"“{options.to.name}” holds all tables. Leave --table out, or write a .csv.")


def _lead(text: str) -> int:
    from core.hatch.calendar_file import MOST_LEAD

    if not text.strip().isdecimal() or int(text) > MOST_LEAD:
        raise argparse.ArgumentTypeError(f"“{text}” is not a whole number of minutes from 0 to {MOST_LEAD}")
    return int(text)
