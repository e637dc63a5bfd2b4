"""A written line reads back as the same step; what no line says is told, and no text breaks the reading."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import demo_data
from core.intake.text_plan import read_text
from core.plan.ids import StationId, StepId, VesselId
from core.plan.kitchen import StationKind
from core.plan.menu import Link, LinkKind
from core.plan.step import (
    Alternative,
    Attention,
    ClockTime,
    Doneness,
    Heat,
    Holding,
    Keep,
    Loads,
    Span,
    Step,
    Touch,
    Use,
    VesselUse,
    Wait,
)
from core.reading.line import read_line
from core.reading.line_names import Names
from core.reading.line_value import LineWait
from core.reading.line_write import beyond_line, write_line
from tests.core.reading.test_line_read import NAMES
from tests.support.strategies import plans
from tests.support.tries import tries

SLOW = settings(
    max_examples=tries(20), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
MANY = settings(max_examples=tries(150), suppress_health_check=[HealthCheck.too_slow])

SOUP = (
    "bake slice simmer the a in on at for until then rest 45 45-50 min 190C gas 5 oven rack 2 tins casserole B2 able "
    'hands-off "hot" fridge 40x30 cm 20/25/35 every end after with nothing serve within , ; : mm 1h20 raw é ½'
)
"""Words that are values, parts of values, or neither."""
WORDS = st.lists(
    st.sampled_from(SOUP.split()),
    min_size=1,
    max_size=7,
).map(" ".join)
SMALL = st.integers(0, 300)
SPANS = st.lists(st.integers(1, 4000), min_size=3, max_size=3).map(sorted).map(lambda three: Span(*three))
HEATS = st.builds(
    lambda low, up, more, steady: Heat(low + up, low, low + up + more, steady),
    st.integers(40, 250),
    st.integers(0, 20),
    st.integers(0, 20),
    st.booleans(),
)
USES = st.builds(
    Use,
    st.sampled_from(StationKind),
    st.integers(1, 12),
    st.none(),
    st.integers(0, 3000),
    st.integers(0, 40),
    st.booleans(),
    st.one_of(st.none(), HEATS),
) | st.builds(
    lambda at, heat: Use(NAMES.station_kind[at], station=at, heat=heat),
    st.sampled_from([each.id for each in NAMES.stations]),
    st.one_of(st.none(), HEATS),
)
WAITS = st.builds(Wait, st.sampled_from(Holding), st.one_of(st.none(), USES))
TOUCHES = st.builds(
    Touch,
    st.integers(0, 20),
    st.integers(1, 9),
    st.one_of(st.just(""), WORDS),
    st.booleans(),
    st.sampled_from(["", "able", "boning"]),
)
VESSELS = st.builds(VesselUse, st.sampled_from([each.id for each in NAMES.vessels]), st.integers(1, 4))
MAYBE = {
    "hands": st.integers(2, 5),
    "skill": st.sampled_from(["able", "pastry", "boning knife"]),
    "attention": st.sampled_from(Attention),
    "touches": st.lists(TOUCHES, max_size=3).map(tuple),
    "put_in": st.integers(0, 20),
    "take_out": st.integers(0, 20),
    "uses": st.lists(USES, max_size=2).map(tuple),
    "vessels": st.lists(VESSELS, max_size=2).map(tuple),
    "loads": st.builds(Loads, st.integers(1, 99), st.integers(1, 20), st.integers(0, 9)),
    "least_piece": st.integers(1, 60),
    "doneness": st.builds(
        Doneness,
        st.one_of(st.just(""), WORDS),
        st.one_of(st.none(), st.integers(30, 99)),
        st.one_of(st.none(), SMALL),
    ),
    "earliest": st.integers(-5000, 500),
    "latest": st.integers(-5000, 500),
    "clock": st.builds(ClockTime, st.integers(-2, 5), st.integers(0, 1439)),
    "keeps": st.builds(Keep, st.one_of(st.none(), st.integers(0, 9000)), WAITS),
}
STEPS = st.fixed_dictionaries({"does": WORDS, "length": SPANS}, optional=MAYBE).map(
    lambda fields: Step(id=StepId("pie.bake"), **fields)
)
LINKS = st.builds(
    lambda least, more, wait: Link(
        StepId("pie.bake"), StepId("pie.x"), least, None if more is None else least + more, wait=wait
    ),
    SMALL,
    st.one_of(st.none(), SMALL),
    WAITS,
)


def judged(step, link, names):
    """Return the line, after holding the step that it gives against the step it was written from."""
    text = write_line(step, link, names)
    line = read_line(text, names)
    beyond = beyond_line(step, link, names)
    assert not line.faults, (text, line.faults)
    again = line.step(step.id)
    wait = LineWait() if link is None else LineWait(link.least, link.most, link.wait)
    return text, line, again, wait, beyond


@MANY
@given(step=STEPS, link=st.one_of(st.none(), LINKS))
def test_a_step_comes_back_from_its_line(step, link):
    fits = all(touch.at <= step.length.high for touch in step.touches)
    if not fits:
        step = replace(step, touches=())
    text, line, again, wait, beyond = judged(step, link, NAMES)
    assert beyond == (), text
    assert again == step, text
    assert (line.wait or LineWait()) == wait, text


@SLOW
@given(plan=plans())
def test_the_steps_of_any_plan_come_back_but_for_what_is_told(plan):
    for dish in plan.menu.dishes:
        names = Names.of(plan, dish.id)
        for step in dish.steps:
            link = next(iter(plan.links_from[step.id]), None)
            text = write_line(step, link, names)
            beyond = beyond_line(step, link, names)
            line = read_line(text, names)
            kept = {name: getattr(step, name) for name in ("alternatives", "yields", "note", "food")}
            assert (line.step_values["length"] == step.length) or "the length" in beyond, text
            if beyond == ():
                assert replace(line.step(step.id), **kept) == step, text


@pytest.mark.parametrize("name", demo_data.files())
def test_the_demo_plans_are_said_in_lines(name):
    plan = read_text(demo_data.text_of(name))
    for dish in plan.menu.dishes:
        names = Names.of(plan, dish.id)
        for step in dish.steps:
            link = next(iter(plan.links_from[step.id]), None)
            bare = replace(step, alternatives=(), yields=None, note="")
            plain = None if link is None else replace(link, brings=None, kind=LinkKind.END_TO_START)
            text, line, again, wait, beyond = judged(bare, plain, names)
            assert (again, line.wait or LineWait(), beyond) == (bare, wait, ()), text


def test_what_a_line_cannot_say_is_told():
    step = Step(
        StepId("pie.bake"),
        "bake",
        Span.of(40),
        Attention.HANDS_OFF,
        uses=(Use(StationKind.OVEN, station=StationId("gone")),),
        vessels=(VesselUse(VesselId("gone-too")),),
        alternatives=(Alternative("on the hob", Span.of(50)),),
        note="as last year",
    )
    link = Link(StepId("pie.bake"), StepId("pie.x"), 5, kind=LinkKind.START_TO_START)
    assert write_line(step, link, NAMES) == "bake 40 min, then at least 5 min"
    assert beyond_line(step, link, NAMES) == (
        "the places",
        "the vessels",
        "other ways to do it",
        "the note",
        "the kind of the link",
    )


@settings(max_examples=tries(300), suppress_health_check=[HealthCheck.too_slow])
@given(text=st.one_of(st.text(max_size=80), WORDS, st.lists(WORDS, max_size=4).map(", ".join)))
def test_no_text_breaks_the_reading(text):
    line = read_line(text, NAMES)
    assert line.text == text
    for each in (*line.chips, *line.faults):
        assert 0 <= each.start <= each.end <= len(text)
    said = [each for each in line.chips if not each.implied]
    assert all(one.end <= other.start for one, other in pairwise(said))
