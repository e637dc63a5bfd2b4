"""Checks of links and of circles."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.measures.quantity import TO_TASTE, Quantity, parse_quantity
from core.plan.check import problems
from core.plan.decisions import Order
from core.plan.plan import Plan
from core.plan.step import Yield
from tests.support.builders import a_bench, a_link, a_step

BOIL = a_step("soup.boil")
SERVE = a_step("soup.serve")


def whey_of(made: str, brought: str) -> Plan:
    boil = a_step("soup.boil", yields=Yield("whey", parse_quantity(made)))
    return a_bench(boil, SERVE, links=(a_link("soup.boil", "soup.serve", brings=parse_quantity(brought)),))


CASES = [
    pytest.param(
        a_bench(BOIL, links=(a_link("soup.boil", "soup.gone"),)),
        'A link from Soup: Boil to "soup.gone" names "soup.gone", which is no step of the menu; take'
        " the link out, or let it join two steps that are there.",
        id="link to nowhere",
    ),
    pytest.param(
        a_bench(BOIL, links=(a_link("soup.gone", "soup.lost"),)),
        'A link from "soup.gone" to "soup.lost" names "soup.gone" and "soup.lost", which are no steps'
        " of the menu; take the link out, or let it join two steps that are there.",
        id="link from nowhere to nowhere",
    ),
    pytest.param(
        a_bench(BOIL, links=(a_link("soup.boil", "soup.boil"),)),
        "Soup: Boil is linked to itself; take the link out, or choose another step.",
        id="link to itself",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve"), a_link("soup.boil", "soup.serve", 5))),
        "Soup: Serve is linked twice as end to start to Soup: Boil; take one of the two links out.",
        id="link twice",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve", -1),)),
        "Soup: Serve, after Soup: Boil, waits at least −1 min; give 0 min to 366 days.",
        id="wait below 0",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve", 5, 4),)),
        "Soup: Serve, after Soup: Boil, waits at least 5 min and at most 4 min; make the longest wait"
        " the longer one, or leave it without a limit.",
        id="most below least",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve", 5, 600_000),)),
        "Soup: Serve, after Soup: Boil, may wait for more than a year; give 366 days or less, or no limit.",
        id="most beyond a year",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve"), a_link("soup.serve", "soup.boil"))),
        "These steps wait for each other in a circle: Soup: Boil, then Soup: Serve, then Soup: Boil."
        " Take out one of the links or orders between Soup: Boil and Soup: Serve.",
        id="circle of links",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve"),), orders=(Order(SERVE.id, BOIL.id),)),
        "These steps wait for each other in a circle: Soup: Boil, then Soup: Serve, then Soup: Boil."
        " Take out one of the links or orders between Soup: Boil and Soup: Serve.",
        id="circle by an order",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve", brings=Quantity(Fraction(-1), "g")),)),
        "What Soup: Boil brings to Soup: Serve has the amount -1; give 0 to 1000000000.",
        id="by-product below 0",
    ),
    pytest.param(
        whey_of("450 ml", "300 g"),
        "Soup: Boil yields 450 ml of whey, and 300 g of it go to Soup: Serve: these cannot be reckoned together;"
        " write both by weight, both by volume, or in the same unit.",
        id="by-product by weight of a yield by volume",
    ),
    pytest.param(
        whey_of("2 jars", "1 tub"),
        "Soup: Boil yields 2 jars of whey, and 1 tub of it go to Soup: Serve: these cannot be reckoned together;"
        " write both by weight, both by volume, or in the same unit.",
        id="by-product in another thing that is counted",
    ),
]


@pytest.mark.parametrize(("plan", "sentence"), CASES)
def test_one_thing_wrong_gives_one_sentence_with_the_mend(plan: Plan, sentence: str) -> None:
    assert problems(plan) == (sentence,)


@pytest.mark.parametrize("brought", ["300 ml", "1 cup", "3 l"])
def test_what_is_brought_may_be_in_any_unit_that_compares_and_too_much(brought: str) -> None:
    assert problems(whey_of("450 ml", brought)) == ()


def test_what_is_brought_to_taste_is_not_reckoned() -> None:
    boil = a_step("soup.boil", yields=Yield("whey", parse_quantity("450 ml")))
    assert problems(a_bench(boil, SERVE, links=(a_link("soup.boil", "soup.serve", brings=TO_TASTE),))) == ()
