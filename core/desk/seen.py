"""What is left of the timetable seen after the plan under it has changed."""

from __future__ import annotations

from dataclasses import replace

from core.plan import meaning
from core.plan.check_decisions import loads_known
from core.plan.plan import Plan
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing


def still_there(timetable: Timetable | None, plan: Plan) -> Timetable | None:
    """Return the timetable without steps, loads, stations and cooks that are gone; new ones are missing."""
    if timetable is None:
        return None
    kept = Timetable(
        tuple(_placed(each, plan) for each in timetable.placed if _known(each, plan)),
        tuple(_stay(each, plan) for each in timetable.stays if _joins(each, plan)),
        tuple(_heating(each, plan) for each in timetable.heatings if each.station in plan.kitchen.station),
        tuple(
            _washing(each, plan)
            for each in timetable.washings
            if each.vessel in plan.kitchen.vessel and each.after in plan.steps
        ),
    )
    return timetable if kept == timetable else kept


def _known(placed: Placed, plan: Plan) -> bool:
    step = plan.steps.get(placed.step)
    if step is None:
        return False
    dish = plan.dish_of[step.id]
    return not loads_known(dish, step) or placed.load < meaning.load_count(dish, step)


def _joins(stay: Stay, plan: Plan) -> bool:
    return stay.before in plan.steps and (stay.after is None or stay.after in plan.steps)


def _placed(placed: Placed, plan: Plan) -> Placed:
    spots, hands = _spots(placed.spots, plan), tuple(_hand(each, plan) for each in placed.hands)
    same = spots == placed.spots and hands == placed.hands
    return placed if same else replace(placed, spots=spots, hands=hands)


def _stay(stay: Stay, plan: Plan) -> Stay:
    spots = _spots(stay.spots, plan)
    return stay if spots == stay.spots else replace(stay, spots=spots)


def _heating(heating: Heating, plan: Plan) -> Heating:
    return (
        heating if heating.cook is None or heating.cook in plan.kitchen.cook else replace(heating, cook=None)
    )


def _washing(washing: Washing, plan: Plan) -> Washing:
    return (
        washing if washing.cook is None or washing.cook in plan.kitchen.cook else replace(washing, cook=None)
    )


def _spots(spots: tuple[Spot, ...], plan: Plan) -> tuple[Spot, ...]:
    return tuple(each for each in spots if each.station in plan.kitchen.station)


def _hand(hand: Hand, plan: Plan) -> Hand:
    return hand if hand.cook is None or hand.cook in plan.kitchen.cook else replace(hand, cook=None)
