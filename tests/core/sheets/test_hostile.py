"""Names as nobody should write them, on every kind of sheet: they come out as text, and every page stays in shape."""

from __future__ import annotations

import io
from dataclasses import replace
from fractions import Fraction

import pytest
from pypdf import PdfReader

from core.measures.quantity import Quantity
from core.plan.kitchen import Shelf, Station, StationKind
from core.plan.menu import Guest, Ingredient, LinkKind
from core.plan.plan import Plan
from core.plan.step import Doneness, Holding, Keep, Use, VesselUse, Wait
from core.sheets.kinds import SheetKind
from core.sheets.page import Page
from core.sheets.printing import sheet_pdf
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.sheets.reading import pages, spans, squeezed
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
    hands_off,
)

MILLIMETRES = 72 / 25.4
WORDS = {
    "markup": "#strong[x] $x$ *b* _i_ `raw` <label> @ref [y] {z} ~ \\",
    "code": '#panic("no") #import "@preview/x:1.0.0" // end /* end',
    "template": "{{ name }} {% raw %} ${x} %(s)s {0} <b>x</b> &amp; '; --",
    "formula": '=HYPERLINK("x","y")+SUM(A1:A9)',
    "quotes": "“quoted” \"straight\" 'single' ‘curly’ ''",
    "300": ("An extraordinarily long name for a dish that goes on and on, " * 5)[:300].strip(),
    "one word": "W" * 300,
    "newline": "two\nlines\r\nand\ta tab",
    "Arabic": "مرحبا بالعالم",
    "Hebrew": "שלום עולם",
    "Greek and Cyrillic": "Γιαχνί борщ",
    "emoji": "🍲 stew 👩‍🍳",
    "Japanese": "日本語の料理",
}
BEYOND = {"emoji", "Japanese"}
"""Signs that the shipped fonts lack: the rest of the words must stand."""


def a_hostile_plan(words: str) -> Plan:
    """Return a plan in which everything bears these words: something chilled overnight, baked, held hot, served."""
    cut = a_step("dish.cut", words, 10, note=words, vessels=(VesselUse("pot"),))
    shelf = Use(StationKind.FRIDGE, area=500, height=5, raw=True)
    cold = hands_off("dish.cold", minutes=600, uses=(shelf,))
    bake = hands_off("dish.bake", minutes=40, uses=(at_oven(),), doneness=Doneness(words, 70, 3))
    cold, bake = replace(cold, does=words), replace(bake, does=words)
    dish = a_dish("dish", cut, cold, bake, name=words, code=words, plating=words, allergens=(words,), note=words)
    amount = Quantity(Fraction(500), "g")
    item = Ingredient(words, amount, words, cut.id, aisle=words)
    dish = replace(dish, ingredients=(item,), keep=Keep(60, Wait(Holding.HOT)), pan="")
    fridge = Station("fridge", words, StationKind.FRIDGE, shelves=(Shelf(3000, 30, words), Shelf(3000, 30, words)))
    kitchen = a_kitchen(
        oven=an_oven(name=words),
        cooks=(a_cook("ann", name=words),),
        vessels=(a_vessel("pot", name=words, size=words),),
    )
    kitchen = replace(kitchen, stations=(*(each for each in kitchen.stations if each.id != "fridge"), fridge))
    links = chained(cut, cold, bake, most=30)
    plan = a_plan(dish, links=links, kitchen=kitchen, name=words)
    return replace(plan, menu=replace(plan.menu, guests=(Guest(words, allergies=(words,)),)))


def timed(plan: Plan) -> Timetable:
    return on_paper(plan)


@pytest.mark.parametrize("kind", SheetKind)
@pytest.mark.parametrize("name", WORDS)
def test_words_come_out_as_words_inside_the_margins(name: str, kind: SheetKind) -> None:
    words = WORDS[name]
    plan = a_hostile_plan(words)
    assert all(link.kind is LinkKind.END_TO_START for link in plan.menu.links)
    pdf = sheet_pdf(kind, plan, timed(plan), (), page=Page("us-letter"))
    found = squeezed(" ".join(pages(pdf)))
    wanted = "stew" if name == "emoji" else "" if name in BEYOND else squeezed(words)
    if kind is SheetKind.LABELS and len(words) > 60:
        wanted = wanted[:30]  # a label has room for so much
    if name in {"Arabic", "Hebrew"}:  # read back in the order of the line, which turns at such words
        assert all(sign in found for sign in wanted)
    else:
        assert wanted in found
    assert len(pages(pdf)) < 20
    for page in PdfReader(io.BytesIO(pdf)).pages:
        wide = float(page.mediabox.width)
        for span in spans(page):
            clipped = span.foot > float(page.mediabox.height) - 26 * MILLIMETRES  # the head is cut off at its box
            assert clipped or kind in _CLIPPED or span.right <= wide - 11 * MILLIMETRES + 6


FONTS = {
    "Arabic": "NotoSansArabic",
    "Hebrew": "NotoSansHebrew",
    "Greek and Cyrillic": "NotoSans-",
    "markup": "NotoSans-",
}


@pytest.mark.parametrize("name", FONTS)
def test_shipped_fonts_are_embedded_whole_scripts(name: str) -> None:
    """No sign of these scripts is missing: all fonts are ours, and the sheet claims PDF/UA-1, which forbids gaps."""
    pdf = sheet_pdf(SheetKind.RUN, a_hostile_plan(WORDS[name]), timed(a_hostile_plan(WORDS[name])), ())
    reader = PdfReader(io.BytesIO(pdf))
    fonts = {
        str(font.get_object()["/BaseFont"]).partition("+")[2]
        for page in reader.pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert any(font.startswith(FONTS[name]) for font in fonts)
    assert all(font.startswith("NotoSans") for font in fonts)
    assert claims_ua(reader)


def claims_ua(reader: PdfReader) -> bool:
    return b"pdfuaid" in reader.trailer["/Root"]["/Metadata"].get_object().get_data()


@pytest.mark.parametrize("kind", SheetKind)
def test_every_kind_is_tagged_and_claims_it(kind: SheetKind) -> None:
    """With words that a font lacks it is tagged too, and claims nothing."""
    for name, claims in (("quotes", True), ("emoji", False)):
        plan = a_hostile_plan(WORDS[name])
        reader = PdfReader(io.BytesIO(sheet_pdf(kind, plan, timed(plan), ())))
        root = reader.trailer["/Root"]
        assert root["/MarkInfo"]["/Marked"]
        assert "/StructTreeRoot" in root
        assert root["/Lang"] == "en"
        assert claims_ua(reader) == claims


_CLIPPED = {SheetKind.LABELS}
"""In lanes and on labels what is too long is cut off at its box; their rows are those of the others."""
