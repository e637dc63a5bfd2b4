"""Pages of every kind: heads that repeat, rows that stay whole, words inside the margins, fonts, page x of y."""

from __future__ import annotations

import re
import subprocess

import pytest

from core.sheets.kinds import TITLES, SheetKind
from core.sheets.printing import sheet_pdf
from core.timetable.timetable import Timetable
from tests.core.sheets.feasts import FEASTS, PAGES, WEEKNIGHT, counted_back, harvest, printed
from tests.core.sheets.paper_rows import CLOCK, FRIDGE_HEADS, STATION_HEADS, TEMPERATURE_HEADS, table_text
from tests.core.sheets.reading import Word, pages, words

POINTS = 72 / 25.4
PAPERS = ["A4", "A4 across", "Letter", "Letter across"]
LONG = {SheetKind.RUN, SheetKind.PREP}
PRINTED = [(kind, page) for kind in SheetKind for page in (PAPERS[::3] if kind in LONG else PAPERS)]
"""Each kind on both papers, upright and across; the longest on one of the papers each way, to save time."""
SIZES = {"A4": (210, 297), "A4 across": (297, 210), "Letter": (215.9, 279.4), "Letter across": (279.4, 215.9)}
HEADS = {
    SheetKind.RUN: r"time what to do(?: who)? real time(?: heat)?",
    SheetKind.PREP: r"start item, in the order of work needed on hand in, at(?: who)?",
    SheetKind.STATION: STATION_HEADS,
    SheetKind.ORDER: r"buy needed on hand for, by|in the house already",
    SheetKind.PULL: r"pull what from most at once for|tin or pan for|dish at how it comes to the table",
    SheetKind.FRIDGE: FRIDGE_HEADS,
    SheetKind.TEMPERATURES: TEMPERATURE_HEADS,
    SheetKind.PLATING: r"to go time what to do mind(?: who)?|out dish from how it goes out allergens, not for",
}
BEGINS = {
    SheetKind.RUN: rf"{CLOCK} (?:T|SERVE)|[A-Z]\d? (?=.{{3,50}}(?:portions|allergens|noted))",  # or a dish served
    SheetKind.PREP: rf"{CLOCK} T|[A-Z]\d? [^·]{{3,200}}? {CLOCK} T",  # the band of its dish is repeated
    SheetKind.STATION: rf"{CLOCK} ",
    SheetKind.ORDER: r"[A-Z][a-z]+(?: [a-z]+)? [\d.]+ |[a-z ]+(?:, [\d.]+(?: \w+)?)?: ",
    SheetKind.PULL: r"\d+ of \d+ |[A-Z]",
    SheetKind.FRIDGE: rf"{CLOCK} ",
    SheetKind.TEMPERATURES: rf"first |{CLOCK} ",
    SheetKind.PLATING: rf"(?:now|\d+ min) {CLOCK} |{CLOCK} ",
}
ROWS = {
    SheetKind.RUN: rf"{CLOCK} (?:T|SERVE)",
    SheetKind.PULL: r"\d+ of \d+ ",
    SheetKind.ORDER: r"by (?:Fri|Sat) \d\d:",
}


@pytest.mark.parametrize(("kind", "paper"), [each for each in PRINTED if each[0] in HEADS])
def test_heads_repeat_and_rows_begin_below_them(kind: SheetKind, paper: str) -> None:
    """On every page of a table its column heads stand, and below them a row begins: none goes on from before."""
    tables = 0
    for number, page in enumerate(pages(printed(kind, "hall", paper)), 1):
        text = table_text(page)
        found = list(re.finditer(rf"(?:^| )(?:{HEADS[kind]})(?= |$)", text))
        if not found:  # cautions alone, or a day on which nothing goes in
            drawn = "Nothing goes in on this day" in text
            assert drawn or not re.search(ROWS.get(kind, BEGINS[kind]), text), (number, text[:200])
            continue
        for each in found:
            tables += 1
            assert re.match(BEGINS[kind], text[each.end() :].lstrip()), (number, text[each.end() :][:120])
    assert tables > 1


