"""Typesets sheets as PDF. What cooks wrote reaches the typesetter as data only, never as template source."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import asdict
from enum import IntEnum
from typing import Any, Literal

from core.measures.words import plural
from core.sheets.lines import Line, RunSheet, Served, SheetDay
from core.sheets.names import brief_names, who_width
from core.sheets.page import Page, Paper
from core.sheets.words import shortened

__all__ = ["Page", "Paper", "as_pdf", "framed", "run_data", "typeset"]

_HEADER, _PRINTED = 36, 60
_CLASHES = 8
_CLASH = 240
LONG = 1_500
"""Most characters of a line that is kept whole; a longer one fills a page and may break."""


def as_pdf(
    sheet: RunSheet, *, paper: Paper = "a4", printed: str = "", landscape: bool = False, dense: bool = False
) -> bytes:
    """Return the run sheet as a tagged PDF with embedded fonts. `printed` goes into the footer.

    The same sheet gives the same bytes.
    """
    return typeset([run_data(sheet, Page(paper, landscape, dense, printed))])


def run_data(sheet: RunSheet, page: Page) -> dict[str, Any]:
    """Return what the template of the run sheet needs."""
    kind = f"Run sheet for {sheet.whose}" if sheet.whose else "Run sheet"
    narrower = 0.85 if page.dense else 1
    data = framed(sheet.name, sheet.serving, kind, page, cautions=sheet.cautions, clashes=sheet.clashes)
    data |= {
        "template": "run",
        "courses": sheet.courses,
        "who": 0 if sheet.alone else who_width(line.who for day in sheet.days for line in day.lines) * narrower,
        "days": [_day(day) for day in sheet.days],
        "nothing": "Nothing is placed yet, so there is nothing to do on this sheet.",
        "mend": "Arrange the plan, then print it again.",
    }
    if sheet.whose:
        data["about"] = "What names nobody stands on the copies of all who are there then, each serving on every copy."
        data["running"] = shortened(f"{sheet.whose}: {sheet.name}", _HEADER)
    return data


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
        "printed": shortened(page.printed, _PRINTED),
        "paper": page.paper,
        "landscape": page.landscape,
        "dense": page.dense,
        "clashes": [shortened(each, _CLASH) for each in clashes[:_CLASHES]]
        + ([f"and {more} more"] if more > 0 else []),
        "clashing": f"Not everything meets yet: {plural(len(clashes), 'clash')}",
        "cautions": list(cautions),
    }


def _day(day: SheetDay) -> dict[str, Any]:
    names = _names(day.lines)
    return {
        "title": day.title,
        "about": day.about,
        "note": day.note,
        "strip": None if day.strip is None else asdict(day.strip),
        "lines": [_line(line, name) for line, name in zip(day.lines, names, strict=True)],
    }


def _names(lines: Sequence[Line]) -> list[str]:
    """Return the dish's name for each line of a day: in full where it stands first, later as short as tells it."""
    brief = brief_names([line.dish for line in lines if line.dish])
    told: set[str] = set()
    found = []
    for line in lines:
        found.append(brief.get(line.dish, "") if line.dish in told else line.dish)
        told.add(line.dish)
    return found


def _line(line: Line, name: str) -> dict[str, Any]:
    return {
        "at": line.at,
        "clock": line.clock,
        "tminus": line.tminus,
        "act": line.act.value,
        "does": line.does,
        "code": line.code,
        "dish": name,
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


def typeset(sheets: Sequence[dict[str, Any]], title: str = "") -> bytes:
    """Return one PDF of sheets, each the data of its template, as PDF/UA-1 (ISO 14289-1).

    The document's title is that of a single sheet, else `title`. The usual fonts have Latin, Greek, Cyrillic, Arabic
    and Hebrew; words with other signs are set with the further shipped ones too (Chinese, Japanese, Korean, the scripts
    of India and South-East Asia, Armenian, Georgian, Ethiopic), and signs that even these lack (emoji) with those of
    the machine. That standard forbids signs that no font has: with such words it is tagged all the same, but claims
    nothing.
    """
    import typst

    numbered = [each | {"number": number} for number, each in enumerate(sheets)]
    named = numbered[0]["title"] if len(numbered) == 1 else title
    words = json.dumps({"title": named, "sheets": numbered}, ensure_ascii=True)
    first = Fonts.MORE if _OTHER.search(json.dumps(numbered, ensure_ascii=False)) else Fonts.USUAL
    for fonts in list(Fonts)[first:]:
        try:
            return _compiled(words, "ua-1", fonts)
        except typst.TypstError:
            continue
    return _compiled(words, None, Fonts.MACHINE)


class Fonts(IntEnum):
    """The usual fonts, further shipped ones for other scripts besides, those of the machine besides."""

    USUAL = 0
    MORE = 1
    MACHINE = 2


_OTHER = re.compile(
    r"[\u0530-\u058f\u0700-\u074f\u0780-\u1c7f\u2d00-\u2d2f\u2d80-\u2ddf\u2e80-\ua63f\ua720-\ufaff\uff00-\uffef]"
)
"""Signs of scripts for which the further fonts are wanted, as Unicode's blocks have them."""


def _compiled(words: str, standard: Literal["ua-1"] | None, fonts: Fonts) -> bytes:
    """Return the PDF, set in fonts."""
    import typst

    from resources import fonts_folder, fonts_more_folder, shipped

    sheets = shipped("sheets")
    folders = [fonts_folder()] if fonts is Fonts.USUAL else [fonts_folder(), fonts_more_folder()]
    found = typst.compile(
        str(sheets / "bundle.typ"),
        root=str(sheets),
        font_paths=[str(each) for each in folders],
        ignore_system_fonts=fonts is not Fonts.MACHINE,
        sys_inputs={"data": words},
        pdf_standards=standard,
    )
    if not isinstance(found, bytes):
        raise TypeError("the typesetter gave pages instead of one document")
    return found
