"""Other loads: more at a time as far as what stands there bears it, fewer at a time, fewer servings."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan import meaning
from core.plan.edits import ChangeDish, ChangeStep, Edit
from core.plan.ids import DishId, StepId
from core.plan.kitchen import StationKind
from core.plan.step import Loads, Step, Use
from core.timetable.timetable import Timetable


def bigger_loads(case: Case) -> Family:
    """Propose more pieces at a time, just as many as save a load: on the whole station, or on twice the places."""
    found: list[Easing] = []
    for each in case.steps:
        step = case.step(each)
        if step.loads is not None and meaning.load_count(case.plan.dish_of[each], step) > 1:
            found += _bigger(case, step, step.loads)
    return Family(WayKind.BIGGER_LOADS, tuple(found))


def _bigger(case: Case, step: Step, loads: Loads) -> list[Easing]:
    """One easing on what stands there, one on as many places again (two pans on two rings)."""
    total = loads.pieces * case.plan.dish_of[step.id].factor
    count = meaning.load_count(case.plan.dish_of[step.id], step)
    sizes = [ceil(total / fewer) - loads.per_load for fewer in range(count - 1, 0, -1)]
    own = tuple(size for size in sizes if 0 < size <= _room(case, step, loads))
    easings = [_of_sizes(step, loads, own, 1)] if own else []
    double = sizes[-1] if sizes and sizes[-1] < loads.per_load else loads.per_load
    if double > 0 and case.uses(step.id):
        easings.append(_of_sizes(step, loads, (double,), 2))
    return easings


def _room(case: Case, step: Step, loads: Loads) -> int:
    """Return how many pieces more the places that the step takes hold, a piece to each unit (0: not known)."""
    rooms = [
        max(0, use.units - loads.per_load)
        for use in case.uses(step.id)
        if use.kind in {StationKind.GRILL, StationKind.SMOKER} and use.units >= loads.per_load
    ]
    return min(rooms, default=0)


def _of_sizes(step: Step, loads: Loads, sizes: tuple[int, ...], times: int) -> Easing:
    def make(size: int) -> Edit:
        bigger = replace(loads, per_load=loads.per_load + size)
        uses = tuple(replace(use, units=use.units * times) for use in step.uses)
        vessels = tuple(replace(each, count=each.count * times) for each in step.vessels)
        return ChangeStep(step.id, replace(step, loads=bigger, uses=uses, vessels=vessels))

    def told(size: int, timetable: Timetable) -> tuple[Change, ...]:
        count = len(timetable.loads_of.get(step.id, ()))
        more = Change(Unit.PER_LOAD, loads.per_load, loads.per_load + size, step=step.id)
        places = tuple(
            Change(Unit.UNITS, use.units, use.units * times, step=step.id, name=use.kind.value)
            for use in step.uses
            if times > 1
        )
        return more, Change(Unit.LOADS, None, count, step=step.id), *places

    return Easing(WayKind.BIGGER_LOADS, make, told, sizes=sizes, weight=lambda size: size * times)


def smaller_loads(case: Case) -> Family:
    """Propose to cook in more rounds what takes several places of one kind at once."""
    found: list[Easing] = []
    for each in case.steps:
        step = case.step(each)
        places = [use for use in step.uses if use.units > 1 and not use.area]
        if len(places) == 1 and not step.alternatives:
            found += _smaller(case, step, places[0])
    return Family(WayKind.SMALLER_LOADS, tuple(found))


def _smaller(case: Case, step: Step, place: Use) -> list[Easing]:
    dish = case.plan.dish_of[step.id]
    found = []
    for units in range(place.units - 1, 0, -1):
        loads = _split(step, place.units, units)
        if loads is None or meaning.load_count(dish, replace(step, loads=loads)) <= meaning.load_count(dish, step):
            continue
        if meaning.load_count(dish, replace(step, loads=loads)) > 8:
            continue
        found.append(_rounds(case, step, replace(place, units=units), loads))
    return found


def _split(step: Step, units: int, fewer: int) -> Loads | None:
    """Return the loads when only so many of the places are taken; None where pieces do not come out whole."""
    if step.loads is None:
        return Loads(units, fewer)
    per_load = step.loads.per_load * fewer // units
    return replace(step.loads, per_load=per_load) if per_load >= 1 else None


def _rounds(case: Case, step: Step, place: Use, loads: Loads) -> Easing:
    old = meaning.load_count(case.plan.dish_of[step.id], step)
    uses = tuple(place if use.units > 1 and not use.area else use for use in step.uses)
    new = replace(step, loads=loads, uses=uses)
    count = meaning.load_count(case.plan.dish_of[step.id], new)

    def told(_size: int, _timetable: Timetable) -> tuple[Change, ...]:
        before = max(use.units for use in step.uses)
        units = Change(Unit.UNITS, before, place.units, step=step.id, name=place.kind.value)
        return Change(Unit.LOADS, old, count, step=step.id), units

    return Easing(
        WayKind.SMALLER_LOADS,
        lambda _size: ChangeStep(step.id, new),
        told,
        weight=lambda _size: float(count - old),
    )


def fewer_servings(case: Case) -> Family:
    """Propose to cook a dish that is done in loads for fewer, down to half."""
    dishes = dict.fromkeys(
        case.plan.dish_of[each].id for each in case.steps if case.step(each).loads is not None
    )
    found = tuple(_fewer(case, dish) for dish in dishes if case.plan.dishes[dish].wanted > 1)
    return Family(WayKind.FEWER_SERVINGS, found, joint=True)


def _fewer(case: Case, dish: DishId) -> Easing:
    the_dish = case.plan.dishes[dish]
    in_loads = [step.id for step in the_dish.steps if step.loads is not None]

    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        wanted = the_dish.wanted - size
        servings = Change(Unit.SERVINGS, the_dish.wanted, wanted, dish=dish)
        return servings, *(_pieces(case, step, wanted) for step in in_loads)

    return Easing(
        WayKind.FEWER_SERVINGS,
        lambda size: ChangeDish.of(dish, wanted=the_dish.wanted - size),
        told,
        max(1, the_dish.wanted // 2),
        weight=lambda size: 100 * size / the_dish.wanted / 4,
    )


def _pieces(case: Case, step: StepId, wanted: int) -> Change:
    """Return how many pieces are cooked, and how many with fewer servings."""
    dish, loads = case.plan.dish_of[step], case.step(step).loads
    assert loads is not None
    per_serving = loads.pieces * dish.factor / dish.wanted
    return Change(Unit.PIECES, round(per_serving * dish.wanted), round(per_serving * wanted), step=step)
