"""Checks of guests, stocks, covers, scale, tins, offsets and measures: a sentence for each, none for what is sound."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from core.measures.quantity import TO_TASTE, Quantity
from core.plan import check
from core.plan.ids import StationId
from core.plan.kitchen import Heater
from core.plan.menu import Guest, Ingredient, Menu, Stock
from core.plan.plan import Plan
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, a_vessel, an_oven

FLOUR = Stock("flour", Quantity(Fraction(700), "g"), Quantity(Fraction(1), "kg"), "bag", Fraction(1, 2), "dry", 90)


def house(**fields: Any) -> Plan:
    plan = a_plan(a_dish("soup", a_step()))
    return replace(plan, menu=replace(plan.menu, **fields))


def dish(**fields: Any) -> Plan:
    return a_plan(a_dish("soup", a_step(), **fields))


def oven(**fields: Any) -> Plan:
    return a_plan(a_dish("soup", a_step()), kitchen=a_kitchen(oven=an_oven(**fields)))


def pot(*fits: str) -> Plan:
    vessel = a_vessel("pot", fits=tuple(StationId(each) for each in fits))
    return a_plan(a_dish("soup", a_step()), kitchen=a_kitchen(vessels=(vessel,)))


SOUND = [
    house(guests=(Guest("Orla", 3, ("milk", "moon dust"), ("olives",), "pregnant"),), covers=1, stocks=(FLOUR,)),
    dish(scale=Fraction(1, 100), pan="round 26 cm", ingredients=(Ingredient("duck", pieces=2),)),
    dish(scale=Fraction(1000)),
    oven(wide=1000, deep=0, heater=Heater(offset=-60)),
    oven(heater=Heater(offset=60)),
    pot("oven", "burner-1"),
]


@pytest.mark.parametrize("plan", SOUND)
def test_what_is_sound_has_no_problem(plan: Plan) -> None:
    assert check.problems(plan) == ()


@pytest.mark.parametrize(
    ("plan", "says"),
    [
        (house(covers=0), "0 are to sit down; give 1 to 100000"),
        (house(guests=(Guest(""),)), "The name of a guest is empty"),
        (house(guests=(Guest("Orla"), Guest("Orla"))), "The guest Orla is there twice"),
        (house(guests=(Guest("Orla", 0),)), "Orla stands for 0 guests"),
        (house(guests=(Guest("Orla", allergies=(" ",)),)), "Something that Orla does not eat is empty"),
        (house(guests=(Guest("Orla", at_risk="\0"),)), "A text about Orla has a character"),
        (house(stocks=(FLOUR, FLOUR)), "The thing in the house flour is there twice"),
        (house(stocks=(replace(FLOUR, item=""),)), "The name of a thing in the house is empty"),
        (house(stocks=(replace(FLOUR, aisle="\0"),)), "A text about flour has a character"),
        (house(stocks=(replace(FLOUR, in_store=Quantity(Fraction(-1), "g")),)), "there is of flour has the amount -1"),
        (house(stocks=(replace(FLOUR, pack=Quantity(Fraction(1), "bushel")),)), "A pack of flour is measured in"),
        (house(stocks=(replace(FLOUR, pack=TO_TASTE),)), "A pack of flour has no amount"),
        (house(stocks=(replace(FLOUR, pack=Quantity(Fraction(0), "g")),)), "A pack of flour holds nothing"),
        (house(stocks=(replace(FLOUR, usable=Fraction(0)),)), "Of flour, 0 % is left after trimming"),
        (house(stocks=(replace(FLOUR, usable=Fraction(11, 10)),)), "Of flour, 110 % is left after trimming"),
        (house(stocks=(replace(FLOUR, keeps=-1),)), "flour stays fresh for -1 days"),
        (dish(scale=Fraction(0)), "Soup is to be made 0 times"),
        (dish(scale=Fraction(-1, 2)), "Soup is to be made -0.5 times"),
        (dish(scale=Fraction(1001)), "Soup is to be made 1001 times"),
        (dish(pan="\0"), "A text of Soup has a character"),
        (dish(ingredients=(Ingredient("duck", pieces=-1),)), "duck of Soup comes in -1 pieces"),
        (oven(wide=-1), "Oven is -1 cm wide and 0 cm deep inside"),
        (oven(deep=1001), "Oven is 0 cm wide and 1001 cm deep inside"),
        (oven(heater=Heater(offset=61)), "Oven is 61 °C hotter than its dial says; give -60 to 60"),
        (oven(heater=Heater(offset=-61)), "Oven is -61 °C hotter than its dial says"),
        (pot("hob"), 'Pot is said to fit "hob", which the kitchen has not'),
        (pot("oven", "oven"), "Pot is said twice to fit Oven"),
    ],
)
def test_what_is_wrong_is_said_in_one_sentence(plan: Plan, says: str) -> None:
    (sentence,) = check.problems(plan)
    assert says in sentence
    assert sentence.endswith(".")


def test_the_scale_goes_before_the_servings() -> None:
    found = a_dish("soup", written_for=4, wanted=6)
    assert found.factor == Fraction(3, 2)
    assert replace(found, scale=Fraction(2, 3)).factor == Fraction(2, 3)
    assert Menu().covers is None
