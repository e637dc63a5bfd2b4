"""What the phone page reckons with: the instants of its lines, how long each runs, what ends it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from core.hatch.calendar_file import spoken
from core.hatch.marks import Marked, plan_mark
from core.plan.plan import Plan
from core.sheets.lines import Act, Line, RunSheet
from core.sheets.words import shortened
from core.timetable.timetable import Timetable

_FINISHES = frozenset({Act.OUT, Act.OFF, Act.READY})
_MILLISECONDS = 60_000
_BRIEF = 48
_UNSAFE = {"<": "\\u003c", ">": "\\u003e", "&": "\\u0026", "\u2028": "\\u2028", "\u2029": "\\u2029"}


def data_of(plan: Plan, timetable: Timetable, sheet: RunSheet, lines: tuple[Marked, ...]) -> dict[str, Any]:
    """Return the page's data. Instants in ms since 1970 (UTC), lengths in minutes.

    `key` is what a phone keeps ticks under: the plan and its day, so that next year's copy begins unticked.
    """
    plating = int(plan.plating.utc().timestamp() * 1000)
    gap = plan.wall(0).utcoffset()
    begun = {(each.line.step, each.line.load): each.mark.hex for each in lines if each.line.begins}
    return {
        "key": f"cookday/{plan_mark(plan).hex}/{plan.plating.local:%Y-%m-%d}",
        "zone": plan.plating.zone,
        "gap": 0 if gap is None else int(gap.total_seconds() // 60),
        "plating": plating,
        "name": sheet.name,
        "lines": [
            {
                "mark": each.mark.hex,
                "at": plating + each.line.at * _MILLISECONDS,
                "said": spoken(each.line),
                "of": each.line.dish or shortened(each.line.does, _BRIEF),
                "does": shortened(each.line.does, _BRIEF) if each.line.dish else "",
                "who": each.line.who.split(", ") if each.line.who else [],
                "runs": _runs(timetable, each.line),
                "ends": begun.get((each.line.step, each.line.load)) if each.line.act in _FINISHES else None,
                "tone": _tone(plan, each.line),
            }
            for each in lines
        ],
    }


def as_json(data: object) -> str:
    """Return JSON that may stand inside a script element: no sign in it can end the element or begin a comment."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return "".join(_UNSAFE.get(sign, sign) for sign in text)


def cooks_of(lines: Iterable[Marked]) -> tuple[str, ...]:
    """Return the cooks that lines name, each once, in order of appearance."""
    named = (name for each in lines for name in each.line.who.split(", ") if name)
    return tuple(dict.fromkeys(named))


def _runs(timetable: Timetable, line: Line) -> int | None:
    """Return for how many minutes something goes on by itself once a line is done; None: nothing does."""
    if line.act is Act.DO or line.act is Act.MORE:
        return None
    if line.begins and line.step is not None:
        placed = timetable.at.get((line.step, line.load))
        return None if placed is None else placed.length
    if line.station is not None and line.act in (Act.ON, Act.LIGHT):
        warming = (each for each in timetable.heatings if (each.station, each.start) == (line.station, line.at))
        return next((each.end - each.start for each in warming if each.end > each.start), None)
    return None


def _tone(plan: Plan, line: Line) -> int:
    """Return which sound a line has: dishes sound apart, and stations apart from dishes."""
    if line.step is None:
        return 0
    return 1 + list(plan.dishes).index(plan.dish_of[line.step].id)
