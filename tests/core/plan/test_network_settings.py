"""What contradicts does so at every oven setting a step bears: a cooler oven takes longer, a hotter one less."""

from __future__ import annotations

from dataclasses import replace

from core.plan.edits import PinStep
from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.network import Network
from core.plan.plan import Plan
from core.plan.step import Heat, Keep, Use
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, an_oven, hands_off

ROAST = StepId("squash.roast")
BEARS = Heat(215, 200, 220)
"""35 min at 215 °C, 40 at 200 (1 % a degree, common practice), 33 at 220."""


def roasted(keep: int, start: int) -> Plan:
    """Return squash pinned in the oven and carried out at once, kept so many minutes at most."""
    use = Use(StationKind.OVEN, heat=BEARS)
    dish = a_dish("squash", hands_off(ROAST, 35, uses=(use,)), keep=Keep(keep))
    plan = a_plan(dish, kitchen=a_kitchen(stations=(an_oven(),)), transfer=0)
    return PinStep(ROAST, 0, start, None).change(plan)


def test_a_pin_that_fits_in_a_cooler_oven_contradicts_nothing():
    plan = roasted(keep=20, start=-60)
    assert Network.of(plan).contradiction() is None
    (placed,) = on_paper(plan).placed
    cooler = replace(on_paper(plan), placed=(replace(placed, start=-60, length=40, setting=200),))
    wrong = {ClashKind.LENGTH, ClashKind.WAITED_TOO_LONG, ClashKind.LATE, ClashKind.PIN_MOVED}
    assert not wrong & {each.kind for each in clashes(plan, cooler)}


def test_a_pin_that_fits_at_no_setting_does():
    assert Network.of(roasted(keep=20, start=-61)).contradiction() is not None


def test_a_wait_that_only_a_hotter_oven_leaves_room_for_contradicts_nothing():
    use = Use(StationKind.OVEN, heat=BEARS)
    after = a_step("squash.dress", minutes=5)
    dish = a_dish("squash", hands_off(ROAST, 35, uses=(use,)), after, keep=Keep(0))
    links = (a_link(ROAST, "squash.dress", most=0),)
    plan = a_plan(dish, links=links, kitchen=a_kitchen(stations=(an_oven(),)), transfer=0)
    assert Network.of(PinStep(ROAST, 0, -38, None).change(plan)).contradiction() is None  # 33 min at 220 °C, 5 to dress
    assert Network.of(PinStep(ROAST, 0, -37, None).change(plan)).contradiction() is not None
