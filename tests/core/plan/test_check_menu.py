"""Checks of the menu: ids, names, servings, ingredients."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.measures.quantity import Quantity
from core.plan.check import problems
from core.plan.ids import StepId
from core.plan.menu import Ingredient
from core.plan.plan import Plan
from core.plan.step import Keep
from tests.support.builders import a_dish, a_plan, a_step

CASES = [
    pytest.param(
        a_plan(name=" "),
        "The plan's name is empty; write one.",
        id="no plan name",
    ),
    pytest.param(
        a_plan(name="Feast\x07"),
        "The plan's name has a character that cannot be shown; type it again.",
        id="hidden character in plan name",
    ),
    pytest.param(
        a_plan(transfer=-1),
        "Putting in or taking out takes −1 min; give 0 to 120.",
        id="transfer below 0",
    ),
    pytest.param(
        a_plan(opens=-600_000),
        "The plan begins more than a year from plating; let it begin nearer.",
        id="opens beyond a year",
    ),
    pytest.param(
        a_plan(a_dish("Soup", name="Soup")),
        'The dish Soup has the id "Soup"; write it with small letters, digits, - and _, up to 64 of them.',
        id="dish id",
    ),
    pytest.param(
        a_plan(a_dish("soup", a_step("stew.boil"))),
        "Soup: Boil has the id \"stew.boil\"; a step's id is its dish's id, a dot and a short word, such"
        " as soup.bake.",
        id="step id without dish",
    ),
    pytest.param(
        a_plan(a_dish("soup", a_step("soup", "Boil"))),
        "Soup: Boil has the id \"soup\"; a step's id is its dish's id, a dot and a short word, such as"
        " soup.bake.",
        id="step id without a dot",
    ),
    pytest.param(
        a_plan(a_dish("soup"), a_dish("soup", name="Broth")),
        'Soup and Broth bear the same id "soup"; give one of them another.',
        id="dish id twice",
    ),
    pytest.param(
        a_plan(a_dish("soup", a_step("soup.boil"), a_step("soup.boil", "Simmer"))),
        'Soup: Boil and Soup: Simmer bear the same id "soup.boil"; give one of them another.',
        id="step id twice",
    ),
    pytest.param(
        a_plan(a_dish("soup", name="\u200b")),
        'The name of the dish "soup" is empty; write one.',
        id="dish without a name",
    ),
    pytest.param(
        a_plan(a_dish("soup", note="\ud800")),
        "A text of Soup has a character that cannot be shown; type it again.",
        id="surrogate in a note",
    ),
    pytest.param(
        a_plan(a_dish("soup", written_for=0)),
        "Soup is written for 0 servings; write it for 1 to 100000.",
        id="written for nobody",
    ),
    pytest.param(
        a_plan(a_dish("soup", wanted=0)),
        "Soup is wanted for 0 servings; ask for 1 to 100000, or take it off the menu.",
        id="wanted for nobody",
    ),
    pytest.param(
        a_plan(a_dish("soup", course=600_000)),
        "Soup is served more than a year from plating; give it a nearer course.",
        id="course beyond a year",
    ),
    pytest.param(
        a_plan(a_dish("soup", keep=Keep(-1))),
        "Soup cannot keep for −1 min; give 0 to 366 days, or no limit.",
        id="dish keeps less than nothing",
    ),
    pytest.param(
        a_plan(a_dish("soup", ingredients=(Ingredient(""),))),
        'An ingredient of Soup, "", is empty; write one.',
        id="ingredient without a name",
    ),
    pytest.param(
        a_plan(a_dish("soup", ingredients=(Ingredient("leeks", aisle="\x00"),))),
        "leeks of Soup has a character that cannot be shown; type it again.",
        id="ingredient text",
    ),
    pytest.param(
        a_plan(a_dish("soup", ingredients=(Ingredient("leeks", step=StepId("soup.fry")),))),
        'leeks of Soup goes into the step "soup.fry", which Soup has not; choose one of its steps, or none.',
        id="ingredient of a missing step",
    ),
    pytest.param(
        a_plan(a_dish("soup", ingredients=(Ingredient("salt", per_kg_of="leeks"),))),
        'salt of Soup is weighed by the kilogram of "leeks"; name another ingredient of Soup.',
        id="ingredient by the kilogram of nothing",
    ),
    pytest.param(
        a_plan(a_dish("soup", ingredients=(Ingredient("salt", per_kg_of="salt"),))),
        'salt of Soup is weighed by the kilogram of "salt"; name another ingredient of Soup.',
        id="ingredient by the kilogram of itself",
    ),
    pytest.param(
        a_plan(plating="0003-09-26 19:30"),
        "Plating is in the year 3; give one from 2000 to 2199.",
        id="plating in the year 3",
    ),
    pytest.param(
        a_plan(plating="2026-09-26 19:30:05"),
        "Plating is not a whole minute of the clock; give date, hours and minutes only.",
        id="plating with seconds",
    ),
    pytest.param(
        a_plan(zone="Mars/Olympus"),
        'Plating: "Mars/Olympus" is not a time zone known here; write one such as Europe/London.',
        id="plating in no zone",
    ),
    pytest.param(
        a_plan(zone="America"),
        'Plating: "America" is not a time zone known here; write one such as Europe/London.',
        id="plating in a folder of zones",
    ),
    pytest.param(
        a_plan(a_dish("soup", ingredients=(Ingredient("leeks", Quantity(Fraction(-1, 2), "kg")),))),
        "leeks of Soup has the amount -0.5; give 0 to 1000000000.",
        id="amount below 0",
    ),
    pytest.param(
        a_plan(a_dish("soup", ingredients=(Ingredient("leeks", Quantity(Fraction(1), "furlong")),))),
        'leeks of Soup is measured in "furlong", no unit that is known; write g, ml, piece or a number.',
        id="unit that is none",
    ),
]


@pytest.mark.parametrize(("plan", "sentence"), CASES)
def test_one_thing_wrong_gives_one_sentence_with_the_mend(plan: Plan, sentence: str) -> None:
    assert problems(plan) == (sentence,)
