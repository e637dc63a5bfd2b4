"""The cooling log: readings against limits, minute by minute."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.cooling import (
    Action,
    Reading,
    State,
    cooling_log,
    failed,
    judged,
    next_limit,
    warmer_again,
)
from core.food.cooling_rules import FROM_HOT, FROM_ROOM, Scale
from core.food.speak_cooling import corrective_action, log_lines, said_judged, said_next
from core.measures import Refusal
from tests.support.builders import a_moment

PLATING = a_moment("2026-11-07 19:00")
BEGAN = 120  # 21:00


def at(minutes, degrees, scale=Scale.CELSIUS, initials=""):
    return Reading(BEGAN + minutes, Fraction(str(degrees)), scale, initials)


def a_log(*readings, began=BEGAN, rule=FROM_HOT):
    return cooling_log("Ham", PLATING, readings, began, rule)


def states(log, after):
    return [each.state for each in judged(log, BEGAN + after)]


@pytest.mark.parametrize(
    ("readings", "after", "first"),
    [
        ((), 119, State.OPEN),
        ((), 120, State.OPEN),
        ((), 121, State.NOT_SHOWN),
        (((60, 35),), 90, State.OPEN),
        (((120, 21),), 120, State.MET),
        (((120, "21.1"),), 120, State.MISSED),
        (((119, "21.1"),), 119, State.OPEN),
        (((119, "21.1"),), 121, State.NOT_SHOWN),
        (((119, "21.1"), (125, 20)), 125, State.NOT_SHOWN),
        (((121, 22),), 121, State.MISSED),
        (((60, 20),), 60, State.MET),
        (((60, 20), (110, 24)), 110, State.OPEN),
        (((60, 20), (110, 24), (120, 20)), 130, State.MET),
        (((60, 20), (150, 23)), 150, State.MET),
    ],
)
def test_the_first_limit_to_the_minute_and_the_tenth(readings, after, first):
    assert states(a_log(*(at(*each) for each in readings)), after)[0] is first


def test_the_reading_that_decides_is_the_first_of_the_cold_ones():
    log = a_log(at(60, 20), at(90, 23), at(100, 20), at(120, 18))
    assert judged(log, BEGAN + 130)[0].reading == at(100, 20)
    assert judged(a_log(at(121, 22), at(150, 21)), BEGAN + 160)[0].reading == at(121, 22)


def test_both_limits_met_in_time_and_the_log_says_no_more_than_that():
    log = a_log(at(110, 21), at(350, 5))
    assert states(log, 350) == [State.MET, State.MET]
    assert next_limit(log, BEGAN + 350) is None
    told = said_next(log, BEGAN + 350)
    assert told == (
        "Ham: the limits of US FDA Food Code 2022, 3-501.14(A) are met; the log says no more than that."
    )


def test_the_second_limit_missed_asks_to_discard():
    log = a_log(at(110, 21), at(361, 6))
    assert states(log, 361) == [State.MET, State.MISSED]
    told = said_next(log, BEGAN + 361)
    assert "5 °C (41 °F) within 6 h, by 03:00: missed, 6 °C at 03:01." in told
    assert "Corrective action: discard it" in told
    assert "reheat" not in told


def test_reheating_is_offered_only_where_the_miss_was_found_when_due():
    on_time, later = a_log(at(120, 24)), a_log(at(200, 24))
    assert corrective_action(on_time, judged(on_time, BEGAN + 120)[0]).startswith(
        "Corrective action: reheat it to"
    )
    assert corrective_action(later, judged(later, BEGAN + 200)[0]).startswith(
        "Corrective action: discard it, unless your local food code still lets you reheat it to 74 °C"
    )
    unknown = judged(a_log(), BEGAN + 200)[0]
    assert corrective_action(a_log(), unknown).startswith("Corrective action: discard it, unless")


@pytest.mark.parametrize(("degrees", "state"), [(70, State.MET), ("70.1", State.MISSED)])
def test_a_fahrenheit_reading_is_held_against_the_printed_fahrenheit(degrees, state):
    # 70 °F is 21.1 °C: converted first it would seem to miss the limit that the code prints as 70 °F
    assert states(a_log(at(120, degrees, Scale.FAHRENHEIT)), 120)[0] is state


def test_food_made_at_room_temperature_has_one_limit():
    log = a_log(at(0, 22), at(239, 5), rule=FROM_ROOM)
    assert states(log, 239) == [State.MET]
    missed = a_log(at(0, 22), at(240, 8), rule=FROM_ROOM)
    assert corrective_action(missed, failed(missed, BEGAN + 240)).startswith("Corrective action: discard it")
    assert log_lines(log, BEGAN + 240)[0] == "21:00 Ham was made."


def test_the_beginning_is_the_last_reading_that_was_still_hot():
    readings = (at(-40, 80), at(-10, 60), at(0, 57), at(20, 50))
    assert cooling_log("Ham", PLATING, readings).began == BEGAN
    assert cooling_log("Ham", PLATING, (at(0, 135, Scale.FAHRENHEIT), at(9, 50))).began == BEGAN


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: cooling_log("Ham", PLATING, (at(0, 50),)), "Ham: write when the cooling began."),
        (lambda: cooling_log("Ham", PLATING, (), rule=FROM_ROOM), "Ham: write when the cooling began."),
        (lambda: a_log(at(-1, 56)), "Ham was at 56 °C already at 20:59, so its cooling began before 21:00"),
        (lambda: a_log(at(1, 57)), r"Ham was at 57 °C at 21:01, not below 57 °C \(135 °F\); correct the"),
        (lambda: a_log(at(5, 500)), "Ham cannot be at 500 °C at 21:05; read the probe again."),
        (lambda: a_log(at(5, -90)), "Ham cannot be at -90 °C"),
        (lambda: a_log(at(-1, 22), rule=FROM_ROOM), "Ham: 20:59 is before it was made, 21:00"),
        (lambda: judged(a_log(at(60, 35)), BEGAN + 59), "Ham: 22:00 is still to come"),
        (
            lambda: a_log().with_action(Action(BEGAN, " ", "JB")),
            "Ham: write what was done and your initials.",
        ),
        (lambda: a_log().with_action(Action(BEGAN, "Discarded", "")), "Ham: write what was done and your"),
    ],
)
def test_what_cannot_belong_to_a_log_is_refused(make, says):
    with pytest.raises(Refusal, match=says):
        make()


def test_warmer_again_is_told():
    log = a_log(at(60, 30), at(90, 33), at(119, 20))
    assert warmer_again(log) == (at(60, 30), at(90, 33))
    assert (
        "Warmer again: 30 °C at 22:00 and 33 °C at 22:30; hold the probe" in log_lines(log, BEGAN + 119)[-1]
    )
    assert warmer_again(a_log(at(60, 30), at(90, 30))) is None
    assert warmer_again(a_log(at(60, 30), at(90, 86, Scale.FAHRENHEIT))) is None


readings = st.lists(
    st.builds(at, st.integers(1, 420), st.integers(-2, 56)), max_size=6, unique_by=lambda reading: reading.at
)


@given(readings, st.randoms())
def test_the_order_of_writing_does_not_matter(found, dice):
    shuffled = list(found)
    dice.shuffle(shuffled)
    assert a_log(*found) == a_log(*shuffled)


@given(readings)
def test_a_missed_limit_stays_missed_and_a_met_one_has_a_reading_in_time(found):
    log = a_log(*found)
    end = max([each.at for each in found], default=BEGAN)
    now, later = judged(log, end), judged(log, end + 1000)
    for before, after in zip(now, later, strict=True):
        if before.state in (State.MISSED, State.MET, State.NOT_SHOWN):
            assert after == before
        else:
            assert after.state is State.NOT_SHOWN
        if before.state is State.MET:
            assert before.reading.at <= before.due
            assert before.reading.degrees <= before.checkpoint.limit.celsius
    assert all(each.state is not State.OPEN for each in later)


@given(readings)
def test_no_sentence_says_safe(found):
    log = a_log(*found)
    now = BEGAN + 1000
    told = [said_next(log, now), *log_lines(log, now), *(said_judged(log, each) for each in judged(log, now))]
    assert not any("safe" in sentence.casefold() for sentence in told)
