"""A mark for every line of a run sheet that stays the same when the plan's times or words change.

A phone finds its ticks by it and a calendar the event that it has already, so it is made of what a line is of
(step, load, act), never of when it is or how it reads. UUIDs by name (RFC 9562, 5.5).
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from uuid import NAMESPACE_URL, UUID, uuid5

from core.plan.plan import Plan
from core.sheets.lines import Line, RunSheet, SheetDay
from core.sheets.words import plain

_OURS = uuid5(NAMESPACE_URL, "tag:cookday,2026:sheets")


@dataclass(frozen=True, slots=True)
class Marked:
    """A line of a run sheet with the day that it stands on and its mark."""

    line: Line
    day: SheetDay
    mark: UUID


def plan_mark(plan: Plan) -> UUID:
    """Return what a plan is known by outside: its mark, so that it may be renamed; its date does not count.

    A plan without a mark (a text that no window has opened) is known by its name, capitals and spaces apart.
    """
    if plan.mark:
        return uuid5(_OURS, f"mark/{plan.mark}")
    return uuid5(_OURS, plain(plan.name).casefold())


def marked(plan: Plan, sheet: RunSheet, copy: RunSheet | None = None) -> tuple[Marked, ...]:
    """Return the lines of everybody's sheet in its order, each with a mark of its own; of a `copy` only its lines.

    Of several lines of the same thing (two stirs of one load) the first keeps the first mark, whenever it is. They are
    counted on everybody's sheet, so that a line has the same mark in every copy.
    """
    own, seen = plan_mark(plan), Counter[str]()
    kept = None if copy is None else {line for day in copy.days for line in day.lines}
    found = []
    for day in sheet.days:
        for line in day.lines:
            what = _what(line)
            if kept is None or line in kept:
                found.append(Marked(line, day, uuid5(own, f"{what}/{seen[what]}")))
            seen[what] += 1
    return tuple(found)


def _what(line: Line) -> str:
    of = line.step or line.station or line.vessel or ""
    return f"{line.act.name}/{of}/{line.load}"
