"""The tables: everything of a plan and its timetable once, in both formats, read back by readers that are not ours."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections import Counter
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from openpyxl import load_workbook

from core.food.order_list import key_of
from core.food.shopping import order_lines
from core.hatch.csv_file import as_csv, as_zip, is_formula
from core.hatch.spreadsheet import as_spreadsheet
from core.hatch.table import Cell, Column, Table
from core.hatch.tables import NAMES, tables_of
from core.sheets.lines import BEGINS
from core.sheets.list_text import first_starts
from core.sheets.run_sheet import run_sheet
from core.timetable.on_paper import on_paper
from tests.core.hatch.handed import ALL, WORDS, of
from tests.core.sheets.reading import on_the_wall
from tests.support.hostile import HOSTILE, hostile_plan


def named(name: str, table: str) -> Table:
    return next(each for each in tables_of(*of(name)) if each.name == table)


def rows_of(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline=""), strict=True))


def read_csv(content: bytes) -> list[dict[str, str]]:
    head, *rows = rows_of(content)
    return [dict(zip(head, row, strict=True)) for row in rows]


@pytest.mark.parametrize("name", ALL)
def test_csv_keeps_rfc_4180(name: str) -> None:
    for table in tables_of(*of(name)):
        content = as_csv(table)
        text = content.decode("utf-8-sig")
        assert text.endswith("\r\n")  # 2.1
        assert "\n" not in text.replace("\r\n", "")  # no cell holds a line break, so each row is a line
        rows = rows_of(content)
        assert {len(row) for row in rows} == {len(table.columns)}  # 2.4
        assert len(rows) == len(table.rows) + 1 == text.count("\r\n")
        assert rows[0] == [column.name for column in table.columns]


def test_cells_are_quoted_as_rfc_4180_shows() -> None:
    # 2.5 to 2.7: commas and quotes in quotes, a quote doubled
    table = Table("t", (Column("a"), Column("b"), Column("c")), (("aaa", "b,b", 'c"cc'),))
    assert as_csv(table).decode("utf-8-sig") == 'a,b,c\r\naaa,"b,b","c""cc"\r\n'


@pytest.mark.parametrize("name", ALL)
def test_every_line_stands_once_at_its_time(name: str) -> None:
    plan, _timetable, sheet = of(name)
    rows = read_csv(as_csv(named(name, "times")))
    lines = [line for day in sheet.days for line in day.lines]
    assert len(rows) == len(lines)
    for row, line in zip(rows, lines, strict=True):
        at = on_the_wall(plan, line.at)
        assert (row["from"], row["day"]) == (f"{at:%Y-%m-%d %H:%M}", f"{at:%Y-%m-%d}")
        told = datetime.fromisoformat(row["from"] + row["UTC offset"].removeprefix("UTC"))
        assert told.astimezone(UTC) == at.astimezone(UTC)
        assert (int(row["minutes from plating"]), row["does"], row["who"]) == (line.at, line.does, line.who)


@pytest.mark.parametrize("name", ALL)
def test_every_placed_load_and_wait_stands_in_each_of_its_places(name: str) -> None:
    plan, timetable, _sheet = of(name)
    rows = read_csv(as_csv(named(name, "places")))
    uses = Counter((row["step"], int(row["load"] or 0) - 1, row["from"]) for row in rows if row["use"] == "in use")
    wanted = Counter(
        (each.step, each.load, f"{on_the_wall(plan, each.start):%Y-%m-%d %H:%M}")
        for each in timetable.placed
        for _spot in each.spots
    )
    assert uses == wanted
    assert sum(row["use"] == "waiting" for row in rows) == sum(len(each.spots) for each in timetable.stays)
    warmed = sum(row["use"] in {"heating up", "lighting"} for row in rows)
    assert warmed == len(timetable.heatings)


@pytest.mark.parametrize("name", ["harvest", "hall"])
def test_every_step_and_ingredient_and_dish_stands_once(name: str) -> None:
    plan = of(name)[0]
    assert [row["step"] for row in read_csv(as_csv(named(name, "steps")))] == list(plan.steps)
    assert [row["id"] for row in read_csv(as_csv(named(name, "menu")))] == list(plan.dishes)
    rows = read_csv(as_csv(named(name, "ingredients")))
    written = [(dish, line) for dish in plan.menu.dishes for line in dish.ingredients]
    assert len(rows) == len(written)
    for row, (dish, line) in zip(rows, written, strict=True):
        assert row["item"] == line.item
        if line.quantity is not None and not line.quantity.to_taste and not line.per_kg_of:
            assert float(row["written amount"]) == pytest.approx(float(line.quantity.amount), abs=1e-6)
            assert row["written unit"] == line.quantity.unit
        assert dish.name == row["dish"]


@pytest.mark.parametrize("name", ["harvest", "hall"])
def test_every_item_stands_on_the_order(name: str) -> None:
    plan, timetable, _sheet = of(name)
    rows = read_csv(as_csv(named(name, "order")))
    assert {key_of(row["item"]) for row in rows} == {
        key_of(line.item) for line in order_lines(plan, first_starts(timetable))
    }
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\d", row["buy on"]) for row in rows if row["buy on"])


def test_the_archive_holds_every_table() -> None:
    tables = tables_of(*of("harvest"))
    content = as_zip(tables)
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == [f"{name}.csv" for name in NAMES]
        assert all(archive.read(f"{each.name}.csv") == as_csv(each) for each in tables)
    assert as_zip(tables) == content


@pytest.mark.parametrize("name", ["harvest", "hall", "back in London"])
def test_every_step_begins_once_at_its_time_in_both_formats(name: str) -> None:
    plan, timetable, _sheet = of(name)
    wanted = Counter(
        (each.step, each.load, f"{on_the_wall(plan, each.start):%Y-%m-%d %H:%M}") for each in timetable.placed
    )
    assert {step for step, _, _ in wanted} == set(plan.steps)
    begins = {act.value for act in BEGINS}
    rows = read_csv(as_csv(named(name, "times")))
    told = Counter(
        (row["step"], int(row["load"]) - 1, row["from"]) for row in rows if row["act"] in begins and row["step"]
    )
    assert told == wanted
    sheet = load_workbook(io.BytesIO(as_spreadsheet((named(name, "times"),))))["times"]
    head, *cells = sheet.iter_rows(values_only=True)
    at = {str(column): number for number, column in enumerate(head)}
    told = Counter(
        (row[at["step"]], int(row[at["load"]]) - 1, f"{on_the_minute(row[at['from']]):%Y-%m-%d %H:%M}")
        for row in cells
        if row[at["act"]] in begins and row[at["step"]]
    )
    assert told == wanted


def on_the_minute(at: object) -> datetime:
    """Return a time read back from a part of a day in binary, to the minute that it is nearest to."""
    assert isinstance(at, datetime)
    return (at + timedelta(seconds=30)).replace(second=0, microsecond=0)


@pytest.mark.parametrize("name", ["harvest", "hall", "back in London"])
def test_a_spreadsheet_reader_finds_every_cell(name: str) -> None:
    tables = tables_of(*of(name))
    book = load_workbook(io.BytesIO(as_spreadsheet(tables)))
    assert book.sheetnames == list(NAMES)
    for table in tables:
        sheet = book[table.name]
        assert sheet.freeze_panes == "A2"
        assert [cell.value for cell in sheet[1]] == [column.name for column in table.columns]
        assert sheet.max_row == len(table.rows) + 1
        for row, cells in zip(table.rows, sheet.iter_rows(min_row=2, max_col=len(table.columns)), strict=True):
            for wanted, found in zip(row, cells, strict=True):
                assert same(wanted, found.value), (table.name, found.coordinate, wanted, found.value)


def same(wanted: Cell, found: object) -> bool:
    if wanted is None or wanted == "":
        return found is None
    if isinstance(wanted, datetime):
        # a time is a part of a day in binary: half a second does for whole minutes
        return isinstance(found, datetime) and abs(found - wanted) < timedelta(seconds=0.5)
    if isinstance(wanted, date):
        return found == datetime(wanted.year, wanted.month, wanted.day)
    if isinstance(wanted, Fraction):
        return isinstance(found, (int, float)) and abs(found - float(wanted)) < 1e-6
    return found == wanted and type(found) is type(wanted)


def test_the_same_tables_give_the_same_spreadsheet() -> None:
    tables = tables_of(*of("hall"))
    assert as_spreadsheet(tables) == as_spreadsheet(tables)


def test_a_row_of_another_length_is_refused() -> None:
    with pytest.raises(ValueError, match="2 cells for 1 columns"):
        Table("t", (Column("a"),), (("x", "y"),))


FORMULAS = ("=1", "+1", "-1", "@x", "\t=1", "\r=1", "\n=1", "  =1", "\u00a0=1")
WIDE_AND_SMALL = ("＝1", "＋1", "－1", "＠x", "﹦1", "﹢1", "﹣1", "﹫x")


@pytest.mark.parametrize("text", [*FORMULAS, *WIDE_AND_SMALL])
def test_what_could_be_a_formula_is_a_text_that_can_be_read(text: str) -> None:
    # CWE-1236; OWASP ASVS 5.0, 1.2.10
    assert is_formula(text)
    table = Table("t", (Column("a"),), ((text,),))
    assert rows_of(as_csv(table))[1][0] == f"'{text}"
    cell = load_workbook(io.BytesIO(as_spreadsheet((table,))))["t"]["A2"]
    assert cell.value == text.replace("\r", "\n")  # XML 1.0, 2.11: a reader makes a line's end one sign
    assert (cell.data_type, cell.quotePrefix) == ("s", True)


@pytest.mark.parametrize("text", ["1", "stew", "T-1:02", "'=1", "a=1", "(=1)"])
def test_what_is_none_stays_as_it_is(text: str) -> None:
    assert rows_of(as_csv(Table("t", (Column("a"),), ((text,),))))[1][0] == text


def test_numbers_stand_bare() -> None:
    table = Table("t", (Column("a"), Column("b")), ((-62, Fraction(-1, 3)),))
    assert rows_of(as_csv(table))[1] == ["-62", "-0.333333"]


@pytest.mark.parametrize("kind", WORDS)
def test_hostile_words_are_texts_in_both_formats(kind: str) -> None:
    plan = hostile_plan(WORDS[kind])
    timetable = on_paper(plan)
    tables = tables_of(plan, timetable, run_sheet(plan, timetable))
    book = load_workbook(io.BytesIO(as_spreadsheet(tables)))
    for table in tables:
        rows = rows_of(as_csv(table))
        assert {len(row) for row in rows} == {len(table.columns)}
        for row, cells, wanted in zip(rows[1:], book[table.name].iter_rows(min_row=2), table.rows, strict=True):
            for text, cell, value in zip(row, cells, wanted, strict=False):
                if not isinstance(value, str):
                    continue
                assert not is_formula(text)
                assert text.removeprefix("'") == value.removeprefix("'")
                assert cell.data_type in {"s", "inlineStr", "n"}, (cell.coordinate, cell.data_type)
                assert cell.data_type != "n" or value == ""
                assert str(cell.value or "") == stored(value)
                assert cell.quotePrefix == is_formula(value)


def stored(text: str) -> str:
    """Return a text as the file holds it: an escape of its own is escaped (22.9.2.19); this reader leaves it."""
    for code in ("x0041_", "x000D_"):
        text = text.replace(f"_{code}", f"_x005F_{code}")
    return text.replace("\ufffe", "\ufffd")


def test_the_parts_of_a_spreadsheet_are_sound_xml() -> None:
    plan = hostile_plan(HOSTILE["turning"] + HOSTILE["markup"] + HOSTILE["escapes"])
    timetable = on_paper(plan)
    content = as_spreadsheet(tables_of(plan, timetable, run_sheet(plan, timetable)))
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert archive.namelist()[0] == "[Content_Types].xml"
        for name in archive.namelist():
            root = ElementTree.fromstring(archive.read(name))  # noqa: S314  our own text
            assert not [each for each in root.iter() if each.tag.endswith("}f")], "a formula"


def test_utc_is_told_where_a_clock_shows_a_time_twice() -> None:
    rows = read_csv(as_csv(named("back in London", "times")))
    twice = [row for row in rows if row["from"].endswith("01:20")]
    assert [row["UTC offset"] for row in twice] == ["UTC+01:00", "UTC+00:00"]
    instants = [datetime.fromisoformat(row["from"] + row["UTC offset"][3:]).astimezone(UTC) for row in twice]
    assert instants[1] - instants[0] == timedelta(hours=1)
