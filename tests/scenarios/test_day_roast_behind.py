"""F16: at 18:35 the roast has twelve degrees to go; when can it be served, and what holds it up?"""

import pytest

from core.arrange import Effort, Fit, arrange
from core.arrange.possible import possible
from core.plan.day import Day, Fact, State
from core.plan.kitchen import Heater, Station
from core.plan.plan import Plan
from core.plan.step import Heat, Keep, StationKind, Use
from core.timetable.clashes import clashes
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, an_oven, hands_off

ENOUGH = Effort(work=3.0)
# 50 degrees, from 160 to 210, in 8 minutes
CLIMBING = Heater(from_cold=((160, 15), (210, 23)), up=6.25)


def at(when: str, serving: str) -> int:
    """Return the offset of a clock time from a serving time."""
    minutes = [int(each[:2]) * 60 + int(each[3:]) for each in (when, serving)]
    return minutes[0] - minutes[1]


def supper(serving: str, *more: Station) -> Plan:
    """Return pork in the oven, a rest of at least 20, carving; squash at 210 for 35 min in whatever oven."""

    def in_oven(setting: int, station: str | None = None) -> tuple[Use, ...]:
        return (Use(StationKind.OVEN, station=station, heat=Heat(setting, setting, setting)),)

    pork = (hands_off("pork.roast", 130, uses=in_oven(160, "oven")), a_step("pork.carve", minutes=10))
    squash = hands_off("squash.bake", 35, uses=in_oven(210))
    return a_plan(
        a_dish("pork", *pork, keep=Keep(0)),
        a_dish("squash", squash, keep=Keep(0)),
        links=(a_link("pork.roast", "pork.carve", 20),),
        kitchen=a_kitchen(stations=(an_oven(racks=2, heater=CLIMBING), *more)),
        plating=f"2026-09-26 {serving}",
        transfer=0,
    )


def day(serving: str, *more: Fact) -> Day:
    """Return 18:35: in since 16:20, out at 18:59, for twelve degrees at half a degree a minute are 24 minutes."""
    roast = Fact("pork.roast", State.UNDER_WAY, at("16:20", serving), at("18:59", serving))
    return Day(at("18:35", serving), (roast, *more))


def answer(plan: Plan, at_now: Day):
    outcome = arrange(plan, ENOUGH, day=at_now)
    assert outcome.clashes == clashes(plan, outcome.timetable, day=at_now)
    assert outcome.fit is not Fit.NOT_FOUND
    assert (possible(plan, day=at_now).fit is Fit.MEETS) == (outcome.fit is Fit.MEETS)
    clocks = {each.step: f"{plan.wall(each.start):%H:%M}" for each in outcome.timetable.placed}
    assert clocks["pork.roast"] == "16:20"
    return outcome.fit is Fit.MEETS, clocks


@pytest.mark.parametrize(("serving", "fit"), [("19:30", False), ("19:41", False), ("19:42", True)])
def test_the_squash_decides_when_it_can_be_served(serving, fit):
    # the oven is free at 18:59, at 210 at 19:07; 35 minutes are 19:42
    meets, clocks = answer(supper(serving), day(serving))
    assert meets is fit
    if fit:
        assert clocks == {"pork.roast": "16:20", "squash.bake": "19:07", "pork.carve": "19:32"}
        assert at(clocks["pork.carve"], "18:59") == 33  # minutes of rest


@pytest.mark.parametrize(("serving", "fit"), [("19:30", True), ("19:29", True), ("19:28", False)])
def test_the_pork_alone_is_still_on_time(serving, fit):
    # rested until 19:19, carved until 19:29
    meets, clocks = answer(supper(serving), day(serving, Fact("squash.bake", State.DROPPED)))
    assert meets is fit
    assert "squash.bake" not in clocks


@pytest.mark.parametrize(("minutes", "fit"), [(20, True), (21, False)])
def test_another_oven_saves_the_evening_if_it_is_hot_soon(minutes, fit):
    # in by 18:55 at the latest, and it is 18:35
    other = an_oven("other", 1, Heater(from_cold=((210, minutes),)))
    meets, clocks = answer(supper("19:30", other), day("19:30"))
    assert meets is fit
    if fit:
        assert clocks["squash.bake"] == "18:55"
