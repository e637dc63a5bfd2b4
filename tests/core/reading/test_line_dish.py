"""A dish typed as one block of text: its steps, links and faults; the demo's gratin, value by value."""

import tomllib
from dataclasses import fields, replace

import pytest

import demo_data
from core.intake.text_plan import read_text
from core.plan.ids import DishId, StepId, local_part, step_id
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Attention, Holding, Keep, Span, Step, Wait
from core.reading.line_dish import read_dish
from core.reading.line_names import Names
from tests.core.reading.test_line_read import NAMES

HARVEST = "harvest_supper.toml"
GRATIN = """\
gratin: Potato and celeriac gratin, serves 12, 3 min before, keeps up to 60 min
slice: Peel and slice 3 mm thick 20/28/35, able, until even slices; used at once or kept under the milk, up to 30 min
simmer: Simmer in cream and milk 10/12/15 hands-on in wide pan until liquid just thickens, up to 15 min in its vessel
assemble: Fill the dish, cheese on top, foil over it, 4/5/7 in wide pan and gratin dish, up to 45 min
bake: Bake on the upper rack, foil on for the first 45 min, 65/75/90 160C in gratin dish, foil off at 45, take out 0, \
until knife slides in; browned, core 90C, at once
stand: Stand, covered, before cutting 10/15/30 in gratin dish, "take out, cover" at start for 2 min, until cuts clean"""


@pytest.fixture(scope="module")
def harvest() -> Plan:
    return read_text(demo_data.text_of(HARVEST))


def steps_in(text):
    """Return the values, keys apart, that the file writes for what the block says of the gratin."""
    dish = tomllib.loads(text)["dish"]["gratin"]
    head = [str(dish[key]) for key in ("name", "serves", "course", "keeps")]
    rows = [value for step in dish["step"].values() for value in step.values()]
    parts = [part for value in rows for part in (value if isinstance(value, list) else [value])]
    return [*head, *map(str, dish["step"]), *map(str, parts)]


@pytest.mark.parametrize("at", range(5))
def test_the_gratin_typed_in_lines_is_the_gratin_of_the_file(harvest, at):
    read = read_dish(GRATIN, Names.of_kitchen(harvest.kitchen))
    assert read.faults == ()
    wanted = harvest.dishes[DishId("gratin")].steps
    assert len(read.dish.steps) == len(wanted) == 5
    for each in fields(Step):
        assert getattr(read.dish.steps[at], each.name) == getattr(wanted[at], each.name), each.name


def test_its_links_and_first_line_too(harvest):
    read = read_dish(GRATIN, Names.of_kitchen(harvest.kitchen))
    wanted = harvest.dishes[DishId("gratin")]
    assert read.links == tuple(link for link in harvest.menu.links if link.after.startswith("gratin."))
    for name in ("id", "name", "written_for", "wanted", "course", "keep", "served"):
        assert getattr(read.dish, name) == getattr(wanted, name), name


def test_the_gratin_takes_few_keys(harvest):
    """Count keys against text.

    Keys: every character of the block is one, Enter between lines is one each, and a capital or a sign of the upper
    row (":" and the quote) is one more for Shift. Text: the characters of what the demo file holds for the same
    values, keys, quotes and brackets left out and one space between two values: what has to be said in any case.
    """
    keys = len(GRATIN) + sum(sign.isupper() or sign in ':"' for sign in GRATIN)
    text = len(" ".join(steps_in(demo_data.text_of(HARVEST))))
    assert text > 600
    assert keys <= 1.3 * text, (keys, text)


# ---------------------------------------------------------------- links


def links_of(text, names=NAMES):
    read = read_dish(text, names)
    assert not read.faults, read.faults
    return read.links


def link(before, after, least=0, most=None, **more):
    return Link(step_id(DishId("pie"), before), step_id(DishId("pie"), after), least, most, **more)


def test_steps_follow_the_line_above_with_its_wait():
    found = links_of("Pie\nslice 20 min, then up to 30 min\nbake 40 min, then at once\ncut 5 min")
    assert found == (link("slice", "bake", 0, 30), link("bake", "cut", 0, 0))


def test_after_replaces_the_line_above_and_also_after_adds():
    text = (
        "Pie\nslice 20 min\nboil: boil the eggs 10 min, after nothing, then up to 2 h\n"
        "sauce: stir the sauce 10 min, after nothing\ndress 5 min, after slice: up to 30 min, also after boil\n"
        "carry 2 min, also after the sauce: up to 1 h in the fridge"
    )
    assert links_of(text) == (
        link("slice", "dress", 0, 30),
        link("boil", "dress", 0, 120),
        link("dress", "carry"),
        link("sauce", "carry", 0, 60, wait=Wait(Holding.FRIDGE)),
    )


