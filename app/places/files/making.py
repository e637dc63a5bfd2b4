"""Makes the files from the plan and the timetable that is seen, as the cook chose them."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import cast

from app.places.paper.choice import ALL, ONLY
from core.hatch.tables import NAMES
from core.plan.plan import Plan
from core.sheets import run_sheet
from core.sheets.whose import EVERYBODY, Whose, whose
from core.timetable.clash import Clash
from core.timetable.timetable import Timetable

XLSX, ZIP = "xlsx", "zip"

State = tuple[Plan, Timetable, tuple[Clash, ...]]


def phone_page(state: State, name: str) -> bytes:
    """Return the page for a phone, of everybody; `name`: the cook whose lines it opens with."""
    from core.hatch.phone import as_page

    plan, timetable, clashes = state
    return as_page(plan, timetable, run_sheet(plan, timetable, clashes), cook=_named(plan, name).name)


def calendar(state: State, name: str, which: str, lead: str) -> bytes:
    """Return the calendar file of everybody's lines or one's; `which`: all or ahead; `lead`: minutes as text."""
    from core.hatch.calendar_file import Which, as_calendar

    plan, timetable, clashes = state
    sheet = run_sheet(plan, timetable, clashes)
    of = _named(plan, name)
    copy = None if of is EVERYBODY else run_sheet(plan, timetable, clashes, of=of)
    return as_calendar(plan, sheet, which=cast("Which", which), lead=int(lead), copy=copy)


def table(state: State, form: str) -> bytes:
    """Return all tables as a spreadsheet or as CSV in a zip, or one of `NAMES` as CSV."""
    from core.hatch.csv_file import as_csv, as_zip
    from core.hatch.spreadsheet import as_spreadsheet
    from core.hatch.tables import tables_of

    plan, timetable, clashes = state
    tables = tables_of(plan, timetable, run_sheet(plan, timetable, clashes))
    if form == XLSX:
        return as_spreadsheet(tables)
    if form == ZIP:
        return as_zip(tables)
    return as_csv(tables[NAMES.index(form)])


def picture(state: State, form: str, reading: str, theme: str) -> bytes:
    """Return a picture of the timeline, `form` png or svg. Raise OSError where there is no room to draw it."""
    from app.timeline.lanes import Reading
    from app.timeline.picture import paint_picture

    plan, timetable, clashes = state
    with tempfile.TemporaryDirectory(prefix="cookday-") as folder:
        path = Path(folder) / f"picture.{form}"
        paint_picture(plan, timetable, clashes, path, reading=cast("Reading", reading), theme=theme)
        return path.read_bytes()


def _named(plan: Plan, name: str) -> Whose:
    return EVERYBODY if name == ALL else whose(plan, name.removeprefix(ONLY))
