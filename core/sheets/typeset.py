"""Typesets sheets as PDF. What cooks wrote reaches the typesetter as data only, never as template source."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any, Literal

from core.measures.words import plural
from core.sheets.lines import Line, RunSheet, Served, SheetDay
from core.sheets.page import Page, Paper
from core.sheets.words import shortened

__all__ = ["Page", "Paper", "as_pdf", "framed", "typeset"]

_HEADER = 60
_CLASHES = 8
_CLASH = 240
_SHORT_NAME = 10
LONG = 1_500
"""Most characters of a line that is kept whole; a longer one fills a page and may break."""


def as_pdf(
    sheet: RunSheet, *, paper: Paper = "a4", printed: str = "", landscape: bool = False, dense: bool = False
) -> bytes:
    """Return the run sheet as a tagged PDF with embedded fonts. `printed` goes into the footer.

    The same sheet gives the same bytes.
    """
    page = Page(paper, landscape, dense, printed)
    kind = f"Run sheet for {sheet.whose}" if sheet.whose else "Run sheet"
    data = framed(sheet.name, sheet.serving, kind, page, cautions=sheet.cautions, clashes=sheet.clashes)
    data |= {
        "courses": sheet.courses,
        "who": _who_width(sheet, dense=dense),
        "days": [_day(day) for day in sheet.days],
        "nothing": "Nothing is placed yet, so there is nothing to do on this sheet.",
        "mend": "Arrange the plan, then print it again.",
    }
    if sheet.whose:
        data["about"] = "What names nobody stands on every cook's copy, and so does every serving."
        data["running"] = shortened(f"{sheet.whose}: {sheet.name}", _HEADER)
    return typeset("run_sheet.typ", data)


def framed(
    name: str,
    serving: str,
    kind: str,
    page: Page,
    *,
    cautions: tuple[str, ...] = (),
    clashes: tuple[str, ...] = (),
) -> dict[str, Any]:
    """Return what every template needs: paper, head, foot, the clashes that remain (the first ones), cautions."""
    more = len(clashes) - _CLASHES
    return {
        "title": name if kind == "Run sheet" else f"{kind}: {name}",
        "name": name,
        "running": shortened(name, _HEADER),
        "kind": kind,
        "serving": serving,
        "courses": "",
        "about": "",
        "printed": shortened(page.printed, _HEADER),
        "paper": page.paper,
        "landscape": page.landscape,
        "dense": page.dense,
        "clashes": [shortened(each, _CLASH) for each in clashes[:_CLASHES]]
        + ([f"and {more} more"] if more > 0 else []),
        "clashing": f"Not everything meets yet: {plural(len(clashes), 'clash')}",
        "cautions": list(cautions),
    }


def _who_width(sheet: RunSheet, *, dense: bool) -> int:
    """Return the millimetres of the column of cooks: more where somebody has a long name."""
    longest = max(
        (len(name) for day in sheet.days for line in day.lines for name in line.who.split(", ")), default=0
    )
    return (20 if longest <= _SHORT_NAME else 26) - (4 if dense else 0)


def _day(day: SheetDay) -> dict[str, Any]:
    return {
        "title": day.title,
        "about": day.about,
        "note": day.note,
        "strip": None if day.strip is None else asdict(day.strip),
        "lines": [_line(line) for line in day.lines],
    }


def _line(line: Line) -> dict[str, Any]:
    return {
        "at": line.at,
        "clock": line.clock,
        "tminus": line.tminus,
        "act": line.act.value,
        "does": line.does,
        "code": line.code,
        "dish": line.dish,
        "details": list(line.details),
        "who": line.who,
        "core": line.core,
        "heat": list(line.heat),
        "served": [_served(each) for each in line.served],
        "long": len(line.does) + sum(map(len, line.details)) > LONG,
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
        "long": len(served.dish) + sum(map(len, about)) > LONG,
    }


def typeset(template: str, data: object) -> bytes:
    """Return the PDF of a template of resources/sheets and its data, as PDF/UA-1 (ISO 14289-1).

    That standard forbids signs that no font has (emoji): with such words it is tagged all the same, but claims nothing.
    """
    import typst

    words = json.dumps(data, ensure_ascii=True)
    try:
        return _compiled(template, words, "ua-1")
    except typst.TypstError:
        return _compiled(template, words, None)


def _compiled(template: str, words: str, standard: Literal["ua-1"] | None) -> bytes:
    import typst

    from resources import fonts_folder, shipped

    sheets = shipped("sheets")
    found = typst.compile(
        str(sheets / template),
        root=str(sheets),
        font_paths=[str(fonts_folder())],
        ignore_system_fonts=True,
        sys_inputs={"data": words},
        pdf_standards=standard,
    )
    if not isinstance(found, bytes):
        raise TypeError("the typesetter gave pages instead of one document")
    return found
