"""More hands, or less asked of them: a helper for an hour, fewer at one step, no skill asked."""

from __future__ import annotations

from dataclasses import replace

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.hours import window_of
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.edits import AddCook, ChangeStep, Edit, Together
from core.plan.ids import CookId, StepId, fresh
from core.plan.kitchen import Cook
from core.plan.plan import Plan
from core.plan.step import Attention, Step
from core.timetable.timetable import Timetable

_MOST = 6 * 60  # minutes before serving for which a guest may be asked to help


def helpers(case: Case) -> Family:
    """Propose a helper without skills, then one who can do everything, then two of either, up to serving time."""
    skills = _skills(case)
    until = max((dish.course for dish in case.plan.menu.dishes), default=0)
    most = _MOST if case.day is None else max(1, min(_MOST, until - case.day.now))
    found = [
        _helper(case, count, able, until, most)
        for count in (1, 2)
        for able in (((), skills) if skills else ((),))
    ]
    if case.day is None:
        found += [_whole_day(case, able) for able in (((), skills) if skills else ((),))]
    return Family(WayKind.HELPER, tuple(found), one_will_do=True)


def _skills(case: Case) -> tuple[str, ...]:
    found: set[str] = set()
    for step in case.plan.steps.values():
        found |= {step.skill, *(touch.skill for touch in step.touches)}
    return tuple(sorted(found - {""}))


def _new(case: Case, count: int, skills: tuple[str, ...]) -> tuple[Cook, ...]:
    """Return helpers who are there at all times."""
    ids: list[str] = list(case.plan.kitchen.cook)
    cooks = []
    for number in range(1, count + 1):
        ids.append(fresh("helper", ids))
        name = "Helper" if number == 1 else f"Helper {number}"
        cooks.append(Cook(CookId(ids[-1]), name, skills, night=None))
    return tuple(cooks)


def _joined(cooks: tuple[Cook, ...]) -> Edit:
    edits = tuple(AddCook(cook) for cook in cooks)
    return edits[0] if len(edits) == 1 else Together("Ask for helpers", edits)


def _helper(case: Case, count: int, skills: tuple[str, ...], until: int, most: int) -> Easing:
    """From so many minutes before serving until then; narrowed to when there is something to do."""
    cooks = _new(case, count, skills)

    def make(size: int) -> Edit:
        window = window_of(case.plan, until - size, until)
        return _joined(tuple(replace(cook, present=(window,)) for cook in cooks))

    def needs(timetable: Timetable) -> int:
        hours = [_hours(timetable, cook.id) for cook in cooks]
        return max((until - each[0] for each in hours if each is not None), default=1)

    def fitted(plan: Plan, _size: int, timetable: Timetable) -> Edit | None:
        return _fitted(plan, cooks, timetable)

    def told(_size: int, timetable: Timetable) -> tuple[Change, ...]:
        return tuple(_told(cook, timetable) for cook in cooks)

    weight = 1.0 + bool(skills) * 0.5
    return Easing(
        WayKind.HELPER, make, told, most, needs=needs, fitted=fitted,
        weight=lambda size: count * (size * weight + 100 * (count - 1)),
    )  # fmt: skip


def _whole_day(case: Case, skills: tuple[str, ...]) -> Easing:
    """At any time; narrowed to from the first to the last thing to do."""
    cooks = _new(case, 1, skills)
    return Easing(
        WayKind.HELPER,
        lambda _size: _joined(cooks),
        lambda _size, timetable: (_told(cooks[0], timetable),),
        fitted=lambda plan, _size, timetable: _fitted(plan, cooks, timetable),
        weight=lambda _size: 2.0 * _MOST,
    )


def _hours(timetable: Timetable, cook: CookId) -> tuple[int, int] | None:
    """Return from when to when a cook has something to do."""
    hands = [
        (hand.start, hand.start + hand.minutes)
        for placed in timetable.placed
        for hand in placed.hands
        if hand.cook == cook
    ]
    hands += [(each.start, each.start + 1) for each in timetable.heatings if each.cook == cook]
    hands += [(each.start, each.end) for each in timetable.washings if each.cook == cook]
    return (min(start for start, _end in hands), max(end for _start, end in hands)) if hands else None


def _fitted(plan: Plan, cooks: tuple[Cook, ...], timetable: Timetable) -> Edit | None:
    found = []
    for cook in cooks:
        hours = _hours(timetable, cook.id)
        if hours is None:
            return None
        found.append(replace(cook, present=(window_of(plan, *hours),)))
    return _joined(tuple(found))


def _told(cook: Cook, timetable: Timetable) -> Change:
    begins, ends = _hours(timetable, cook.id) or (None, None)
    return Change(
        Unit.COOKS, 0, 1, cook=cook.id, begins=begins, ends=ends, skill=", ".join(cook.skills), name=cook.name
    )


def helped_with(timetable: Timetable, cook: CookId) -> tuple[StepId, ...]:
    """Return the steps at which a cook has something to do, in order of time."""
    at = [
        (hand.start, placed.step) for placed in timetable.placed for hand in placed.hands if hand.cook == cook
    ]
    return tuple(dict.fromkeys(step for _start, step in sorted(at)))


def fewer_hands(case: Case) -> Family:
    """Propose to do what takes several people with one fewer."""
    found = []
    for each in case.steps:
        step = case.step(each)
        if step.attention is Attention.HANDS_ON and step.hands > 1:
            found.append(_fewer(step))
    return Family(WayKind.FEWER_HANDS, tuple(found), joint=True)


def _fewer(step: Step) -> Easing:
    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.COOKS, step.hands, step.hands - size, step=step.id),)

    return Easing(
        WayKind.FEWER_HANDS,
        lambda size: ChangeStep(step.id, replace(step, hands=step.hands - size)),
        told,
        step.hands - 1,
        1,
    )


def novices(case: Case) -> Family:
    """Propose that anybody may do a step, or its touches, that asks for a skill not everybody has."""
    cooks = case.plan.kitchen.cooks
    found = []
    for each in case.steps:
        step = case.step(each)
        asked = {step.skill, *(touch.skill for touch in step.touches)} - {""}
        if any(skill not in cook.skills for skill in asked for cook in cooks):
            found.append(_novice(step, ", ".join(sorted(asked))))
    return Family(WayKind.NOVICE, tuple(found), joint=True)


def _novice(step: Step, asked: str) -> Easing:
    touches = tuple(replace(touch, skill="") for touch in step.touches)
    minutes = step.length.likely if step.attention is Attention.HANDS_ON else len(touches)

    def told(_size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.NOTHING, 1, 0, step=step.id, skill=asked),)

    return Easing(
        WayKind.NOVICE,
        lambda _size: ChangeStep(step.id, replace(step, skill="", touches=touches)),
        told,
        weight=lambda _size: float(minutes),
    )
