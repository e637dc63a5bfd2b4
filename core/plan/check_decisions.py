"""Checks of decisions: pins, choices, lengths and orders name what exists, each once."""

from __future__ import annotations

from collections import Counter
from dataclasses import fields

from core.measures.refusal import quoted
from core.measures.words import plural
from core.plan import meaning
from core.plan.check_menu import repeated
from core.plan.check_problem import LONGEST, Family, Problems, out_of, problem, texts_trouble
from core.plan.check_steps import way_chosen
from core.plan.check_words import Words
from core.plan.decisions import Pin, Wishes
from core.plan.fits import Barred, barred
from core.plan.ids import StepId
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Step

_Where = dict[StepId, tuple[Dish, Step]]
_STRONGEST = 10
_DAY = 24 * 60


def decision_problems(plan: Plan) -> Problems:
    """Find decisions about things that are not there, doubled ones, and values out of range."""
    words = Words(plan)
    where: _Where = {step.id: (dish, step) for dish in plan.menu.dishes for step in dish.steps}
    yield from _pins(plan, where, words)
    yield from _choices(plan, where, words)
    yield from _lengths(plan, where, words)
    yield from _orders(plan, where, words)
    yield from _wishes(plan.decisions.wishes)
    if trouble := texts_trouble(plan.decisions.rules):
        yield problem(Family.TEXTS, f"The name of the food rules {trouble}.", "its food rules")


def _wishes(wishes: Wishes) -> Problems:
    weights = (getattr(wishes, each.name) for each in fields(Wishes) if each.name != "sleep_until")
    if any(out_of(weight, 0, _STRONGEST) for weight in weights):
        sentence = f"A wish weighs less than 0 or more than {_STRONGEST}; give 0 to {_STRONGEST}."
        yield problem(Family.NUMBERS, sentence, "its wishes")
    if out_of(wishes.sleep_until, 0, _DAY - 1):
        sentence = "The time until which the cooks may sleep is not a time of day; give 00:00 to 23:59."
        yield problem(Family.TIMES, sentence, "its wishes")


def _gone(what: str, step: StepId) -> str:
    return f"{what} is about {quoted(step)}, which is no step of the menu; take it out."


def _pins(plan: Plan, where: _Where, words: Words) -> Problems:
    times = Counter((pin.step, pin.load) for pin in plan.decisions.pins)
    for pin in plan.decisions.pins:
        if sentence := _pin(plan, pin, where, words):
            yield problem(Family.DECISIONS, sentence, pin.step)
    for (step, load), number in times.items():
        if number > 1:
            which = f"load {load + 1} of {words.step(step)}" if load else words.step(step)
            yield problem(Family.DECISIONS, f"There are {number} pins at {which}; lift all but one.", step)


def _pin(plan: Plan, pin: Pin, where: _Where, words: Words) -> str:
    if pin.step not in where:
        return _gone("A pin", pin.step)
    dish, step = where[pin.step]
    name = words.step(pin.step)
    loads = meaning.load_count(dish, step) if loads_known(dish, step) else 1
    if out_of(pin.load, 0, loads - 1):
        there = plural(loads, "load")
        return f"A pin holds load {pin.load + 1} of {name}, which comes to {there}; lift the pin."
    if out_of(pin.start, -LONGEST, LONGEST):
        return f"{name} is pinned more than a year from plating; move or lift the pin."
    if pin.cook is not None and pin.cook not in plan.kitchen.cook:
        return f"{name} is pinned to the cook {quoted(pin.cook)}, who is not in the kitchen; lift the pin."
    if pin.station is None:
        return ""
    if pin.station not in plan.kitchen.station:
        return (
            f"{name} is pinned to the station {quoted(pin.station)}, which the kitchen has not; lift the pin."
        )
    if not station_fits(plan, step, pin, bare=True):
        return f"{name} is pinned to {words.station(pin.station)}, but does not happen there; lift the pin."
    if not station_fits(plan, step, pin):
        there = words.station(pin.station)
        return f"{name} is pinned to {there}, where its vessel does not fit; lift the pin, or use another vessel."
    return ""


def station_fits(plan: Plan, step: Step, pin: Pin, *, bare: bool = False) -> bool:
    """Tell whether the way chosen for a step may stand at the station it is pinned to (True without one).

    `bare`: whatever its vessels.
    """
    if pin.station is None:
        return True
    station = plan.kitchen.station.get(pin.station)
    if station is None:
        return False
    _way, _length, uses = way_chosen(plan, step)
    outs = [Barred(frozenset())] * len(uses) if bare else barred(plan.kitchen, step, uses)
    return any(
        use.kind is station.kind and use.station in (None, station.id) and station.id not in out.stations
        for use, out in zip(uses, outs, strict=True)
    )


def loads_known(dish: Dish, step: Step) -> bool:
    """Tell whether the number of loads can be worked out."""
    return dish.written_for >= 1 and (step.loads is None or step.loads.per_load >= 1)


def _choices(plan: Plan, where: _Where, words: Words) -> Problems:
    for each in plan.decisions.choices:
        if each.step not in where:
            yield problem(Family.DECISIONS, _gone("A choice between ways", each.step), each.step)
        elif out_of(each.way, 0, len(where[each.step][1].alternatives)):
            ways = plural(len(where[each.step][1].alternatives) + 1, "way")
            yield problem(
                Family.DECISIONS,
                f"{words.step(each.step)} is to be done way {each.way + 1}, and has {ways}; choose one.",
                each.step,
            )
    for twice in repeated(each.step for each in plan.decisions.choices):
        yield problem(
            Family.DECISIONS, f"Two ways are chosen for {words.step(StepId(twice))}; choose one.", twice
        )


def _lengths(plan: Plan, where: _Where, words: Words) -> Problems:
    for each in plan.decisions.lengths:
        if each.step not in where:
            yield problem(Family.DECISIONS, _gone("A choice of length", each.step), each.step)
    for twice in repeated(each.step for each in plan.decisions.lengths):
        yield problem(
            Family.DECISIONS, f"Two lengths are chosen for {words.step(StepId(twice))}; choose one.", twice
        )


def _orders(plan: Plan, where: _Where, words: Words) -> Problems:
    times = Counter(plan.decisions.orders)
    for each, number in times.items():
        first, then = words.step(each.first), words.step(each.then)
        for step in dict.fromkeys((each.first, each.then)):
            if step not in where:
                yield problem(Family.DECISIONS, _gone(f"The order “{first} before {then}”", step), step)
        if each.first == each.then:
            yield problem(
                Family.DECISIONS, f"{first} is ordered before itself; take the order out.", each.first
            )
        if number > 1:
            sentence = f"The order “{first} before {then}” is given {number} times; once is enough."
            yield problem(Family.DECISIONS, sentence, each.first, each.then)
