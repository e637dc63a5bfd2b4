"""Cautions on a sheet hang on what the plan has: limits it breaks, hot oil, cure, pressure, jars, guests at risk."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from core.measures.quantity import Quantity
from core.plan.food import Arrival, FoodKind
from core.plan.menu import Guest, Ingredient
from core.plan.plan import Plan
from core.plan.step import Attention, Doneness
from core.sheets.cautions import cautions
from core.sheets.food_said import food_said
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.support.builders import a_dish, a_plan, a_step, at_oven

CHICKEN = Ingredient("chicken thighs", Quantity(Fraction(1), "kg"), food=FoodKind.POULTRY, arrives=Arrival.FRIDGE)


def out_for(minutes: int) -> Plan:
    """Return a plan in which raw chicken stands in the room for so long before it is eaten."""
    step = a_step("thighs.stand", "Leave on the worktop", minutes=minutes)
    return a_plan(a_dish("thighs", step, ingredients=(CHICKEN,)))


def test_a_limit_that_the_plan_breaks_stands_on_the_sheet_with_its_source() -> None:
    plan = out_for(300)
    said = food_said(plan, on_paper(plan))
    assert any(each.startswith("Food limit: ") and "USDA" in each for each in said)
    assert not any(each.startswith("Food limit: ") for each in food_said(out_for(300), Timetable()))
    assert not any(" safe" in each for each in said)


@pytest.mark.parametrize(
    ("does", "starts"),
    [
        ("Deep-fry in batches", "Hot oil"),
        ("Rub in the cure", "Curing salt"),
        ("Cook under pressure", "Pressure pot"),
        ("Fill into sealed jars", "Food shut in jars"),
        ("Keep the peppers in jars", "Food shut in jars"),
    ],
)
def test_a_caution_stands_where_the_plan_speaks_of_it_and_only_there(does: str, starts: str) -> None:
    plan = a_plan(a_dish("it", a_step("it.one", does)))
    assert sum(each.startswith(starts) for each in cautions(plan)) == 1
    other = a_plan(a_dish("it", a_step("it.one", "Stir the soup")))
    assert not any(each.startswith(starts) for each in cautions(other))


def test_guests_at_risk_are_named() -> None:
    plan = out_for(10)
    guests = (Guest("Mira", at_risk="pregnant"), Guest("Jo"))
    plan = replace(plan, menu=replace(plan.menu, guests=guests))
    (said,) = [each for each in food_said(plan, Timetable()) if "Mira" in each]
    assert "Mira (pregnant)" in said
    assert "licensed" in said
    assert "Jo" not in said


def test_a_cooks_own_target_below_the_published_figure_stands_on_the_sheet() -> None:
    """Lamb at 55 °C: USDA FSIS has 62.8 °C (145 °F) with 3 minutes of rest for steaks, chops and roasts."""
    lamb = Ingredient("leg of lamb", Quantity(Fraction(2), "kg"), food=FoodKind.WHOLE_CUT, arrives=Arrival.FRIDGE)
    done = Doneness("pink", 55)
    roast = a_step("lamb.roast", "Roast", 80, attention=Attention.HANDS_OFF, uses=(at_oven(180),), doneness=done)
    plan = a_plan(a_dish("lamb", roast, ingredients=(lamb,)))
    said = food_said(plan, on_paper(plan))
    (short,) = [each for each in said if each.startswith("Short of a published figure: ")]
    assert "55" in short
    assert "62.8" in short
    assert "USDA" in short


def test_curing_salt_is_weighed_to_the_hundredth_and_cured_meat_is_raw() -> None:
    plan = a_plan(a_dish("ham", a_step("ham.cure", "Rub in the cure")))
    (said,) = [each for each in cautions(plan) if "Curing" in each]
    assert "hundredth of a gram" in said
    assert "still raw" in said


def test_food_under_oil_is_warned_of_once() -> None:
    plan = a_plan(a_dish("oil", a_step("oil.make", "Make garlic oil")))
    said = [*food_said(plan, on_paper(plan)), *cautions(plan)]
    assert sum("botulism" in each for each in said) == 1
