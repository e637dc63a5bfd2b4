"""The sheet as PDF, read back with another program (pypdf): words, times, days, fonts, paper."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from pypdf import PdfReader

from core.plan import meaning
from core.plan.plan import Plan
from core.plan.step import Attention, Doneness, Touch, VesselUse
from core.sheets import Act, Line, run_sheet
from core.sheets import as_pdf as printed_anew
from core.sheets.words import plain
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.sheets.feasts import HARVEST, WEEKNIGHT, counted_back, harvest
from tests.core.sheets.reading import day_of, on_the_wall, pages, spans, squeezed, text_of_days
from tests.core.sheets.test_every_load import a_night_of_clock_change
from tests.support.builders import (
    a_cook,
    a_dish,
    a_kitchen,
    a_plan,
    a_step,
    a_vessel,
    an_oven,
    at_oven,
    chained,
)
from tests.support.strategies import plans

MILLIMETRES = 72 / 25.4
as_pdf = cache(printed_anew)
"""Sheets are values: what many tests read is printed once."""
FEASTS = {
    "harvest by hand": harvest,
    "harvest on paper": lambda: counted_back(HARVEST),
    "weeknight": lambda: counted_back(WEEKNIGHT),
    "clock change": a_night_of_clock_change,
}


def require_read_back(plan: Plan, timetable: Timetable, pdf: bytes) -> None:
    """Find every load beside its clock time on a page of its own day: a row broken over pages is not found."""
    days = {day: squeezed(text) for day, text in text_of_days(pdf).items()}
    for placed in timetable.placed:
        step, at = plan.steps[placed.step], on_the_wall(plan, placed.start)
        count = meaning.load_count(plan.dish_of[step.id], step)
        load = f"(load {placed.load + 1} of {count})" if count > 1 else ""
        words = re.escape(squeezed(plain(step.does) + load))
        row = rf"{at.hour:02}:{at.minute:02}([A-Z]{{3}})?T[^A-Z]*?(IN|ON|START)?{words}"
        assert re.search(row, days[day_of(at)]), (f"{at:%a %H:%M}", step.does, load)


@pytest.mark.parametrize("name", FEASTS)
def test_every_step_is_read_back_at_its_time_on_its_day(name: str) -> None:
    plan, timetable = FEASTS[name]()
    require_read_back(plan, timetable, as_pdf(run_sheet(plan, timetable)))


def test_the_reading_back_sees_a_wrong_minute() -> None:
    plan, timetable = harvest()
    pdf = as_pdf(run_sheet(plan, timetable))
    first = timetable.placed[20]
    moved = replace(timetable, placed=(replace(first, start=first.start + 1),))
    with pytest.raises(AssertionError):
        require_read_back(plan, moved, pdf)


def test_every_row_is_whole_on_its_page() -> None:
    """Time, act, words, dish, facts and who follow each other on one page, whatever the row's height."""
    plan, timetable = harvest()
    sheet = run_sheet(plan, timetable)
    found = [squeezed(page) for page in pages(as_pdf(sheet, paper="us-letter"))]
    rows = 0
    for day in sheet.days:
        told: set[str] = set()
        for line in (line for line in day.lines if line.act is not Act.SERVE):
            row = row_of(line, again=line.dish in told)
            assert any(re.search(row, page) for page in found), line
            told.add(line.dish)
            rows += 1
    assert rows > 100


def row_of(line: Line, *, again: bool) -> str:
    """Return a line as a pattern; a dish that was named on this day already has its code and the head of its name."""
    act = "" if line.act in {Act.DO, Act.TOUCH, Act.LIGHT, Act.WASH} else line.act.value
    finish = line.act in {Act.OUT, Act.OFF, Act.READY}
    name = squeezed(line.code + line.dish)
    head = re.escape(squeezed(line.code + line.dish.partition(",")[0])[:22]) + "[^·]*" if again else re.escape(name)
    facts = [re.escape(squeezed(each)) for each in line.details]
    lead = [] if finish or not line.dish else [head]
    code = line.code if finish and line.dish else ""
    probe = "" if line.core is None else f"core {line.core} °C, read: °C"
    begin, end = squeezed(line.clock + line.tminus + act + code + line.does), squeezed(probe + line.who)
    return re.escape(begin) + "·".join([*lead, *facts]) + re.escape(end)


@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 210, 297), ("us-letter", 215.9, 279.4)])
def test_both_papers(paper: str, width: float, height: float) -> None:
    plan, timetable = harvest()
    pdf = as_pdf(run_sheet(plan, timetable), paper=paper)
    for page in PdfReader(io.BytesIO(pdf), strict=True).pages:
        assert float(page.mediabox.width) == pytest.approx(width * MILLIMETRES, abs=0.5)
        assert float(page.mediabox.height) == pytest.approx(height * MILLIMETRES, abs=0.5)
    require_read_back(plan, timetable, pdf)


