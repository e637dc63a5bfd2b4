"""Hands while a bar is dragged: may another cook take them, and which they are when a step takes longer."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.look.words import clock_text
from core.measures.words import join_words
from core.plan.calendar import absences
from core.plan.ids import CookId
from core.plan.meaning import hands_of
from core.plan.plan import Plan
from core.timetable.timetable import Hand, Placed


def hands_at_length(plan: Plan, placed: Placed, length: int) -> tuple[Hand, ...]:
    """Return the hands of a load at another length, each visit by the cook who does it now."""
    asked = [
        each
        for each in hands_of(plan, plan.steps[placed.step], length, placed.way)
        if each.minutes > 0
        for _person in range(each.people)
    ]
    cooks = [hand.cook for hand in placed.hands]
    cooks += [cooks[-1] if cooks else None] * (len(asked) - len(cooks))
    return tuple(Hand(placed.start + each.start, each.minutes, cook) for each, cook in zip(asked, cooks, strict=False))


def why_not(plan: Plan, placed: Placed, cook: CookId, start: int) -> str:
    """Return why a cook cannot do all that a load asks of hands if it starts there; "" when nothing is against it."""
    who = plan.kitchen.cook.get(cook)
    if who is None:
        return _translated("There is no such cook in the kitchen; drop it on one who is there.")
    step = plan.steps[placed.step]
    wants = hands_of(plan, step, placed.length, placed.way)
    most = max((want.people for want in wants), default=0)
    if most == 0:
        return _translated("“{step}” takes nobody's hands; it cannot be given to {cook}.").format(
            step=step.does, cook=who.name
        )
    if most > 1:
        said = _translated("“{step}” takes {count} cooks at once; it cannot be given to {cook} alone.")
        return said.format(step=step.does, count=most, cook=who.name)
    lacks = sorted({want.skill for want in wants if want.skill and want.skill not in who.skills})
    if lacks:
        said = _translated("{cook} does not have the skill “{skill}” that “{step}” asks for.")
        return said.format(cook=who.name, skill=join_words(lacks), step=step.does)
    hands = [(hand.start - placed.start + start, hand.minutes) for hand in placed.hands]
    if not hands:
        return ""
    low, high = min(at for at, _minutes in hands), max(at + minutes for at, minutes in hands)
    for begin, until in absences(plan, who, low, high):
        for at, minutes in hands:
            if begin < at + minutes and at < until:
                said = _translated("{cook} is not there at {time}, when “{step}” needs hands.")
                when = clock_text(plan.wall(max(begin, at)))
                return said.format(cook=who.name, time=when, step=step.does)
    return ""


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
