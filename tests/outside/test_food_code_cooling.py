"""US FDA Food Code 2022, 3-501.14: cooling. Read in state codes that adopt the text.

(A) from 57 °C (135 °F) to 21 °C (70 °F) within 2 hours and to 5 °C (41 °F) or less within a total of 6 hours;
(B) of ingredients at ambient temperature, to 5 °C (41 °F) or less within 4 hours.
"""

from fractions import Fraction
from math import exp

import pytest

from core.food.cooling import Reading, State, cooling_log, judged
from core.food.cooling_rules import FROM_HOT, FROM_ROOM, Limit, Scale
from core.measures import celsius_of
from core.measures.number import round_half_up
from tests.support.builders import a_moment

MET, MISSED, OPEN = State.MET, State.MISSED, State.OPEN


def states(rule, *read):
    readings = [Reading(at, Fraction(degrees), Scale.FAHRENHEIT) for at, degrees in read]
    log = cooling_log("Stew", a_moment(), readings, 0, rule)
    return [each.state for each in judged(log, max(at for at, _ in read))]


@pytest.mark.parametrize("rule", [FROM_HOT, FROM_ROOM])
def test_each_limit_is_one_temperature_printed_twice(rule):
    limits = [each.limit for each in rule.checkpoints] + [each for each in (rule.hot, rule.reheat) if each]
    assert all(round_half_up(celsius_of(each.fahrenheit)) == each.celsius for each in limits)


def test_the_limits_as_printed():
    assert FROM_HOT.hot == Limit(57, 135)
    assert [(each.within, each.limit) for each in FROM_HOT.checkpoints] == [
        (120, Limit(21, 70)), (360, Limit(5, 41)),
    ]  # fmt: skip
    assert [(each.within, each.limit) for each in FROM_ROOM.checkpoints] == [(240, Limit(5, 41))]
    assert FROM_HOT.reheat == Limit(74, 165)  # 3-403.11(A)


@pytest.mark.parametrize(
    ("read", "found"),
    [
        (((0, 135), (110, 70), (350, 41)), [MET, MET]),
        (((0, 135), (130, 70), (240, 41)), [State.NOT_SHOWN, MET]),
        (((0, 135), (120, 75), (130, 70), (240, 41)), [MISSED, MET]),
        (((0, 135), (120, 70), (361, 42)), [MET, MISSED]),
        (((0, 135), (119, 71)), [OPEN, OPEN]),
    ],
)
def test_worked_logs(read, found):
    assert states(FROM_HOT, *read) == found


def test_a_salad_made_at_room_temperature():
    assert states(FROM_ROOM, (0, 72), (240, 41)) == [MET]
    assert states(FROM_ROOM, (0, 72), (241, 42)) == [MISSED]


def test_what_cools_by_newtons_law_in_a_fridge_of_38_just_meets_the_first_and_misses_the_second():
    """Surroundings 38 °F and 135 to 70 °F in exactly 2 h: 41 °F comes at 6.27 h."""

    def fahrenheit(hours):
        return 38 + 97 * exp(-0.55446 * hours)

    assert fahrenheit(6.27) == pytest.approx(41, abs=0.01)
    read = [(minutes, Fraction(round(fahrenheit(minutes / 60) * 10), 10)) for minutes in range(0, 361, 30)]
    assert states(FROM_HOT, *read) == [MET, MISSED]
