"""Edits of the kitchen and of the plan as a whole, one by one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.measures.refusal import Refusal
from core.plan.decisions import Pin
from core.plan.edits import (
    AddCook,
    AddStation,
    AddVessel,
    AllowFires,
    ChangeCook,
    ChangeKitchen,
    ChangeStation,
    ChangeVessel,
    Edit,
    RemoveCook,
    RemoveStation,
    RemoveVessel,
    RenameKitchen,
    RenamePlan,
    SetOpens,
    SetPlating,
    SetTransfer,
    SetWalk,
    Together,
)
from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from core.plan.step import VesselUse
from tests.support.builders import (
    GRILL,
    OVEN,
    ROOM,
    a_bench,
    a_cook,
    a_fire,
    a_grill,
    a_kitchen,
    a_moment,
    a_step,
    a_use,
    a_vessel,
    an_oven,
)

POT, PAN, ANN, BEN = VesselId("pot"), VesselId("pan"), CookId("ann"), CookId("ben")
FRY, ROAST = "soup.fry", "soup.roast"


@pytest.fixture
def plan() -> Plan:
    fry = a_step(FRY, uses=(a_use("burner", 2),), vessels=(VesselUse(POT),))
    roast = a_step(ROAST, uses=(a_use("oven"),))
    pins = (
        Pin(fry.id, start=-30, station=StationId("burner-2"), cook=BEN),
        Pin(roast.id, station=OVEN),
    )
    kitchen = a_kitchen(cooks=2, vessels=(a_vessel("pot"), a_vessel("pan")))
    stations = tuple(a_fire() if station.id == GRILL else station for station in kitchen.stations)
    return a_bench(fry, roast, kitchen=replace(kitchen, stations=stations), pins=pins)


def test_the_kitchen_is_renamed(plan: Plan) -> None:
    assert RenameKitchen("Lock house")(plan).kitchen == replace(plan.kitchen, name="Lock house")


def test_a_station_is_added_changed_and_removed(plan: Plan) -> None:
    added = AddStation(an_oven("oven-2"))(plan)
    assert added.kitchen.stations == (*plan.kitchen.stations, an_oven("oven-2"))
    changed = ChangeStation(StationId("oven-2"), an_oven("other", racks=5))(added)
    assert changed.kitchen.station[StationId("oven-2")] == an_oven("oven-2", racks=5, name="Other")
    assert RemoveStation(StationId("oven-2"))(changed) == plan


def test_pins_to_a_station_that_is_gone_are_lifted(plan: Plan) -> None:
    after = RemoveStation(StationId("burner-2"))(plan)
    assert after.decisions.pins == (replace(plan.decisions.pins[0], station=None), plan.decisions.pins[1])
    two_ovens = AddStation(an_oven("oven-2"))(plan)
    grilled = ChangeStation(OVEN, replace(a_grill(), name="Was the oven"))(two_ovens)
    assert grilled.decisions.pins == (plan.decisions.pins[0],)


def test_a_station_that_steps_need_stays(plan: Plan) -> None:
    with pytest.raises(Refusal) as refused:
        RemoveStation(OVEN)(plan)
    assert refused.value.text == (
        "Soup: Roast needs an oven, and the kitchen has none; add one under Kitchen, or choose another place."
    )
    with pytest.raises(Refusal, match="Soup: Fry needs 2 rings"):
        ChangeKitchen(a_kitchen(burning=1, cooks=2, vessels=plan.kitchen.vessels))(plan)


def test_a_vessel_is_added_changed_and_removed(plan: Plan) -> None:
    added = AddVessel(a_vessel("bowl"))(plan)
    changed = ChangeVessel(VesselId("bowl"), a_vessel("other", 3))(added)
    assert changed.kitchen.vessels[-1] == a_vessel("bowl", 3, name="Other")
    assert RemoveVessel(VesselId("bowl"))(changed) == plan
    assert RemoveVessel(PAN)(plan).kitchen.vessels == (a_vessel("pot"),)
    with pytest.raises(Refusal, match='Soup: Fry uses the vessel "pot", which the kitchen has not'):
        RemoveVessel(POT)(plan)


def test_a_cook_is_added_changed_and_removed(plan: Plan) -> None:
    added = AddCook(a_cook("cat", "carving"))(plan)
    changed = ChangeCook(CookId("cat"), a_cook("other", night=None))(added)
    assert changed.kitchen.cooks[-1] == a_cook("cat", name="Other", night=None)
    assert RemoveCook(CookId("cat"))(changed) == plan


def test_pins_to_a_cook_who_leaves_are_lifted(plan: Plan) -> None:
    after = RemoveCook(BEN)(plan)
    assert after.decisions.pins == (replace(plan.decisions.pins[0], cook=None), plan.decisions.pins[1])
    with pytest.raises(Refusal, match="Soup: Fry takes a cook's hands, and the kitchen has no cook"):
        RemoveCook(ANN)(after)


def test_another_kitchen_keeps_the_pins_that_it_can_hold(plan: Plan) -> None:
    other = a_kitchen(name="Hall", oven=an_oven("big-oven"), vessels=(a_vessel("pot"),))
    after = ChangeKitchen(other)(plan)
    assert after.kitchen == other
    assert after.decisions.pins == (replace(plan.decisions.pins[0], cook=None),)


@pytest.mark.parametrize(
    ("edit", "after"),
    [
        (RenamePlan("Supper"), {"name": "Supper"}),
        (SetPlating(a_moment("2026-09-26 20:15")), {"plating": a_moment("2026-09-26 20:15")}),
        (SetTransfer(3), {"transfer": 3}),
        (SetOpens(-4000), {"opens": -4000}),
    ],
)
def test_the_plan_itself_is_changed(plan: Plan, edit: Edit, after: dict[str, object]) -> None:
    assert edit(plan) == replace(plan, **after)


def test_the_ways_of_the_kitchen_are_measured(plan: Plan) -> None:
    assert SetWalk(0)(plan) == replace(plan, kitchen=replace(plan.kitchen, walk=0))


def test_several_edits_are_one_and_only_their_end_is_checked(plan: Plan) -> None:
    swap = (RemoveStation(OVEN), AddStation(an_oven("oven-2")))
    after = Together("Another oven", swap)(plan)
    assert OVEN not in after.kitchen.station
    assert StationId("oven-2") in after.kitchen.station
    with pytest.raises(Refusal, match="Soup: Roast needs an oven"):
        Together("No oven", swap[:1])(plan)
    with pytest.raises(Refusal, match='There is no station "gone"'):
        Together("No oven", (swap[1], RemoveStation(StationId("gone"))))(plan)


@pytest.mark.parametrize(
    ("edit", "sentence"),
    [
        (RenameKitchen(" "), "The kitchen's name is empty; write one."),
        (
            AddStation(an_oven()),
            "The stations Oven and Oven bear the same id oven; give one of them another.",
        ),
        (ChangeStation(StationId("gone"), an_oven()), 'There is no station "gone" in the kitchen any more; '),
        (RemoveStation(StationId("gone")), 'There is no station "gone" in the kitchen any more; '),
        (ChangeStation(GRILL, replace(a_grill(), units=0)), "Grill has 0 places; "),
        (AddVessel(a_vessel(count=0)), "There are 0 of Pot; "),
        (ChangeVessel(VesselId("gone"), a_vessel()), 'There is no vessel "gone" in the kitchen any more; '),
        (RemoveVessel(VesselId("gone")), 'There is no vessel "gone" in the kitchen any more; '),
        (AddCook(a_cook("Zoe")), 'The cook Zoe has the id "Zoe"; '),
        (ChangeCook(CookId("gone"), a_cook()), 'There is no cook "gone" in the kitchen any more; '),
        (RemoveCook(CookId("gone")), 'There is no cook "gone" in the kitchen any more; '),
        (RenamePlan(""), "The plan's name is empty; write one."),
        (SetPlating(a_moment("1066-10-14 19:00")), "Plating is in the year 1066; "),
        (SetWalk(61), "The way from one place of the kitchen to another takes 1 h 1 min; give 0 to 60 min."),
        (AllowFires(StationId("gone"), 2), 'There is no station "gone" in the kitchen any more; '),
        (AllowFires(OVEN, 2), "Oven is not lit, nor does it burn out; "),
        (AllowFires(GRILL, 10), "Grill may be lit 10 times; give 1 to 9, or take it out."),
        (SetTransfer(121), "Putting in or taking out takes 2 h 1 min; give 0 to 120."),
    ],
)
def test_what_is_refused(plan: Plan, edit: Edit, sentence: str) -> None:
    with pytest.raises(Refusal) as refused:
        edit(plan)
    assert sentence in refused.value.text


def test_a_kind_that_nobody_uses_may_go(plan: Plan) -> None:
    assert StationKind.GRILL not in {each.kind for each in RemoveStation(GRILL)(plan).kitchen.stations}


def test_a_fire_may_be_lit_more_often(plan: Plan) -> None:
    after = AllowFires(GRILL, 2)(plan)
    assert after.kitchen.station[GRILL] == replace(plan.kitchen.station[GRILL], fires=2)
    assert AllowFires(GRILL, 1)(after) == plan


def test_no_station_is_kept_apart_from_one_that_is_gone(plan: Plan) -> None:
    apart = ChangeStation(OVEN, replace(plan.kitchen.station[OVEN], not_with=(GRILL, ROOM)))(plan)
    assert RemoveStation(GRILL)(apart).kitchen.station[OVEN].not_with == (ROOM,)
