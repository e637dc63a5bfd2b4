"""`cookday sheet` for what is not paper: a page for a phone, a calendar file, tables."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from app.scripted import appearing, plan_and_timetable, require_place, told
from core.measures.refusal import Refusal
from core.measures.words import join_words

if TYPE_CHECKING:
    from core.plan.plan import Plan
    from core.sheets.lines import RunSheet
    from core.timetable.timetable import Timetable

KINDS = {"phone": (".html",), "calendar": (".ics",), "csv": (".csv", ".zip"), "spreadsheet": (".xlsx",)}
"""Each kind with what its file's name may end in."""
_LEAD = 10

_SAID = (
    "phone: a page that works without a network (.html); calendar: lines with alarms (.ics); "
    "csv: one table (.csv) or all of them (.zip); spreadsheet: all tables (.xlsx)"
)


def add_arguments(parser: argparse.ArgumentParser, on_paper: Sequence[str], said: str) -> None:
    """Add these kinds to those on paper (`on_paper`, told by `said`), whose arguments the parser has already.

    The parser lets a later argument stand for an earlier one of the same name.
    """
    paper = parser.get_default("run")
    parser.add_argument("--kind", choices=(*on_paper, *KINDS), default=on_paper[0], help=f"{said}; {_SAID}")
    parser.add_argument("--ahead", action="store_true", help="calendar: only what comes before the day itself")
    lead = f"calendar: ring so many minutes before each line ({_LEAD})"
    parser.add_argument("--lead", type=_lead, metavar="MIN", help=lead)
    parser.add_argument("--table", metavar="NAME", help="csv: which table a .csv holds (times)")
    parser.set_defaults(run=partial(_either, paper))


def _either(paper: Callable[[argparse.Namespace], int], options: argparse.Namespace) -> int:
    """Write a sheet on paper or what is none; refuse what was asked of the wrong one."""
    if options.kind != "calendar" and (options.ahead or options.lead is not None):
        raise Refusal(f"--ahead and --lead are for --kind calendar; leave them out for {options.kind}.")
    if options.kind != "csv" and options.table is not None:
        raise Refusal(f"--table is for --kind csv; leave it out for {options.kind}.")
    return out(options) if options.kind in KINDS else paper(options)


def out(options: argparse.Namespace) -> int:
    """Write the kind that is asked for, of all cooks and stations."""
    if options.whose or options.landscape or options.dense:
        more = " The page itself shows one cook's lines." if options.kind == "phone" else ""
        raise Refusal(f"--for, --landscape and --dense are for paper; leave them out for {options.kind}.{more}")
    require_place(options.to, KINDS[options.kind])
    _require_table(options)
    plan, timetable, clashes, fit = plan_and_timetable(options)
    from core.sheets import run_sheet

    made = _made(options, plan, timetable, run_sheet(plan, timetable, clashes))
    with appearing(options.to) as draft:
        draft.write_bytes(made)
    return told(plan, timetable, clashes, fit)


def _made(options: argparse.Namespace, plan: Plan, timetable: Timetable, sheet: RunSheet) -> bytes:
    if options.kind == "phone":
        from core.hatch.phone import as_page

        return as_page(plan, timetable, sheet)
    if options.kind == "calendar":
        from core.hatch.calendar_file import as_calendar

        lead = _LEAD if options.lead is None else options.lead
        return as_calendar(plan, sheet, which="ahead" if options.ahead else "all", lead=lead)
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
