from __future__ import annotations

from dataclasses import replace

import pytest

from core.measures.refusal import Refusal
from core.plan.check import problems
from core.plan.edits import ChooseRules, SetRoom, TellCare, TellFood
from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind
from core.plan.ids import DishId, StepId
from core.plan.menu import Ingredient
from core.plan.plan import Plan
from tests.support.builders import a_dish, a_fridge, a_kitchen, a_plan, a_step

SOUP, BOIL = DishId("soup"), StepId("soup.boil")


def a_soup(**fields: object) -> Plan:
    lines = Ingredient("bones"), Ingredient("salt")
    return a_plan(a_dish("soup", a_step("soup.boil"), ingredients=lines), **fields)


def test_a_food_is_told_and_the_other_lines_stay() -> None:
    plan = TellFood(SOUP, 0, FoodKind.POULTRY, Arrival.FROZEN, 40).change(a_soup())
    bones, salt = plan.dishes[SOUP].ingredients
    assert (bones.food, bones.arrives, bones.thick) == (FoodKind.POULTRY, Arrival.FROZEN, 40)
    assert salt == Ingredient("salt")
    assert TellFood(SOUP, 0, None).change(plan) == a_soup()


@pytest.mark.parametrize("line", [-1, 2])
def test_a_line_that_is_not_there_is_refused(line: int) -> None:
    with pytest.raises(Refusal, match="not there any more; choose one that is there"):
        TellFood(SOUP, line, FoodKind.FISH).change(a_soup())


def test_what_a_step_does_is_told_and_forgotten_again() -> None:
    care = FoodCare(Effect.COOL_IN_ICE, 40, Container.TRAY)
    plan = TellCare(BOIL, care).change(a_soup())
    assert plan.steps[BOIL].food == care
    assert TellCare(BOIL, None).change(plan) == a_soup()


def test_the_warmth_of_the_kitchen_and_the_rules() -> None:
    plan = ChooseRules("uk").change(SetRoom(31).change(a_soup()))
    assert (plan.kitchen.room, plan.decisions.rules) == (31, "uk")
    assert ChooseRules("").change(SetRoom(None).change(plan)) == a_soup()


def test_values_out_of_range_are_told_with_the_mend() -> None:
    assert problems(SetRoom(60).change(a_soup())) == ()
    assert problems(SetRoom(61).change(a_soup())) == (
        "The kitchen is at 61 °C; give -60 to 60, or leave it untold.",
    )
    thick = TellFood(SOUP, 0, None, None, 1001).change(a_soup())
    assert problems(thick) == ("bones of Soup is 1001 mm thick; give 0 (not told) to 1000 mm.",)
    deep = TellCare(BOIL, FoodCare(depth=1001)).change(a_soup())
    assert problems(deep) == ("In Soup: Boil the food lies 1001 mm deep; give 0 (not told) to 1000 mm.",)
    fridge = replace(a_fridge(), keeps_at=99)
    hot = a_soup(kitchen=a_kitchen(stations=(fridge,)))
    assert problems(hot) == ("Fridge is at 99 °C; give -60 to 60, or leave it untold.",)
    assert any("food rules" in each for each in problems(ChooseRules("a\x00b").change(a_soup())))
