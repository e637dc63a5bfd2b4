"""Several sheets as one document, read back with other programs (poppler, pypdf): pages, papers, bookmarks, bytes."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from pypdf import PdfReader

from core.measures.refusal import Refusal
from core.safety import chosen_rules
from core.sheets.bundle import Wanted, sheets_pdf
from core.sheets.kinds import TITLES, SheetKind
from core.sheets.page import Page
from core.sheets.printing import sheet_pdf
from core.sheets.whose import whose
from tests.core.sheets.feasts import FEASTS, PAGES, WEEKNIGHT, counted_back, harvest, printed
from tests.core.sheets.reading import on_the_wall, pages, squeezed

PAPERS = {SheetKind.FRIDGE: "A4 across", SheetKind.ORDER: "A4 dense", SheetKind.MENU: "Letter across"}
ALL = [Wanted(kind, PAGES[PAPERS.get(kind, "A4")]) for kind in SheetKind]


def marks(pdf: bytes) -> list[tuple[str, int, list[tuple[str, int]]]]:
    """Return each bookmark of the first level with its page, and those below it."""
    reader = PdfReader(io.BytesIO(pdf))
    found: list[tuple[str, int, list[tuple[str, int]]]] = []

    def page(mark: Any) -> int:
        return reader.get_destination_page_number(mark) + 1

    for each in reader.outline:
        if isinstance(each, list):
            found[-1][2].extend((str(one.title), page(one)) for one in each)
        else:
            found.append((str(each.title), page(each), []))
    return found


@cache
def bundled(name: str) -> bytes:
    """Return all kinds of a feast as one document, made once."""
    return sheets_pdf(ALL, *FEASTS[name](), ())


def alone(name: str, each: Wanted) -> list[str]:
    """Return the pages of one of them, made by itself."""
    return pages(printed(each.kind, name, PAPERS.get(each.kind, "A4")))


BUNDLED = ["weeknight", "Berlin, autumn"]


@pytest.mark.parametrize("name", BUNDLED)
def test_all_kinds_in_one_document_are_what_each_is_alone(name: str) -> None:
    assert pages(bundled(name)) == [page for each in ALL for page in alone(name, each)]


@pytest.mark.parametrize("name", BUNDLED)
def test_each_sheet_counts_its_own_pages_and_has_its_own_paper(name: str) -> None:
    pdf = bundled(name)
    told = [re.findall(r"page (\d+) of (\d+)$", page) for page in pages(pdf)]
    counts = [len(alone(name, each)) for each in ALL]
    wanted = [
        [] if each.kind is SheetKind.MENU else [(str(number), str(count))]
        for each, count in zip(ALL, counts, strict=True)
        for number in range(1, count + 1)
    ]
    assert told == wanted
    sizes = [
        (round(float(page.mediabox.width)), round(float(page.mediabox.height)))
        for page in PdfReader(io.BytesIO(pdf)).pages
    ]
    papers = {
        ("a4", False): (595, 842),
        ("a4", True): (842, 595),
        ("us-letter", False): (612, 792),
        ("us-letter", True): (792, 612),
    }
    assert sizes == [
        papers[each.page.paper, each.page.landscape]
        for each, count in zip(ALL, counts, strict=True)
        for _ in range(count)
    ]


@pytest.mark.parametrize("name", BUNDLED)
def test_a_bookmark_for_each_sheet_and_below_it_its_days_or_places(name: str) -> None:
    """Each leads to the page on which its words stand, in the order of the pages."""
    plan, timetable = FEASTS[name]()
    pdf, counts = bundled(name), [len(alone(name, each)) for each in ALL]
    begins = [1 + sum(counts[:number]) for number in range(len(counts))]
    found, text = marks(pdf), [squeezed(page) for page in pages(pdf)]
    assert [(title.partition(":")[0], page) for title, page, _below in found] == [
        (TITLES[each.kind], begin) for each, begin in zip(ALL, begins, strict=True)
    ]
    for (_title, begin, below), count in zip(found, counts, strict=True):
        assert [page for _words, page in below] == sorted(page for _words, page in below)
        for words, page in below:
            assert begin <= page < begin + count
            assert squeezed(words.partition(" D-")[0]) in text[page - 1], words
    below = {title.partition(":")[0]: inside for title, _page, inside in found}
    days = sorted({on_the_wall(plan, each.start).date() for each in timetable.placed})
    told = [re.match(r"\w+ \d+ \w+", title) for title, _page in below["Run sheet"]]
    assert [each[0] for each in told if each] == [f"{day:%A %-d %B}" for day in days]
    places = {title.partition(",")[0] for title, _page in below["Station sheet"]}
    assert places == ({"Oven", "Burners"} if name == "weeknight" else {"Big oven", "Coal grill", "Burners"})
    assert [title for title, _page in below["Menu card"] + below["Labels"]] == []


def test_it_is_tagged_and_bears_the_plans_name() -> None:
    reader = PdfReader(io.BytesIO(bundled("Berlin, autumn")))
    root = reader.trailer["/Root"]
    assert reader.metadata is not None
    assert reader.metadata.title == "Night of the clocks"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert b"pdfuaid" in root["/Metadata"].get_object().get_data()


def test_the_same_wish_gives_the_same_bytes_and_one_alone_is_the_sheet_itself() -> None:
    plan, timetable = harvest()
    assert sheets_pdf(ALL, *FEASTS["weeknight"](), ()) == bundled("weeknight")
    one = Wanted(SheetKind.PREP, Page(dense=True))
    assert sheets_pdf([one], plan, timetable, ()) == sheet_pdf(
        SheetKind.PREP, plan, timetable, (), page=one.page
    )


def test_copies_of_one_kind_stand_one_after_the_other() -> None:
    plan, timetable = harvest()
    copies = [whose(plan, name) for name in ("able helper", "Oven")]
    found = marks(sheets_pdf([Wanted(SheetKind.PREP, of=each) for each in copies], plan, timetable, ()))
    assert [title for title, _page, _below in found] == [
        "Prep list for Able helper: Harvest supper",
        "Prep list for Oven: Harvest supper",
    ]


def test_what_is_not_given_is_found_as_for_one() -> None:
    """The timetable counted back on paper clashes."""
    plan, timetable = counted_back(WEEKNIGHT)
    found = pages(
        sheets_pdf([Wanted(SheetKind.ORDER), Wanted(SheetKind.PULL), Wanted(SheetKind.RUN)], plan, timetable)
    )
    alone = [
        page
        for kind in (SheetKind.ORDER, SheetKind.PULL, SheetKind.RUN)
        for page in pages(sheet_pdf(kind, plan, timetable))
    ]
    assert found == alone
    assert any("Not everything meets yet: 8 clashes" in page for page in found)
    assert not any(
        "Not everything meets" in page
        for page in pages(sheets_pdf([Wanted(SheetKind.ORDER)], plan, timetable))
    )


def test_cautions_given_stand_only_where_food_limits_are_told() -> None:
    plan, timetable = harvest()
    wish = [Wanted(SheetKind.ORDER), Wanted(SheetKind.PULL), Wanted(SheetKind.TEMPERATURES)]
    found = pages(sheets_pdf(wish, plan, timetable, (), found=("Watch the marzipan.",)))
    assert sum("Watch the marzipan." in page for page in found) == 1
    assert "Watch the marzipan." in found[-1]


def test_words_that_the_fonts_lack_are_printed_all_the_same() -> None:
    plan, timetable = FEASTS["weeknight"]()
    reader = PdfReader(io.BytesIO(sheets_pdf(ALL[:3], replace(plan, name="Feast 🍲"), timetable, ())))
    assert reader.metadata is not None
    assert "🍲" in reader.metadata.title
    assert b"pdfuaid" not in reader.trailer["/Root"]["/Metadata"].get_object().get_data()


def test_no_sheet_is_refused_with_what_to_do() -> None:
    plan, timetable = harvest()
    with pytest.raises(Refusal, match="Choose at least one"):
        sheets_pdf([], plan, timetable)


def test_a_set_of_rules_that_is_not_shipped_is_used_where_it_is_given() -> None:
    """A set of somebody's own bears any name; the plan's own choice gives way to it."""
    plan, timetable = FEASTS["weeknight"]()
    own = replace(chosen_rules("uk"), id="mine", name="Village hall")
    wish = [Wanted(SheetKind.TEMPERATURES), Wanted(SheetKind.RUN)]
    found = pages(sheets_pdf(wish, plan, timetable, (), found=(), rules=own))
    assert any("rows of the set “Village hall”" in page for page in found)
    assert "Food limits of the set “Village hall”: cooling to 8 °C or less (advice) within 1 h 30 min" in found[-1]
    assert not any("US home cook" in page for page in found)
