"""What the phone page reckons with: the instants of its lines, how long each runs, what ends it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from core.hatch.calendar_file import spoken
from core.hatch.marks import Marked, plan_mark
from core.hatch.phone_ends import FINISHES, ends_of, heating_of
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.sheets.lines import Act, Line, RunSheet
from core.sheets.places import place_of
from core.sheets.step_lines import NOBODY
from core.sheets.whose import names_of, who_of
from core.sheets.words import shortened
from core.timetable.timetable import Timetable

_Load = tuple[StepId | None, int]
_MILLISECONDS = 60_000
_BRIEF = 48
_UNSAFE = {"<": "\\u003c", ">": "\\u003e", "&": "\\u0026", "\u2028": "\\u2028", "\u2029": "\\u2029"}


def data_of(
    plan: Plan, timetable: Timetable, sheet: RunSheet, lines: tuple[Marked, ...], cook: str = ""
) -> dict[str, Any]:
    """Return the page's data. Instants in ms since 1970 (UTC), lengths in minutes.

    `key` is what a phone keeps ticks under: the plan, whatever its name and hour (the page itself begins unticked where
    the plan has moved by weeks). `cook`: whose lines are chosen as the page opens, as the sheet names them; "": all.
    """
    names = names_of(plan)
    plating = int(plan.plating.utc().timestamp() * 1000)
    gap = plan.wall(0).utcoffset()
    ends, finishes = ends_of(plan, timetable, lines), _finishes(lines)
    runs = {each.mark: _runs(timetable, finishes, each) for each in lines}
    return {
        "key": f"cookday/{plan_mark(plan).hex}",
        "zone": plan.plating.zone,
        "gap": 0 if gap is None else int(gap.total_seconds() // 60),
        "plating": plating,
        "name": sheet.name,
        "cook": cook,
        "nobody": NOBODY,
        "lines": [
            {
                "mark": each.mark.hex,
                "at": plating + each.line.at * _MILLISECONDS,
                "said": spoken(each.line),
                "of": each.line.dish or shortened(each.line.does, _BRIEF),
                "does": shortened(each.line.does, _BRIEF) if each.line.dish else "",
                "who": who_of(each.line.who, names),
                "serves": each.line.act is Act.SERVE,
                "runs": runs[each.mark],
                "over": _over(finishes, each.line),
                "place": _place(plan, timetable, each.line) if runs[each.mark] else "",
                "ends": [mark.hex for mark in ends.get(each.mark, ()) if runs[mark]],
                "tone": _tone(plan, each.line),
            }
            for each in lines
        ],
    }


def as_json(data: object) -> str:
    """Return JSON that may stand inside a script element: no sign in it can end the element or begin a comment."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return "".join(_UNSAFE.get(sign, sign) for sign in text)


def cooks_of(plan: Plan, lines: Iterable[Marked], cook: str = "") -> tuple[str, ...]:
    """Return the cooks that lines name, each once, in order of appearance, and `cook` in any case."""
    names = names_of(plan)
    named = dict.fromkeys(name for each in lines for name in who_of(each.line.who, names) if name != NOBODY)
    return tuple(named | ({cook: None} if cook else {}))


def _runs(timetable: Timetable, finishes: Mapping[_Load, Line], each: Marked) -> int | None:
    """Return for how many minutes something goes on by itself once a line is done; None: nothing does.

    It is over when its line to take it out comes, which may be minutes before it stands outside.
    """
    line = each.line
    if line.begins and line.step is not None and line.act is not Act.DO:
        placed, finish = timetable.at.get((line.step, line.load)), finishes.get((line.step, line.load))
        return finish.at - line.at if finish is not None else None if placed is None else placed.length
    heating = heating_of(timetable, each)
    return None if heating is None else heating.end - heating.start


def _finishes(lines: Iterable[Marked]) -> dict[_Load, Line]:
    """Return the line with which each load ends, for those that have one."""
    return {
        (each.line.step, each.line.load): each.line
        for each in lines
        if each.line.step is not None and each.line.act in FINISHES
    }


def _over(finishes: Mapping[_Load, Line], line: Line) -> str:
    """Return how it is said to end: "out", "off", "ready"; what is heated is "hot"."""
    finish = finishes.get((line.step, line.load))
    return FINISHES[finish.act] if finish is not None else "ready" if line.step else "hot"


def _place(plan: Plan, timetable: Timetable, line: Line) -> str:
    """Return where a load cooks by itself: "Oven, 160 °C"; "" where no place is told."""
    placed = None if line.step is None else timetable.at.get((line.step, line.load))
    return "" if placed is None else place_of(plan, placed)


def _tone(plan: Plan, line: Line) -> int:
    """Return which sound a line has: dishes sound apart, and stations apart from dishes."""
    if line.step is None:
        return 0
    return 1 + list(plan.dishes).index(plan.dish_of[line.step].id)
