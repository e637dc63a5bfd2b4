"""The phone page: one file of HTML with all that it needs, to be read, ticked and timed without a network.

What it may do stands in its own policy (Content Security Policy, level 3): it runs the one script and the one style
whose hashes it names, and fetches nothing.
"""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256
from html import escape

from core.hatch.marks import marked
from core.hatch.phone_data import as_json, cooks_of, data_of
from core.hatch.phone_rows import days_markup, paragraphs, text_markup
from core.measures.words import plural
from core.plan.plan import Plan
from core.sheets.lines import RunSheet
from core.timetable.timetable import Timetable

_SCRIPTS = ("keep.js", "clock.js", "sound.js", "awake.js", "timers.js", "ticks.js", "page.js", "acts.js")
_PLACE = re.compile(r"<!--:([a-z]+)-->")


def as_page(plan: Plan, timetable: Timetable, sheet: RunSheet, *, cook: str = "") -> bytes:
    """Return the page of a plan's run sheet (everybody's), UTF-8; the same sheet gives the same bytes.

    `cook`: whose lines are chosen as the page opens, by the name on the sheet; the others are a touch away.
    """
    style, script = _shipped("page.css"), "\n".join(_shipped(name) for name in _SCRIPTS)
    lines = marked(plan, sheet)
    parts = {
        "policy": _policy(style, script),
        "title": escape(sheet.name),
        "name": text_markup(sheet.name),
        "serving": escape(sheet.serving),
        "courses": f"<p>{escape(sheet.courses)}.</p>" if sheet.courses else "",
        "clashes": _clashes(sheet),
        "cooks": "".join(f"<option>{escape(name)}</option>" for name in cooks_of(plan, lines, cook)),
        "days": days_markup(lines) or "<p>Nothing is placed yet: arrange the plan and make this page anew.</p>",
        "cautions": paragraphs(sheet.cautions),
        "data": as_json(data_of(plan, timetable, sheet, lines, cook)),
        "style": style,
        "script": script,
    }
    # one pass over the template: what is put in is never looked at again
    return _PLACE.sub(lambda found: parts[found[1]], _shipped("page.html")).encode("utf-8", errors="replace")


def _clashes(sheet: RunSheet) -> str:
    if not sheet.clashes:
        return ""
    head = f"Not everything meets yet: {plural(len(sheet.clashes), 'clash')}"
    return f'<details class="clashes"><summary>{head}</summary><ul>{paragraphs(sheet.clashes)}</ul></details>'


def _policy(style: str, script: str) -> str:
    return (
        f"default-src 'none'; script-src '{_hash(script)}'; style-src '{_hash(style)}'; img-src data:; "
        "base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


def _shipped(name: str) -> str:
    from resources import shipped

    return shipped("phone", name).read_text(encoding="utf-8")
