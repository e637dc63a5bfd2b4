"""Checks of decisions."""

from __future__ import annotations

import pytest

from core.plan.check import problems
from core.plan.decisions import Choice, LengthOf, Order, Pin, Wishes
from core.plan.ids import CookId, StationId, StepId
from core.plan.plan import Plan
from core.plan.step import Loads, Manner
from tests.support.builders import GRILL, a_bench, a_plan, a_step

BOIL = a_step("soup.boil")
SERVE = a_step("soup.serve")


CASES = [
    pytest.param(
        a_plan(pins=(Pin(StepId("soup.boil"), start=0),)),
        'A pin is about "soup.boil", which is no step of the menu; take it out.',
        id="pin at nothing",
    ),
    pytest.param(
        a_bench(a_step(loads=Loads(8, 4)), pins=(Pin(BOIL.id, 2, 0),)),
        "A pin holds load 3 of Soup: Boil, which comes to 2 loads; lift the pin.",
        id="pin at a load that is not",
    ),
    pytest.param(
        a_bench(BOIL, pins=(Pin(BOIL.id, start=600_000),)),
        "Soup: Boil is pinned more than a year from plating; move or lift the pin.",
        id="pin beyond a year",
    ),
    pytest.param(
        a_bench(BOIL, pins=(Pin(BOIL.id, cook=CookId("zoe")),)),
        'Soup: Boil is pinned to the cook "zoe", who is not in the kitchen; lift the pin.',
        id="pin to a missing cook",
    ),
    pytest.param(
        a_bench(BOIL, pins=(Pin(BOIL.id, station=StationId("stove")),)),
        'Soup: Boil is pinned to the station "stove", which the kitchen has not; lift the pin.',
        id="pin to a missing station",
    ),
    pytest.param(
        a_bench(BOIL, pins=(Pin(BOIL.id, station=GRILL),)),
        "Soup: Boil is pinned to Grill, but does not happen there; lift the pin.",
        id="pin to another kind of station",
    ),
    pytest.param(
        a_bench(BOIL, pins=(Pin(BOIL.id, start=-10), Pin(BOIL.id, start=-20))),
        "There are 2 pins at Soup: Boil; lift all but one.",
        id="two pins",
    ),
    pytest.param(
        a_bench(a_step(loads=Loads(8, 4)), pins=(Pin(BOIL.id, 1, -10), Pin(BOIL.id, 1, -20))),
        "There are 2 pins at load 2 of Soup: Boil; lift all but one.",
        id="two pins at a load",
    ),
    pytest.param(
        a_plan(choices=(Choice(StepId("soup.boil"), 0),)),
        'A choice between ways is about "soup.boil", which is no step of the menu; take it out.',
        id="way of nothing",
    ),
    pytest.param(
        a_bench(BOIL, choices=(Choice(BOIL.id, 1),)),
        "Soup: Boil is to be done way 2, and has 1 way; choose one.",
        id="way that is not",
    ),
    pytest.param(
        a_bench(BOIL, choices=(Choice(BOIL.id, 0), Choice(BOIL.id, 0))),
        "Two ways are chosen for Soup: Boil; choose one.",
        id="two ways",
    ),
    pytest.param(
        a_plan(lengths=(LengthOf(StepId("soup.boil"), Manner.HIGH),)),
        'A choice of length is about "soup.boil", which is no step of the menu; take it out.',
        id="length of nothing",
    ),
    pytest.param(
        a_bench(BOIL, lengths=(LengthOf(BOIL.id, Manner.HIGH), LengthOf(BOIL.id, Manner.LIKELY))),
        "Two lengths are chosen for Soup: Boil; choose one.",
        id="two chosen lengths",
    ),
    pytest.param(
        a_bench(BOIL, orders=(Order(BOIL.id, StepId("soup.gone")),)),
        'The order “Soup: Boil before "soup.gone"” is about "soup.gone", which is no step of the menu;'
        " take it out.",
        id="order of nothing",
    ),
    pytest.param(
        a_bench(BOIL, orders=(Order(BOIL.id, BOIL.id),)),
        "Soup: Boil is ordered before itself; take the order out.",
        id="order before itself",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, orders=(Order(BOIL.id, SERVE.id),) * 2),
        "The order “Soup: Boil before Soup: Serve” is given 2 times; once is enough.",
        id="order twice",
    ),
    pytest.param(
        a_plan(wishes=Wishes(calm=11)),
        "A wish weighs less than 0 or more than 10; give 0 to 10.",
        id="wish out of range",
    ),
    pytest.param(
        a_plan(wishes=Wishes(sleep_until=1440)),
        "The time until which the cooks may sleep is not a time of day; give 00:00 to 23:59.",
        id="sleep until no time of day",
    ),
    pytest.param(
        a_plan(wishes=Wishes(sleep_until=-1)),
        "The time until which the cooks may sleep is not a time of day; give 00:00 to 23:59.",
        id="sleep until before the day",
    ),
]


@pytest.mark.parametrize(("plan", "sentence"), CASES)
def test_one_thing_wrong_gives_one_sentence_with_the_mend(plan: Plan, sentence: str) -> None:
    assert problems(plan) == (sentence,)
