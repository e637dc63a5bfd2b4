"""Checks of steps: words, lengths, touches, loads, times."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from core.measures.quantity import Quantity
from core.plan.check import problems
from core.plan.plan import Plan
from core.plan.step import (
    Alternative,
    Attention,
    ClockTime,
    Doneness,
    Keep,
    Loads,
    Span,
    Step,
    Touch,
    Yield,
)
from tests.support.builders import a_bench, a_step, a_use, at_oven, hands_off


def tended(*touches: Touch, **fields: Any) -> Step:
    return a_step(attention=Attention.TENDED, touches=touches, **fields)


def yielding(item: str, amount: int | str, unit: str = "ml", *, to_taste: bool = False) -> Plan:
    return a_bench(a_step(yields=Yield(item, Quantity(Fraction(amount), unit, to_taste))))


CASES = [
    pytest.param(
        yielding(" ", 450),
        "The name of what Soup: Boil yields besides is empty; write one.",
        id="yield without a name",
    ),
    pytest.param(
        yielding("whey", 450, "buckets"),
        'What Soup: Boil yields besides, whey, is measured in "buckets", no unit that is known; write g, ml, piece'
        " or a number.",
        id="yield in no unit",
    ),
    pytest.param(
        yielding("whey", 0),
        "What Soup: Boil yields besides, whey, comes to nothing; give its amount, or leave it out.",
        id="yield of nothing",
    ),
    pytest.param(
        yielding("whey", 0, "", to_taste=True),
        "What Soup: Boil yields besides, whey, comes to nothing; give its amount, or leave it out.",
        id="yield to taste",
    ),
    pytest.param(
        yielding("whey", -1),
        "What Soup: Boil yields besides, whey, has the amount -1; give 0 to 1000000000.",
        id="yield below 0",
    ),
    pytest.param(
        a_bench(a_step("soup.boil", " ")),
        "What is done in Soup: soup.boil is empty; write one.",
        id="nothing is done",
    ),
    pytest.param(
        a_bench(a_step(alternatives=(Alternative("", Span.of(5)),))),
        "The name of another way to do Soup: Boil is empty; write one.",
        id="other way without a name",
    ),
    pytest.param(
        a_bench(a_step(note="\x1b[31m")),
        "A text of Soup: Boil has a character that cannot be shown; type it again.",
        id="text of a step",
    ),
    pytest.param(
        a_bench(a_step(doneness=Doneness("soft\x00"))),
        "A text of Soup: Boil has a character that cannot be shown; type it again.",
        id="text of a cue",
    ),
    pytest.param(
        a_bench(a_step(minutes=(10, 9, 12))),
        "Soup: Boil has the lengths 10, 9 and 12 min; write the shortest first, the longest last.",
        id="lengths out of order",
    ),
    pytest.param(
        a_bench(a_step(minutes=0)),
        "Soup: Boil takes 0 min; give it 1 min or more.",
        id="no length",
    ),
    pytest.param(
        a_bench(a_step(minutes=600_000)),
        "Soup: Boil takes longer than a year; give it 366 days or less.",
        id="longer than a year",
    ),
    pytest.param(
        a_bench(a_step(alternatives=(Alternative("slowly", Span.of(0)),))),
        "Soup: Boil, the other way “slowly”, takes 0 min; give it 1 min or more.",
        id="length of another way",
    ),
    pytest.param(
        a_bench(a_step(minutes=10, least_piece=11)),
        "Soup: Boil may be done in pieces of 11 min; give 1 to 10 min.",
        id="piece longer than the step",
    ),
    pytest.param(
        a_bench(tended(Touch(-2, does="stir"))),
        "The touch “stir” of Soup: Boil comes 2 min too soon; let it begin at 0 or later.",
        id="touch before the start",
    ),
    pytest.param(
        a_bench(tended(Touch(2, 0))),
        "The touch 2 min after the start of Soup: Boil takes 0 min; give it 1 min or more.",
        id="touch of no minutes",
    ),
    pytest.param(
        a_bench(tended(Touch(9, 3, "turn"))),
        "The touch “turn” of Soup: Boil falls 2 min outside its shortest length, 10 min; move the"
        " touch, or give the step at least 12 min.",
        id="touch outside",
    ),
    pytest.param(
        a_bench(tended(Touch(10, from_end=True))),
        "The touch 10 min before the end of Soup: Boil falls 1 min outside its shortest length, 10 min;"
        " move the touch, or give the step at least 11 min.",
        id="touch outside from the end",
    ),
    pytest.param(
        a_bench(hands_off(put_in=-1)),
        "Putting in at Soup: Boil takes −1 min; give it 0 min or more.",
        id="putting in below 0",
    ),
    pytest.param(
        a_bench(hands_off(minutes=4, put_in=5)),
        "Putting in or taking out at Soup: Boil takes 5 min, longer than the step's shortest 4 min;"
        " give it less, or make the step hands-on.",
        id="putting in longer than the step",
    ),
    pytest.param(
        a_bench(hands_off(minutes=4, take_out=None, uses=(a_use(),)), transfer=5),
        "Putting in or taking out at Soup: Boil takes 5 min, longer than the step's shortest 4 min;"
        " give it less, or make the step hands-on.",
        id="usual transfer longer than the step",
    ),
    pytest.param(
        a_bench(hands_off(minutes=10, put_in=10, uses=(at_oven(),))),
        "Putting in or taking out at Soup: Boil takes 10 min, longer than the step's shortest 9 min;"
        " give it less, or make the step hands-on.",
        id="transfer longer than the hottest way",
    ),
    pytest.param(
        a_bench(a_step(loads=Loads(0, 6))),
        "Soup: Boil makes 0 pieces, 6 to a load; give both 1 to 100000.",
        id="no pieces",
    ),
    pytest.param(
        a_bench(a_step(loads=Loads(6, 0))),
        "Soup: Boil makes 6 pieces, 0 to a load; give both 1 to 100000.",
        id="no pieces to a load",
    ),
    pytest.param(
        a_bench(a_step(loads=Loads(6, 3, -1))),
        "Between the loads of Soup: Boil are −1 min; give 0 or more.",
        id="change-over below 0",
    ),
    pytest.param(
        a_bench(a_step(loads=Loads(1000, 1))),
        "Soup: Boil comes to 1000 loads; a load must hold more, so that there are 200 or fewer.",
        id="too many loads",
    ),
    pytest.param(
        a_bench(a_step(earliest=-600_000)),
        "The earliest time of Soup: Boil is more than a year from plating; set it nearer.",
        id="earliest beyond a year",
    ),
    pytest.param(
        a_bench(a_step(latest=600_000)),
        "The latest time of Soup: Boil is more than a year from plating; set it nearer.",
        id="latest beyond a year",
    ),
    pytest.param(
        a_bench(a_step(minutes=10, earliest=-20, latest=-11)),
        "Soup: Boil may begin at T-0:20 and must end by T-0:11, too little for its 10 min; widen one of"
        " the two.",
        id="no room between earliest and latest",
    ),
    pytest.param(
        a_bench(a_step(clock=ClockTime(0, 1440))),
        "The clock time of Soup: Boil is not a time of day; give 00:00 to 23:59.",
        id="no time of day",
    ),
    pytest.param(
        a_bench(a_step(clock=ClockTime(400, 60))),
        "The clock time of Soup: Boil is more than a year from plating; set it nearer.",
        id="clock time beyond a year",
    ),
    pytest.param(
        a_bench(a_step(keeps=Keep(-1))),
        "Soup: Boil cannot keep for −1 min; give 0 to 366 days, or no limit.",
        id="step keeps less than nothing",
    ),
    pytest.param(
        a_bench(a_step(doneness=Doneness(core=400))),
        "Soup: Boil is done at 400 °C in the middle; give -60 to 350 °C.",
        id="core beyond reason",
    ),
    pytest.param(
        a_bench(a_step(doneness=Doneness(rest=-1))),
        "Soup: Boil rests for −1 min; give 0 or more.",
        id="rest below 0",
    ),
]


@pytest.mark.parametrize(("plan", "sentence"), CASES)
def test_one_thing_wrong_gives_one_sentence_with_the_mend(plan: Plan, sentence: str) -> None:
    assert problems(plan) == (sentence,)
