"""Names as nobody should write them, on every kind of sheet: they come out as text, and every page stays in shape.

All kinds are printed as one document for each of the names, and read back by poppler.
"""

from __future__ import annotations

import io
import re
import subprocess
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import NamedTuple

import pytest
from pypdf import PdfReader

from core.measures.quantity import Quantity
from core.plan.kitchen import Shelf, Station, StationKind
from core.plan.menu import Guest, Ingredient, LinkKind
from core.plan.plan import Plan
from core.plan.step import Doneness, Holding, Keep, Use, VesselUse, Wait
from core.sheets.bundle import Wanted, sheets_pdf
from core.sheets.kinds import SheetKind
from core.sheets.page import Page
from core.sheets.printing import sheet_pdf
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.sheets.reading import Word, pages, squeezed, words
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
    "Chinese and Korean": "汤 stew 국",
    "typst": '#eval("1+1") #let x = 1 $x^2 + oo$ @label <label> = Head - item / term: ```raw``` \\ #sys.inputs.data',
    "tab": "stew\t#h(1cm)\tend",
    "NUL and controls": "stew\x00\x07end",
    "turning": "safe \u202eetirw\u202c \u2066x\u2069 \u202bend\u202c",
    "lone surrogate": "half\ud83csign",
}
BEYOND = {"emoji", "Japanese", "Chinese and Korean"}
"""Signs that the shipped fonts lack: the rest of the words must stand."""
READ_AS = {
    "turning": "safe etirw x end",
    "NUL and controls": "stew\N{REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}end",
    "lone surrogate": "half\N{REPLACEMENT CHARACTER}sign",
    "emoji": "stew",
    "Japanese": "",
    "Chinese and Korean": "stew",
}
"""What stands on paper where that is not what was typed: signs that hide or turn the text are not printed."""


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
        cooks=(a_cook("ann", name=words), a_cook("ben", name=words)),
        vessels=(a_vessel("pot", name=words, size=words),),
    )
    kitchen = replace(kitchen, stations=(*(each for each in kitchen.stations if each.id != "fridge"), fridge))
    links = chained(cut, cold, bake, most=30)
    plan = a_plan(dish, links=links, kitchen=kitchen, name=words)
    return replace(plan, menu=replace(plan.menu, guests=(Guest(words, allergies=(words,)),)))


def timed(plan: Plan) -> Timetable:
    return on_paper(plan)


class Read(NamedTuple):
    """A sheet as poppler reads it: the text and the words of each of its pages."""

    texts: list[str]
    boxes: list[list[Word]]


@cache
def document(name: str) -> bytes:
    """Return all kinds for a name, one after the other; "plain" is a name that nobody minds."""
    plan = a_hostile_plan(WORDS.get(name, "Stew"))
    assert all(link.kind is LinkKind.END_TO_START for link in plan.menu.links)
    return sheets_pdf([Wanted(kind, Page("us-letter")) for kind in SheetKind], plan, timed(plan), ())


@cache
def sheets(name: str) -> dict[SheetKind, Read]:
    """Return each kind's pages: each counts its own at its foot; the menu card is what bears no number."""
    texts, boxes = pages(document(name)), words(document(name))
    assert len(texts) == len(boxes)
    found: dict[SheetKind, Read] = {}
    at = 0
    for kind in SheetKind:
        count = 1
        numbered = re.search(r"page 1 of (\d+)$", texts[at])
        if kind is SheetKind.MENU:
            while not re.search(r"page 1 of \d+$", texts[at + count]):
                count += 1
        else:
            assert numbered is not None
            count = int(numbered[1])
        found[kind] = Read(texts[at : at + count], boxes[at : at + count])
        at += count
    assert at == len(texts)
    return found


