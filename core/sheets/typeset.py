"""Typesets sheets as PDF. What cooks wrote reaches the typesetter as data only, never as template source."""

from __future__ import annotations

import json
from typing import Any, Literal

from core.measures.words import plural
from core.sheets.lines import Line, RunSheet, Served, SheetDay
from core.sheets.words import shortened

Paper = Literal["a4", "us-letter"]

_HEADER = 60
_CLASHES = 8
_CLASH = 240
_SHORT_NAME = 10
_ONE_PAGE = 1_500
"""Most characters of a line that is kept whole; a longer one fills a page and may break."""


def as_pdf(sheet: RunSheet, *, paper: Paper = "a4", printed: str = "") -> bytes:
    """Return the sheet as a tagged PDF with embedded fonts. `printed` goes into the footer.

    The same sheet gives the same bytes.
    """
    more = len(sheet.clashes) - _CLASHES
    data = {
        "name": sheet.name,
        "running": shortened(sheet.name, _HEADER),
        "serving": sheet.serving,
        "courses": sheet.courses,
        "printed": shortened(printed, _HEADER),
        "paper": paper,
        "clashes": [shortened(each, _CLASH) for each in sheet.clashes[:_CLASHES]]
        + ([f"and {more} more"] if more > 0 else []),
        "clashing": f"Not everything meets yet: {plural(len(sheet.clashes), 'clash')}",
        "cautions": list(sheet.cautions),
        "who": _who_width(sheet),
        "days": [_day(day) for day in sheet.days],
    }
    return _compile("run_sheet.typ", data)


def _who_width(sheet: RunSheet) -> int:
    """Return the millimetres of the column of cooks: more where somebody has a long name."""
    longest = max(
        (len(name) for day in sheet.days for line in day.lines for name in line.who.split(", ")), default=0
    )
    return 20 if longest <= _SHORT_NAME else 28


def _day(day: SheetDay) -> dict[str, Any]:
    return {
        "title": day.title,
        "about": day.about,
        "note": day.note,
        "lines": [_line(line) for line in day.lines],
    }


def _line(line: Line) -> dict[str, Any]:
    return {
        "clock": line.clock,
        "tminus": line.tminus,
        "act": line.act.value,
        "does": line.does,
        "code": line.code,
        "dish": line.dish,
        "details": list(line.details),
        "who": line.who,
        "served": [_served(each) for each in line.served],
        "long": len(line.does) + sum(map(len, line.details)) > _ONE_PAGE,
    }


def _served(served: Served) -> dict[str, Any]:
    about = [
        served.plating,
        f"allergens noted: {', '.join(served.allergens)}" if served.allergens else "",
        f"not for {', '.join(served.not_for)}: see the cautions" if served.not_for else "",
    ]
    return {
        "code": served.code,
        "dish": served.dish,
        "about": list(filter(None, about)),
        "long": len(served.dish) + sum(map(len, about)) > _ONE_PAGE,
    }


def _compile(template: str, data: object) -> bytes:
    import typst

    from resources import fonts_folder, shipped

    sheets = shipped("sheets")
    found = typst.compile(
        str(sheets / template),
        root=str(sheets),
        font_paths=[str(fonts_folder())],
        ignore_system_fonts=True,
        sys_inputs={"data": json.dumps(data, ensure_ascii=True)},
    )
    if not isinstance(found, bytes):
        raise TypeError("the typesetter gave pages instead of one document")
    return found
