"""Rows of printed sheets, found in the text that poppler reads from their pages: day, time, words, page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tests.core.sheets.reading import pages, squeezed

ZONES = "BST|GMT|CEST|CET|EDT|EST"
CLOCK = rf"\d\d:\d\d(?: (?:{ZONES}))?"
_DAY = r"(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day (?P<number>\d+) (?P<month>[A-Z][a-z]+)"
DAY = re.compile(rf"{_DAY}(?: D(?:, the day itself|[-+]\d+, (?:the day|\d+ days) (?:before|after))|, continued)")
_PAGE_DAY = re.compile(_DAY)
_OUT = rf"(?P<out>(?:[A-Z][a-z]{{2}} )?(?:\d+ [A-Z][a-z]{{2}} )?{CLOCK})"
_LENGTH = r"(?P<length>\d+ days(?: \d+ h)?(?: \d+ min)?|\d+ h(?: \d+ min)?|\d+ min)"
_NOT_INSIDE = r"(?<!from )(?<!by )(?<!until )(?<!at )(?<!from [A-Z][a-z]{2} )(?<!by [A-Z][a-z]{2} )"
_END = re.compile(
    r"(?: made \d+ \w+ \d{4}, \d\d:\d\d)? page \d+ of \d+$"
    r"| Numbered limits are rows | A core temperature without a number |(?:^| )Cautions (?=Food limit|Times say)"
)


_HEAD = re.compile(r"^.*?serving time \w+ \d+ \w+ \d{4}, \d\d:\d\d ")


@dataclass(frozen=True)
class Row:
    """A row as it stands: on which page (from 1), under which day and place, its times, its other words squeezed."""

    page: int
    day: str
    place: str
    clock: str
    second: str
    text: str
    length: str = ""


def table_text(page: str) -> str:
    """Return a page without its head, foot, notes and cautions."""
    text = _HEAD.sub("", page, count=1)
    cut = _END.search(text)
    return text if cut is None else text[: cut.start()]


def _cut(text: str, found: list[re.Match[str]]) -> Iterator[tuple[re.Match[str], str]]:
    """Yield each match with the text up to the next one."""
    for number, each in enumerate(found):
        end = found[number + 1].start() if number + 1 < len(found) else len(text)
        yield each, text[each.end() : end]


_TIMED = re.compile(rf"(?P<clock>{CLOCK}) (?P<tminus>T(?:[-+](?:\d+d )?\d+:\d\d)?(?= )|SERVE(?= ))")


_RUN_HEADS = re.compile(r" time what to do(?: who)? real time(?: heat)?(?= |$)")


def run_rows(pdf: bytes) -> list[Row]:
    """Return the lines of a run sheet; the page's head names the day. `second`: T-minus, or SERVE.

    Of all rows only serving goes on over a page, dish by dish.
    """
    found: list[Row] = []
    for number, page in enumerate(pages(pdf), 1):
        named = _PAGE_DAY.search(page)
        assert named is not None
        text = table_text(page)
        rows = list(_TIMED.finditer(text))
        above = _RUN_HEADS.split(text[: rows[0].start() if rows else len(text)])[-1].strip()
        if above and found and rows:
            assert found[-1].second == "SERVE", f"a row goes on over the page: {above}"
            found[-1] = replace(found[-1], text=found[-1].text + squeezed(above))
        for match, words in _cut(text, rows):
            day = f"{named['number']} {named['month']}"
            found.append(Row(number, day, "", match["clock"], match["tminus"], squeezed(words)))
    return found


def prep_rows(pdf: bytes) -> list[Row]:
    """Return the lines of a prep list under the day that was named last, each with the band above it as place."""
    found, day = [], ""
    heads = re.compile(rf"(?:{DAY.pattern})|{_TIMED.pattern}")
    for number, page in enumerate(pages(pdf), 1):
        text = table_text(page)
        for match, words in _cut(text, list(heads.finditer(text))):
            if match["clock"] is None:
                day = f"{match['number']} {match['month']}"
            else:
                found.append(Row(number, day, "", match["clock"], match["tminus"], squeezed(words)))
    return found


def _charted(pdf: bytes, places: list[str], heads: str, row: str) -> list[Row]:
    """Return the rows of tables below lanes: what stands before the heads of the columns is the drawing's."""
    found, day, place, in_table = [], "", "", False
    names = "|".join(sorted(map(re.escape, places), key=len, reverse=True))
    sign = re.compile(rf"(?P<place>{names}), (?:{DAY.pattern})|(?P<heads>{heads})|{row}")
    for number, page in enumerate(pages(pdf), 1):
        text = table_text(page)
        in_table = False
        for match, words in _cut(text, list(sign.finditer(text))):
            if match["place"]:
                place, day, in_table = match["place"], f"{match['number']} {match['month']}", False
            elif match["heads"]:
                in_table = True
            elif in_table:
                got = match.groupdict()
                second, length = got["out"] or got.get("act") or "", got.get("length") or ""
                found.append(Row(number, day, place, match["clock"], second, squeezed(words), length))
    return found


