"""Another kitchen under a menu: what steps name is found there, comes along or is left to the kind, and is said."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, event, given, settings

from core.plan.check import problems
from core.plan.check_kitchen import kitchen_problems
from core.plan.decisions import Pin
from core.plan.edits import UseKitchen
from core.plan.ids import StationId
from core.plan.kitchen import Heater, Kitchen, StationKind
from core.plan.plan import Plan
from core.plan.step import Keep, Span, VesselUse, Wait
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_grill,
    a_kitchen,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    burners,
    hands_off,
)
from tests.support.strategies import kitchens, plans
from tests.support.tries import tries

LOWER = StationId("lower")


def home(**fields: object) -> Plan:
    bake = hands_off("tart.bake", uses=(at_oven(200, station=LOWER),), vessels=(VesselUse("tin"),))
    kitchen = a_kitchen(
        oven=an_oven("lower", name="Lower oven"), vessels=(a_vessel("tin", 2, size="28 cm"),), cooks=2, name="Home"
    )
    return a_bench(bake, kitchen=kitchen, **fields)


def hall(**fields: object) -> Kitchen:
    fields = {"oven": an_oven("range", name="Range"), "cooks": (a_cook("ann"),), "name": "Hall", **fields}
    return a_kitchen(**fields)  # type: ignore[arg-type]


def test_a_station_that_is_not_there_is_left_to_its_kind_and_said() -> None:
    edit = UseKitchen(hall(vessels=(a_vessel("tin", 2),)))
    after = edit(home())
    assert after.kitchen == edit.kitchen
    assert after.steps["tart.bake"].uses == (at_oven(200),)
    assert edit.notes(home()) == ("Lower oven is not there: what stood in it or on it takes any oven.",)


def test_a_station_of_the_same_id_and_kind_stays_named() -> None:
    edit = UseKitchen(hall(oven=an_oven("lower", name="Hall oven"), vessels=(a_vessel("tin", 2),)))
    assert edit(home()).steps == home().steps
    assert edit.notes(home()) == ()
    other = UseKitchen(hall(oven=an_oven("range"), stations=(replace(a_grill(), id=LOWER), an_oven("range"))))
    assert edit(home()).steps["tart.bake"].uses[0].station == LOWER
    assert other(home()).steps["tart.bake"].uses[0].station is None


def test_a_vessel_is_found_by_id_then_by_name_and_size_else_it_comes_along() -> None:
    by_id = UseKitchen(hall(vessels=(a_vessel("tin", name="Cake ring"),)))
    assert by_id(home()).steps["tart.bake"].vessels == (VesselUse("tin"),)
    named = a_vessel("round", name="TIN", size="28  cm")
    by_name = UseKitchen(hall(vessels=(named,)))
    assert by_name(home()).steps["tart.bake"].vessels == (VesselUse("round"),)
    along = UseKitchen(hall(vessels=(a_vessel("round", size="20 cm"),)))
    assert along(home()).steps["tart.bake"].vessels == (VesselUse("tin"),)
    assert along(home()).kitchen.vessel["tin"].size == "28 cm"
    assert "Tin (28 cm) is brought along." in along.notes(home())


def test_as_many_vessels_as_a_step_takes_are_there() -> None:
    plan = home()
    step = replace(plan.steps["tart.bake"], vessels=(VesselUse("tin", 2),))
    plan = a_bench(step, kitchen=plan.kitchen)
    assert UseKitchen(hall(vessels=(a_vessel("tin"),)))(plan).kitchen.vessel["tin"].count == 2


def test_what_the_kitchen_has_not_or_cannot_give_comes_along_and_is_said() -> None:
    grilled = a_step("skewers.grill", uses=(a_use("grill", 2),))
    plan = a_bench(grilled, kitchen=a_kitchen(name="Home"))
    edit = UseKitchen(hall(stations=(an_oven("range"),)))
    assert [each.id for each in edit(plan).kitchen.stations] == ["range", "grill"]
    assert edit.notes(plan) == ("Hall has no grill: Grill is brought along.",)
    cool = UseKitchen(hall(oven=an_oven("range", heater=Heater(highest=150))))
    after = cool(home())
    assert [each.id for each in after.kitchen.of_kind(StationKind.OVEN)] == ["range", "lower"]
    assert after.steps["tart.bake"].uses[0].station == LOWER
    assert "Hall has an oven, but not enough for all of the menu: Lower oven is brought along." in cool.notes(home())
    two = UseKitchen(hall(stations=(an_oven("range"),)))
    grills = tuple(replace(a_grill(), id=StationId(f"grill-{n}"), name=f"Grill {n}") for n in (1, 2))
    many = a_bench(grilled, kitchen=a_kitchen(stations=grills, name="Home"))
    assert two.notes(many) == ("Hall has no grill: Grill 1 and Grill 2 are brought along.",)
    tepid = tuple(an_oven(name, heater=Heater(highest=150)) for name in ("range", "second"))
    said = UseKitchen(hall(stations=tepid)).notes(home())
    assert "Hall has ovens, but not enough for all of the menu: Lower oven is brought along." in said


def test_what_was_named_to_burners_goes_to_those_that_are_there() -> None:
    """A pan said to fit one burner, and one over two rings: six other burners do for both."""
    named = [replace(each, id=StationId(f"b{n}"), name=f"B{n}") for n, each in enumerate(burners(4), 1)]
    fits = a_vessel("pan", fits=(StationId("b4"),))
    boil = a_step("stock.boil", uses=(a_use("burner", 1, station=StationId("b4")),), vessels=(VesselUse("pan"),))
    sear = a_step("stock.sear", uses=(a_use("burner", 2),))
    plan = a_bench(boil, sear, kitchen=a_kitchen(stations=tuple(named), vessels=(fits,), name="Home"))
    edit = UseKitchen(hall(stations=burners(6)))
    after = edit(plan)
    assert after.kitchen.of_kind(StationKind.BURNER) == burners(6)
    assert after.steps["stock.boil"].uses == (a_use("burner", 1),)
    assert after.kitchen.vessel["pan"].fits == ()
    assert edit.notes(plan) == (
        "Pan is brought along.",
        "B4 is not there: what stood in it or on it takes any burner.",
    )


def test_a_vessel_too_large_for_the_new_oven_gives_way_to_the_own_one() -> None:
    there = hall(oven=an_oven("range", wide=30, deep=30), vessels=(a_vessel("tin", size="40 cm"),))
    after = UseKitchen(there)(home())
    (use,) = after.steps["tart.bake"].vessels
    assert (use.vessel, after.kitchen.vessel[use.vessel].size) == ("tin-2", "28 cm")
    assert [each.id for each in after.kitchen.of_kind(StationKind.OVEN)] == ["range"]


def test_pins_to_what_is_gone_are_lifted_and_said() -> None:
    pins = (Pin("tart.bake", 0, -60, LOWER, "ben"),)
    plan = home(pins=pins)
    edit = UseKitchen(hall(vessels=(a_vessel("tin", 2),)))
    assert edit(plan).decisions.pins == (Pin("tart.bake", 0, -60),)
    assert edit.notes(plan)[-1] == "1 pin lifted, which is to a place or a cook that is not there."


def test_cooks_come_along_where_the_menu_takes_more_than_are_there() -> None:
    roll = a_step("rolls.shape", hands=2)
    knead = a_step("rolls.knead", skill="pastry")
    plan = a_bench(roll, knead, kitchen=a_kitchen(cooks=(a_cook("ann"), a_cook("ben"), a_cook("cat", "pastry"))))
    edit = UseKitchen(hall())
    assert [each.id for each in edit(plan).kitchen.cooks] == ["ann", "ben", "cat"]
    assert edit.notes(plan) == ("Ben and Cat come along: the menu takes more hands or skills than are there.",)


def test_waits_and_other_ways_are_moved_too() -> None:
    oven = a_use("oven", station=LOWER)
    keep = Keep(30, Wait(use=oven))
    plan = a_plan(a_dish("pie", hands_off("pie.rest", keeps=keep), keep=keep), kitchen=home().kitchen)
    after = UseKitchen(hall())(plan)
    assert after.dishes["pie"].keep.wait.use == a_use("oven")
    assert after.steps["pie.rest"].keeps == Keep(30, Wait(use=a_use("oven")))


def test_stations_that_do_not_go_together_stay_in_place_of_the_new_ones() -> None:
    both = a_step("feast.fry", uses=(a_use("smoker", 1), a_use("cold counter", 2)), minutes=Span.of(5))
    singles = tuple(
        replace(each, id=StationId(f"slab-{n}"), kind=StationKind.COLD_COUNTER) for n, each in enumerate(burners(2))
    )
    smoker = replace(a_grill(), id=StationId("smoker"), kind=StationKind.SMOKER)
    plan = a_bench(both, kitchen=a_kitchen(stations=(*singles, smoker), name="Home"))
    # one slab of three places: nothing may be spread any more once it is there, so two of one place each do not do
    wide = replace(singles[0], id=StationId("slab"), units=3)
    assert UseKitchen(hall(stations=(wide, smoker)))(plan).kitchen.stations == (wide, smoker)
    narrow = replace(both, uses=(a_use("cold counter", 4),))
    four = tuple(replace(singles[0], id=StationId(f"slab-{n}")) for n in range(4))
    plan = a_bench(narrow, kitchen=a_kitchen(stations=four, name="Home"))
    edit = UseKitchen(hall(stations=(wide,)))
    assert edit(plan).kitchen.stations == four
    assert "stay in their place" in edit.notes(plan)[0]


@settings(max_examples=tries(60), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(plan=plans(most_dishes=3, most_steps=3), there=kitchens())
def test_any_kitchen_under_any_plan_gives_a_valid_plan_and_going_back_brings_the_old_kitchen(
    plan: Plan, there: Kitchen
) -> None:
    assert not list(kitchen_problems(there))
    edit = UseKitchen(there)
    after = edit(plan)
    assert problems(after) == ()
    event(f"{len(edit.notes(plan))} notes")
    for station in there.stations:
        if station not in after.kitchen.stations:  # the only reasons
            assert any("stays in their place" in note for note in edit.notes(plan))
    assert {each.id for each in after.kitchen.cooks} >= {each.id for each in there.cooks}
    assert [replace(each, uses=(), vessels=(), alternatives=(), keeps=None) for each in after.steps.values()] == [
        replace(each, uses=(), vessels=(), alternatives=(), keeps=None) for each in plan.steps.values()
    ]
    back = UseKitchen(plan.kitchen)(after)
    assert problems(back) == ()
    assert back.kitchen.stations[: len(plan.kitchen.stations)] == plan.kitchen.stations
    assert back.kitchen.cooks == plan.kitchen.cooks
    for step, old in plan.steps.items():
        new = back.steps[step]
        assert [(use.kind, use.units, use.heat) for use in new.uses] == [
            (use.kind, use.units, use.heat) for use in old.uses
        ]
        assert sum(use.count for use in new.vessels) == sum(use.count for use in old.vessels)


@settings(max_examples=tries(30), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(plan=plans(most_dishes=3, most_steps=3))
def test_the_same_kitchen_changes_nothing(plan: Plan) -> None:
    edit = UseKitchen(plan.kitchen)
    assert edit(plan) == plan
    assert edit.notes(plan) == ()
