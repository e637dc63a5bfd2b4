"""Scaling a dish by servings, by the weight of one ingredient, or by the pan it is made in.

Amounts grow exactly; what is measured is in core.food.measured. Lengths never grow by themselves: what changes for
them is in core.food.scale_notes, with estimates to take or leave.
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass, replace
from fractions import Fraction

from core.food.order_list import key_of
from core.food.pans import Pan, area_ratio, parse_pan, said_pan
from core.food.scale_notes import (
    DepthNote,
    LoadNote,
    PieceNote,
    SpaceNote,
    depth_notes,
    load_notes,
    piece_notes,
    space_notes,
)
from core.food.scaling import Scaled, scaled_dish, written_amount
from core.food.sound import above_zero, same_kind, some
from core.food.weighing import density, find_food, weighed
from core.measures.quantity import Quantity, convert
from core.measures.refusal import Refusal
from core.measures.words import join_words
from core.plan.check_words import short
from core.plan.menu import Dish

_MOST = Fraction(1000)


@dataclass(frozen=True, slots=True)
class Scaling:
    """A dish as it would be made: `dish` bears the new scale, `factor` is over the recipe as written.

    `lines`: its ingredients, exact. `loads`, `space`, `pieces`, `depths`: what changes besides, as values.
    """

    dish: Dish
    factor: Fraction
    lines: tuple[Scaled, ...]
    loads: tuple[LoadNote, ...]
    space: tuple[SpaceNote, ...]
    pieces: tuple[PieceNote, ...]
    depths: tuple[DepthNote, ...]


def scaling_of(dish: Dish) -> Scaling:
    """Return what a dish comes to as it stands. Raise Refusal for amounts and pans that cannot be."""
    return Scaling(
        dish,
        dish.factor,
        scaled_dish(dish),
        load_notes(dish),
        space_notes(dish),
        piece_notes(dish),
        depth_notes(dish),
    )


def by_servings(dish: Dish, servings: int) -> Scaling:
    """Return a dish made for so many servings; refuse less than one."""
    if servings < 1:
        raise Refusal(f"{short(dish.name)} for {servings}: write 1 serving or more.")
    return scaling_of(replace(dish, wanted=servings, scale=None))


def by_factor(dish: Dish, factor: Fraction | int) -> Scaling:
    """Return a dish made so many times as large as it stands."""
    return _at(dish, dish.factor * above_zero(factor, "The factor of scaling", "2 or 1/2"))


def by_weight(dish: Dish, item: str, quantity: Quantity) -> Scaling:
    """Return a dish made so that it takes this much of an ingredient, by all its lines of that name.

    A weight for what is written by volume, and the other way round, goes through the portion weights. Refuse an
    ingredient that the dish has not, one without an amount, and units that do not compare.
    """
    lines = [each for each in dish.ingredients if key_of(each.item) == key_of(item)]
    if not lines:
        raise Refusal(_not_in(dish, item))
    wanted = some(quantity, item)
    written = [written_amount(dish, line) for line in lines]
    amounts = [each for each in written if each is not None and not each.to_taste and each.amount]
    if not amounts:
        raise Refusal(
            f"{short(item)} has no amount in {short(dish.name)}; write one, or choose another ingredient."
        )
    whole = sum((_alike(each, wanted, item) for each in amounts), Fraction(0))
    return _at(dish, wanted.amount / whole)


def by_pan(dish: Dish, pan: str | Pan) -> Scaling:
    """Return a dish made in other pans with its food as deep as in its own; refuse a dish whose pan is not told."""
    if not dish.pan.strip():
        raise Refusal(
            f"{short(dish.name)} does not say its pan; write the pan of the recipe first, as round 26 cm."
        )
    wanted = parse_pan(pan) if isinstance(pan, str) else pan
    ratio = area_ratio(parse_pan(dish.pan), wanted)
    said = " ".join(pan.split()) if isinstance(pan, str) else said_pan(wanted)
    return _at(replace(dish, pan_wanted=said), ratio)


def _at(dish: Dish, factor: Fraction) -> Scaling:
    if not 1 / _MOST <= factor <= _MOST:
        raise Refusal(
            f"{short(dish.name)} would be made {float(factor):g} times; check the amount that you wrote."
        )
    return scaling_of(replace(dish, scale=factor))


def _not_in(dish: Dish, item: str) -> str:
    items = list(dict.fromkeys(each.item for each in dish.ingredients if each.quantity is not None))
    near = difflib.get_close_matches(key_of(item), [key_of(each) for each in items], 3, 0.5)
    words = set(key_of(item).split())
    shown = [each for each in items if key_of(each) in near or words & set(key_of(each).split())] or items[:4]
    if not shown:
        return f"{short(dish.name)} has no ingredients with amounts; write them first."
    return f"{short(dish.name)} has no {short(item)}; it has {join_words([short(each) for each in shown])}."


def _alike(written: Quantity, wanted: Quantity, item: str) -> Fraction:
    """Return a written amount in the unit of the wanted one."""
    if same_kind(written, wanted):
        return convert(written, wanted.unit).amount
    if find_food(item) is None or density(item) is None:
        raise Refusal(
            f"{short(item)} is written as {written}, and {wanted} does not compare; write it in the same kind of unit."
        )
    return weighed(written, item).grams.amount / (weighed(wanted, item).grams.amount / wanted.amount)