def test_every_page_says_whose_it_is() -> None:
    plan, timetable = harvest()
    found = pages(as_pdf(run_sheet(plan, timetable), printed="made 25 Sep 2026, 14:02"))
    assert len(found) > 8
    for number, page in enumerate(found, 1):
        assert page.startswith("Harvest supper")
        assert "serving time Saturday 26 September 2026, 19:30" in page
        assert page.endswith(f"made 25 Sep 2026, 14:02 page {number} of {len(found)}")
    assert all("what to do who real time" in page for page in found[:-1]), "the head of the table is repeated"


def test_each_day_begins_a_page() -> None:
    plan, timetable = harvest()
    sheet = run_sheet(plan, timetable)
    assert len(sheet.days) == 6
    found = pages(as_pdf(sheet))
    for day in sheet.days:
        (first,) = [page for page in found if f"{day.title} {day.about}" in page]
        others = [each.title for each in sheet.days if each is not day]
        assert not any(re.search(rf"{other}(?! \d{{4}})", first) for other in others)


def test_it_is_tagged_and_named() -> None:
    plan, timetable = harvest()
    reader = PdfReader(io.BytesIO(as_pdf(run_sheet(plan, timetable))))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert root["/Lang"] == "en"
    assert reader.metadata.title == "Harvest supper"
    assert [str(each.title)[:18] for each in reader.outline[1]][:2] == [
        "Monday 21 Septembe",
        "Tuesday 22 Septemb",
    ]


def fonts_of(pdf: bytes) -> set[str]:
    return {
        str(font.get_object()["/BaseFont"]).partition("+")[2]
        for page in PdfReader(io.BytesIO(pdf)).pages
        for font in page["/Resources"]["/Font"].values()
    }


@pytest.mark.parametrize("name", FEASTS)
def test_only_the_shipped_fonts_are_needed(name: str) -> None:
    """So nothing on these sheets is a sign that they lack."""
    assert fonts_of(as_pdf(run_sheet(*FEASTS[name]()))) == {"NotoSans-Regular", "NotoSans-Bold"}


def sizes_of(pdf: bytes) -> list[tuple[str, float]]:
    """Return each piece of text with its size in points."""
    found: list[tuple[str, float]] = []

    def see(text: str, _cm: object, _tm: object, _font: object, size: float) -> None:
        if text.strip():
            found.append((text.strip(), size))

    for page in PdfReader(io.BytesIO(pdf), strict=True).pages:
        page.extract_text(visitor_text=see)
    return found


def test_a_cook_can_read_it_standing() -> None:
    """Times 14 pt or more, what is to be done 12 pt or more, nothing below 8 pt."""
    plan, timetable = counted_back(WEEKNIGHT)
    sizes = sizes_of(as_pdf(run_sheet(plan, timetable, ())))
    lines = [line for day in run_sheet(plan, timetable, ()).days for line in day.lines]
    times = {text: size for text, size in sizes if size >= 14}
    assert {line.clock for line in lines} <= set(times)
    for line in lines:
        if line.begins:
            begun = [size for text, size in sizes if text and line.does.startswith(text) and len(text) > 6]
            assert max(begun) >= 12, line.does
    assert min(size for _text, size in sizes) >= 8


def test_serving_stands_out() -> None:
    plan, timetable = harvest()
    sheet = run_sheet(plan, timetable)
    sizes = sizes_of(as_pdf(sheet))
    served = [line for day in sheet.days for line in day.lines if line.act is Act.SERVE]
    bands = [text for text, size in sizes if size == 20]
    assert bands.count("SERVE") == len(served) == 4
    assert {line.clock for line in served} <= set(bands)


def test_the_same_sheet_gives_the_same_bytes() -> None:
    sheet = run_sheet(*counted_back(WEEKNIGHT))
    assert printed_anew(sheet) == printed_anew(sheet)


def test_an_empty_timetable_says_so() -> None:
    plan, _timetable = harvest()
    (page,) = pages(as_pdf(run_sheet(plan, Timetable())))
    assert "Nothing is placed yet" in page
    assert "Cautions" in page


def test_clashes_stand_on_the_first_page_and_every_foot() -> None:
    plan, timetable = counted_back(HARVEST)
    sheet = run_sheet(plan, timetable)
    found = pages(as_pdf(sheet))
    assert len(sheet.clashes) > 8
    assert f"Not everything meets yet: {len(sheet.clashes)} clashes" in found[0]
    assert sheet.clashes[0] in found[0]
    assert f"and {len(sheet.clashes) - 8} more" in found[0]
    assert all("Not everything meets: see the first page." in page for page in found)


def test_cautions_close_the_sheet() -> None:
    plan, timetable = harvest()
    last = squeezed(pages(as_pdf(run_sheet(plan, timetable)))[-1])
    for caution in run_sheet(plan, timetable).cautions:
        assert squeezed(caution) in last


