"""Sentences of scaling: amounts to measure, loads, room, heavier pieces, deeper food, and where estimates are from."""

from __future__ import annotations

from fractions import Fraction

from core.food.measured import measured, show_measured
from core.food.pans import said_pan
from core.food.roasting import Estimate
from core.food.scale_by import Scaling
from core.food.scale_notes import DepthNote, LoadNote, PieceNote, SpaceNote
from core.food.scaling import Scaled
from core.food.speak import said_scaled, said_tin
from core.measures.minutes import show_minutes
from core.measures.number import show_decimal
from core.measures.words import join_words, plural
from core.plan.check_words import short
from core.plan.menu import Dish
from core.plan.step import Attention, Step

_MORE_WORK = Fraction(5, 4)
_LONG_WORK = 5
_MOST_NAMED = 3


def scaling_lines(scaling: Scaling) -> tuple[str, ...]:
    """Return all that is to be said: the factor, each ingredient, then what else changes; lengths are only offered."""
    dish = scaling.dish
    found = [said_factor(scaling), *(said_measured(each) for each in scaling.lines)]
    found += [said_load(each) for each in scaling.loads if each.loads > 1 or each.loads != each.written]
    found += [said_space(each, scaling.factor) for each in scaling.space]
    found += [said_piece(each) for each in scaling.pieces]
    found += [said_depth(each) for each in scaling.depths]
    found += _by_hand(dish, scaling.factor)
    estimates = [each.estimate for each in scaling.pieces if each.estimate is not None]
    estimates += [each.estimate for each in scaling.depths]
    found += [f"Estimated: {source}." for source in dict.fromkeys(each.source for each in estimates)]
    return tuple(found)


def said_factor(scaling: Scaling) -> str:
    """Return "Plum tart: 1.5 times the recipe, in 35x25 cm"."""
    dish = scaling.dish
    times = (
        "as the recipe is written" if scaling.factor == 1 else f"{_number(scaling.factor)} times the recipe"
    )
    pan = dish.pan_wanted or dish.pan
    for_whom = f", for {dish.wanted}" if dish.scale is None else ""
    return f"{short(dish.name)}: {times}{for_whom}{f', in {short(pan)}' if pan else ''}"


def said_measured(each: Scaled) -> str:
    """Return an ingredient as a cook measures it: "flour: ⅓ cup", "eggs: 2 (1.5 in proportion)"."""
    if each.exact.to_taste or each.start is not None or each.whole is not None or each.unsure:
        return said_scaled(each)
    return f"{short(each.item)}: {show_measured(measured(each.exact, each.item, each.grows), each.item)}"


def said_load(note: LoadNote) -> str:
    """Return "Grill the skewers: 18 in all, 6 a load: 3 loads, 36 min (2 loads as written)"."""
    per_load = 0 if note.step.loads is None else note.step.loads.per_load
    as_written = f" ({plural(note.written, 'load')} as written)" if note.written != note.loads else ""
    return (
        f"{short(note.step.does)}: {_number(note.pieces)} in all, {per_load} a load: {plural(note.loads, 'load')}, "
        f"{show_minutes(note.minutes)}{as_written}"
    )


def said_space(note: SpaceNote, factor: Fraction) -> str:
    """Return what to look at where room is not told in loads."""
    told = [f"“{short(step.does)}”" for step in note.steps[:_MOST_NAMED]]
    more = len(note.steps) - _MOST_NAMED
    names = join_words([*told, f"{more} more"] if more > 0 else told)
    keep = "keeps" if len(note.steps) == 1 else "keep"
    if note.pans > note.written:
        return f"{note.pans} pans instead of {note.written}: {names} {keep} the room as written; write more if wanted"
    return f"{names} {keep} the room as written: see that {_number(factor)} times as much fits, or write its loads"


def said_piece(note: PieceNote) -> str:
    """Return what a single piece comes to, and the estimate with its source where it is heavier or lighter."""
    each, was = (show_measured(measured(mass, note.item), note.item) for mass in (note.each, note.was))
    what = f"{short(note.item)}: {note.count} of {each}"
    if note.as_heavy:
        together = "; see that all go in at once" if note.count > 1 else ""
        return f"{what}, as heavy as written: as long as written{together}"
    change = f"{what} (written for {was} each)"
    if note.step is None or note.estimate is None:
        return f"{change}: lengths stay as written; a heavier piece takes longer, go by its middle"
    written = show_minutes(note.step.length.likely)
    return f"{change}: “{short(note.step.does)}” stays {written}; {said_estimate(note.estimate)}{_core(note.step)}"


def said_depth(note: DepthNote) -> str:
    """Return how much deeper the food stands and what a bake may take then."""
    deeper = "deeper" if note.depth > 1 else "shallower"
    same = ""
    if note.same.as_deep:
        tins = f"{note.same.count} of " if note.same.count > 1 else ""
        same = f". As deep as written: {tins}{said_tin(note.same.tin)}"
    off = show_decimal(abs(note.depth - 1) * 100, 0)
    return (
        f"In {said_pan(note.pan)} it stands {off} % {deeper}: “{short(note.step.does)}” stays "
        f"{show_minutes(note.step.length.likely)}; {said_estimate(note.estimate)}{_core(note.step)}{same}"
    )


def said_estimate(estimate: Estimate) -> str:
    """Return "it may take about 2 h 5 min, 1 h 50 min to 2 h 20 min"; the source is told apart."""
    ends = f"{show_minutes(estimate.low)} to {show_minutes(estimate.high)}"
    likely = "" if estimate.low == estimate.high else f", {ends}"
    return f"it may take about {show_minutes(estimate.likely)}{likely}"


def _core(step: Step) -> str:
    """Return by what it is known to be done: time alone never says so."""
    if step.doneness is not None and step.doneness.core is not None:
        return f"; go by {step.doneness.core} °C in the middle, not by the clock"
    return "; look from the first on"


def _by_hand(dish: Dish, factor: Fraction) -> list[str]:
    """Return a reminder that work by hand keeps its length, with the longest of it."""
    work = [
        step
        for step in dish.steps
        if step.attention is Attention.HANDS_ON and step.loads is None and not step.uses
    ]
    longest = sorted(work, key=lambda step: -step.length.likely)[:_MOST_NAMED]
    told = [step for step in longest if step.length.likely >= _LONG_WORK]
    if factor < _MORE_WORK or not told:
        return []
    names = join_words([f"“{short(step.does)}” {show_minutes(step.length.likely)}" for step in told])
    return [f"Work by hand keeps its length as well: {names}; give it more time if you need it"]


def _number(value: Fraction) -> str:
    return show_decimal(value, 2)
