"""Degree-hours of a fermenting sausage."""

from fractions import Fraction

import pytest

from core.food.ferment import CANADA, TARGET, US, Stage, Stand, ferment, ferment_lines, hours_allowed
from core.measures import Refusal


def stage(degrees, hours, ph=None):
    return Stage(Fraction(degrees), Fraction(hours), None if ph is None else Fraction(ph))


@pytest.mark.parametrize(
    ("rule", "one", "stand"),
    [
        (US, stage(75, "79.9", "5.3"), Stand.MET),
        (US, stage(75, 80, "5.3"), Stand.OVER),  # less than 1200
        (US, stage(75, "79.9", "5.4"), Stand.OPEN),
        (CANADA, stage("25.6", "66.5", "5.3"), Stand.MET),  # at most 665
        (CANADA, stage("25.6", "66.6", "5.3"), Stand.OVER),
        (CANADA, stage("25.6", "66.6", "5.9"), Stand.OVER),
    ],
)
def test_a_hair_to_either_side(rule, one, stand):
    assert ferment([one], rule).stand is stand


def test_hours_below_the_base_do_not_count_and_those_after_the_ph_do_not_either():
    stages = [stage(50, 100), stage(80, 20), stage(80, 10, "5.2"), stage(100, 400, "4.9")]
    found = ferment(stages, US)
    assert (found.spent, found.stand) == (600, Stand.MET)
    assert found.formula == "degree-hours = (80 − 60) × 20 + (80 − 60) × 10 = 600"


def test_one_hot_hour_takes_the_smaller_budget():
    warm = ferment([stage(32, 38)], CANADA)
    hot = ferment([stage(32, 38), stage(38, 1)], CANADA)
    assert (warm.budget.allowed, warm.stand) == (665, Stand.OPEN)
    assert (hot.budget.allowed, hot.stand) == (500, Stand.OVER)


def test_hours_left_at_the_last_temperature():
    found = ferment([stage(75, 40)], US)
    assert found.left == 40
    assert ferment([stage(75, 40), stage(55, 10)], US).left is None
    said = ferment_lines(found)
    assert said[0] == "600 °F·h of less than 1200: still fermenting within them, to pH 5.3."
    assert said[1] == "At the last temperature the pH must be read within 40 h."
    assert "US degree-hour rule" in said[2]


def test_memory_is_marked():
    assert "from memory" in ferment([stage(95, 1)], US).budget.source
    assert "from memory" not in ferment([stage(75, 1)], US).budget.source


@pytest.mark.parametrize(
    ("stages", "words"),
    [
        ([], "stage by stage"),
        ([stage(200, 1)], "Nothing ferments at 200 °F"),
        ([stage(75, 0)], "A stage of 0 h"),
        ([stage(75, 5, "53")], "A pH of 53"),
    ],
)
def test_what_is_refused(stages, words):
    with pytest.raises(Refusal, match=words):
        ferment(stages, US)


def test_below_the_base_no_hours_are_told():
    with pytest.raises(Refusal, match="where degree-hours begin"):
        hours_allowed(Fraction("15.6"), CANADA)
    assert Fraction("5.3") == TARGET