@pytest.mark.parametrize(("kind", "paper"), PRINTED)
def test_page_x_of_y_and_nothing_beyond_the_margins(kind: SheetKind, paper: str) -> None:
    """Words stay 10 mm and more from the edges; none stands on the foot, none on another one."""
    pdf = printed(kind, "hall", paper)
    found, (wide, high) = pages(pdf), SIZES[paper]
    boxes = words(pdf)
    assert len(found) == len(boxes)
    for number, (text, page) in enumerate(zip(found, boxes, strict=True), 1):
        if kind is not SheetKind.MENU:
            assert text.startswith("Midsummer celebration for sixty")
            assert kind is SheetKind.RUN or TITLES[kind] in text
            assert "serving time Saturday 26 June 2027, 18:00" in text
            assert text.endswith(f"page {number} of {len(found)}")
        for word in page:
            assert word.left > 10 * POINTS - 1, word
            assert word.right < (wide - 10) * POINTS + 1, word
            assert word.top > 5 * POINTS, word
            assert word.bottom < (high - 3) * POINTS, word
        require_clear_foot(kind, page, high)


def require_clear_foot(kind: SheetKind, page: list[Word], high: float) -> None:
    """The foot's line is below all other words: a row that runs over would stand on it."""
    if kind is SheetKind.MENU:
        return
    foot = [word for word in page if word.text == "page"][-1]
    assert foot.bottom > (high - 14) * POINTS
    low = [word for word in page if word.bottom > foot.top + 2 and abs(word.top - foot.top) > 2]
    assert not low, low
    beside = [word for word in page if abs(word.top - foot.top) <= 2 and word.right < foot.left]
    assert all(word.text in {"made", "25", "Sep", "2026,", "14:02"} for word in beside), beside


@pytest.mark.parametrize("kind", SheetKind)
def test_fonts_are_embedded(kind: SheetKind) -> None:
    """pdffonts: every font is in the file, cut to the signs used, and maps back to Unicode."""
    assert fonts_of(printed(kind, "hall"))


def fonts_of(pdf: bytes) -> list[str]:
    """Return the names of the fonts of a PDF, each found embedded, cut to its signs, with a way back to Unicode."""
    made = subprocess.run(["pdffonts", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    found = [re.match(r"(\S+) +CID TrueType +\S+ +(\w+) +(\w+) +(\w+) ", line) for line in made.splitlines()[2:]]
    assert found
    assert all(each is not None and each.groups()[1:] == ("yes", "yes", "yes") for each in found), made
    return [each[1] for each in found if each is not None]


# ---- what is said where there is nothing, or where it does not meet


@pytest.mark.parametrize("kind", SheetKind)
def test_nothing_placed_is_said(kind: SheetKind) -> None:
    plan, _timetable = harvest()
    whole = " ".join(pages(sheet_pdf(kind, plan, Timetable(), ())))
    assert "Harvest supper" in whole
    timeless = kind in {SheetKind.ORDER, SheetKind.MENU, SheetKind.PULL}
    assert timeless or re.search(r"[Nn]othing|no step|No step|No dish", whole), whole[:300]


@pytest.mark.parametrize("kind", SheetKind)
def test_the_same_sheet_gives_the_same_bytes(kind: SheetKind) -> None:
    plan, timetable = FEASTS["weeknight"]()
    assert sheet_pdf(kind, plan, timetable, (), page=PAGES["A4"]) == printed(kind, "weeknight")


@pytest.mark.parametrize("kind", SheetKind)
def test_clashes_are_counted_on_every_kind_that_has_times(kind: SheetKind) -> None:
    plan, timetable = counted_back(WEEKNIGHT)
    first = pages(sheet_pdf(kind, plan, timetable))[0]
    timeless = kind in {SheetKind.ORDER, SheetKind.MENU}
    assert ("Not everything meets yet: 8 clashes" in first) == (not timeless)
    assert ("The run sheet names them." in first) == (not timeless and kind is not SheetKind.RUN)
