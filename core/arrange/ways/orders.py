"""Lifting what the cook decided: an order between two steps, a pin."""

from __future__ import annotations

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.decisions import Order, Pin
from core.plan.edits import LiftPin, RemoveOrder
from core.timetable.timetable import Timetable


def orders_lifted(case: Case) -> Family:
    """Propose lifting each order near the trouble."""
    near = set(case.steps)
    orders = [each for each in case.plan.decisions.orders if each.first in near or each.then in near]
    return Family(WayKind.LIFT_ORDER, tuple(_order(each) for each in orders), joint=True)


def _order(order: Order) -> Easing:
    def told(_size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.NOTHING, 1, 0, step=order.first, after=order.then),)

    return Easing(WayKind.LIFT_ORDER, lambda _size: RemoveOrder(order.first, order.then), told)


def pins_lifted(case: Case) -> Family:
    """Propose lifting each pin near the trouble."""
    near = set(case.steps)
    pins = [each for each in case.plan.decisions.pins if each.step in near]
    return Family(WayKind.LIFT_PIN, tuple(_pin(each) for each in pins), joint=True)


def _pin(pin: Pin) -> Easing:
    def told(_size: int, timetable: Timetable) -> tuple[Change, ...]:
        placed = timetable.at.get((pin.step, pin.load))
        now = None if placed is None else placed.start
        return (
            Change(Unit.OFFSET, pin.start, now, step=pin.step, station=pin.station, cook=pin.cook),
        )

    return Easing(WayKind.LIFT_PIN, lambda _size: LiftPin(pin.step, pin.load), told)
