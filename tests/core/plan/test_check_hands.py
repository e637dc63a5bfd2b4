"""Checks of hands: cooks and skills."""

from __future__ import annotations

from typing import Any

import pytest

from core.plan.check import problems
from core.plan.plan import Plan
from core.plan.step import Attention, Step, Touch
from tests.support.builders import a_bench, a_cook, a_kitchen, a_step, a_use, hands_off


def tended(*touches: Touch, **fields: Any) -> Step:
    return a_step(attention=Attention.TENDED, touches=touches, **fields)


CASES = [
    pytest.param(
        a_bench(a_step(hands=0)),
        "Soup: Boil is done by 0 cooks; give it 1 or more, or make it hands-off.",
        id="nobody works",
    ),
    pytest.param(
        a_bench(a_step(), kitchen=a_kitchen(cooks=0)),
        "Soup: Boil takes a cook's hands, and the kitchen has no cook; add one under Kitchen, or make"
        " it hands-off with 0 min for putting in and taking out.",
        id="no cook",
    ),
    pytest.param(
        a_bench(hands_off(put_in=None, uses=(a_use(),)), kitchen=a_kitchen(cooks=0)),
        "Soup: Boil takes a cook's hands, and the kitchen has no cook; add one under Kitchen, or make"
        " it hands-off with 0 min for putting in and taking out.",
        id="no cook to put it in",
    ),
    pytest.param(
        a_bench(a_step(hands=2)),
        "Soup: Boil takes 2 cooks at once, and the kitchen has 1; take fewer, or add one.",
        id="two cooks of one",
    ),
    pytest.param(
        a_bench(a_step(skill="carving")),
        "Soup: Boil asks for the skill “carving”, and no cook has it; give it to a cook, or leave it out.",
        id="skill nobody has",
    ),
    pytest.param(
        a_bench(
            a_step(hands=2, skill="carving"),
            kitchen=a_kitchen(cooks=(a_cook("ann", "carving"), a_cook("ben"))),
        ),
        "Soup: Boil asks for the skill “carving”, and only 1 of the 2 cooks it takes has it; give it to"
        " a cook, or leave it out.",
        id="skill too few have",
    ),
    pytest.param(
        a_bench(tended(Touch(2, skill="basting"))),
        "Soup: Boil asks for the skill “basting”, and no cook has it; give it to a cook, or leave it out.",
        id="skill of a touch",
    ),
]


@pytest.mark.parametrize(("plan", "sentence"), CASES)
def test_one_thing_wrong_gives_one_sentence_with_the_mend(plan: Plan, sentence: str) -> None:
    assert problems(plan) == (sentence,)
