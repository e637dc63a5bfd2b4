"""Several random feasts in one plan, in one kitchen made of all their kitchens, to make plans of thousands of steps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields, is_dataclass, replace
from typing import Any

from bench.feasts import Feast, feast
from core.plan.kitchen import Kitchen
from core.plan.menu import Menu
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

_IDS = frozenset({"id", "step", "before", "after", "station", "vessel", "cook"})
"""Fields that hold the id of something of the plan."""


def many(dishes: int, feasts: int, *, one_kitchen: bool = False) -> Feast:
    """Return so many feasts of so many dishes each, all at the same time, each in its own part of the kitchen.

    `one_kitchen`: all in the kitchen of the first instead, a day after each other, the last one at plating.
    """
    parts = [feast(dishes, seed) for seed in range(1, feasts + 1)]
    if one_kitchen:
        parts = [_named(part, f"n{at}-", kitchen=False) for at, part in enumerate(parts)]
        parts = [replace(part, planted=earlier(part.planted, 1440 * at)) for at, part in enumerate(parts)]
    else:
        parts = [_named(part, f"n{at}-", kitchen=True) for at, part in enumerate(parts)]
    first = parts[0].plan
    kitchens = [first.kitchen] if one_kitchen else [part.plan.kitchen for part in parts]
    plan = Plan(
        f"{feasts} feasts of {dishes} dishes",
        first.plating,
        Menu(_all(part.plan.menu.dishes for part in parts), _all(part.plan.menu.links for part in parts)),
        Kitchen(
            f"{len(kitchens)} kitchens",
            _all(each.stations for each in kitchens),
            _all(each.vessels for each in kitchens),
            _all(each.cooks for each in kitchens),
        ),
        opens=None if first.opens is None else first.opens - (1440 * feasts if one_kitchen else 0),
    )
    return Feast(plan, _together([part.planted for part in parts]))


def earlier(timetable: Timetable, minutes: int) -> Timetable:
    """Return a timetable with everything so many minutes earlier."""
    placed = tuple(
        replace(
            each,
            start=each.start - minutes,
            hands=tuple(replace(hand, start=hand.start - minutes) for hand in each.hands),
        )
        for each in timetable.placed
    )
    return Timetable(
        placed,
        tuple(replace(each, start=each.start - minutes, end=each.end - minutes) for each in timetable.stays),
        tuple(replace(each, start=each.start - minutes, end=each.end - minutes) for each in timetable.heatings),
        tuple(replace(each, start=each.start - minutes) for each in timetable.washings),
    )


def _together(parts: list[Timetable]) -> Timetable:
    return Timetable(
        _all(part.placed for part in parts),
        _all(part.stays for part in parts),
        _all(part.heatings for part in parts),
        _all(part.washings for part in parts),
    )


def _all(parts: Iterable[tuple[Any, ...]]) -> tuple[Any, ...]:
    return tuple(each for part in parts for each in part)


def _named(one: Feast, prefix: str, *, kitchen: bool) -> Feast:
    """Return a feast whose dishes and steps, and the things of its kitchen where wanted, bear a prefix in their ids."""
    names: set[str] = {str(each) for each in (*one.plan.steps, *one.plan.dishes)}
    if kitchen:
        there = one.plan.kitchen
        names |= {str(each) for each in (*there.station, *there.vessel, *there.cook)}
    menu, room, planted = (_renamed(each, prefix, names) for each in (one.plan.menu, one.plan.kitchen, one.planted))
    return Feast(replace(one.plan, menu=menu, kitchen=room), planted)


def _renamed(value: Any, prefix: str, names: set[str]) -> Any:
    if isinstance(value, tuple):
        return tuple(_renamed(each, prefix, names) for each in value)
    if not is_dataclass(value) or isinstance(value, type):
        return value
    changed = {}
    for field in fields(value):
        old = getattr(value, field.name)
        if field.name in _IDS and type(old) is str:
            new = prefix + old if old in names else old
        else:
            new = _renamed(old, prefix, names)
        if new is not old:
            changed[field.name] = new
    return replace(value, **changed) if changed else value
