"""A chip is corrected in the line, and a line read into a step changes only what it speaks of."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from core.measures.refusal import Refusal
from core.plan.ids import StationId, StepId, VesselId
from core.plan.kitchen import StationKind
from core.plan.step import Alternative, Attention, Doneness, Heat, Span, Step, Touch, Use, VesselUse
from core.reading.line import read_line, with_chip, with_line
from core.reading.line_value import Says
from core.reading.line_write import write_line
from tests.core.reading.test_line_read import NAMES
from tests.core.reading.test_line_round_trip import STEPS
from tests.support.tries import tries

LINE = "bake 45-50 min 190C 1 rack, turn at 25, rest 10-30 on counter"
STEP = Step(
    StepId("pie.bake"),
    "Bake the pie",
    Span(40, 45, 50),
    Attention.HANDS_ON,
    skill="able",
    touches=(Touch(20, 1, "turn"),),
    uses=(Use(StationKind.OVEN, heat=Heat(180, 165, 195)),),
    vessels=(VesselUse(VesselId("tin")),),
    doneness=Doneness("golden", 90, 10),
    alternatives=(Alternative("on the grill", Span.of(60)),),
    note="the dish of the house",
)


def chip_of(text, kind):
    return next(each for each in read_line(text, NAMES).chips if each.kind is kind)


@pytest.mark.parametrize(
    ("kind", "words", "expected"),
    [
        (Says.LENGTH, "1 h", "bake 1 h 190C 1 rack, turn at 25, rest 10-30 on counter"),
        (Says.HEAT, "gas 5", "bake 45-50 min gas 5 1 rack, turn at 25, rest 10-30 on counter"),
        (Says.HEAT, "", "bake 45-50 min 1 rack, turn at 25, rest 10-30 on counter"),
        (Says.TOUCH, "turn at 30", "bake 45-50 min 190C 1 rack, turn at 30, rest 10-30 on counter"),
        (Says.TOUCH, "", "bake 45-50 min 190C 1 rack, rest 10-30 on counter"),
        (Says.WAIT, "", "bake 45-50 min 190C 1 rack, turn at 25"),
        (Says.ATTENTION, "hands-on", f"{LINE}, hands-on"),
        (Says.ATTENTION, "", LINE),
    ],
)
def test_a_phrase_is_written_anew_or_taken_out(kind, words, expected):
    mended = with_chip(LINE, chip_of(LINE, kind), words)
    assert mended == expected
    assert not read_line(mended, NAMES).faults


def test_correcting_one_chip_leaves_what_the_others_say():
    before = read_line(LINE, NAMES)
    after = read_line(with_chip(LINE, chip_of(LINE, Says.LENGTH), "2 h"), NAMES)
    assert after.step_values["length"] == Span.of(120)
    assert {**after.step_values, "length": None} == {**before.step_values, "length": None}
    assert after.wait == before.wait


def test_a_chip_of_another_line_is_refused():
    with pytest.raises(Refusal, match="has changed"):
        with_chip("bake", chip_of(LINE, Says.WAIT), "then at once")


def test_only_what_the_line_speaks_of_changes():
    changed = with_line(STEP, read_line("bake the pie 60 min", NAMES))
    assert changed == replace(STEP, does="bake the pie", length=Span.of(60))


@pytest.mark.parametrize(
    ("words", "doneness"),
    [
        ("core 92C", Doneness("golden", 92, 10)),
        ("until brown", Doneness("brown", 90, 10)),
        ("rested 5 min", Doneness("golden", 90, 5)),
        ("2 cooks", Doneness("golden", 90, 10)),
    ],
)
def test_parts_of_the_doneness_stay_too(words, doneness):
    assert with_line(STEP, read_line(f"bake, {words}", NAMES)).doneness == doneness


def test_what_is_taken_out_of_the_line_is_taken_from_the_step():
    was = read_line(write_line(STEP, None, NAMES), NAMES)
    assert write_line(STEP, None, NAMES) == (
        "Bake the pie 40-50 min, oven 180C, in the tin, able, hands-on, turn at 20 min, "
        "core 90C, rested 10 min, until golden"
    )
    changed = with_line(STEP, read_line("Bake the pie 40-50 min, oven 180C, core 90C", NAMES), was)
    assert changed == Step(
        STEP.id,
        STEP.does,
        STEP.length,
        Attention.HANDS_OFF,
        uses=STEP.uses,
        doneness=Doneness("", 90),
        alternatives=STEP.alternatives,
        note=STEP.note,
    )


def test_what_no_line_can_say_is_never_lost():
    step = replace(STEP, uses=(Use(StationKind.OVEN, station=StationId("gone")),))
    was = read_line(write_line(step, None, NAMES), NAMES)
    assert "gone" not in was.text
    text = was.text.replace("40-50 min", "60 min")
    assert with_line(step, read_line(text, NAMES), was) == replace(step, length=Span.of(60))


def test_another_verb_brings_its_own_attention_and_place():
    was = read_line("bake 40 min", NAMES)
    baked = was.step(StepId("pie.bake"))
    sliced = with_line(baked, read_line("slice 40 min", NAMES), was)
    assert (sliced.attention, sliced.uses) == (Attention.HANDS_ON, ())
    simmered = with_line(baked, read_line("simmer 40 min", NAMES), was)
    assert (simmered.attention, simmered.uses) == (Attention.HANDS_OFF, (Use(StationKind.BURNER),))


def test_a_line_with_faults_changes_what_it_says_and_keeps_its_text():
    text = "bake the pie 190X 60 min"
    line = read_line(text, NAMES)
    assert line.text == text
    assert with_line(STEP, line).length == Span.of(60)


@settings(max_examples=tries(40))
@given(step=STEPS)
def test_the_line_of_a_step_read_into_it_changes_nothing(step):
    step = replace(step, touches=(), note="kept")
    line = read_line(write_line(step, None, NAMES), NAMES)
    assert with_line(step, line) == step
    assert with_line(step, line, line) == step


@settings(max_examples=tries(40))
@given(one=STEPS, other=STEPS)
def test_from_one_line_to_another_the_step_becomes_the_other(one, other):
    one, other = (replace(each, touches=()) for each in (one, other))
    was, line = (read_line(write_line(each, None, NAMES), NAMES) for each in (one, other))
    assert with_line(one, line, was) == other
