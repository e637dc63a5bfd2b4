"""Letting food wait longer: after one step until the next, or until it is served."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan import meaning
from core.plan.edits import ChangeDish, ChangeLink, ChangeStep, Edit
from core.plan.ids import StepId
from core.plan.menu import Link, LinkKind
from core.plan.step import Step
from core.timetable.timetable import Placed, Timetable

_AT_LEAST = 60  # minutes more that are looked at, however short the limit is


def longer_waits(case: Case) -> Family:
    """Propose longer waits wherever a limit is said near the trouble."""
    near = set(case.steps)
    found = [
        (case.rank[link.before], _link(case, link, link.most))
        for link in case.plan.menu.links
        if link.most is not None and (link.before in near or link.after in near)
    ]
    for step in case.steps:
        keep = meaning.keep_of(case.plan, case.step(step))
        if keep is not None and keep.most is not None:
            found.append((case.rank[step], _keep(case, case.step(step), keep.most)))
    ordered = sorted(found, key=lambda each: (not each[1].guess, each[0]))  # what is over its limit comes first
    return Family(WayKind.WAIT_LONGER, tuple(easing for _rank, easing in ordered), joint=True)


def _link(case: Case, link: Link, most: int) -> Easing:
    def make(size: int) -> Edit:
        return ChangeLink(link.key, replace(link, most=most + size))

    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (
            Change(Unit.MINUTES, most, most + size, step=link.before, after=link.after, link=link.kind),
        )

    def needs(timetable: Timetable) -> int:
        before, after = timetable.loads_of.get(link.before, ()), timetable.loads_of.get(link.after, ())
        if not before or not after:
            return 1
        if link.kind is LinkKind.START_TO_START:
            return after[0].start - before[0].start - most
        if link.kind is LinkKind.END_TO_END:
            return after[-1].end - before[-1].end - most
        pairs = (
            zip(before, after, strict=True) if len(before) == len(after) > 1 else ((before[0], after[-1]),)
        )
        return max(other.start - _done(case, one) for one, other in pairs) - most

    return _easing(make, told, needs, most, case.over((link.before,)))


def _keep(case: Case, step: Step, most: int) -> Easing:
    dish = case.plan.dish_of[step.id]
    keep = meaning.keep_of(case.plan, step)
    assert keep is not None

    def make(size: int) -> Edit:
        longer = replace(keep, most=most + size)
        if step.keeps is not None:
            return ChangeStep(step.id, replace(step, keeps=longer))
        return ChangeDish.of(dish.id, keep=longer)

    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.MINUTES, most, most + size, dish=dish.id, step=step.id),)

    def needs(timetable: Timetable) -> int:
        last: set[StepId] = {each.id for each in dish.steps if each.id in case.plan.last_steps}
        own = {step.id} if step.keeps is not None else last
        firsts = [timetable.loads_of[each][0] for each in own if each in timetable.loads_of]
        return max((dish.course - _done(case, each) for each in firsts), default=most + 1) - most

    return _easing(make, told, needs, most, case.over((step.id,)))


def _easing(
    make: Callable[[int], Edit],
    told: Callable[[int, Timetable], tuple[Change, ...]],
    needs: Callable[[Timetable], int],
    most: int,
    over: int,
) -> Easing:
    extra = max(_AT_LEAST, most)
    return Easing(
        WayKind.WAIT_LONGER,
        make,
        told,
        extra,
        min(over, extra),
        needs,
        weight=lambda size: 100 * size / max(10, most),
    )


def _done(case: Case, placed: Placed) -> int:
    """Return when a load's food may be done: what is reserved for the slow case waits longer in the quick one."""
    return placed.end - meaning.reserved(case.plan, placed.step).early