@pytest.mark.parametrize("kind", SheetKind)
@pytest.mark.parametrize("name", WORDS)
def test_words_come_out_as_words_inside_the_margins(name: str, kind: SheetKind) -> None:
    found = sheets(name)[kind]
    text, wanted = squeezed(" ".join(found.texts)), squeezed(READ_AS.get(name, WORDS[name]))
    if kind is SheetKind.LABELS and len(wanted) > 60:
        wanted = wanted[:30]  # a label has room for so much
    if name in {"Arabic", "Hebrew"}:  # read back in the order of the line, which turns at such words
        assert all(word in text or word[::-1] in text for word in WORDS[name].split())
    else:
        assert wanted in text
    assert len(found.texts) < 20
    for page in found.boxes:
        assert page
        for word in page:
            head = word.bottom < 22 * MILLIMETRES  # the running name is cut off at its box; the reader sees all of it
            assert head or word.right <= (215.9 - 10) * MILLIMETRES + 1, word
            assert word.left >= 10 * MILLIMETRES - 1, word
            assert word.bottom <= (279.4 - 3) * MILLIMETRES, word


@pytest.mark.parametrize("kind", SheetKind)
@pytest.mark.parametrize("name", WORDS)
def test_as_many_rows_as_with_plain_names(name: str, kind: SheetKind) -> None:
    """Every clock time stands as often: beside what the head of each page and the strip of the day say."""
    assert times(name, kind) == times("plain", kind) > 0


def times(name: str, kind: SheetKind) -> int:
    texts = sheets(name)[kind].texts
    if kind in {SheetKind.RUN, SheetKind.PREP}:
        return sum(len(re.findall(r"\d\d:\d\d T[-+]\d|\d\d:\d\d SERVE ", text)) for text in texts)
    heads = 0 if kind is SheetKind.MENU else len(texts)
    return sum(len(re.findall(r"\d\d:\d\d", text)) for text in texts) - heads


@pytest.mark.parametrize("name", WORDS)
def test_every_font_is_embedded(name: str) -> None:
    """By pdffonts; they are the shipped ones, but for signs that none of those has."""
    made = subprocess.run(["pdffonts", "-"], input=document(name), capture_output=True, check=True).stdout.decode()
    found = [re.match(r"(\S+) +\w.*? (yes|no) +(yes|no) +(yes|no) ", line) for line in made.splitlines()[2:]]
    assert found
    for each in found:
        assert each is not None, made
        assert each.groups()[1:] == ("yes", "yes", "yes"), made
        assert name in BEYOND or each[1].partition("+")[2].startswith("NotoSans"), made


@pytest.mark.parametrize("kind", SheetKind)
def test_one_document_is_what_each_sheet_is_alone(kind: SheetKind) -> None:
    plan = a_hostile_plan(WORDS["typst"])
    pdf = sheet_pdf(kind, plan, timed(plan), (), page=Page("us-letter"))
    assert pages(pdf) == sheets("typst")[kind].texts
    require_tagged(PdfReader(io.BytesIO(pdf)), claims=True)


FONTS = {
    "Arabic": "NotoSansArabic",
    "Hebrew": "NotoSansHebrew",
    "Greek and Cyrillic": "NotoSans-",
    "markup": "NotoSans-",
}


@pytest.mark.parametrize("name", FONTS)
def test_shipped_fonts_are_embedded_whole_scripts(name: str) -> None:
    """No sign of these scripts is missing: all fonts are ours, and the sheet claims PDF/UA-1, which forbids gaps."""
    reader = PdfReader(io.BytesIO(document(name)))
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


def require_tagged(reader: PdfReader, *, claims: bool) -> None:
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert root["/Lang"] == "en"
    assert claims_ua(reader) == claims


@pytest.mark.parametrize("kind", SheetKind)
def test_what_the_fonts_lack_is_tagged_too_and_claims_nothing(kind: SheetKind) -> None:
    plan = a_hostile_plan(WORDS["emoji"])
    require_tagged(PdfReader(io.BytesIO(sheet_pdf(kind, plan, timed(plan), ()))), claims=False)
