"""A few steps looked at alone, as while one is dragged: what the whole says of them, and nothing else."""

import pytest

from core.plan.decisions import Order
from core.plan.ids import StepId
from core.plan.kitchen import Heater
from core.plan.step import Attention, Holding, Touch, VesselUse, Wait
from core.timetable import Checker, ClashKind, clashes
from core.timetable.timetable import Timetable
from tests.core.timetable.laid import at, heating, laid, spot
from tests.support.builders import (
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    burners,
    hands_off,
)

POT = (VesselUse(a_vessel("pot").id),)
CHILLED = Wait(Holding.FRIDGE, a_use("burner"))


def supper():
    """Return a plan whose timetable below has every family of clash."""
    soup = a_dish(
        "soup", a_step("soup.sweat", minutes=10, vessels=POT), a_step("soup.boil", minutes=20, vessels=POT)
    )
    stew = a_dish("stew", hands_off("stew.braise", 30, uses=(a_use("burner"),), vessels=POT))
    tart = a_dish("tart", hands_off("tart.bake", 30, uses=(at_oven(160, 0),)))
    roots = a_dish("roots", hands_off("roots.bake", 30, uses=(at_oven(200, 0),)))
    tea = a_dish(
        "tea", a_step("tea.draw", minutes=9, attention=Attention.TENDED, touches=(Touch(3, 2, "stir"),))
    )
    kitchen = a_kitchen(
        stations=(an_oven(heater=Heater(from_cold=((200, 10),))), *burners(2)), vessels=(a_vessel("pot"),)
    )
    return a_plan(
        soup,
        stew,
        tart,
        roots,
        tea,
        links=(a_link("soup.sweat", "soup.boil", 0, 5, wait=CHILLED),),
        kitchen=kitchen,
        orders=(Order(StepId("stew.braise"), StepId("tea.draw")),),
    )


def clashing(plan) -> Timetable:
    starts = {
        "soup.sweat": at("17:55"),
        "soup.boil": at("18:15"),
        "stew.braise": at("18:10"),
        "tart.bake": at("18:00"),
        "roots.bake": at("18:20"),
        "tea.draw": at("18:20"),
    }
    on = [heating("oven", at("17:52"), at("18:00"), 160), heating("oven", at("18:25"), at("18:30"), 160)]
    return laid(plan, starts, heatings=on, stays={"soup.sweat": [spot("burner-1")]})


def test_the_supper_has_clashes_of_every_family():
    plan = supper()
    kinds = {clash.kind for clash in clashes(plan, clashing(plan))}
    assert kinds == {
        ClashKind.OUT_OF_ORDER,
        ClashKind.WAITED_TOO_LONG,
        ClashKind.OVER_FULL,
        ClashKind.VESSEL_SHORT,
        ClashKind.HANDS_SHORT,
        ClashKind.OVEN_TEMPERATURE,
    }


@pytest.mark.parametrize(
    "steps",
    [
        {"soup.sweat"}, {"soup.boil"}, {"stew.braise"}, {"tart.bake"}, {"roots.bake"}, {"tea.draw"},
        {"tart.bake", "tea.draw"}, {"no.step"}, set(),
    ],
)  # fmt: skip
def test_a_step_alone_has_its_own_clashes(steps):
    plan = supper()
    timetable = clashing(plan)
    own = tuple(clash for clash in clashes(plan, timetable) if steps & set(clash.steps))
    assert clashes(plan, timetable, only=steps) == own
    assert bool(own) == bool(steps & set(plan.steps))
    checker = Checker(plan)
    assert checker.clashes(timetable, steps) == own
    assert checker.clashes(timetable, steps) == own


def test_an_order_between_steps_of_which_one_is_missing_says_nothing():
    plan = supper()
    found = clashes(plan, laid(plan, {"tea.draw": at("18:20")}), only=["tea.draw"])
    assert found == ()


def test_loads_half_placed_are_judged_as_far_as_they_are():
    found = clashes(supper(), Timetable())
    assert [clash.kind for clash in found] == [ClashKind.MISSING] * 6
