"""Taking a dish of one's own into a plan, and the copy that goes back: values that know nothing of each other."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.desk import Desk
from core.measures.refusal import Refusal
from core.plan.check import problems
from core.plan.edits.dishes import ChangeDish, RemoveDish
from core.plan.edits.library import OwnCopy, TakeDish, left_behind, own_copy
from core.plan.ids import DishId, StationId, StepId, VesselId
from core.plan.kitchen import Heater, Station, StationKind, Vessel
from core.plan.menu import Ingredient
from core.plan.plan import Plan
from core.plan.step import Alternative, Attention, Heat, Holding, Keep, Span, Use, VesselUse, Wait
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_vessel
from tests.support.strategies import plans

UPPER = Station(StationId("upper"), "Upper oven", StationKind.OVEN, heater=Heater())
LOWER = Station(StationId("lower"), "Lower oven", StationKind.OVEN, heater=Heater())
RING = Station(StationId("ring"), "Ring", StationKind.BURNER)
FRIDGE = Station(StationId("fridge"), "Fridge", StationKind.FRIDGE, 4)


def gratin():
    """Return a gratin whose places and vessels are named in every spot where they can be."""
    upper = StationId("upper")
    return a_dish(
        "gratin",
        a_step("gratin.slice", "Slice the roots", 12),
        a_step(
            "gratin.bake",
            "Bake",
            (50, 55, 65),
            attention=Attention.HANDS_OFF,
            uses=(Use(StationKind.OVEN, station=upper, heat=Heat(180, 170, 190)),),
            vessels=(VesselUse(VesselId("dish")),),
            alternatives=(Alternative("slow", Span.of(90), (Use(StationKind.OVEN, station=upper),)),),
            keeps=Keep(20, Wait(Holding.HOT, Use(StationKind.OVEN, station=upper))),
        ),
        name="Root gratin",
        code="G",
        ingredients=(Ingredient("parsnips", step=StepId("gratin.slice")), Ingredient("salt")),
    )


def its_links():
    wait = Wait(Holding.FRIDGE, Use(StationKind.FRIDGE, station=StationId("fridge")))
    return (a_link("gratin.slice", "gratin.bake", 0, 120, wait=wait),)


def mine():
    dish = Vessel(VesselId("dish"), "Gratin dish", 1, "2 l")
    return OwnCopy(gratin(), its_links(), (dish,), ((StationId("upper"), "Upper oven"),))


def an_empty_plan(*stations, vessels=()):
    return a_plan(kitchen=replace(a_kitchen(vessels=vessels), stations=stations))


def stations_of(plan: Plan, dish: str) -> list[str | None]:
    taken = plan.dishes[DishId(dish)]
    bake = taken.steps[1]
    link = next(each for each in plan.menu.links if each.after == bake.id)
    assert bake.keeps is not None
    assert bake.keeps.wait.use is not None
    assert link.wait.use is not None
    uses = (bake.uses[0], bake.alternatives[0].uses[0], bake.keeps.wait.use, link.wait.use)
    return [use.station for use in uses]


def test_a_dish_goes_in_with_its_steps_links_ingredients_and_vessel():
    plan = an_empty_plan(UPPER, FRIDGE)
    edit = TakeDish.of(mine())
    after = edit(plan)
    assert problems(after) == ()
    assert after.menu.dishes == (gratin(),)
    assert after.menu.links == its_links()
    assert after.kitchen.vessels == (Vessel(VesselId("dish"), "Gratin dish", 1, "2 l"),)
    assert edit.notes(plan) == ("Brought along into the kitchen: Gratin dish (2 l).",)
    assert edit.label_in(plan) == "Take in Root gratin"


def test_taken_twice_it_has_ids_letters_and_a_name_of_its_own_and_the_one_vessel():
    once = TakeDish.of(mine())(an_empty_plan(UPPER, FRIDGE))
    edit = TakeDish.of(mine())
    notes = edit.notes(once)
    twice = edit(once)
    second = twice.menu.dishes[1]
    assert (second.id, second.name, second.code) == ("gratin-2", "Root gratin 2", "")
    assert [step.id for step in second.steps] == ["gratin-2.slice", "gratin-2.bake"]
    assert second.ingredients[0].step == "gratin-2.slice"
    assert [(link.before, link.after) for link in twice.menu.links] == [
        ("gratin.slice", "gratin.bake"),
        ("gratin-2.slice", "gratin-2.bake"),
    ]
    assert len(twice.kitchen.vessels) == 1
    assert notes == ("It is called “Root gratin 2” here: there is one of its name already.",)


def test_a_named_station_is_found_by_its_name_whatever_its_id():
    here = replace(UPPER, id=StationId("o1"))
    decoy = replace(LOWER, id=StationId("upper"))  # bears the id that the other kitchen's upper oven had
    after = TakeDish.of(mine())(an_empty_plan(decoy, here, FRIDGE))
    assert stations_of(after, "gratin") == ["o1", "o1", "o1", "fridge"]


def test_where_the_name_is_not_there_any_of_the_kind_is_taken_and_it_is_said():
    plan = an_empty_plan(LOWER, FRIDGE, vessels=(a_vessel("dish", name="gratin DISH", size="2 l"),))
    edit = TakeDish.of(mine())
    assert stations_of(edit(plan), "gratin") == [None, None, None, "fridge"]
    assert edit.notes(plan) == ('"Upper oven" is not to be had in this kitchen: any oven may be taken.',)


def test_a_station_of_the_name_that_is_not_hot_enough_is_not_insisted_on():
    cool = replace(UPPER, heater=Heater(highest=120))
    after = TakeDish.of(mine())(an_empty_plan(cool, LOWER, FRIDGE))
    assert stations_of(after, "gratin") == [None, "upper", "upper", "fridge"]


def test_without_any_station_of_the_kind_it_is_refused_by_name_and_nothing_changes():
    plan = an_empty_plan(FRIDGE)
    before = deepcopy(plan)
    with pytest.raises(Refusal, match="Root gratin: Bake needs an oven, and the kitchen has none; add one under"):
        TakeDish.of(mine())(plan)
    assert plan == before


def test_a_vessel_of_another_size_is_another_vessel():
    small = a_vessel("dish", name="Gratin dish", size="1 l")
    after = TakeDish.of(mine())(an_empty_plan(UPPER, FRIDGE, vessels=(small,)))
    assert [(each.id, each.size) for each in after.kitchen.vessels] == [("dish", "1 l"), ("dish-2", "2 l")]
    assert after.steps[StepId("gratin.bake")].vessels == (VesselUse(VesselId("dish-2")),)


def test_two_vessels_of_one_name_do_not_become_one():
    step = a_step("stew.brown", vessels=(VesselUse(VesselId("a")), VesselUse(VesselId("b"))))
    copy = OwnCopy(a_dish("stew", step), (), (Vessel(VesselId("a"), "Pot"), Vessel(VesselId("b"), "Pot")))
    after = TakeDish.of(copy)(an_empty_plan(vessels=(a_vessel("pot", name="Pot"),)))
    assert [use.vessel for use in after.steps[StepId("stew.brown")].vessels] == ["pot", "b"]


def test_a_vessel_brought_along_fits_what_of_its_stations_is_here():
    fits = (StationId("upper"), StationId("elsewhere"))
    copy = replace(mine(), vessels=(Vessel(VesselId("dish"), "Gratin dish", fits=fits),))
    after = TakeDish.of(copy)(an_empty_plan(UPPER, FRIDGE))
    assert after.kitchen.vessels[0].fits == ("upper",)


def test_links_that_leave_the_dish_are_dropped_and_said():
    edit = TakeDish(gratin(), (*its_links(), a_link("gratin.bake", "lamb.carve")), mine().vessels, mine().stations)
    plan = an_empty_plan(UPPER, FRIDGE)
    assert edit(plan).menu.links == its_links()
    assert edit.notes(plan)[-1] == "1 link with other dishes left out."


def test_servings_are_those_asked_for_where_the_recipe_is_scaled_by_servings():
    assert TakeDish.of(mine(), 12).dish.wanted == 12
    scaled = replace(mine(), dish=replace(gratin(), scale=2))
    assert TakeDish.of(scaled, 12).dish.wanted == 4


def test_it_is_one_step_to_undo():
    desk = Desk(an_empty_plan(UPPER, FRIDGE))
    before = desk.plan
    desk.apply(TakeDish.of(mine()))
    assert desk.plan.kitchen.vessels
    desk.undo()
    assert desk.plan == before


def test_a_copy_takes_what_is_the_dishs_own():
    lamb = a_dish("lamb", a_step("lamb.carve", "Carve"), name="Lamb")
    across = a_link("gratin.bake", "lamb.carve")
    vessels = (a_vessel("dish", name="Gratin dish"), a_vessel("pan"))
    kitchen = replace(a_kitchen(vessels=vessels), stations=(UPPER, LOWER, FRIDGE, RING))
    plan = a_plan(gratin(), lamb, links=(*its_links(), across), kitchen=kitchen)
    copy = own_copy(plan, DishId("gratin"))
    assert copy.dish == gratin()
    assert copy.links == its_links()
    assert [each.id for each in copy.vessels] == ["dish"]
    assert copy.stations == (("upper", "Upper oven"), ("fridge", "Fridge"))
    assert copy.kinds == (StationKind.OVEN, StationKind.FRIDGE)
    assert left_behind(plan, DishId("gratin")) == (
        "Left out, as other dishes belong to it: Root gratin: Bake, then Lamb: Carve.",
    )
    assert left_behind(a_plan(lamb, kitchen=kitchen), DishId("lamb")) == ()


def test_a_copy_of_a_dish_that_is_gone_is_refused():
    with pytest.raises(Refusal, match="no dish"):
        own_copy(an_empty_plan(), DishId("gratin"))


def test_of_two_stations_with_one_name_the_one_of_the_same_id_is_meant():
    ovens = tuple(Station(StationId(each), "Oven", StationKind.OVEN) for each in ("one", "two"))
    step = a_step("roots.roast", uses=(Use(StationKind.OVEN, station=StationId("two")),))
    plan = a_plan(a_dish("roots", step), kitchen=replace(a_kitchen(), stations=ovens))
    copy = own_copy(plan, DishId("roots"))
    (back,) = TakeDish.of(copy)(RemoveDish(DishId("roots"))(plan)).menu.dishes
    assert back.steps[0].uses == step.uses


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much], max_examples=60)
@given(st.data(), plans(most_dishes=3, most_steps=3))
def test_there_and_back_a_dish_is_what_it_was(data: st.DataObject, plan: Plan) -> None:
    """Out of a plan, off its menu, in again: the same dish, links inside it and kitchen."""
    assume(plan.menu.dishes)
    dish = data.draw(st.sampled_from(plan.menu.dishes)).id
    copy = own_copy(plan, dish)
    without = RemoveDish(dish)(plan)
    edit = TakeDish.of(copy)
    after = edit(without)
    assert edit.new_id(without) == dish
    again = own_copy(after, dish)
    same_letters = any(each.code.casefold() == copy.dish.code.casefold() for each in without.menu.dishes)
    same_name = any(each.name.casefold() == copy.dish.name.casefold() for each in without.menu.dishes)
    if same_letters or same_name:
        again = replace(again, dish=replace(again.dish, code=copy.dish.code, name=copy.dish.name))
    assert again == replace(copy, stations=again.stations)
    assert after.kitchen == plan.kitchen


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(st.data(), plans(most_dishes=2, most_steps=3), plans(most_dishes=2, most_steps=3))
def test_into_another_kitchen_it_fits_or_is_refused(data: st.DataObject, giver: Plan, taker: Plan) -> None:
    """Whatever the two kitchens are: a valid plan, with the dish's steps one to one, or a sentence and no change."""
    assume(giver.menu.dishes)
    copy = own_copy(giver, data.draw(st.sampled_from(giver.menu.dishes)).id)
    edit = TakeDish.of(copy)
    before = deepcopy(taker)
    after = made(edit, taker)
    if isinstance(after, Refusal):
        event("refused")
        assert after.text.endswith(".")
    else:
        event("taken")
        assert problems(after) == ()
        assert after.menu.dishes[:-1] == taker.menu.dishes
        assert [step.does for step in after.menu.dishes[-1].steps] == [step.does for step in copy.dish.steps]
        assert len(after.menu.links) == len(taker.menu.links) + len(copy.links)
        assert after.kitchen.vessels[: len(taker.kitchen.vessels)] == taker.kitchen.vessels
        assert edit(taker) == after
    assert taker == before
    assert all(note.endswith(".") for note in edit.notes(taker))


def made(edit: TakeDish, plan: Plan) -> Plan | Refusal:
    """Return what comes of an edit, its refusal too."""
    try:
        return edit(plan)
    except Refusal as refused:
        return refused


def test_changing_a_dish_taken_in_leaves_the_copy_alone():
    copy = mine()
    plan = TakeDish.of(copy)(an_empty_plan(UPPER, FRIDGE))
    ChangeDish.of(DishId("gratin"), note="more salt")(plan)
    assert copy == mine()
