"""What a timetable reached of each wish, in the cook's units and named thing by thing. No solver is needed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from core.arrange.outcome import WishKind
from core.arrange.quality_measure import (
    Turned,
    heated_too_soon,
    moved,
    off_recipes,
    rushed,
    too_early,
    turned,
    waited,
)
from core.arrange.quality_room import tight
from core.plan.ids import CookId, DishId, StationId, StepId
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


class PartKind(StrEnum):
    """What a part of a wish is about."""

    WAIT = "food waits longer than it must"
    RUSH = "hands-on work in the last three quarters of an hour"
    TIGHT = "no room before what cannot wait"
    HEATING = "heated from cold"
    CHANGE = "brought to another temperature"
    OFF = "baked at another temperature than the recipe's"
    SOON = "switched on sooner than it must be"
    MORNING = "hands before one would rather begin"
    MOVE = "begins at another minute than before"


@dataclass(frozen=True, slots=True)
class Part:
    """One thing of which a wish is made up. Only what its kind needs is filled in; offsets from plating.

    WAIT: `amount` minutes in all for `dish`, of food that minds; `at`, `until`, `step` and `after` are of its longest
    wait. RUSH: minutes times cooks at `step`. TIGHT: `cook` goes at `at` from `step` to `after`, `amount` minutes
    short. HEATING, CHANGE: `station` at `at` to `setting`. OFF: `amount` °C (signed) at `step`, `setting` instead.
    SOON: minutes of `station`. MORNING: minutes from `at` to `until`. MOVE: minutes (signed) at `step`.
    """

    kind: PartKind
    amount: int
    dish: DishId | None = None
    step: StepId | None = None
    after: StepId | None = None
    load: int = 0
    station: StationId | None = None
    cook: CookId | None = None
    at: int | None = None
    until: int | None = None
    setting: int | None = None


_COUNTS = {PartKind.WAIT, PartKind.RUSH, PartKind.MORNING, PartKind.MOVE}


def parts_of(plan: Plan, timetable: Timetable, seen: Timetable | None = None) -> dict[WishKind, tuple[Part, ...]]:
    """Return the parts of each wish, the greatest first; KEEP only where `seen` is given."""
    found = {
        WishKind.FRESH: _waits(plan, timetable),
        WishKind.CALM: (*_rush(plan, timetable), *_tight(plan, timetable)),
        WishKind.OVEN: _oven(plan, timetable),
        WishKind.SLEEP: tuple(
            Part(PartKind.MORNING, each.minutes, at=each.first, until=each.until)
            for each in too_early(plan, timetable)
        ),
    }
    if seen is not None:
        moves = [
            Part(PartKind.MOVE, minutes, plan.dish_of[step].id if step in plan.steps else None, step, load=load)
            for step, load, minutes in moved(timetable, seen)
        ]
        found[WishKind.KEEP] = _greatest_first(moves)
    return found


def reached(wish: WishKind, parts: Iterable[Part]) -> int:
    """Return what is reached of a wish in the cook's units, less being better.

    Fresh: minutes by which food that minds waits longer than it must. Calm: hands-on minutes (times cooks) of the
    last three quarters of an hour. Oven: how often something is brought to a temperature. Sleep: minutes of the
    mornings. Keep: minutes by which steps begin sooner or later than before.
    """
    if wish is WishKind.OVEN:
        return sum(each.kind in (PartKind.HEATING, PartKind.CHANGE) for each in parts)
    return sum(abs(each.amount) for each in parts if each.kind in _COUNTS)


def _greatest_first(parts: Iterable[Part]) -> tuple[Part, ...]:
    return tuple(sorted(parts, key=lambda each: -abs(each.amount)))


def _waits(plan: Plan, timetable: Timetable) -> tuple[Part, ...]:
    """Return one part for each dish with food that minds and waits longer than it must, the dearest first."""
    by_dish: dict[DishId, list[tuple[int, Part]]] = {}
    for each in waited(plan, timetable):
        if each.minds > 1 and each.over:
            part = Part(
                PartKind.WAIT, each.over, each.dish, each.before, each.after, each.load, at=each.start, until=each.end
            )
            by_dish.setdefault(each.dish, []).append((each.over * each.minds, part))
    found = []
    for dish, waits in by_dish.items():
        _dear, worst = max(waits, key=lambda each: (each[1].amount, each[0]))
        total = sum(part.amount for _cost, part in waits)
        whole = Part(
            PartKind.WAIT, total, dish, worst.step, worst.after, worst.load, at=worst.at, until=worst.until
        )
        found.append((sum(cost for cost, _part in waits), whole))
    return tuple(part for _cost, part in sorted(found, key=lambda each: -each[0]))


def _rush(plan: Plan, timetable: Timetable) -> tuple[Part, ...]:
    """Return one part for each step, the greatest first."""
    by_step: dict[StepId, int] = {}
    for each in rushed(plan, timetable):
        by_step[each.step] = by_step.get(each.step, 0) + each.minutes
    return _greatest_first(
        Part(PartKind.RUSH, minutes, plan.dish_of[step].id, step) for step, minutes in by_step.items()
    )


def _tight(plan: Plan, timetable: Timetable) -> tuple[Part, ...]:
    return tuple(
        Part(
            PartKind.TIGHT,
            each.over - each.room,
            plan.dish_of[each.after].id,
            each.before,
            each.after,
            each.load,
            cook=each.cook,
            at=each.at,
        )
        for each in tight(plan, timetable)
    )


def _oven(plan: Plan, timetable: Timetable) -> tuple[Part, ...]:
    turns = sorted(turned(plan, timetable), key=lambda each: (each.at, each.station))
    off = [
        Part(
            PartKind.OFF, each.setting - each.wanted, plan.dish_of[each.step].id, each.step, load=each.load,
            setting=each.setting,
        )
        for each in off_recipes(plan, timetable)
    ]
    soon = [Part(PartKind.SOON, minutes, station=station) for station, minutes in heated_too_soon(plan, timetable)]
    return (*(_turn(each) for each in turns), *_greatest_first(off), *_greatest_first(soon))


def _turn(each: Turned) -> Part:
    kind = PartKind.HEATING if each.cold else PartKind.CHANGE
    return Part(kind, 1, station=each.station, at=each.at, setting=each.setting)
