"""Lines as cooks type them: what was once read as something else, or not at all, without a word."""

import pytest

from core.plan.kitchen import StationKind
from core.plan.step import Attention, Doneness, Loads, Span, Touch
from core.reading.line import read_line
from core.reading.line_value import LineWait, Says
from tests.core.reading.test_line_read import NAMES


def read(text):
    line = read_line(text, NAMES)
    assert not line.faults, (text, line.faults)
    return line


def values(text):
    return read(text).step_values


@pytest.mark.parametrize(
    ("text", "does", "loads", "length"),
    [
        ("fry fritters 4 batches 3 min each", "fry fritters", Loads(4, 1), Span.of(3)),
        ("fry fritters in 4 batches of 6, 3 min per batch", "fry fritters", Loads(24, 6), Span.of(3)),
        ("fry 24 fritters in 4 batches 3 min", "fry fritters", Loads(24, 6), Span.of(3)),
        ("fry 25 fritters in 4 lots 3 min", "fry fritters", Loads(25, 7), Span.of(3)),
        ("fry 24 pieces 8 at a time 4 min", "fry", Loads(24, 8), Span.of(4)),
    ],
)
def test_batches(text, does, loads, length):
    found = values(text)
    assert (found["does"], found["loads"], found["length"]) == (does, loads, length)


@pytest.mark.parametrize(
    "text", ["deep fry 180C 4 min, 6 at a time", "poach eggs 3 mins 2 at a time, 8 eggs"]
)
def test_a_length_is_no_number_of_pieces(text):
    line = read_line(text, NAMES)
    assert "loads" not in line.step_values
    assert line.step_values["length"] in (Span.of(4), Span.of(3))
    (fault,) = line.faults
    assert fault.sentence.startswith("Of how many in all? Write 18 pieces ")
    assert text[fault.start : fault.end].endswith("at a time")


@pytest.mark.parametrize(
    ("text", "touches"),
    [
        ("simmer 2 h low heat, stir now and then", [20, 40, 60, 80, 100]),
        ("simmer 30 min, stir occasionally", [5, 10, 15, 20, 25]),
        ("simmer 6 min, stir every now and then", [3]),
        ("braise 3 h in oven, turn meat every hour", [60, 120]),
        ("roast 2 h, baste every half hour", [30, 60, 90]),
        ("roast 3 h 130C, baste hourly", [60, 120]),
        ("toast nuts 8 min oven 170C shake once", [4]),
    ],
)
def test_visits_without_minutes(text, touches):
    found = values(text)
    assert [touch.at for touch in found["touches"]] == touches
    assert found["attention"] is Attention.TENDED


def test_now_and_then_needs_a_length():
    (fault,) = read_line("simmer, stir now and then", NAMES).faults
    assert fault.sentence == "Say how long the step takes too, such as 60 min."


def test_once_in_the_words_of_a_step_is_no_visit():
    assert values("strain the stock once 5 min")["does"] == "strain the stock once"
    assert "touches" not in values("strain the stock once 5 min")


@pytest.mark.parametrize(
    ("text", "length", "touches", "attention"),
    [
        ("grill chops 10 minutes each side", 20, (Touch(10, 1, "turn"),), Attention.TENDED),
        ("fry 4 min per side", 8, (Touch(4, 1, "turn"),), Attention.HANDS_ON),
        ("sear steaks 2 min on each side", 4, (Touch(2, 1, "turn"),), Attention.HANDS_ON),
    ],
)
def test_both_sides_take_twice_as_long(text, length, touches, attention):
    found = values(text)
    assert (found["length"], found["touches"], found["attention"]) == (Span.of(length), touches, attention)
    said = [each for each in read(text).chips if not each.implied and each.kind in (Says.LENGTH, Says.TOUCH)]
    assert [text[each.start : each.end] for each in said][1].endswith("side")


@pytest.mark.parametrize(
    "text",
    ["make custard 15 min done by 18:40", "bake 40 mins ready for 7pm", "bake 40 min, done by 6.30 pm"],
)
def test_an_end_by_the_clock_is_a_fault_not_a_length(text):
    line = read_line(text, NAMES)
    (fault,) = line.faults
    assert "count from plating" in fault.sentence
    assert line.step_values["length"] in (Span.of(15), Span.of(40))


