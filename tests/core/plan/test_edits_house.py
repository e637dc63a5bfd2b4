"""Edits of guests, stocks, covers, scale and tins, one by one."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.measures.refusal import Refusal
from core.plan.decisions import Pin
from core.plan.edits import (
    RemoveGuest,
    RemoveStock,
    SetCovers,
    SetDishPans,
    SetDishScale,
    SetGuest,
    SetStock,
)
from core.plan.menu import Guest, Stock
from core.plan.plan import Plan
from core.plan.step import Loads
from tests.support.builders import a_dish, a_plan, a_step


@pytest.fixture
def plan() -> Plan:
    step = a_step("buns.bake", loads=Loads(10, 10))
    return a_plan(a_dish("buns", step, wanted=8), pins=(Pin(step.id, 1, start=-60),))


def test_guests_are_added_said_anew_and_removed(plan: Plan) -> None:
    orla, reeds = Guest("Orla", allergies=("milk",)), Guest("the Reeds", 4)
    two = SetGuest(reeds)(SetGuest(orla)(plan))
    assert two.menu.guests == (orla, reeds)
    assert SetGuest(Guest("Orla", 2))(two).menu.guests == (Guest("Orla", 2), reeds)
    assert SetGuest(Guest("Orla B."), was="Orla")(two).menu.guests == (Guest("Orla B."), reeds)
    assert RemoveGuest("Orla")(two).menu.guests == (reeds,)
    with pytest.raises(Refusal, match="The guest the Reeds is there twice"):
        SetGuest(reeds, was="Orla")(two)
    for edit in (RemoveGuest("Tom"), SetGuest(orla, was="Tom")):
        with pytest.raises(Refusal, match='There is no guest "Tom" any more'):
            edit(two)


def test_stocks_are_added_said_anew_and_removed(plan: Plan) -> None:
    flour, salt = Stock("flour", keeps=90), Stock("salt")
    two = SetStock(salt)(SetStock(flour)(plan))
    assert two.menu.stocks == (flour, salt)
    assert SetStock(Stock("flour"))(two).menu.stocks == (Stock("flour"), salt)
    assert SetStock(Stock("rye"), was="flour")(two).menu.stocks == (Stock("rye"), salt)
    assert RemoveStock("salt")(two).menu.stocks == (flour,)
    for edit in (RemoveStock("oil"), SetStock(salt, was="oil")):
        with pytest.raises(Refusal, match='Nothing is noted of "oil" any more'):
            edit(two)
    with pytest.raises(Refusal, match="stays fresh for -1 days"):
        SetStock(Stock("flour", keeps=-1))(two)


def test_covers_are_told_or_left_open(plan: Plan) -> None:
    assert SetCovers(9)(plan).menu.covers == 9
    assert SetCovers(None)(SetCovers(9)(plan)) == plan
    with pytest.raises(Refusal, match="0 are to sit down"):
        SetCovers(0)(plan)


def test_a_scale_says_how_much_is_made_and_lifts_pins_at_loads_no_longer_cooked(plan: Plan) -> None:
    smaller = SetDishScale("buns", Fraction(1))(plan)
    assert smaller.dishes["buns"].factor == 1
    assert smaller.decisions.pins == ()
    larger = SetDishScale("buns", Fraction(5, 2))(plan)
    assert larger.decisions.pins == plan.decisions.pins
    assert SetDishScale("buns", None)(larger) == plan
    with pytest.raises(Refusal, match="made 0 times"):
        SetDishScale("buns", Fraction(0))(plan)


def test_tins_are_words_and_change_no_amount(plan: Plan) -> None:
    found = SetDishPans("buns", "round 26 cm", "GN 1/2-65")(plan).dishes["buns"]
    assert (found.pan, found.pan_wanted, found.factor) == ("round 26 cm", "GN 1/2-65", 2)
    with pytest.raises(Refusal, match='no dish "pie"'):
        SetDishPans("pie", "")(plan)