STATION_HEADS = "in out what °C, where look, done when(?: who)? real out"
FRIDGE_HEADS = "in out what stands there(?: shelf| mind)?"


def station_rows(pdf: bytes, places: list[str]) -> list[Row]:
    """Return the rows of a station sheet: in, out and how long; or what is set (`second` is then the act)."""
    row = rf"{_NOT_INSIDE}(?P<clock>{CLOCK}) (?:{_OUT}(?: {_LENGTH})?(?= )|(?P<act>SET|ON|OFF|Light)(?= ))"
    return _charted(pdf, places, STATION_HEADS, row)


def fridge_rows(pdf: bytes, places: list[str]) -> list[Row]:
    """Return the rows of a fridge plan: in and out."""
    return _charted(pdf, places, FRIDGE_HEADS, rf"(?P<clock>{CLOCK}) {_OUT}(?= )")


TEMPERATURE_HEADS = "when what limit reading, °C at by corrective action"


def temperature_rows(pdf: bytes) -> list[Row]:
    """Return the rows of a temperature log."""
    found, day = [], ""
    first = r"first(?= \D{1,60} before the work begins)"
    sign = re.compile(rf"(?:{DAY.pattern})|(?P<heads>{TEMPERATURE_HEADS})|(?P<clock>{CLOCK}|{first}) ")
    for number, page in enumerate(pages(pdf), 1):
        text, in_table = table_text(page), False
        for match, words in _cut(text, list(sign.finditer(text))):
            if match["number"]:
                day, in_table = f"{match['number']} {match['month']}", False
            elif match["heads"]:
                in_table = True
            elif in_table:
                found.append(Row(number, day, "", match["clock"], "", squeezed(words)))
    return found


@dataclass(frozen=True)
class PlatingPart:
    """What stands under one heading of a plating sheet: the day, the times in it, the lines of its table."""

    day: str
    out: bool
    times: tuple[str, ...]
    rows: tuple[Row, ...]


def plating_parts(pdf: bytes) -> list[PlatingPart]:
    """Return the parts of a plating sheet; one that goes on over the page is one part."""
    times = rf"(?P<times>{CLOCK}(?:(?:, | and ){CLOCK})*)"
    title = re.compile(rf"{_DAY}, (?:the last 30 min before|(?P<out>out) at) {times}")
    to_go = re.compile(rf"(?P<togo>now|\d+ min) (?P<clock>{CLOCK}) ")
    out = re.compile(rf"(?P<clock>{CLOCK}) ")
    found: list[PlatingPart] = []
    for number, page in enumerate(pages(pdf), 1):
        text = table_text(page)
        cut = list(title.finditer(text))
        for match, words in [(None, text[: cut[0].start()] if cut else text), *_cut(text, cut)]:
            if match is not None and not words.startswith(", continued"):
                clocks = tuple(re.findall(CLOCK, match["times"]))
                found.append(PlatingPart(f"{match['number']} {match['month']}", bool(match["out"]), clocks, ()))
            if not found:
                continue
            part = found[-1]
            heads = "allergens, not for" if part.out else "to go time what to do mind(?: who)?"
            body = re.split(heads, words, maxsplit=1)[-1]
            rows = tuple(
                Row(number, part.day, "", one["clock"], "" if part.out else one["togo"], squeezed(said))
                for one, said in _cut(body, list((out if part.out else to_go).finditer(body)))
            )
            found[-1] = PlatingPart(part.day, part.out, part.times, part.rows + rows)
    return found
