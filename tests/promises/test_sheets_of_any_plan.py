"""Whatever plan, timetable and paper: every sheet is made, and what is handed out tells the same loads and times."""

from __future__ import annotations

import csv
import io
import json
import re
from collections import Counter
from dataclasses import asdict, replace
from datetime import UTC, date, datetime, timedelta
from itertools import chain
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from icalendar import Calendar
from pypdf import PdfReader

from core.hatch.calendar_file import as_calendar
from core.hatch.csv_file import as_csv, as_zip
from core.hatch.marks import marked
from core.hatch.phone import as_page
from core.hatch.spreadsheet import as_spreadsheet
from core.hatch.table_times import places_table, times_table
from core.hatch.tables import tables_of
from core.measures.refusal import Refusal
from core.plan.kitchen import COLD, HEATED, StationKind
from core.plan.plan import Plan
from core.sheets.bundle import Wanted, sheets_pdf
from core.sheets.kinds import CUT, TITLES, SheetKind
from core.sheets.labels import AHEAD, labels
from core.sheets.lines import BEGINS, Line, RunSheet
from core.sheets.page import Page
from core.sheets.plating_sheet import plating_sheet
from core.sheets.prep_list import prep_list
from core.sheets.run_sheet import run_sheet
from core.sheets.station_sheet import station_sheets
from core.sheets.whose import whose
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Placed, Timetable
from tests.core.hatch.calendar_rules import broken
from tests.core.timetable.busy_feasts import busy_feasts
from tests.core.timetable.timetables import timetables
from tests.support.strategies import plans, small_feasts
from tests.support.tries import tries

