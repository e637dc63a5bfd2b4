"""Checks of a plan's own values and of its dishes: ids, names, servings, courses, ingredients."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from core.measures.clock import Moment, zone_named
from core.measures.minutes import show_minutes
from core.measures.refusal import Refusal, quoted
from core.plan.check_house import house_problems
from core.plan.check_problem import (
    LONGEST,
    MOST_COUNT,
    Family,
    Problems,
    amount_trouble,
    name_trouble,
    out_of,
    problem,
    texts_trouble,
)
from core.plan.check_words import short, spoken
from core.plan.ids import WORD
from core.plan.menu import Dish
from core.plan.plan import Plan

_MOST_TRANSFER = 120
_MOST_SCALE = 1000
_MOST_THICK = 1000
_SOONEST_YEAR, _LATEST_YEAR = 2000, 2199


def menu_problems(plan: Plan) -> Problems:
    """Find what is wrong with the plan's own values and with its dishes, steps apart."""
    yield from _plan_values(plan)
    yield from _ids(plan)
    for dish in plan.menu.dishes:
        yield from _dish(dish)
    yield from house_problems(plan)


def _plan_values(plan: Plan) -> Problems:
    if trouble := name_trouble(plan.name):
        yield problem(Family.TEXTS, f"The plan's name {trouble}.", "its name")
    if sentence := _plating(plan.plating):
        yield problem(Family.TIMES, sentence, "its plating")
    if out_of(plan.transfer, 0, _MOST_TRANSFER):
        yield problem(
            Family.NUMBERS,
            f"Putting in or taking out takes {show_minutes(plan.transfer)}; give 0 to {_MOST_TRANSFER}.",
            "its transfer",
        )
    if out_of(plan.opens, -LONGEST, LONGEST):
        yield problem(
            Family.NUMBERS,
            "The plan begins more than a year from plating; let it begin nearer.",
            "its beginning",
        )


def _plating(plating: Moment) -> str:
    local = plating.local
    if not _SOONEST_YEAR <= local.year <= _LATEST_YEAR:
        return f"Plating is in the year {local.year}; give one from {_SOONEST_YEAR} to {_LATEST_YEAR}."
    if local.tzinfo is not None or local.second or local.microsecond:
        return "Plating is not a whole minute of the clock; give date, hours and minutes only."
    try:
        zone_named(plating.zone)
    except Refusal as unknown:
        return f"Plating: {unknown.text}"
    return ""


def _ids(plan: Plan) -> Problems:
    for dish in plan.menu.dishes:
        if not WORD.match(dish.id):
            yield problem(Family.IDS, bad_id(f"The dish {short(dish.name)}", dish.id), dish.id)
        for step in dish.steps:
            owner, _, local = step.id.partition(".")
            if owner != dish.id or not WORD.match(local):
                yield problem(
                    Family.IDS,
                    f"{spoken(dish, step)} has the id {quoted(step.id)}; a step's id is its dish's id,"
                    f" a dot and a short word, such as {dish.id}.bake.",
                    step.id,
                )
    for twice in repeated(dish.id for dish in plan.menu.dishes):
        names = " and ".join(short(dish.name) for dish in plan.menu.dishes if dish.id == twice)
        yield problem(
            Family.IDS, f"{names} bear the same id {quoted(twice)}; give one of them another.", twice
        )
    for twice in repeated(step.id for dish in plan.menu.dishes for step in dish.steps):
        names = " and ".join(
            spoken(dish, step) for dish in plan.menu.dishes for step in dish.steps if step.id == twice
        )
        yield problem(
            Family.IDS, f"{names} bear the same id {quoted(twice)}; give one of them another.", twice
        )


def bad_id(what: str, bad: str) -> str:
    """Return the sentence for an id that is not well-formed."""
    return f"{what} has the id {quoted(bad)}; write it with small letters, digits, - and _, up to 64 of them."


def repeated(ids: Iterable[str]) -> list[str]:
    """Return what occurs more than once, in order."""
    return [each for each, times in Counter(ids).items() if times > 1]


def _dish(dish: Dish) -> Problems:
    name = short(dish.name) or dish.id
    if trouble := name_trouble(dish.name):
        yield problem(Family.TEXTS, f"The name of the dish {quoted(dish.id)} {trouble}.", dish.id)
    if trouble := texts_trouble(dish.code, dish.plating, dish.note, dish.pan, dish.pan_wanted, *dish.allergens):
        yield problem(Family.TEXTS, f"A text of {name} {trouble}.", dish.id)
    if out_of(dish.written_for, 1, MOST_COUNT):
        yield problem(
            Family.NUMBERS,
            f"{name} is written for {dish.written_for} servings; write it for 1 to {MOST_COUNT}.",
            dish.id,
        )
    if out_of(dish.wanted, 1, MOST_COUNT):
        yield problem(
            Family.NUMBERS,
            f"{name} is wanted for {dish.wanted} servings; ask for 1 to {MOST_COUNT},"
            " or take it off the menu.",
            dish.id,
        )
    if out_of(dish.course, -LONGEST, LONGEST):
        yield problem(
            Family.TIMES, f"{name} is served more than a year from plating; give it a nearer course.", dish.id
        )
    if out_of(dish.keep.most, 0, LONGEST):
        yield problem(
            Family.TIMES,
            f"{name} cannot keep for {show_minutes(dish.keep.most)}; give 0 to 366 days, or no limit.",
            dish.id,
        )
    if dish.scale is not None and not 0 < dish.scale <= _MOST_SCALE:
        yield problem(
            Family.NUMBERS,
            f"{name} is to be made {float(dish.scale):g} times; give more than 0, up to {_MOST_SCALE}, or let the"
            " servings say it.",
            dish.id,
        )
    yield from _ingredients(dish, name)


def _ingredients(dish: Dish, name: str) -> Problems:
    steps = {step.id for step in dish.steps}
    items = {each.item for each in dish.ingredients}
    for each in dish.ingredients:
        if trouble := name_trouble(each.item):
            yield problem(Family.TEXTS, f"An ingredient of {name}, {quoted(each.item)}, {trouble}.", dish.id)
        if trouble := texts_trouble(each.preparation, each.aisle, *each.allergens):
            yield problem(Family.TEXTS, f"{short(each.item)} of {name} {trouble}.", dish.id)
        if each.step is not None and each.step not in steps:
            yield problem(
                Family.IDS,
                f"{short(each.item)} of {name} goes into the step {quoted(each.step)}, which {name} has not;"
                " choose one of its steps, or none.",
                dish.id,
            )
        if each.quantity is not None and (trouble := amount_trouble(each.quantity)):
            yield problem(Family.NUMBERS, f"{short(each.item)} of {name} {trouble}.", dish.id)
        if out_of(each.pieces, 0, MOST_COUNT):
            yield problem(
                Family.NUMBERS,
                f"{short(each.item)} of {name} comes in {each.pieces} pieces; give 0 (not told) to {MOST_COUNT}.",
                dish.id,
            )
        if out_of(each.thick, 0, _MOST_THICK):
            yield problem(
                Family.NUMBERS,
                f"{short(each.item)} of {name} is {each.thick} mm thick; give 0 (not told) to {_MOST_THICK} mm.",
                dish.id,
            )
        if each.per_kg_of and (each.per_kg_of == each.item or each.per_kg_of not in items):
            yield problem(
                Family.IDS,
                f"{short(each.item)} of {name} is weighed by the kilogram of {quoted(each.per_kg_of)};"
                f" name another ingredient of {name}.",
                dish.id,
            )