# ---- names as nobody should write them

HOSTILE = {
    "markup": "#strong[x] $x$ *b* _i_ `raw` <label> @ref [y] {z} ~ \\",
    "heading": "= Heading == two",
    "list": "- list + 1. item / term: x",
    "code": '#panic("no") #import "@preview/x:1.0.0" // end /* end',
    "quotes": "“quoted” \"straight\" 'single' ‘curly’ ''",
    "sentence": ("An extraordinarily long name for a dish that goes on and on, " * 5)[:300].strip(),
    "one word": "A" * 300,
    "wide word": "W" * 300,
    "address": "https://example.org/" + "x" * 280,
    "many": " ".join(["Seventeen"] * 400),
}


def a_hostile_plan(words: str) -> Plan:
    """Return a plan in which everything bears these words."""
    cut = a_step("dish.cut", words, 10, note=words)
    bake = a_step(
        "dish.bake",
        words,
        (20, 30, 40),
        attention=Attention.TENDED,
        uses=(at_oven(),),
        touches=(Touch(5, 2, words),),
        vessels=(VesselUse("pot"),),
        doneness=Doneness(words, 70, 3),
        note=words,
    )
    dish = a_dish("dish", cut, bake, name=words, code=words, plating=words, allergens=(words,), note=words)
    kitchen = a_kitchen(
        oven=an_oven(name=words),
        cooks=(a_cook("ann", name=words),),
        vessels=(a_vessel("pot", name=words, size=words),),
    )
    return a_plan(dish, links=chained(cut, bake, most=30), kitchen=kitchen, name=words)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_words_come_out_as_words(name: str) -> None:
    words = HOSTILE[name]
    plan = a_hostile_plan(words)
    timetable = on_paper(plan)
    pdf = as_pdf(run_sheet(plan, timetable, ()))
    whole = squeezed(" ".join(pages(pdf)))
    if len(words) > 1000:  # so long a text runs over several pages, with their heads in between
        assert whole.count("Seventeen") >= 6 * 400
    else:
        assert whole.count(squeezed(words)) >= 6, "title, two steps, two notes, dish at serving"
    assert fonts_of(pdf) == {"NotoSans-Regular", "NotoSans-Bold"}
    if len(words) < 1000:
        require_read_back(plan, timetable, pdf)


@pytest.mark.parametrize("name", HOSTILE)
def test_no_word_leaves_its_column(name: str) -> None:
    """All text ends inside the margins of 11 mm, and on the days' lines what is to be done ends before who does it."""
    plan = a_hostile_plan(HOSTILE[name])
    checked = 0
    sheet = replace(run_sheet(plan, on_paper(plan), ()), alone=False)  # with the column of cooks
    for page in PdfReader(io.BytesIO(as_pdf(sheet))).pages:
        wide, margin = float(page.mediabox.width), 11 * MILLIMETRES
        # the head of the page is cut off at its box
        found = [span for span in spans(page) if span.size != 9.5 or span.foot < 780]
        hanging = 6  # a space at the end of a row
        assert all(span.left >= margin - 0.1 and span.right <= wide - margin + hanging for span in found)
        small = [span for span in found if span.size == 9]
        heads = [[one for one in small if one.foot == foot] for foot in dict.fromkeys(span.foot for span in small)]
        labels = next((sorted(row) for row in heads if len(row) in {4, 5}), None)
        if labels is None:  # the table ended on the page before
            continue
        what, who, foot = labels[1].left, labels[2].left, labels[0].foot
        band = max((span.foot for span in found if span.size == 20 and span.foot < foot), default=0.0)
        for span in found:
            if band < span.foot < foot and what <= span.left < who and span.size not in {8.5, 9}:
                assert span.right <= who - 2.6 * MILLIMETRES + hanging
                checked += 1
    assert checked > 8


@pytest.mark.parametrize(
    "words",
    ["مرحبا بالعالم", "日本語の料理", "🍲 ▸ ☐ ├──", "evil\u202e\u0000\ud800\ttab", "\ue000\U0010ffff"],
)
def test_signs_that_the_fonts_lack_do_no_harm(words: str) -> None:
    plan = a_hostile_plan(f"Stew {words} done")
    found = squeezed(" ".join(pages(as_pdf(run_sheet(plan, on_paper(plan), ())))))
    assert found.count("Stew") >= 6
    assert "\u202e" not in found


@settings(max_examples=25)
@given(plans())
def test_any_plan_can_be_printed(plan: Plan) -> None:
    sheet = run_sheet(plan, on_paper(plan))
    assert len(pages(as_pdf(sheet))) >= max(1, len(sheet.days))


def test_days_follow_each_other() -> None:
    plan, timetable = harvest()
    clocks = [line.at for day in run_sheet(plan, timetable).days for line in day.lines]
    assert all(one <= other for one, other in pairwise(clocks))