SOME = settings(
    max_examples=tries(12), deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
MORE = settings(SOME, max_examples=tries(20))
NIGHTS = (
    ("Europe/London", "2026-10-25"), ("America/St_Johns", "2026-11-01"), ("America/Havana", "2026-11-01"),
    ("Australia/Lord_Howe", "2026-04-05"), ("Pacific/Chatham", "2026-04-05"), ("Asia/Beirut", "2026-10-25"),
    ("America/Santiago", "2026-04-05"), ("America/Santiago", "2026-09-06"), ("Africa/Cairo", "2026-04-24"),
    ("Asia/Kathmandu", "2026-10-25"),
)  # fmt: skip
"""Clocks that are put back or on, some at midnight, some by half an hour or standing odd minutes from UTC."""
SHIPPED = re.compile(r"[\x20-\x7e\u00a0-\u024f\u0391-\u03a9\u03b1-\u03c9\u0410-\u044f…\u2013\u2014\u201c\u201d−×°]*")
"""Signs that the usual fonts are known to have."""


@st.composite
def any_plans(draw: st.DrawFn) -> Plan:
    """Draw a plan of any kind, as often as not in a night in which the clock does something odd."""
    plan = draw(st.one_of(plans(), plans(), small_feasts(), busy_feasts()))
    if draw(st.booleans()):
        return plan
    zone, day = draw(st.sampled_from(NIGHTS))
    local = datetime.fromisoformat(day) + timedelta(minutes=draw(st.sampled_from((45, 75, 100, 130, 165, 200, 400))))
    return replace(plan, plating=replace(plan.plating, local=local, zone=zone))


@st.composite
def arranged(draw: st.DrawFn) -> tuple[Plan, Timetable]:
    """Draw a plan with the timetable counted back on paper, or one in which anything may be wrong."""
    plan = draw(any_plans())
    return plan, on_paper(plan) if draw(st.booleans()) else draw(known_timetables(plan))


@st.composite
def known_timetables(draw: st.DrawFn, plan: Plan) -> Timetable:
    """Draw a timetable whose loads are there once and within weeks of serving; all else may be wrong."""
    drawn = draw(timetables(plan, draw(st.sampled_from((-2000, -200, -60))), 60))
    near = 10**6
    loads = {each.key: each for each in drawn.placed if abs(each.start) < near and _begins(plan, each)}
    return replace(
        drawn,
        placed=tuple(each for each in loads.values() if each.load in range(90) and each.length >= 0),
        heatings=tuple(each for each in drawn.heatings if abs(each.start) < near),
        washings=tuple(each for each in drawn.washings if abs(each.start) < near),
    )


def _begins(plan: Plan, placed: Placed) -> bool:
    """Return whether a load begins with the first of its pieces, where it is done in pieces."""
    step = plan.steps.get(placed.step)
    whole = step is None or step.least_piece is None or len(placed.hands) < 2
    return whole or min((hand.start for hand in placed.hands if hand.minutes > 0), default=0) == placed.start


def known(plan: Plan, timetable: Timetable) -> list[Placed]:
    """Return the loads of steps that the plan has; an older timetable may have others."""
    return [each for each in timetable.placed if each.step in plan.steps]


def lines_of(sheet: RunSheet) -> list[Line]:
    return [line for day in sheet.days for line in day.lines]


def instant(plan: Plan, offset: int) -> datetime:
    """Return when an offset is, worked out apart from the program, by zoneinfo alone."""
    served = plan.plating.local.replace(tzinfo=ZoneInfo(plan.plating.zone), fold=0).astimezone(UTC)
    return served + timedelta(minutes=offset)


# ---- paper


@SOME
@given(st.data())
def test_every_kind_is_made_on_any_paper(data: st.DataObject) -> None:
    plan = data.draw(any_plans())
    timetable = data.draw(st.one_of(st.none(), st.just(on_paper(plan)), known_timetables(plan)))
    kinds = st.permutations(list(SheetKind))
    papers = st.builds(Page, st.sampled_from(("a4", "us-letter")), st.booleans(), st.booleans(), st.just("made now"))
    wanted = [Wanted(kind, data.draw(papers), data.draw(copies(plan, kind))) for kind in data.draw(kinds)]
    try:
        pdf = sheets_pdf(wanted, plan, timetable)
    except Refusal as refusal:  # amounts that cannot be added are no order; all the other sheets are there
        with pytest.raises(Refusal, match=re.escape(str(refusal))):
            sheets_pdf([Wanted(SheetKind.ORDER)], plan, timetable)
        wanted = [each for each in wanted if each.kind is not SheetKind.ORDER]
        pdf = sheets_pdf(wanted, plan, timetable)
    reader = PdfReader(io.BytesIO(pdf))
    marks = [each.title for each in reader.outline if not isinstance(each, list)]
    assert len(marks) == len(wanted)
    assert all(
        TITLES[each.kind] in mark or each.kind is SheetKind.MENU for each, mark in zip(wanted, marks, strict=True)
    )
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    claims = b"pdfuaid" in reader.trailer["/Root"]["/Metadata"].get_object().get_data()
    assert claims or not SHIPPED.fullmatch(words_of(plan))


@st.composite
def copies(draw: st.DrawFn, plan: Plan, kind: SheetKind) -> Any:
    """Draw whose copy it is: everybody's, a cook's or a station's, where there are such."""
    cooks = [each.id for each in plan.kitchen.cooks] if kind is not SheetKind.STATION else []
    names = ["", *cooks, *(each.id for each in plan.kitchen.stations)] if kind in CUT else [""]
    return whose(plan, draw(st.sampled_from(names)))


def words_of(plan: Plan) -> str:
    """Return all words of a plan, its line breaks as two signs."""
    return json.dumps(asdict(plan), default=str, ensure_ascii=False)


# ---- the same day everywhere


@MORE
@given(arranged())
def test_all_that_is_handed_out_tells_the_same_loads_at_the_same_times(drawn: tuple[Plan, Timetable]) -> None:
    plan, timetable = drawn
    sheet = run_sheet(plan, timetable, (), found=())
    lines = lines_of(sheet)
    assert [line.at for line in lines] == sorted(line.at for line in lines)
    loads = Counter((each.step, each.load, each.start) for each in known(plan, timetable))
    assert Counter((line.step, line.load, line.at) for line in lines if line.act in BEGINS and line.step) == loads
    for line in lines:
        there = instant(plan, line.at).astimezone(ZoneInfo(plan.plating.zone))
        assert line.clock.split(" ")[0] == f"{there:%H:%M}"

    told = {each.mark: each.line for each in marked(plan, sheet)}
    assert len(told) == len(lines)
    content = as_calendar(plan, sheet)
    assert broken(content) == []
    events = {str(each["UID"]): each for each in Calendar.from_ical(content).walk("VEVENT")}
    if lines:
        assert {str(mark) for mark in told} == set(events)
    for mark, line in told.items():
        event = events[str(mark)]
        assert event.decoded("DTSTART").astimezone(UTC) == instant(plan, line.at)
        if line.minutes > 0:
            assert event.decoded("DTEND").astimezone(UTC) == instant(plan, line.at + line.minutes)

    rows = read(as_csv(times_table(plan, sheet)))
    assert [int(row["minutes from plating"]) for row in rows] == [line.at for line in lines]
    for row, line in zip(rows, lines, strict=True):
        clock = datetime.fromisoformat(f"{row['from']}{row['UTC offset'].lstrip('+').removeprefix('UTC')}")
        assert clock.astimezone(UTC) == instant(plan, line.at)
        assert (row["step"].lstrip("'"), row["load"]) == (line.step or "", str(line.load + 1) if line.step else "")

    page = as_page(plan, timetable, sheet).decode()
    found = json.loads(re.findall(r'<script type="application/json" id="sheet">(.*?)</script>', page, re.DOTALL)[0])
    assert [(each["mark"], each["at"]) for each in found["lines"]] == [
        (mark.hex, int(instant(plan, line.at).timestamp() * 1000)) for mark, line in told.items()
    ]
    marks = {each["mark"] for each in found["lines"]}
    assert all(mark in marks for each in found["lines"] for mark in each["ends"])


def read(content: bytes) -> list[dict[str, str]]:
    head, *rows = csv.reader(io.StringIO(content.decode("utf-8-sig"), newline=""), strict=True)
    return [dict(zip(head, row, strict=True)) for row in rows]


@MORE
@given(arranged())
def test_every_load_stands_on_the_sheets_of_its_places(drawn: tuple[Plan, Timetable]) -> None:
    """Station sheets have all that stands there, once; the prep list and the last half hours nothing that is not."""
    plan, timetable = drawn
    loads = known(plan, timetable)
    hot = [each for each in plan.kitchen.stations if each.kind in HEATED]
    burners = plan.kitchen.of_kind(StationKind.BURNER)
    wanted: list[list[Placed]] = []
    for stations in (*((each,) for each in hot), burners):
        ids = {each.id for each in stations}
        there = [each for each in loads if any(spot.station in ids for spot in each.spots)]
        wanted += [there] if there else []
    sheets = [
        [(line.step, line.load, line.at) for day in sheet.days for line in day.lines if line.step]
        for sheet in station_sheets(plan, timetable)
    ]
    keys = [Counter((*each.key, each.start) for each in there) for there in wanted]
    assert [Counter(each) for each in sheets if each] == keys
    prepared = [each for day in prep_list(plan, timetable) for dish in day.dishes for each in dish.lines]
    listed = [(line.step, line.load, line.at) for line in prepared]
    assert len(listed) == len(set(listed))
    assert set(listed) <= {(*each.key, each.start) for each in loads}
    served_on = plan.plating.local.date()
    assert {(*each.key, each.start) for each in loads if day_of(plan, each.start) < served_on} <= set(listed)
    served = Counter((each.dish, each.how) for course in plating_sheet(plan, timetable) for each in course.dishes)
    assert served.total() == sum(dish.served for dish in plan.menu.dishes)
    stood = [row for row in places_table(plan, timetable).rows if row[2] != "waiting" and row[-2]]
    spots = [spot for each in timetable.placed for spot in each.spots if spot.station in plan.kitchen.station]
    assert len(stood) == len(spots)


def day_of(plan: Plan, offset: int) -> date:
    return instant(plan, offset).astimezone(ZoneInfo(plan.plating.zone)).date()


@MORE
@given(arranged())
def test_the_copies_of_all_cooks_are_the_whole_sheet(drawn: tuple[Plan, Timetable]) -> None:
    plan, timetable = drawn
    cooks = {each.id for each in plan.kitchen.cooks} | {None}
    lines = lines_of(run_sheet(plan, timetable, (), found=()))
    strange = any(hand.cook not in cooks for each in known(plan, timetable) for hand in each.hands)
    strange = strange or any(each.cook not in cooks for each in (*timetable.heatings, *timetable.washings))
    shown = [
        lines_of(run_sheet(plan, timetable, (), found=(), of=whose(plan, cook.id))) for cook in plan.kitchen.cooks
    ]
    for copy in shown:
        assert [line for line in lines if line in copy] == copy
    if not strange:
        assert {line.at for line in lines} == {line.at for line in chain(*shown)}
        assert [line for line in lines if not any(line in copy for copy in shown)] == []


@MORE
@given(arranged())
def test_what_waits_long_in_the_cold_has_a_label(drawn: tuple[Plan, Timetable]) -> None:
    """Each stretch of two hours in a cold place is on a box that is made no later and wanted no sooner."""
    plan, timetable = drawn
    boxes = labels(plan, timetable)
    assert all(box.end - box.start >= AHEAD for box in boxes)
    cold = {each.id for each in plan.kitchen.stations if each.kind in COLD}
    for each in known(plan, timetable):
        if each.load == 0 and each.length >= AHEAD and any(spot.station in cold for spot in each.spots):
            dish = plan.dish_of[each.step]
            assert any(box.start <= each.start and box.end >= each.end for box in boxes), (dish.name, each)


@SOME
@given(arranged())
def test_tables_are_made_and_say_the_same_in_every_form(drawn: tuple[Plan, Timetable]) -> None:
    plan, timetable = drawn
    try:
        tables = tables_of(plan, timetable, run_sheet(plan, timetable, (), found=()))
    except Refusal:  # amounts that cannot be added, as on the order list
        with pytest.raises(Refusal):
            sheets_pdf([Wanted(SheetKind.ORDER), Wanted(SheetKind.MENU)], plan, timetable)
        return
    assert as_zip(tables) == as_zip(tables)
    assert as_spreadsheet(tables) == as_spreadsheet(tables)
    for table in tables:
        assert len(read(as_csv(table))) == len(table.rows)
