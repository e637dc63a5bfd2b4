"""The check as a whole: valid plans pass, broken ones give sentences; edits make nothing worse."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings

from core.measures.refusal import Refusal
from core.plan.check import found, problems, require, require_no_worse, told
from core.plan.check_links import circles
from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station, StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Attention
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    an_oven,
    at_oven,
    hands_off,
)
from tests.support.random_faults import broken_plans
from tests.support.strategies import plans, small_feasts

TWO_BOXES = a_kitchen(
    *(Station(StationId(f"box-{number}"), f"Box {number}", StationKind.HOT_BOX) for number in (1, 2))
)
TWO_CARVERS = a_kitchen(cooks=(a_cook("ann", "carving"), a_cook("ben", "carving")))


@settings(max_examples=60)
@given(plans())
def test_random_plans_are_valid(plan: Plan) -> None:
    assert problems(plan) == ()
    assert require(plan) is plan


@given(small_feasts())
def test_small_feasts_are_valid(plan: Plan) -> None:
    assert problems(plan) == ()
    assert 2 <= len(plan.dishes) <= 4
    assert all(1 <= step.length.low <= step.length.high <= 6 for step in plan.steps.values())


@settings(max_examples=100)
@given(broken_plans())
def test_broken_plans_give_sentences_and_never_an_error(plan: Plan) -> None:
    sentences = problems(plan)
    assert all(each.endswith(".") and len(each) < 2000 for each in sentences)
    assert len(set(sentences)) == len(sentences)
    assert bool(sentences) == bool(found(plan))


@pytest.mark.parametrize(
    "plan",
    [
        pytest.param(a_plan(), id="nothing on the menu"),
        pytest.param(a_plan(name="x" * 300), id="a name of 300 characters"),
        pytest.param(a_plan(name="👩‍🍳 Ωμέγα"), id="a name of joined signs"),
        pytest.param(a_plan(a_dish("soup"), a_dish("stew", name="Soup")), id="dishes of one name"),
        pytest.param(a_plan(a_dish("soup", note="one\ntwo\tthree")), id="a note of several lines"),
        pytest.param(a_bench(a_step(uses=(a_use("burner", 4),))), id="all four burners"),
        pytest.param(a_bench(a_step(uses=(a_use("room", 50),))), id="much of the worktop"),
        pytest.param(
            a_bench(a_step(uses=(a_use("room"),)), kitchen=a_kitchen(stations=())),
            id="a room that is not listed",
        ),
        pytest.param(a_bench(a_step(uses=(at_oven(250),))), id="the oven at its hottest, the range beyond"),
        pytest.param(
            a_bench(a_step(uses=(at_oven(400),)), kitchen=a_kitchen(an_oven("stone", heater=None))),
            id="an oven that says nothing of heat",
        ),
        pytest.param(
            a_bench(a_step(uses=(a_use("fridge", area=2000, height=26),))), id="the whole lowest shelf"
        ),
        pytest.param(a_bench(a_step(uses=(a_use("hot box", 2),)), kitchen=TWO_BOXES), id="two hot boxes"),
        pytest.param(a_bench(hands_off(), kitchen=a_kitchen(cooks=0)), id="nobody there, nobody needed"),
        pytest.param(
            a_bench(a_step(attention=Attention.TENDED, put_in=0, take_out=0), kitchen=a_kitchen(cooks=0)),
            id="tended without touches",
        ),
        pytest.param(
            a_bench(hands_off(minutes=1, put_in=None, take_out=None, uses=(a_use(),)), transfer=5),
            id="both transfers longer than the step: a cook throughout",
        ),
        pytest.param(
            a_bench(a_step(hands=2, skill="carving"), kitchen=TWO_CARVERS),
            id="two who can carve",
        ),
        pytest.param(
            a_bench(
                a_step("soup.a"),
                a_step("soup.b"),
                links=(
                    a_link("soup.a", "soup.b"),
                    a_link("soup.b", "soup.a", kind=LinkKind.START_TO_START),
                ),
            ),
            id="no circle of ends and starts",
        ),
    ],
)
def test_what_is_allowed(plan: Plan) -> None:
    assert problems(plan) == ()


def test_require_raises_all_sentences() -> None:
    plan = a_plan(a_dish("soup", wanted=0), name="")
    with pytest.raises(Refusal) as refused:
        require(plan)
    assert refused.value.text == (
        "The plan's name is empty; write one."
        " Soup is wanted for 0 servings; ask for 1 to 100000, or take it off the menu."
    )


def test_a_change_is_refused_with_its_new_problems_only() -> None:
    before = a_plan(a_dish("soup", wanted=0))
    after = replace(before, transfer=-1)
    with pytest.raises(Refusal) as refused:
        require_no_worse(before, after)
    assert refused.value.text == "Putting in or taking out takes −1 min; give 0 to 120."


def test_a_plan_in_trouble_can_be_renamed_and_mended_bit_by_bit() -> None:
    ends = (a_step("soup.boil", minutes=0), a_step("soup.fry", minutes=0))
    before = a_bench(*ends)
    renamed = a_plan(a_dish("soup", *ends, name="Broth"))
    assert require_no_worse(before, renamed) is renamed
    half = a_bench(a_step("soup.boil", minutes=5), ends[1])
    assert require_no_worse(before, half) is half
    with pytest.raises(Refusal, match="Soup: Boil takes 0 min"):
        require_no_worse(half, before)


def test_trouble_of_one_family_may_turn_into_other_trouble_of_it() -> None:
    nobody = a_bench(a_step(skill="carving"), kitchen=a_kitchen(cooks=0))
    one_who_cannot = replace(nobody, kitchen=a_kitchen(cooks=1))
    assert "no cook" in problems(nobody)[0]
    assert "skill" in problems(one_who_cannot)[0]
    assert require_no_worse(nobody, one_who_cannot) is one_who_cannot


def test_a_knot_of_circles_can_be_undone_link_by_link() -> None:
    steps = tuple(a_step(f"soup.{name}") for name in "abcd")
    pairs = ("ab", "bc", "ca", "ad", "da")
    links = tuple(a_link(f"soup.{one}", f"soup.{other}") for one, other in pairs)
    knotted = a_bench(*steps, links=links)
    assert len(problems(knotted)) == 1
    for gone in range(len(links)):
        fewer = a_bench(*steps, links=links[:gone] + links[gone + 1 :])
        assert require_no_worse(knotted, fewer) is fewer
    with pytest.raises(Refusal, match="in a circle"):
        require_no_worse(a_bench(*steps, links=links[:2]), knotted)


def test_each_knot_gives_one_circle_of_its_own() -> None:
    steps = tuple(a_step(f"soup.{name}") for name in "abcdef")
    pairs = ("ab", "ba", "bc", "cd", "de", "ec", "ef")
    plan = a_bench(*steps, links=tuple(a_link(f"soup.{one}", f"soup.{other}") for one, other in pairs))
    chains = [chain for chain, _knot in circles(plan)]
    knots = [knot for _chain, knot in circles(plan)]
    assert chains == [ids("ab"), ids("cde")]
    assert knots == [frozenset(ids("ab")), frozenset(ids("cde"))]


def ids(letters: str) -> tuple[StepId, ...]:
    return tuple(StepId(f"soup.{each}") for each in letters)


def test_a_long_chain_is_walked_without_running_out_of_stack() -> None:
    steps = tuple(hands_off(f"soup.{number}") for number in range(3000))
    links = [a_link(one.id, other.id) for one, other in pairwise(steps)]
    assert problems(a_bench(*steps, links=tuple(links))) == ()
    closed = a_bench(*steps, links=(*links, a_link(steps[-1].id, steps[0].id)))
    assert len(circles(closed)[0][0]) == 3000


def test_many_sentences_are_cut_short() -> None:
    assert told(("A.", "B.", "C.", "D.", "E.")) == "A. B. C. D. E."
    assert told(tuple("ABCDEF")) == "A B C D E And 1 more like this."
    assert told(tuple("ABCDEFG")) == "A B C D E And 2 more like these."
