"""Serving later: what counts from plating moves, what the clock says stays."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from core.measures.clock import at_clock
from core.measures.refusal import Refusal
from core.plan.calendar import clock_offset, stretch_of
from core.plan.decisions import Pin
from core.plan.edits import ServeDishLater, ServeLater
from core.plan.ids import CookId, DishId
from core.plan.kitchen import Window
from core.plan.plan import Plan
from core.plan.step import ClockTime
from tests.support.builders import a_cook, a_dish, a_grill, a_kitchen, a_moment, a_plan, a_step

COOK = a_cook("ann", present=(Window(1, 600, 1200), Window(0, 540, 1560)), breaks=(Window(0, 780, 840),))


def a_feast(plating: str = "2026-09-26 19:30", zone: str = "Europe/London", **fields: object) -> Plan:
    parcel = a_step("soup.fetch", clock=ClockTime(0, 16 * 60))
    steps = (parcel, a_step("soup.boil", earliest=-300, latest=-10))
    kitchen = a_kitchen(stations=(replace(a_grill(), hours=(Window(0, 900, 1430),)),), cooks=(COOK,))
    return a_plan(
        a_dish("soup", *steps), a_dish("cake", course=75), plating=plating, zone=zone, kitchen=kitchen, **fields
    )


def by_the_clock(plan: Plan) -> list[datetime]:
    """Return all that the wall clock says in a plan."""
    offsets = [pin.start for pin in plan.decisions.pins if pin.start is not None]
    offsets += [] if plan.opens is None else [plan.opens]
    offsets += [clock_offset(plan, step.clock) for step in plan.steps.values() if step.clock is not None]
    cook, grill = plan.kitchen.cooks[0], plan.kitchen.stations[0]
    for window in (*cook.present, *cook.breaks, *grill.hours):
        offsets += stretch_of(plan, window)
    return [plan.wall(each) for each in offsets]


PINS = (Pin("soup.boil", 0, -90), Pin("soup.fetch", cook=CookId("ann")))


@pytest.mark.parametrize(
    ("plating", "minutes", "later"),
    [
        ("2026-09-26 19:30", 20, "2026-09-26 19:50"),
        ("2026-09-26 19:30", -45, "2026-09-26 18:45"),
        ("2026-09-26 23:50", 20, "2026-09-27 00:10"),
        ("2026-09-27 00:05", -10, "2026-09-26 23:55"),
        ("2026-09-26 19:30", 3 * 24 * 60, "2026-09-29 19:30"),
    ],
)
def test_plating_moves_and_the_clock_stays(plating: str, minutes: int, later: str) -> None:
    plan = a_feast(plating, pins=PINS, opens=-700)
    after = ServeLater(minutes)(plan)
    assert after.plating == a_moment(later)
    assert by_the_clock(after) == by_the_clock(plan)
    assert after.decisions.pins[0].start == -90 - minutes
    assert after.decisions.pins[1] == PINS[1]
    assert after.opens == -700 - minutes


def test_what_counts_from_plating_moves_along() -> None:
    plan = a_feast()
    after = ServeLater(20)(plan)
    assert after.menu == plan.menu
    assert after.kitchen == plan.kitchen


def test_an_hour_that_the_clock_leaves_out_is_not_counted() -> None:
    # Summer time began in London on 29 March 2026 at 01:00: half past midnight and 60 min are half past two.
    plan = a_feast("2026-03-29 00:30", pins=PINS)
    after = ServeLater(60)(plan)
    assert after.plating == a_moment("2026-03-29 02:30")
    assert by_the_clock(after) == by_the_clock(plan)
    assert after.decisions.pins[0].start == -150
    assert at_clock(after.plating, 0, 30) == -60


def test_later_by_nothing_is_the_same_plan() -> None:
    plan = a_feast()
    assert ServeLater(0)(plan) is plan


def test_there_and_back_is_where_it_was() -> None:
    plan = a_feast("2026-09-26 23:50", pins=PINS, opens=-700)
    assert ServeLater(-20)(ServeLater(20)(plan)) == plan


def test_one_dish_is_served_later_and_the_others_are_not() -> None:
    plan = a_feast(pins=PINS)
    after = ServeDishLater(DishId("cake"), 15)(plan)
    assert [dish.course for dish in after.menu.dishes] == [0, 90]
    assert (after.plating, after.decisions) == (plan.plating, plan.decisions)
    assert ServeDishLater(DishId("cake"), -15)(after) == plan


def test_what_is_refused() -> None:
    with pytest.raises(Refusal, match='There is no dish "gone"'):
        ServeDishLater(DishId("gone"), 5)(a_feast())
    with pytest.raises(Refusal, match="by more than a year"):
        ServeLater(10**12)(a_feast())
    with pytest.raises(Refusal, match="Cake is served more than a year from plating"):
        ServeDishLater(DishId("cake"), 600_000)(a_feast())
