"""How the pages look, as far as numbers tell: room for names, labels in lanes, contrast, pages taken."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from pypdf import PdfReader

from core.sheets import run_sheet
from core.sheets.cautions import cautions
from core.sheets.chart import Block, Lane, chart
from core.sheets.kinds import SheetKind
from core.sheets.labels import labels
from core.sheets.names import brief_names, who_width
from core.sheets.page import Page
from core.sheets.prep_list import prep_list
from core.sheets.printing import sheet_pdf
from core.timetable.on_paper import on_paper
from tests.core.sheets.feasts import HALL, WEEKNIGHT, counted_back, harvest, printed
from tests.core.sheets.reading import pages, squeezed, words
from tests.core.sheets.test_hostile import WORDS, a_hostile_plan
from tests.core.timetable.laid import at, laid
from tests.support.builders import a_bench, a_dish, a_fire, a_kitchen, a_plan, a_step, burners

MILLIMETRES = 72 / 25.4


# ---- names in little room


def test_a_name_is_cut_at_its_comma_where_that_tells_it_apart() -> None:
    names = ["Rack of pork, fennel crackling", "Pie, with apples", "Pie, with pears", "Ham, baked", "Ox " * 20]
    found = brief_names(names)
    assert found["Rack of pork, fennel crackling"] == "Rack of pork"
    assert found["Pie, with apples"] == "Pie, with apples", "a head of three letters says too little"
    assert found["Ham, baked"] == "Ham, baked"
    assert len(found["Ox " * 20]) <= 38
    assert found["Ox " * 20].endswith("…")
    alike = ["Torte, lemon", "Torte, plum"]
    assert brief_names(alike) == dict(zip(alike, alike, strict=True))


def test_a_column_of_cooks_is_as_wide_as_their_longest_word() -> None:
    assert who_width([]) == who_width(["Al"]) == 13
    assert who_width(["Able helper, Novice"]) == who_width(["helper"]) < who_width(["Neighbour, Al"])
    assert who_width(["W" * 40]) == 24


def test_the_whole_name_stands_first_on_a_day_and_then_its_head() -> None:
    plan, timetable = harvest()
    text = " ".join(pages(printed(SheetKind.RUN, "harvest by hand")))
    (day,) = (day for day in run_sheet(plan, timetable, ()).days if day.about.startswith("D,"))
    whole, head = "Green beans, brown butter, lemon crumbs", "10 Green beans ·"
    assert any(line.dish == whole for line in day.lines)
    assert text.index(f"10 {whole}") < text.index(head)


# ---- lanes


def test_a_block_knows_until_when_its_lanes_stay_free() -> None:
    plan = a_plan(a_dish("dish", a_step("dish.cut")))
    tall = Block(-60, -50, "tall", tall=2)
    lanes = [Lane("one", (Block(-120, -100, "first"), tall)), Lane("two", (Block(-30, -20, "last"),))]
    drawn = chart(plan, -120, 0, lanes)
    (first, both), (last,) = (lane.blocks for lane in drawn.lanes)
    assert (first.until, both.until, last.until) == (-60, -30, drawn.end)


@pytest.mark.parametrize("kind", [SheetKind.STATION, SheetKind.FRIDGE])
@pytest.mark.parametrize("page", [Page(), Page("us-letter", landscape=True, dense=True)])
def test_what_stands_in_a_lane_is_whole_or_not_there(kind: SheetKind, page: Page) -> None:
    """Nothing is cut off at its block: each label read back is one of those that a block offers."""
    plan, timetable = harvest()
    dishes = tuple(replace(dish, code=f"Q{number}") for number, dish in enumerate(plan.menu.dishes))
    plan = replace(plan, menu=replace(plan.menu, dishes=dishes))
    size = 8.5 if page.dense else 9.5
    found = sizes_of(sheet_pdf(kind, plan, timetable, (), page=page))
    lane = [text for text, one in found if one == size and re.match(r"(RAW )?Q\d", text)]
    names = {squeezed(f"{dish.code} {dish.name}") for dish in dishes}
    assert len(lane) > 8
    for text in lane:
        bare = squeezed(text.removeprefix("RAW ").removesuffix(" (waits)"))
        cut = bare.endswith("…") and any(name.startswith(bare[:-1]) for name in names)
        heads = {name.split(",")[0] for name in names}
        assert bare in {dish.code for dish in dishes} | names | heads or cut, text


def sizes_of(pdf: bytes) -> list[tuple[str, float]]:
    found: list[tuple[str, float]] = []

    def see(text: str, _cm: object, _tm: object, _font: object, size: float) -> None:
        found.extend((line.strip(), size) for line in text.split("\n") if line.strip())

    for page in PdfReader(io.BytesIO(pdf)).pages:
        page.extract_text(visitor_text=see)
    return found


# ---- prep


def test_prep_goes_by_when_it_must_start() -> None:
    """Pieces of work of a dish, each no longer than an hour from start to start, the soonest first."""
    plan, timetable = harvest()
    days = prep_list(plan, timetable)
    again = 0
    for day in days:
        assert [dish.lines[0].at for dish in day.dishes] == sorted(dish.lines[0].at for dish in day.dishes)
        for dish in day.dishes:
            assert all(0 <= other.at - one.at <= 60 for one, other in pairwise(dish.lines))
        names = [dish.dish for dish in day.dishes]
        again += len(names) - len(set(names))
    assert again > 0, "what goes on hours later comes later"
    told = [(line.step, line.load) for day in days for dish in day.dishes for line in dish.lines]
    assert len(told) == len(set(told)) > 30


# ---- one page, all of it


def test_a_menu_of_two_dozen_dishes_is_one_card() -> None:
    plan, _timetable = counted_back(HALL)
    for page in (Page(), Page("us-letter"), Page(landscape=True)):
        (card,) = pages(sheet_pdf(SheetKind.MENU, plan, None, page=page))
        assert "please ask" in card
        served = [dish for dish in plan.menu.dishes if dish.served and dish.ingredients]
        assert len(served) > 20
        assert all(squeezed(dish.name) in squeezed(card) for dish in served)


@pytest.mark.parametrize("page", [Page(), Page(landscape=True), Page("us-letter", landscape=True), Page(dense=True)])
@pytest.mark.parametrize("name", ["harvest", "300", "one word"])
def test_a_label_holds_all_that_is_on_it(name: str, page: Page) -> None:
    """Allergens stand last, and still above the line along which the label is cut."""
    plan, timetable = harvest() if name == "harvest" else _hostile(WORDS[name])
    boxes = labels(plan, timetable)
    columns, rows = (3, 4) if page.landscape else (2, 7 if page.dense else 5)
    high = {("a4", False): 297.0, ("a4", True): 210.0, ("us-letter", True): 215.9}[page.paper, page.landscape]
    tall = (high - 21 - 21.5) / rows
    whole = sheet_pdf(SheetKind.LABELS, plan, timetable, (), page=page)
    for number, sheet in enumerate(words(whole)):
        feet = [word.bottom / MILLIMETRES for word in sheet if word.text == "has" and word.height < 14]
        here = boxes[number * rows * columns : (number + 1) * rows * columns]
        ends = [21 + (at_ // columns + 1) * tall for at_, box in enumerate(here) if box.allergens]
        assert len(feet) == len(ends)
        assert all(foot < end for foot, end in zip(sorted(feet), ends, strict=True))
        told = [word for word in sheet if word.bottom < (high - 21) * MILLIMETRES]
        assert max(word.bottom for word in told) / MILLIMETRES < 21 + (len(here) - 1) // columns * tall + tall
    if name == "one word":
        assert "more than fits here: see the menu card" in " ".join(pages(whole))
    if name == "harvest":
        text = squeezed(" ".join(pages(whole)))
        assert all(squeezed(", ".join(box.allergens)) in text for box in boxes)


def _hostile(words: str) -> Any:
    plan = a_hostile_plan(words)
    return plan, on_paper(plan)


def test_what_to_do_has_most_of_the_run_sheets_width() -> None:
    """On A4 upright, of 188 mm between the margins, with four lanes of heat beside it."""
    seen = 0
    for page in words(printed(SheetKind.RUN, "harvest by hand")):
        heads = [word for word in page if word.height < 14 and word.text in {"what", "who"}]
        whats, whos = ([word for word in heads if word.text == text] for text in ("what", "who"))
        if whats and whos:
            assert (min(word.left for word in whos) - whats[0].left) / MILLIMETRES > 105
            seen += 1
    assert seen > 8


# ---- by grey alone


def grey_texts(pdf: bytes) -> set[float]:
    """Return the shades (0 black, 1 white) in which text is drawn."""
    found: set[float] = set()
    for page in PdfReader(io.BytesIO(pdf)).pages:
        shade = [0.0]

        def see(operator: bytes, operands: Any, _cm: Any, _tm: Any, shade: list[float] = shade) -> None:
            if operator in {b"g", b"scn", b"sc"} and len(operands) == 1:
                shade[0] = float(operands[0])
            assert operator not in {b"rg", b"k", b"RG", b"K"}, "colour"
            if operator in {b"Tj", b"TJ"}:
                found.add(round(shade[0], 3))

        page.extract_text(visitor_operand_before=see)
    return found


@pytest.mark.parametrize("kind", SheetKind)
def test_text_is_dark_enough_on_paper_and_white_only_on_black(kind: SheetKind) -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1; grey text also stands on bands of luma 228 of 255 and more."""
    shades = grey_texts(printed(kind, "Berlin, autumn"))
    assert shades
    for shade in shades - {1.0}:
        assert contrast(shade, 228 / 255) >= 4.5
    assert contrast(1.0, 70 / 255) >= 4.5, "white stands on blocks of luma 70 and darker"


