"""What the cook decided about a step, as it is shown on its bars: values without colours."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import TYPE_CHECKING

from app.timeline.bars import Bar, BarKind
from core.plan.decisions import Pin
from core.plan.ids import StepId
from core.plan.plan import Plan

if TYPE_CHECKING:
    from app.timeline.scene import Scene


class Sign(StrEnum):
    """What a bar bears a small sign for; in the order in which they stand on it."""

    PIN = "pin"
    PLACE = "place"
    WAY = "way"
    LENGTH = "length"
    ORDER = "order"


Ordered = Mapping[StepId, tuple[tuple[StepId, ...], tuple[StepId, ...]]]
"""Of each step that is in an order: the steps that go before it, and those that come after it."""


def ordered(plan: Plan) -> Ordered:
    """Return who goes before and after each step by the cook's orders."""
    found: dict[StepId, tuple[tuple[StepId, ...], tuple[StepId, ...]]] = {}
    for order in plan.decisions.orders:
        before, after = found.get(order.first, ((), ()))
        found[order.first] = (before, (*after, order.then))
        before, after = found.get(order.then, ((), ()))
        found[order.then] = ((*before, order.first), after)
    return found


def signed(plan: Plan) -> frozenset[StepId]:
    """Return the steps about which anything was decided."""
    decisions = plan.decisions
    found = {pin.step for pin in decisions.pins} | {choice.step for choice in decisions.choices}
    found |= {length.step for length in decisions.lengths}
    return frozenset(found | {step for each in decisions.orders for step in (each.first, each.then)})


def signs_of(scene: Scene, bar: Bar) -> tuple[Sign, ...]:
    """Return the signs that a bar bears; a touch of a hand and food that waits bear none."""
    if bar.step is None or bar.step not in scene.signed or not decides(scene, bar):
        return ()
    plan, found = scene.plan, []
    pin = plan.pins.get((bar.step, bar.load))
    if pin is not None:
        found.append(Sign.PLACE if pin.start is None else Sign.PIN)
    if bar.step in plan.choices:
        found.append(Sign.WAY)
    if bar.step in plan.manners:
        found.append(Sign.LENGTH)
    if bar.step in scene.ordered:
        found.append(Sign.ORDER)
    return tuple(found)


def decides(scene: Scene, bar: Bar) -> bool:
    """Tell whether a bar stands for a whole load of a step, about which the cook may decide."""
    if bar.kind is BarKind.STEP:
        return bar.step is not None
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    return bar.kind is BarKind.HAND and placed is not None and (bar.start, bar.end) == (placed.start, placed.end)


def pin_on(scene: Scene, bar: Bar) -> Pin | None:
    """Return the pin of the load that a bar belongs to."""
    return None if bar.key is None else scene.plan.pins.get(bar.key)
