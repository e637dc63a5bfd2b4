"""Edits of dishes, steps and links, one by one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.measures.refusal import Refusal
from core.plan.decisions import Choice, LengthOf, Order, Pin
from core.plan.edits import (
    AddDish,
    AddLink,
    AddStep,
    ChangeDish,
    ChangeLink,
    ChangeStep,
    CopyDish,
    CopyStep,
    Edit,
    MoveDish,
    MoveStepInDish,
    RemoveDish,
    RemoveLink,
    RemoveStep,
    RenameDish,
    new_step_id,
)
from core.plan.ids import DishId, StepId
from core.plan.menu import Ingredient, Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Alternative, Holding, Loads, Manner, Span, Wait
from tests.support.builders import a_dish, a_link, a_plan, a_step

SOUP, GRATIN, GONE = DishId("soup"), DishId("gratin"), DishId("gone")
CHOP, BOIL, BLEND, BAKE = (StepId(each) for each in ("soup.chop", "soup.boil", "soup.blend", "gratin.bake"))
CHAIN = (a_link(CHOP, BOIL, 5, 60), a_link(BOIL, BLEND, wait=Wait(Holding.VESSEL)), a_link(BLEND, BAKE))
ENDS = (CHOP, BLEND, LinkKind.END_TO_START)


@pytest.fixture
def plan() -> Plan:
    boil = a_step(BOIL, alternatives=(Alternative("slowly", Span.of(30)),), loads=Loads(8, 4))
    soup = a_dish(
        "soup",
        a_step(CHOP),
        boil,
        a_step(BLEND),
        ingredients=(Ingredient("leeks", step=BOIL), Ingredient("salt")),
    )
    return a_plan(
        soup,
        a_dish("gratin", a_step(BAKE)),
        links=CHAIN,
        pins=(Pin(BOIL, 0, -90), Pin(BOIL, 1, -80), Pin(BAKE, 0, -40)),
        choices=(Choice(BOIL, 1),),
        lengths=(LengthOf(BOIL, Manner.HIGH), LengthOf(BAKE, Manner.LIKELY)),
        orders=(Order(CHOP, BAKE), Order(BLEND, BAKE)),
    )


def names(plan: Plan) -> list[str]:
    return [dish.name for dish in plan.menu.dishes]


def local(plan: Plan, dish: DishId = SOUP) -> list[str]:
    return [step.id.partition(".")[2] for step in plan.dishes[dish].steps]


def pairs(plan: Plan) -> set[tuple[str, str]]:
    return {(link.before, link.after) for link in plan.menu.links}


def test_a_dish_is_added_last_or_after_another_with_its_links(plan: Plan) -> None:
    mash, cook = a_step("tart.mash"), a_step("tart.cook")
    tart = a_dish("tart", mash, cook)
    assert names(AddDish(tart)(plan)) == ["Soup", "Gratin", "Tart"]
    after = AddDish(tart, (a_link(mash.id, cook.id),), after=SOUP)(plan)
    assert names(after) == ["Soup", "Tart", "Gratin"]
    assert after.menu.links == (*CHAIN, a_link(mash.id, cook.id))


def test_a_dish_with_an_id_that_is_taken_is_refused(plan: Plan) -> None:
    with pytest.raises(Refusal, match='Soup and Broth bear the same id "soup"'):
        AddDish(a_dish("soup", name="Broth"))(plan)


def test_a_dish_is_renamed_and_keeps_its_id(plan: Plan) -> None:
    after = RenameDish(SOUP, "Broth")(plan)
    assert names(after) == ["Broth", "Gratin"]
    assert after.menu.links == plan.menu.links
    with pytest.raises(Refusal, match='The name of the dish "soup" is empty'):
        RenameDish(SOUP, "")(plan)


def test_a_dish_is_changed_and_pins_at_loads_no_longer_cooked_go(plan: Plan) -> None:
    after = ChangeDish.of(SOUP, wanted=2, note="less")(plan)
    assert (after.dishes[SOUP].wanted, after.dishes[SOUP].note) == (2, "less")
    assert after.decisions.pins == (Pin(BOIL, 0, -90), Pin(BAKE, 0, -40))
    with pytest.raises(Refusal, match="Soup is wanted for 0 servings"):
        ChangeDish.of(SOUP, wanted=0)(plan)


def test_a_dish_cannot_change_its_steps_by_the_way() -> None:
    with pytest.raises(TypeError, match="cannot change colour, steps"):
        ChangeDish.of(SOUP, steps=(), colour="red")


@pytest.mark.parametrize(
    ("to", "order"), [(0, "Gratin Soup"), (1, "Soup Gratin"), (9, "Soup Gratin"), (-3, "Gratin Soup")]
)
def test_a_dish_is_moved(plan: Plan, to: int, order: str) -> None:
    assert names(MoveDish(GRATIN, to)(plan)) == order.split()


def test_a_dish_is_copied_with_its_inner_links_and_its_choices(plan: Plan) -> None:
    after = CopyDish(SOUP)(plan)
    assert names(after) == ["Soup", "Soup (copy)", "Gratin"]
    copy = after.dishes[DishId("soup-2")]
    assert [step.id for step in copy.steps] == ["soup-2.chop", "soup-2.boil", "soup-2.blend"]
    assert copy.ingredients[0].step == "soup-2.boil"
    assert after.menu.links == (
        *CHAIN,
        a_link("soup-2.chop", "soup-2.boil", 5, 60),
        a_link("soup-2.boil", "soup-2.blend", wait=Wait(Holding.VESSEL)),
    )
    assert after.decisions.pins == plan.decisions.pins
    assert after.decisions.orders == plan.decisions.orders
    assert Choice(StepId("soup-2.boil"), 1) in after.decisions.choices
    assert LengthOf(StepId("soup-2.boil"), Manner.HIGH) in after.decisions.lengths


def test_a_copy_may_bear_a_name_of_its_own(plan: Plan) -> None:
    edit = CopyDish(SOUP, "Cold soup")
    assert edit.new_id(plan) == "cold-soup"
    assert edit(plan).dishes[DishId("cold-soup")].name == "Cold soup"


def test_a_dish_is_removed_with_all_that_was_about_it(plan: Plan) -> None:
    after = RemoveDish(SOUP)(plan)
    assert names(after) == ["Gratin"]
    assert after.menu.links == ()
    assert after.decisions.pins == (Pin(BAKE, 0, -40),)
    assert after.decisions.choices == ()
    assert after.decisions.lengths == (LengthOf(BAKE, Manner.LIKELY),)
    assert after.decisions.orders == ()


def test_a_step_is_added_last_or_after_another(plan: Plan) -> None:
    stir = a_step(new_step_id(plan.dishes[SOUP], "Stir"))
    assert stir.id == "soup.stir"
    assert local(AddStep(SOUP, stir)(plan)) == ["chop", "boil", "blend", "stir"]
    after = AddStep(SOUP, stir, after=CHOP)(plan)
    assert local(after) == ["chop", "stir", "boil", "blend"]
    assert after.menu.links == CHAIN


def test_a_step_that_belongs_to_another_dish_by_its_id_is_refused(plan: Plan) -> None:
    with pytest.raises(Refusal, match=r"such as gratin\.bake"):
        AddStep(GRATIN, a_step("soup.stir"))(plan)


def test_a_step_may_be_put_into_the_chain(plan: Plan) -> None:
    after = AddStep(SOUP, a_step("soup.stir"), after=BOIL, chained=True)(plan)
    assert pairs(after) == {(CHOP, BOIL), (BOIL, "soup.stir"), ("soup.stir", BLEND), (BLEND, BAKE)}
    passed_on = next(link for link in after.menu.links if link.after == BLEND)
    assert passed_on.wait == Wait(Holding.VESSEL)


def test_links_to_other_dishes_stay_when_a_step_is_put_into_the_chain(plan: Plan) -> None:
    after = AddStep(SOUP, a_step("soup.taste"), after=BLEND, chained=True)(plan)
    assert pairs(after) == pairs(plan) | {(BLEND, "soup.taste")}


def test_a_step_is_added_with_links(plan: Plan) -> None:
    link = a_link(BLEND, "soup.taste", 2)
    assert AddStep(SOUP, a_step("soup.taste"), links=(link,))(plan).menu.links == (*CHAIN, link)


def test_a_step_is_changed_and_keeps_its_id(plan: Plan) -> None:
    after = ChangeStep(CHOP, a_step("soup.other", "Slice", 7))(plan)
    assert after.steps[CHOP] == a_step(CHOP, "Slice", 7)
    assert after.decisions == plan.decisions


def test_decisions_about_ways_and_loads_that_are_gone_go(plan: Plan) -> None:
    after = ChangeStep(BOIL, replace(plan.steps[BOIL], alternatives=(), loads=None))(plan)
    assert after.decisions.choices == ()
    assert after.decisions.pins == (Pin(BOIL, 0, -90), Pin(BAKE, 0, -40))


@pytest.mark.parametrize(
    ("to", "order"), [(0, "blend chop boil"), (1, "chop blend boil"), (7, "chop boil blend")]
)
def test_a_step_is_moved_in_its_dish(plan: Plan, to: int, order: str) -> None:
    after = MoveStepInDish(BLEND, to)(plan)
    assert local(after) == order.split()
    assert after.menu.links == CHAIN


def test_a_step_is_copied_without_links(plan: Plan) -> None:
    edit = CopyStep(BOIL)
    after = edit(plan)
    assert local(after) == ["chop", "boil", "boil-2", "blend"]
    assert after.steps[edit.new_id(plan)] == replace(plan.steps[BOIL], id=StepId("soup.boil-2"))
    assert after.menu.links == CHAIN
    assert after.decisions == plan.decisions


def test_a_step_is_removed_with_all_that_was_about_it(plan: Plan) -> None:
    after = RemoveStep(BOIL)(plan)
    assert local(after) == ["chop", "blend"]
    assert pairs(after) == {(BLEND, BAKE)}
    assert after.dishes[SOUP].ingredients == (Ingredient("leeks"), Ingredient("salt"))
    assert after.decisions.pins == (Pin(BAKE, 0, -40),)
    assert after.decisions.choices == ()
    assert after.decisions.lengths == (LengthOf(BAKE, Manner.LIKELY),)
    assert RemoveStep(BLEND)(plan).decisions.orders == (Order(CHOP, BAKE),)


def test_what_followed_a_removed_step_may_follow_what_it_followed(plan: Plan) -> None:
    after = RemoveStep(BOIL, joined=True)(plan)
    assert pairs(after) == {(BLEND, BAKE), (CHOP, BLEND)}
    there = AddLink(Link(CHOP, BLEND, 9))(plan)
    assert RemoveStep(BOIL, joined=True)(there).menu.links == (CHAIN[2], Link(CHOP, BLEND, 9))


def test_a_link_is_added_changed_and_removed(plan: Plan) -> None:
    added = AddLink(a_link(CHOP, BLEND, 3))(plan)
    assert added.menu.links[-1] == a_link(CHOP, BLEND, 3)
    other = a_link(CHOP, BLEND, 1, 9, kind=LinkKind.START_TO_START)
    changed = ChangeLink(ENDS, other)(added)
    assert changed.menu.links == (*CHAIN, other)
    assert RemoveLink(other.key)(changed) == plan


@pytest.mark.parametrize(
    ("edit", "sentence"),
    [
        (AddLink(a_link(CHOP, BOIL)), "Soup: Boil is linked twice as end to start to Soup: Chop"),
        (AddLink(a_link(BAKE, CHOP)), "wait for each other in a circle"),
        (AddLink(a_link(CHOP, BLEND, 5, 4)), "at least 5 min and at most 4 min"),
        (AddLink(a_link(CHOP, "soup.gone")), 'There is no step "soup.gone" in the menu any more'),
        (AddLink(a_link("soup.gone", CHOP)), 'There is no step "soup.gone" in the menu any more'),
        (
            ChangeLink(ENDS, a_link(CHOP, BLEND)),
            'no link end to start from "soup.chop" to "soup.blend" any more',
        ),
        (ChangeLink(CHAIN[0].key, a_link(CHOP, "soup.gone")), 'There is no step "soup.gone"'),
        (RemoveLink(ENDS), 'There is no link end to start from "soup.chop" to "soup.blend" any more'),
        (AddDish(a_dish("tart"), after=GONE), 'There is no dish "gone" in the menu any more'),
        (RenameDish(GONE, "Tart"), 'There is no dish "gone" in the menu any more; choose one that is there.'),
        (ChangeDish.of(GONE, wanted=3), 'There is no dish "gone"'),
        (MoveDish(GONE, 0), 'There is no dish "gone"'),
        (CopyDish(GONE), 'There is no dish "gone"'),
        (RemoveDish(GONE), 'There is no dish "gone"'),
        (AddStep(GONE, a_step("gone.stir")), 'There is no dish "gone"'),
        (AddStep(SOUP, a_step("soup.stir"), after=StepId("soup.gone")), 'There is no step "soup.gone"'),
        (ChangeStep(StepId("soup.gone"), a_step()), 'There is no step "soup.gone"'),
        (MoveStepInDish(StepId("soup.gone"), 0), 'There is no step "soup.gone"'),
        (CopyStep(StepId("soup.gone")), 'There is no step "soup.gone"'),
        (RemoveStep(StepId("soup.gone")), 'There is no step "soup.gone"'),
    ],
)
def test_what_is_refused(plan: Plan, edit: Edit, sentence: str) -> None:
    with pytest.raises(Refusal) as refused:
        edit(plan)
    assert sentence in refused.value.text
