"""The usual runs of steps: sound, sourced, within the limits they name, and one edit that undo takes back."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from core.desk import Desk
from core.measures.refusal import Refusal
from core.plan.blocks import BlockKind, BlockWait
from core.plan.blocks_usual import BLOCKS
from core.plan.check import problems
from core.plan.edits import AddBlock, ChangeStep
from core.plan.ids import DishId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import Link, LinkKind
from core.plan.network import Network
from core.plan.step import Attention, Holding, Span
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, chained

BIRD = DishId("bird")
HOURS = 60


def of_f(fahrenheit: int) -> float:
    return (fahrenheit - 32) * 5 / 9


def a_bird():
    steps = (a_step("bird.roast", "Roast the bird", 90), a_step("bird.serve", "Bring it in", 3))
    sauce = a_dish("sauce", a_step("sauce.stir", "Stir the sauce", 5))
    links = (a_link("bird.roast", "bird.serve", 5, 40), a_link("bird.roast", "sauce.stir"))
    return a_plan(a_dish("bird", *steps, name="Bird"), sauce, links=links)


# ---------------------------------------------------------------- the runs themselves


def test_there_is_a_run_for_every_kind_in_the_order_of_the_kinds():
    assert tuple(BLOCKS) == tuple(BlockKind)
    assert all(block.kind is kind for kind, block in BLOCKS.items())


@pytest.mark.parametrize("kind", BlockKind)
def test_every_length_and_every_limited_wait_says_where_it_comes_from(kind):
    for step in BLOCKS[kind].steps:
        assert any(word in step.source for word in ("common practice", "from memory", "Food Code", "USDA")), step
        if replace(step.follows, source="") != BlockWait():
            assert step.follows.source, step.does


@pytest.mark.parametrize("kind", BlockKind)
@pytest.mark.parametrize("after", [None, "bird.roast", "bird.serve"])
def test_a_dish_with_a_run_is_sound_and_its_waits_can_be_met(kind, after):
    plan = AddBlock(BIRD, kind, after and StepId(after))(a_bird())
    assert problems(plan) == ()
    assert Network.of(plan).contradiction() is None


@pytest.mark.parametrize("kind", BlockKind)
def test_a_run_is_placed_so_that_nothing_clashes(kind):
    from core.arrange import Effort, arrange
    from core.timetable.clashes import clashes

    plan = AddBlock(BIRD, kind, StepId("bird.roast"))(a_bird())
    outcome = arrange(plan, Effort(work=0.5))
    assert outcome.timetable is not None
    assert clashes(plan, outcome.timetable) == ()


# ---------------------------------------------------------------- limits, reckoned from the sources


def test_making_ahead_keeps_the_cooling_limits_even_at_the_slow_lengths():
    # US FDA Food Code 2022, 3-501.14(A): 135 to 70 °F within 2 h, 135 to 41 °F within 6 h in all
    cool, chill, reheat = BLOCKS[BlockKind.MAKE_AHEAD_AND_REHEAT].steps
    assert round(of_f(70)) == 21
    assert "21 °C" in cool.does
    assert cool.length.high <= 2 * HOURS
    assert chill.follows.most == 0
    assert cool.length.high + chill.length.high <= 6 * HOURS
    assert [use.kind for use in chill.uses] == [StationKind.FRIDGE]
    # 3-403.11(A) and (D): 165 °F in all parts, from 41 °F within 2 h
    assert reheat.doneness is not None
    assert reheat.doneness.core >= of_f(165)
    assert reheat.length.high <= 2 * HOURS
    # USDA cold food storage: leftovers 3 to 4 days at 40 °F or below
    assert reheat.follows.most <= 3 * 24 * HOURS
    assert reheat.follows.wait.how is Holding.FRIDGE
    assert "3-403.11" in reheat.caution
    assert "3-501.14" in cool.caution


def test_brine_stands_in_the_fridge_only_and_not_above_two_days():
    stir, brine, dry = BLOCKS[BlockKind.BRINE_OVERNIGHT].steps
    assert [(use.kind, use.raw) for use in brine.uses] == [(StationKind.FRIDGE, True)]
    assert dry.follows.wait.how is Holding.FRIDGE
    # USDA FSIS, poultry brining: refrigerated, up to 2 days
    assert brine.length.high + dry.follows.most <= 48 * HOURS
    # USDA: perishable food not above 2 h outside the cold
    assert stir.length.high + brine.follows.most + dry.length.high <= 2 * HOURS
    # 3/4 US cup of table salt, 292 g a cup, in 3785 ml
    assert "about 55 g a litre" in stir.source
    assert 50 <= 0.75 * 292 / 3.785 <= 60
    assert "fridge" in brine.caution


def test_a_roast_rests_longer_than_the_rest_that_belongs_to_its_temperature():
    rest, carve = BLOCKS[BlockKind.REST_AND_CARVE].steps
    assert rest.length.low >= 3  # USDA FSIS: 145 °F and 3 min for whole cuts
    assert rest.length.high + carve.follows.most <= HOURS
    assert "74 °C (165 °F)" in rest.caution


def test_what_is_blanched_is_chilled_at_once_and_waits_in_the_fridge():
    _water, _blanch, chill, finish = BLOCKS[BlockKind.BLANCH_AND_FINISH].steps
    assert (chill.follows.least, chill.follows.most) == (0, 0)
    assert finish.follows.wait.how is Holding.FRIDGE
    assert finish.follows.most == 24 * HOURS


# ---------------------------------------------------------------- the edit


def test_a_run_stands_after_the_chosen_step_and_before_what_followed_it():
    plan = AddBlock(BIRD, BlockKind.REST_AND_CARVE, StepId("bird.roast"))(a_bird())
    ids = [step.id for step in plan.dishes[BIRD].steps]
    rest, carve = "bird.rest-loosely-covered-in-a-warm-place", "bird.carve"
    assert ids == ["bird.roast", rest, carve, "bird.serve"]
    keys = {(link.before, link.after): (link.least, link.most) for link in plan.menu.links}
    assert keys == {
        ("bird.roast", rest): (0, 5),
        (rest, carve): (0, 15),
        (carve, "bird.serve"): (5, 40),
        ("bird.roast", "sauce.stir"): (0, None),
    }


def test_a_by_product_and_other_kinds_of_links_stay_at_the_step_they_leave():
    from core.measures.quantity import parse_quantity

    plan = a_bird()
    steps = (*plan.dishes[BIRD].steps, a_step("bird.gravy", minutes=5), a_step("bird.watch", minutes=5))
    links = (
        Link(StepId("bird.roast"), StepId("bird.gravy"), brings=parse_quantity("100 ml")),
        Link(StepId("bird.roast"), StepId("bird.watch"), kind=LinkKind.START_TO_START),
    )
    plan = a_plan(a_dish("bird", *steps), links=links)
    after = AddBlock(BIRD, BlockKind.REST_AND_CARVE, StepId("bird.roast"))(plan)
    assert after.menu.links[:2] == links


def test_last_in_a_dish_a_run_is_linked_to_nothing_yet():
    plan = AddBlock(BIRD, BlockKind.PROOF_AND_BAKE)(a_bird())
    added = plan.dishes[BIRD].steps[2:]
    assert len(added) == 3
    assert plan.links_to[added[0].id] == ()
    assert plan.links_from[added[-1].id] == ()


def test_a_second_run_of_the_same_kind_gets_ids_of_its_own():
    once = AddBlock(BIRD, BlockKind.REST_AND_CARVE, StepId("bird.roast"))
    plan = once(once(a_bird()))
    assert len({step.id for step in plan.dishes[BIRD].steps}) == 6
    assert problems(plan) == ()


def test_it_is_one_undo_and_its_steps_are_edited_like_any():
    desk = Desk(a_bird())
    before = desk.plan
    desk.apply(AddBlock(BIRD, BlockKind.BLANCH_AND_FINISH, StepId("bird.roast")), "test")
    new = [step for step in desk.plan.dishes[BIRD].steps if step.id not in before.steps]
    assert len(new) == 4
    desk.apply(ChangeStep(new[1].id, replace(new[1], does="Blanch the beans", length=Span(3, 4, 6))), "test")
    assert desk.plan.steps[new[1].id].does == "Blanch the beans"
    desk.undo("test")
    desk.undo("test")
    assert desk.plan == before
    assert AddBlock(BIRD, BlockKind.BLANCH_AND_FINISH).label_in(before) == "Add “blanch and finish” to Bird"


def test_cautions_stand_as_notes_at_their_steps():
    plan = AddBlock(BIRD, BlockKind.BRINE_OVERNIGHT)(a_bird())
    noted = [step for step in plan.dishes[BIRD].steps if step.note]
    assert tuple(step.note for step in noted) == BLOCKS[BlockKind.BRINE_OVERNIGHT].cautions
    assert noted[0].attention is Attention.HANDS_OFF


def test_a_kitchen_without_the_place_refuses_and_names_it():
    plan = replace(a_bird(), kitchen=a_kitchen(stations=()))
    with pytest.raises(Refusal, match=r"Brine in the fridge.* needs a fridge, and the kitchen has none; add one"):
        AddBlock(BIRD, BlockKind.BRINE_OVERNIGHT)(plan)


def test_a_step_of_another_dish_is_refused_and_named():
    with pytest.raises(Refusal, match="Sauce: Stir the sauce is no step of Bird; choose one of its own"):
        AddBlock(BIRD, BlockKind.REST_AND_CARVE, StepId("sauce.stir"))(a_bird())
    with pytest.raises(Refusal, match="no dish"):
        AddBlock(DishId("fish"), BlockKind.REST_AND_CARVE)(a_bird())
    with pytest.raises(Refusal, match="no step"):
        AddBlock(BIRD, BlockKind.REST_AND_CARVE, StepId("bird.gone"))(a_bird())


def test_chained_steps_keep_one_chain():
    dish = a_dish("bird", a_step("bird.a", minutes=5), a_step("bird.b", minutes=5))
    plan = AddBlock(BIRD, BlockKind.PROOF_AND_BAKE, StepId("bird.a"))(a_plan(dish, links=chained(*dish.steps)))
    order = [step.id for step in plan.dishes[BIRD].steps]
    assert {(link.before, link.after) for link in plan.menu.links} == set(pairwise(order))
