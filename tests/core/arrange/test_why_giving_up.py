"""What giving up a wish means: it is gone, everything else stays, and what it alone forbade becomes possible."""

from dataclasses import replace

import pytest

from core.arrange.demand import Demand, DemandKind, demands_of
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.why.giving_up import with_only, without
from core.plan import meaning
from core.plan.decisions import Order, Pin
from core.plan.kitchen import Heater, Station, StationKind, Window
from core.plan.menu import LinkKind
from core.plan.step import ClockTime, Heat, Keep, Manner, Touch, Use, VesselUse
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    burners,
    hands_off,
)


def oven(degrees: int):
    return (Use(StationKind.OVEN, heat=Heat(degrees, degrees, degrees)),)


def grill(**fields):
    return Station("grill", "Grill", StationKind.GRILL, 1, **fields)


def fry(name: str, **fields):
    return hands_off(f"{name}.fry", 20, **{"keeps": Keep(0), **fields})


D, K = Demand, DemandKind
TWO_PINS = (Pin("ale.fry", start=-30), Pin("bun.fry", start=-30))
CASES = {
    "most wait": (
        a_bench(fry("ale"), fry("bun"), links=(a_link("ale.fry", "bun.fry", 0, 5),), pins=(Pin("ale.fry", start=-60),)),
        D(K.MOST_WAIT, "ale.fry", "bun.fry", LinkKind.END_TO_START),
    ),
    "keeps": (a_bench(fry("ale"), pins=(Pin("ale.fry", start=-50),)), D(K.KEEPS, "ale.fry")),
    "served": (a_bench(fry("ale", keeps=Keep(60)), pins=(Pin("ale.fry", start=-19),)), D(K.SERVED, "ale.fry")),
    "earliest": (a_bench(fry("ale", earliest=-19)), D(K.EARLIEST, "ale.fry")),
    "latest": (a_bench(fry("ale", latest=-1)), D(K.LATEST, "ale.fry")),
    "clock": (a_bench(fry("ale", clock=ClockTime(0, 19 * 60))), D(K.CLOCK, "ale.fry")),
    "pin": (a_bench(fry("ale"), pins=(Pin("ale.fry", start=-21),)), D(K.PIN, "ale.fry")),
    "order": (a_bench(fry("ale"), fry("bun"), orders=(Order("ale.fry", "bun.fry"),)), D(K.ORDER, "ale.fry", "bun.fry")),
    "opens": (a_bench(fry("ale"), opens=-19), D(K.OPENS)),
    "burners": (
        a_bench(fry("ale", uses=(a_use(),)), fry("bun", uses=(a_use(),)), kitchen=a_kitchen(stations=burners(1))),
        D(K.STATION, kind_of=StationKind.BURNER),
    ),
    "racks": (
        a_bench(
            fry("ale", uses=oven(180)), fry("bun", uses=oven(180)),
            kitchen=a_kitchen(oven=an_oven(racks=1, heater=Heater(from_cold=()))),
        ),
        D(K.STATION, kind_of=StationKind.OVEN),
    ),
    "hours": (
        a_bench(
            fry("ale", uses=(a_use("machine"),)),
            kitchen=a_kitchen(Station("mixer", "Mixer", StationKind.MACHINE, hours=(Window(0, 0, 19 * 60 + 29),))),
        ),
        D(K.CLOSED, station="mixer"),
    ),
    "heat": (a_bench(fry("ale", uses=oven(180)), fry("bun", uses=oven(200))), D(K.HEAT, station="oven")),
    "fire": (
        a_bench(fry("ale", uses=(a_use("grill"),)), kitchen=a_kitchen(stations=(grill(burns=19, lighting=5),))),
        D(K.FIRE, station="grill"),
    ),
    "one appliance": (
        a_bench(
            fry("ale", uses=oven(180)), fry("bun", uses=(a_use("grill"),)),
            kitchen=a_kitchen(stations=(an_oven(heater=Heater(from_cold=())), grill(not_with=("oven",)))),
        ),
        D(K.NOT_WITH, station="grill", other="oven"),
    ),
    "vessels": (
        a_bench(
            fry("ale", vessels=(VesselUse("pan"),)), fry("bun", vessels=(VesselUse("pan"),)),
            kitchen=a_kitchen(vessels=(a_vessel("pan"),)),
        ),
        D(K.VESSEL, vessel="pan"),
    ),
    "hands": (
        a_bench(a_step("ale.stir", minutes=20, keeps=Keep(0)), a_step("bun.stir", minutes=20, keeps=Keep(0))),
        D(K.HANDS),
    ),
    "skill": (
        a_bench(
            *(a_step(f"{name}.cut", minutes=20, skill="cut", keeps=Keep(0)) for name in ("ale", "bun")),
            kitchen=a_kitchen(cooks=(a_cook("ann", "cut"), a_cook("ben"))),
        ),
        D(K.HANDS, skill="cut"),
    ),
    "absent": (
        a_bench(
            a_step("ale.stir", minutes=20, keeps=Keep(0)),
            kitchen=a_kitchen(cooks=(a_cook("ann", breaks=(Window(0, 19 * 60 + 29, 20 * 60),)),)),
        ),
        D(K.ABSENT, cook="ann"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_each_kind_of_wish(name):
    plan, demand = CASES[name]
    plan = replace(plan, transfer=0)
    assert demand in demands_of(plan)
    assert possible(plan).fit is Fit.IMPOSSIBLE
    assert possible(without(plan, demand)).fit is Fit.MEETS


def test_every_kind_is_tried():
    assert {demand.kind for _plan, demand in CASES.values()} == set(DemandKind)


def test_what_is_given_up_is_no_wish_any_more_and_the_others_are():
    rich = (K.STATION, K.HANDS, K.VESSEL, K.SERVED)  # room, hands, vessels, time without end are wishes still
    for plan, demand in CASES.values():
        before, after = set(demands_of(plan)), set(demands_of(without(plan, demand)))
        if demand.kind not in rich:
            assert demand not in after
        assert after | {demand} >= before


def test_a_wait_that_is_freed_does_not_make_the_step_before_it_longer():
    """Safe where it can wait: 5 min bear no spread of 20, so the likely length is reserved, and stays."""
    steps = (hands_off("ale.roast", (40, 50, 60)), a_step("ale.carve", minutes=5, keeps=Keep(5)))
    plan = a_bench(*steps, links=(a_link("ale.roast", "ale.carve", 0, 5),), manner=Manner.SAFE)
    assert meaning.reserved(plan, "ale.roast").length == 50
    most = next(demand for demand in demands_of(plan) if demand.kind is K.MOST_WAIT)
    for eased in (without(plan, most), with_only(plan, ())):
        assert meaning.reserved(eased, "ale.roast") == meaning.reserved(plan, "ale.roast")


def test_a_wait_that_bears_the_spread_keeps_its_early_end():
    dish = a_dish("ale", hands_off("ale.roast", (40, 50, 60)), keep=Keep(30))
    plan = a_plan(dish, manner=Manner.SAFE)
    for demand in demands_of(plan):
        assert meaning.reserved(without(plan, demand), "ale.roast") == meaning.Reserved(60, 20)


def test_served_later_it_must_not_be_done_sooner():
    plan = replace(a_bench(fry("ale", keeps=Keep(10)), pins=(Pin("ale.fry", start=-31),)), transfer=0)
    assert possible(without(plan, D(K.SERVED, "ale.fry"))).fit is Fit.IMPOSSIBLE
    assert possible(without(plan, D(K.KEEPS, "ale.fry"))).fit is Fit.MEETS


def test_wishes_that_nothing_asks_are_left_out():
    plan = a_bench(fry("ale", keeps=None), kitchen=a_kitchen(cooks=(a_cook("ann", night=None),)))
    assert demands_of(plan) == (D(K.SERVED, "ale.fry"), D(K.HANDS))


def test_skills_of_touches_count():
    touch = Touch(5, 2, skill="baste")
    plan = a_bench(hands_off("ale.roast", 60, touches=(touch,)))
    assert D(K.HANDS, skill="baste") in demands_of(plan)
    assert without(plan, D(K.HANDS, skill="baste")).steps["ale.roast"].touches[0].skill == ""
