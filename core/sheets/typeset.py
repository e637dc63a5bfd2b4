"""Typesets sheets as PDF. What cooks wrote reaches the typesetter as data only, never as template source."""

from __future__ import annotations

import json
from dataclasses import asdict
from importlib.resources import as_file, files
from typing import Literal

from core.sheets.run_sheet import RunSheet

Paper = Literal["a4", "us-letter"]


def as_pdf(sheet: RunSheet, *, paper: Paper = "a4", printed: str = "") -> bytes:
    """Return the sheet as a tagged PDF with embedded fonts. `printed` goes into the footer."""
    data = {
        "name": sheet.name,
        "serving": sheet.serving,
        "printed": printed,
        "paper": paper,
        "cautions": list(sheet.cautions),
        "days": [
            {"title": day.title, "lines": [{**asdict(line), "act": line.act.value} for line in day.lines]}
            for day in sheet.days
        ],
    }
    return _compile("run_sheet.typ", data)


def _compile(template: str, data: object) -> bytes:
    import typst

    with as_file(files("resources") / "fonts") as fonts, as_file(files("resources") / "sheets") as sheets:
        found = typst.compile(
            str(sheets / template),
            root=str(sheets),
            font_paths=[str(fonts)],
            ignore_system_fonts=True,
            sys_inputs={"data": json.dumps(data, ensure_ascii=True)},
        )
    if not isinstance(found, bytes):
        raise TypeError("the typesetter gave pages instead of one document")
    return found
