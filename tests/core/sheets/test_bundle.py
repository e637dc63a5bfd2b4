"""Several sheets as one document, read back with another program (pypdf): pages, papers, bookmarks, bytes."""

from __future__ import annotations

import io
import re
from dataclasses import replace
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
from tests.core.sheets.feasts import WEEKNIGHT, counted_back, harvest
from tests.core.sheets.reading import pages

PAPERS = {
    SheetKind.FRIDGE: Page(landscape=True),
    SheetKind.ORDER: Page("us-letter", dense=True),
    SheetKind.MENU: Page("us-letter", landscape=True),
}
ALL = [Wanted(kind, PAPERS.get(kind, Page())) for kind in SheetKind]


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


def test_all_kinds_in_one_document_are_what_each_is_alone() -> None:
    plan, timetable = harvest()
    found = pages(sheets_pdf(ALL, plan, timetable, ()))
    alone = [pages(sheet_pdf(each.kind, plan, timetable, (), page=each.page)) for each in ALL]
    assert found == [page for sheet in alone for page in sheet]


def test_each_sheet_counts_its_own_pages_and_has_its_own_paper() -> None:
    plan, timetable = harvest()
    pdf = sheets_pdf(ALL, plan, timetable, ())
    told = [re.findall(r"page (\d+) of (\d+)$", page) for page in pages(pdf)]
    counts = [len(pages(sheet_pdf(each.kind, plan, timetable, (), page=each.page))) for each in ALL]
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


def test_a_bookmark_for_each_sheet_and_below_it_its_days_or_places() -> None:
    plan, timetable = harvest()
    pdf = sheets_pdf(ALL, plan, timetable, ())
    counts = [len(pages(sheet_pdf(each.kind, plan, timetable, (), page=each.page))) for each in ALL]
    begins = [1 + sum(counts[:number]) for number in range(len(counts))]
    found = marks(pdf)
    assert [(title.partition(":")[0], page) for title, page, _below in found] == [
        (TITLES[each.kind], begin) for each, begin in zip(ALL, begins, strict=True)
    ]
    below = {title.partition(":")[0]: inside for title, _page, inside in found}
    assert [title.partition(" D-")[0] for title, _page in below["Run sheet"]][:2] == [
        "Monday 21 September",
        "Tuesday 22 September",
    ]
    assert any(title.startswith("Charcoal grill") for title, _page in below["Station sheet"])
    assert [title for title, _page in below["Menu card"] + below["Labels"]] == []


def test_it_is_tagged_and_bears_the_plans_name() -> None:
    plan, timetable = harvest()
    reader = PdfReader(io.BytesIO(sheets_pdf(ALL, plan, timetable, ())))
    root = reader.trailer["/Root"]
    assert reader.metadata is not None
    assert reader.metadata.title == "Harvest supper"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert b"pdfuaid" in root["/Metadata"].get_object().get_data()


def test_the_same_wish_gives_the_same_bytes_and_one_alone_is_the_sheet_itself() -> None:
    plan, timetable = harvest()
    assert sheets_pdf(ALL, plan, timetable, ()) == sheets_pdf(ALL, plan, timetable, ())
    one = Wanted(SheetKind.PREP, Page(dense=True))
    assert sheets_pdf([one], plan, timetable, ()) == sheet_pdf(
        SheetKind.PREP, plan, timetable, (), page=one.page
    )


def test_copies_of_one_kind_stand_one_after_the_other() -> None:
    plan, timetable = harvest()
    copies = [whose(plan, name) for name in ("able helper", "Oven")]
    found = marks(sheets_pdf([Wanted(SheetKind.RUN, of=each) for each in copies], plan, timetable, ()))
    assert [title for title, _page, _below in found] == [
        "Run sheet for Able helper: Harvest supper",
        "Run sheet for Oven: Harvest supper",
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
    plan, timetable = harvest()
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
    plan, timetable = harvest()
    own = replace(chosen_rules("uk"), id="mine", name="Village hall")
    wish = [Wanted(SheetKind.TEMPERATURES), Wanted(SheetKind.RUN)]
    found = pages(sheets_pdf(wish, plan, timetable, (), found=(), rules=own))
    assert any("rows of the set “Village hall”" in page for page in found)
    assert "Food limits of the set “Village hall”: cooling to 8 °C or less (advice) within 1 h 30 min" in found[-1]
    assert not any("US home cook" in page for page in found)
