"""Plating at another time: the plan and the timetable as they would be, and what of them would clash. Minutes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from app.timeline.thinking import moved
from core.measures.minutes import show_minutes
from core.plan.edits import ServeLater
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.clashes import Checker
from core.timetable.timetable import Timetable


def timetable_at(plan: Plan, timetable: Timetable, by: int, *, along: bool) -> Timetable:
    """Return the timetable, counted from the new plating: all stays by the clock, or what is not pinned comes along."""
    if along:
        pinned = {
            key: timetable.at[key].start - by
            for key, pin in plan.pins.items()
            if pin.start is not None and key in timetable.at
        }
        return moved(plan, timetable, pinned) if pinned else timetable
    placed = tuple(
        replace(
            each,
            start=each.start - by,
            hands=tuple(replace(hand, start=hand.start - by) for hand in each.hands),
        )
        for each in timetable.placed
    )
    stays = (
        replace(stay, start=stay.start - by, end=stay.end if stay.after is None else stay.end - by)
        for stay in timetable.stays
    )
    heatings = tuple(replace(each, start=each.start - by, end=each.end - by) for each in timetable.heatings)
    washings = tuple(replace(each, start=each.start - by) for each in timetable.washings)
    return Timetable(placed, tuple(stay for stay in stays if stay.end > stay.start), heatings, washings)


def clashes_at(
    plan: Plan, timetable: Timetable, by: int, *, along: bool, known: Sequence[Clash] = ()
) -> list[Clash]:
    """Return what would newly clash: served too late, waiting too long, off the clock; told by steps, not by times."""
    after = ServeLater(by).change(plan)
    steps = set(plan.last_steps)
    if along:  # who and what is there by the clock matters for everything
        steps = set(plan.steps)
    found = Checker(after).clashes(timetable_at(plan, timetable, by, along=along), None if along else steps)
    old = {(clash.kind, clash.steps) for clash in known}
    return [clash for clash in found if (clash.kind, clash.steps) not in old]


def said(by: int, found: Sequence[Clash], *, along: bool) -> str:
    """Return what comes of it, in two lines."""
    much = show_minutes(abs(by))
    way = _translated("{much} later") if by > 0 else _translated("{much} sooner")
    what = _translated("what is not pinned comes along") if along else _translated("steps stay by the clock")
    first = f"{way.format(much=much)}, {what}"
    if not found:
        return first + "\n" + _translated("nothing new clashes")
    if len(found) == 1:
        return f"{first}\n{found[0].sentence}"
    more = _translated("{count} new clashes, first: {sentence}")
    return first + "\n" + more.format(count=len(found), sentence=found[0].sentence)


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