def test_with_starts_together_and_other_dishes_can_be_named():
    names = replace(NAMES, steps=((StepId("soup.boil"), "Boil the bones"),))
    text = (
        "Pie\nroast: roast the roots 40 min\nwarm the plates 10 min, with the roast\n"
        "glaze 5 min, also after soup.boil"
    )
    assert links_of(text, names) == (
        link("roast", "warm-the-plates", kind=LinkKind.START_TO_START),
        link("warm-the-plates", "glaze"),
        Link(StepId("soup.boil"), StepId("pie.glaze")),
    )


def test_a_line_follows_only_what_stands_above_it():
    read = read_dish("Pie\nslice 20 min, after bake\nbake 40 min", NAMES)
    assert [number for number, _ in read.faults] == [1]
    assert 'No step is called "bake"' in read.faults[0][1].sentence


# ---------------------------------------------------------------- lines and faults


def test_bullets_numbers_and_empty_lines_are_passed_over():
    read = read_dish("\n  Pie, two tins  \n\n1. slice 20 min\n - bake 40 min\n\t* cut 5 min\n", NAMES)
    assert read.faults == ()
    assert read.dish.name == "Pie, two tins"
    assert [step.does for step in read.dish.steps] == ["slice", "bake", "cut"]


@pytest.mark.parametrize(
    ("row", "dish"),
    [
        ("Pie", Dish(DishId("pie"), "Pie")),
        (
            "Pie, sage, chilli and honey",
            Dish(DishId("pie-sage-chilli-and-honey"), "Pie, sage, chilli and honey"),
        ),
        ("Pie, serves 12", Dish(DishId("pie"), "Pie", written_for=12, wanted=12)),
        ("Pie, serves 4, 12 wanted", Dish(DishId("pie"), "Pie", written_for=4, wanted=12)),
        ("Pie, 75 min after", Dish(DishId("pie"), "Pie", course=75)),
        ("Pie, for other dishes", Dish(DishId("pie"), "Pie", served=False)),
        (
            "Pie, keeps up to 2 days in the fridge",
            Dish(DishId("pie"), "Pie", keep=Keep(2880, Wait(Holding.FRIDGE))),
        ),
        ('"Pie, serves 12"', Dish(DishId("pie-serves-12"), "Pie, serves 12")),
    ],
)
def test_the_first_line(row, dish):
    read = read_dish(row, NAMES)
    assert read.faults == ()
    assert read.dish == dish


def test_ids_are_never_given_twice():
    read = read_dish("Pie\nbake 40 min\nbake 20 min", NAMES, taken={"pie"})
    assert [step.id for step in read.dish.steps] == ["pie-2.bake", "pie-2.bake-2"]


@pytest.mark.parametrize("text", ["Pie\nbake\ncut 5 min", "Pie\n20 min", "Pie\nbake 190X"])
def test_nothing_is_invented(text):
    read = read_dish(text, NAMES)
    assert read.text == text
    assert read.dish is None
    assert read.faults
    assert [each.line.text for each in read.lines] == text.split("\n")[1:]


def test_faults_count_from_the_beginning_of_their_line():
    text = "Pie\n\n  2. bake 190X 40 min"
    read = read_dish(text, NAMES)
    ((number, fault),) = read.faults
    assert text.split("\n")[number][fault.start : fault.end] == "190X"
    assert read.dish is not None


def test_a_missing_length_is_asked_for_at_the_end_of_its_line():
    read = read_dish("Pie\nbake 190C\ncut 5 min", NAMES)
    ((number, fault),) = read.faults
    assert (number, fault.start, fault.end) == (1, 9, 9)
    assert fault.sentence.startswith('How long does "bake" take?')


def test_an_empty_block_says_what_to_write():
    read = read_dish(" \n", NAMES)
    assert (read.dish, read.links) == (None, ())
    assert "name in the first line" in read.faults[0][1].sentence


def test_a_head_that_is_nearly_a_value_is_a_fault():
    read = read_dish("Pie, serves twelve\nbake 40 min", NAMES)
    ((number, fault),) = read.faults
    assert number == 0
    assert "Pie, serves twelve"[fault.start : fault.end].strip() == "serves twelve"


def test_a_step_of_a_block_is_as_of_a_line():
    read = read_dish("Pie\nslice: slice thin 20-30 min able", NAMES)
    (step,) = read.dish.steps
    assert (local_part(step.id), step.does, step.attention, step.length) == (
        "slice",
        "slice thin",
        Attention.HANDS_ON,
        Span(20, 25, 30),
    )
