"""Days kept by name, between the desk's values and the texts of the plan file."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from core.desk import KeptDay, KeptDays
from core.measures.refusal import Refusal
from core.plan.plan import Plan
from core.timetable.as_text import read_timetable, write_timetable

if TYPE_CHECKING:
    from core.store import KeptText, PlanFile


def kept_in(file: PlanFile) -> KeptDays:
    """Return the days that a file keeps; what of them cannot be read stays in the file and is left out."""
    days, current = [], ""
    for each in file.kept():
        try:
            at = datetime.fromisoformat(each.at)
            timetable = read_timetable(each.timetable)
        except (Refusal, ValueError):
            continue
        days.append(KeptDay(each.name, timetable, at if at.tzinfo else at.replace(tzinfo=UTC), each.mark))
        current = each.name if each.current else current
    return KeptDays(tuple(days), current)


def texts_of(plan: Plan, kept: KeptDays) -> tuple[KeptText, ...]:
    """Return the days as a file keeps them; the plan tells the clock times in their texts."""
    from core.store import KeptText

    return tuple(
        KeptText(
            each.name,
            write_timetable(plan, each.timetable),
            each.at.isoformat(),
            each.mark,
            each.name == kept.current,
        )
        for each in kept.days
    )
