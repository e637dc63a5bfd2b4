"""Lengths that scaling offers and the cook takes: what the recipe says stays in the step's note and can come back.

A length that was taken is never estimated from again: estimates start from the recipe's length.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from core.food.measured import measured, show_measured
from core.food.roasting import Estimate
from core.food.scale_by import Scaling, scaling_of
from core.food.scale_notes import DepthNote, PieceNote
from core.food.speak_scale import said_depth, said_piece
from core.measures.minutes import parse_span, show_minutes, show_span
from core.measures.number import show_decimal
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.check_words import short
from core.plan.ids import StepId
from core.plan.menu import Dish
from core.plan.step import Span, Step

_TAKEN = re.compile(r"Length estimated for (?P<now>.+); the recipe says (?P<span>[^;]+?)(?: for (?P<was>.+))?\.")


@dataclass(frozen=True, slots=True)
class Offer:
    """A step may take another length: why in a sentence, for what it is (`now`), what was written (`was`).

    `taken`: the step has that length. `estimate` None: it has a length that was taken for something else.
    """

    step: StepId
    said: str
    now: str = ""
    was: str = ""
    estimate: Estimate | None = None
    taken: bool = False
    written: Span | None = None


def recipe_length(step: Step) -> Span | None:
    """Return the recipe's length of a step that has an estimated one; None where it has its own."""
    met = _taken(step)
    return None if met is None else _span(met)


def as_the_recipe(dish: Dish) -> Dish:
    """Return a dish with the recipe's lengths."""
    return replace(dish, steps=tuple(with_recipe_length(step) for step in dish.steps))


def scaling_offered(dish: Dish) -> Scaling:
    """Return what a dish comes to, its estimates from the recipe's lengths. Raise Refusal as scaling_of does."""
    return scaling_of(as_the_recipe(dish))


def length_offers(dish: Dish, scaling: Scaling) -> tuple[Offer, ...]:
    """Return each other length that steps of a dish may take now, and each taken one that fits no longer."""
    steps = {step.id: step for step in dish.steps}
    offers = [offer for each in scaling.pieces if (offer := _piece_offer(each, steps)) is not None]
    pieces = {each.step for each in offers}
    # a single piece is as thick as its mass says, however deep its pan is filled
    offers += [_depth_offer(each, steps) for each in scaling.depths if each.step.id not in pieces]
    meant = {each.step for each in offers if each.taken}
    offers += [_left(step) for step in dish.steps if recipe_length(step) is not None and step.id not in meant]
    return tuple(offers)


def with_estimate(step: Step, offer: Offer) -> Step:
    """Return a step with the length offered; its note says what the recipe says."""
    if offer.estimate is None:
        return step
    own = with_recipe_length(step)
    for_was = f" for {offer.was}" if offer.was else ""
    written = show_span(own.length.low, own.length.likely, own.length.high)
    line = f"Length estimated for {offer.now}; the recipe says {written}{for_was}."
    return replace(own, length=offer.estimate.span, note="\n".join(filter(None, (own.note, line))))


def with_recipe_length(step: Step) -> Step:
    """Return a step with the recipe's length and without the line that says so; as it is where it has its own."""
    length, met = recipe_length(step), _taken(step)
    if length is None or met is None:
        return step
    lines = [line for line in step.note.split("\n") if line != met.string]
    return replace(step, length=length, note="\n".join(lines).strip())


def _taken(step: Step) -> re.Match[str] | None:
    """Return the line of a step's note that tells the recipe's length; None where there is none to be read."""
    found = (_TAKEN.fullmatch(line) for line in step.note.split("\n"))
    return next((met for met in found if met is not None and _span(met) is not None), None)


def _span(met: re.Match[str]) -> Span | None:
    try:
        return Span(*parse_span(met["span"]))
    except Refusal:
        return None


def _piece_offer(note: PieceNote, steps: dict[StepId, Step]) -> Offer | None:
    if note.step is None or note.estimate is None:
        return None
    about = (f"{short(note.item)}, {_mass(note.each, note.item)} each", f"{_mass(note.was, note.item)} each")
    return _offer(steps[note.step.id], note.step, said_piece(note), about, note.estimate)


def _depth_offer(note: DepthNote, steps: dict[StepId, Step]) -> Offer:
    deeper = "deeper" if note.depth > 1 else "shallower"
    now = f"food {show_decimal(abs(note.depth - 1) * 100, 0)} % {deeper}"
    return _offer(steps[note.step.id], note.step, said_depth(note), (now, ""), note.estimate)


def _offer(step: Step, written: Step, said: str, about: tuple[str, str], estimate: Estimate) -> Offer:
    met = _taken(step)
    now, was = about
    if met is None or met["now"] != now:
        return Offer(step.id, said, now, was, estimate)
    return Offer(step.id, _said_taken(step, met), now, was, estimate, taken=True, written=written.length)


def _left(step: Step) -> Offer:
    """Return what is to be said of a length that was taken for another amount."""
    met = _taken(step)
    assert met is not None
    return Offer(step.id, f"{_said_taken(step, met)} It is made otherwise now.", written=recipe_length(step))


def _said_taken(step: Step, met: re.Match[str]) -> str:
    for_was = f" for {met['was']}" if met["was"] else ""
    return (
        f"“{short(step.does)}” takes {show_minutes(step.length.likely)}, estimated for {met['now']}; "
        f"the recipe says {met['span']}{for_was}."
    )


def _mass(quantity: Quantity, item: str) -> str:
    return show_measured(measured(quantity, item), item)