def test_what_comes_out_of_a_place_is_not_in_it():
    line = read_line("take the butter out of the fridge 2 min", NAMES)
    assert "uses" not in line.step_values
    assert line.step_values["does"] == "take the butter out of the fridge"
    (fault,) = read_line("take butter out of fridge 1 h before", NAMES).faults
    assert "counts from something" in fault.sentence


@pytest.mark.parametrize(
    ("text", "setting"),
    [("bake 25 min 180 fan", 200), ("bake 25 min fan 180", 200), ("bake 25 min 180C fan", 200)],
)
def test_a_fan_setting(text, setting):
    assert values(text)["uses"][0].heat.setting == setting


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("reduce sauce ~10 min", Span(9, 10, 11)),
        ("reduce sauce approx 10 min", Span(9, 10, 11)),
        ("reduce sauce ca. 10 min", Span(9, 10, 11)),
        ("chill at least 4 hours", Span.of(240)),
    ],
)
def test_lengths(text, length):
    assert values(text)["length"] == length


@pytest.mark.parametrize(
    ("text", "wait"),
    [
        ("sear steaks 4 min, rest 5", LineWait(5)),
        ("bake 30 min then rest 10 min", LineWait(10)),
        ("cook rice 12 min lid on, leave 10 min", LineWait(10)),
        ("roast 1 h, let it rest 20 min", LineWait(20)),
    ],
)
def test_a_rest_is_no_shorter(text, wait):
    assert read(text).wait == wait


def test_a_cue_ends_where_the_next_work_begins():
    found = values("boil potatoes 20 mins until tender then drain")
    assert (found["does"], found["doneness"]) == ("boil potatoes then drain", Doneness("tender"))


@pytest.mark.parametrize(
    ("text", "kind", "attention"),
    [
        ("cook rice 12 min low heat lid on", StationKind.BURNER, Attention.HANDS_ON),
        ("deep fry doughnuts 4 min", StationKind.BURNER, Attention.HANDS_ON),
        ("stir fry beans 4 min", StationKind.BURNER, Attention.HANDS_ON),
        ("steam pudding 2 h", StationKind.BURNER, Attention.HANDS_OFF),
        ("refrigerate 4 h", None, Attention.HANDS_OFF),
        ("cover & rest dough 20 min", None, Attention.HANDS_OFF),
        ("cover and carry 5 min", None, Attention.HANDS_ON),
        ("stir beans 4 min", None, Attention.HANDS_ON),
    ],
)
def test_what_words_imply(text, kind, attention):
    found = values(text)
    uses = found.get("uses", ())
    assert (uses[0].kind if uses else None, found["attention"]) == (kind, attention)


def test_both_cooks():
    assert values("plate up 5 min both cooks")["hands"] == 2


def test_what_is_no_value_stays_in_the_words():
    assert values("roast spuds 50 min 200C rack 2")["does"] == "roast spuds rack 2"
    assert values("simmer the ragout 2 h low heat lid on")["does"] == "simmer the ragout low heat lid on"


@pytest.mark.parametrize(
    ("text", "setting"),
    [
        ("roast chicken 1h20 200/180fan till juices clear", 200),
        ("bake 20 min 200C/180C fan", 200),
        ("bake 20 min 200C/180C fan/gas 6", 200),
        ("bake 20 min 220C (fan 200C)", 220),
        ("bake 20 min 400F/350F fan", 204),
    ],
)
def test_two_dials_of_one_setting_are_no_range(text, setting):
    heat = values(text)["uses"][0].heat
    assert (heat.setting, heat.low, heat.high) == (setting, setting - 15, setting + 15)
    assert not any(sign.isdigit() for sign in values(text)["does"])


def test_the_last_minutes_are_a_visit():
    assert values("braise ribs 3h, lid off last 30 min")["touches"] == (
        Touch(30, 1, "lid off", from_end=True),
    )
    assert values("bake 40 min, foil off for the last 10 min")["touches"][0].does == "foil off"


def test_what_is_let_be_goes_on_alone():
    assert values("let the dough rise 1 h")["attention"] is Attention.HANDS_OFF
    assert values("leave to cool 1 h")["attention"] is Attention.HANDS_OFF


def test_a_number_after_an_at_sign_is_asked_for():
    (fault,) = read_line("roast ribs 3h @150", NAMES).faults
    assert '"150"' in fault.sentence