def contrast(one: float, other: float) -> float:
    """Return the contrast of two shades of sRGB as WCAG defines it."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(shade: float) -> float:
    return shade / 12.92 if shade <= 0.04045 else ((shade + 0.055) / 1.055) ** 2.4


def test_contrast_by_known_values() -> None:
    assert contrast(0, 1) == pytest.approx(21)
    assert contrast(0x76 / 255, 1) == pytest.approx(4.54, abs=0.01)  # #767676, the lightest grey that passes on white


# ---- cautions


def test_beside_a_log_nobody_burns_coals() -> None:
    step = a_step("leeks.fry", "Fry in hot oil", 20)
    plan = a_bench(step, kitchen=a_kitchen(stations=(a_fire(), *burners(1))))
    work, look = cautions(plan, brief=True), cautions(plan, brief=True, at_work=False)
    assert {each.split(":")[0] for each in set(work) - set(look)} == {"Burning coals and wood", "Hot oil"}
    assert set(look) < set(work)


@pytest.mark.parametrize(("rules", "hot"), [("us-home", 60), ("us-establishment", 57), ("uk", 63)])
def test_cautions_name_the_limits_of_the_plans_set(rules: str, hot: int) -> None:
    plan = a_bench(a_step("soup.boil"))
    plan = replace(plan, decisions=replace(plan.decisions, rules=rules))
    (said,) = [each for each in cautions(plan) if "Food limits of the set" in each]
    assert f"holding hot at {hot} °C or more" in said
    assert not [each for each in cautions(plan, limits=False) if "Food limits" in each]


@pytest.mark.parametrize("page", [Page(), Page(landscape=True)])
def test_cautions_go_on_from_column_to_column_without_a_word_lost(page: Page) -> None:
    plan, timetable = counted_back(WEEKNIGHT)
    given = tuple(f"Caution {number}: " + " ".join(f"word{number}x{at_}" for at_ in range(70)) for number in range(4))
    last = squeezed(pages(sheet_pdf(SheetKind.PREP, plan, timetable, (), page=page, found=given))[-1])
    for each in given:
        assert squeezed(each) in last


def test_plating_names_the_code_of_what_comes_out() -> None:
    step = a_step("soup.heat", "Heat", 10)
    plan = a_plan(a_dish("soup", step, name="Soup", code="S"))
    text = " ".join(pages(sheet_pdf(SheetKind.PLATING, plan, laid(plan, {"soup.heat": at("19:10")}), ())))
    assert "Heat S Soup" in text
    plan, timetable = harvest()
    whole = " ".join(pages(sheet_pdf(SheetKind.PLATING, plan, timetable, ())))
    assert re.search(r"(OUT|OFF) \d+ [A-Z]", whole)
