"""What scaling changes besides amounts: loads, room, the mass of single pieces, the depth in the pan.

Lengths never change by themselves. Where a single piece gets heavier or the food deeper, an estimate is offered with
its source; the cook takes it or leaves it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from core.food.pans import Pan, depth_ratio, parse_pan
from core.food.roasting import Estimate, by_chart, by_depth, by_mass
from core.food.scaling import written_amount
from core.food.tins import Tins, tins_for
from core.measures.number import round_half_up
from core.measures.quantity import Quantity
from core.measures.unit_names import UNITS
from core.plan.kitchen import StationKind
from core.plan.menu import Dish, Ingredient
from core.plan.step import Attention, Heat, Step

_ROASTS = frozenset({StationKind.OVEN, StationKind.GRILL, StationKind.SMOKER})
_CROWDED = _ROASTS | {StationKind.BURNER, StationKind.MACHINE}
AS_DEEP = Fraction(5, 100)
"""A depth so little off is the same depth."""
_SINGLE = 3
"""Up to so many pieces the choice is told between as many heavier ones and more of the same."""


@dataclass(frozen=True, slots=True)
class LoadNote:
    """A step done load by load: pieces now, how many a load holds, loads now and as written, minutes of all."""

    step: Step
    pieces: Fraction
    loads: int
    written: int

    @property
    def minutes(self) -> int:
        """Return the likely minutes of all loads and what lies between them."""
        between = 0 if self.step.loads is None else self.step.loads.change_over
        return self.loads * self.step.length.likely + (self.loads - 1) * between


@dataclass(frozen=True, slots=True)
class SpaceNote:
    """Steps that take room but say no loads, while so much more is made; pans now and as written (0: not told)."""

    steps: tuple[Step, ...]
    pans: int = 0
    written: int = 0


@dataclass(frozen=True, slots=True)
class PieceNote:
    """So many single pieces of so much each, where they were `was` each; `step` None: no roasting step is known.

    `estimate`: how long `step` may take now; None: each is as heavy as written, so as long.
    """

    item: str
    count: int
    each: Quantity
    was: Quantity
    step: Step | None = None
    estimate: Estimate | None = None

    @property
    def as_heavy(self) -> bool:
        """Tell whether a piece is as heavy as written."""
        return self.each == self.was


@dataclass(frozen=True, slots=True)
class DepthNote:
    """The food stands so much deeper than written (new over old) in the pans; how long a bake may take now.

    `same`: usual tins in which it would stand as deep as written.
    """

    step: Step
    depth: Fraction
    pan: Pan
    estimate: Estimate
    same: Tins


def load_notes(dish: Dish) -> tuple[LoadNote, ...]:
    """Return every step with loads: how many the amount made comes to."""
    found = []
    for step in dish.steps:
        if step.loads is not None:
            pieces = step.loads.pieces * dish.factor
            loads, written = (
                max(1, ceil(each / step.loads.per_load)) for each in (pieces, step.loads.pieces)
            )
            found.append(LoadNote(step, pieces, loads, written))
    return tuple(found)


def space_notes(dish: Dish) -> tuple[SpaceNote, ...]:
    """Return the steps at a station that say no loads, where more is made than written or in more pans."""
    now, before = _pan(dish.pan_wanted or dish.pan), _pan(dish.pan)
    pans, written = (each.count if each is not None else 0 for each in (now, before))
    steps = tuple(
        step for step in dish.steps if step.loads is None and any(use.kind in _CROWDED for use in step.uses)
    )
    if not steps or (dish.factor <= 1 and pans <= written):
        return ()
    return (SpaceNote(steps, pans, written),)


def piece_notes(dish: Dish, factor: Fraction | None = None) -> tuple[PieceNote, ...]:
    """Return what becomes of ingredients cooked in single pieces; `factor` None: the dish's own.

    Few pieces may stay as many and get heavier or stay as heavy and be more: both are told.
    """
    times = dish.factor if factor is None else factor
    if times == 1:
        return ()
    found: list[PieceNote] = []
    for line in dish.ingredients:
        written = written_amount(dish, line) if line.pieces > 0 else None
        if written is None or written.to_taste or not written.amount or not _is_mass(written):
            continue
        was = written.times(Fraction(1, line.pieces))
        for count in _counts(line.pieces, times):
            each = written.times(times / count)
            found += _notes_of(dish, line, count, each, was)
    return tuple(found)


def depth_notes(dish: Dish) -> tuple[DepthNote, ...]:
    """Return the bakes of a dish whose food stands deeper or shallower than written; none where no pan is told."""
    before = _pan(dish.pan)
    if before is None:
        return ()
    now = _pan(dish.pan_wanted) or before
    depth = depth_ratio(before, now, dish.factor)
    if abs(depth - 1) <= AS_DEEP:
        return ()
    same = tins_for(before.tin, dish.factor * before.count)
    return tuple(
        DepthNote(step, depth, now, by_depth(step.length, depth), same)
        for step in dish.steps
        if any(use.kind is StationKind.OVEN for use in step.uses) and step.attention is not Attention.HANDS_ON
    )


def _pan(text: str) -> Pan | None:
    return parse_pan(text) if text.strip() else None


def _is_mass(quantity: Quantity) -> bool:
    return quantity.unit in UNITS and UNITS[quantity.unit].kind == "weight"


def _counts(pieces: int, times: Fraction) -> list[int]:
    """Return how many pieces there may be now: as many as written where they are few, and the nearest number."""
    nearest = max(1, int(round_half_up(pieces * times)))
    return sorted({pieces, nearest}) if pieces <= _SINGLE else [nearest]


def _notes_of(dish: Dish, line: Ingredient, count: int, each: Quantity, was: Quantity) -> list[PieceNote]:
    if each == was:
        return [PieceNote(line.item, count, each, was)]
    roasts = _roasts(dish, line)
    if not roasts:
        return [PieceNote(line.item, count, each, was)]
    name = f"{line.item} {line.preparation}"
    notes = []
    for step in roasts:
        heat = _heat(step)
        chart = by_chart(name, each, heat.setting) if heat is not None and len(roasts) == 1 else None
        estimate = chart or by_mass(step.length, was, each, line.item)
        notes.append(PieceNote(line.item, count, each, was, step, estimate))
    return notes


def _roasts(dish: Dish, line: Ingredient) -> list[Step]:
    """Return the roasting steps from the one that takes the ingredient on."""
    ids = [step.id for step in dish.steps]
    begin = ids.index(line.step) if line.step in ids else 0
    return [
        step
        for step in dish.steps[begin:]
        if step.attention is not Attention.HANDS_ON and any(use.kind in _ROASTS for use in step.uses)
    ]


def _heat(step: Step) -> Heat | None:
    return next((use.heat for use in step.uses if use.heat is not None), None)
