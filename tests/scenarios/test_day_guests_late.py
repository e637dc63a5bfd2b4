"""F15: told at 18:40 that the guests come thirty minutes late: what is done stays, two things wait too long."""

from dataclasses import replace

import pytest

from core.arrange import Effort, Fit, arrange
from core.arrange.possible import possible
from core.arrange.reflowing import reflow
from core.plan.day import Day, Fact, State
from core.plan.kitchen import Heater
from core.plan.plan import Plan
from core.plan.step import Heat, Keep, StationKind, Use
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.support.builders import (
    a_dish,
    a_kitchen,
    a_link,
    a_moment,
    a_plan,
    a_step,
    an_oven,
    burners,
    hands_off,
)

ENOUGH = Effort(work=3.0)
PLANNED, LATE = "2026-09-26 19:30", "2026-09-26 20:00"


def at(when: str, plating: str) -> int:
    """Return the offset of "18:40" from plating."""
    hours, minutes = when.split(":")
    return int(hours) * 60 + int(minutes) - int(plating[11:13]) * 60 - int(plating[14:16])


def baked(name: str, minutes: int, setting: int, keep: int):
    use = Use(StationKind.OVEN, heat=Heat(setting, setting, setting))
    return a_dish(name, hands_off(f"{name}.bake", minutes, uses=(use,)), keep=Keep(keep))


def supper(plating: str = PLANNED, rest: int = 60, gratin: int = 60) -> Plan:
    """Return pork that rests so long, a gratin that keeps so long, squash, fritters, beans and trout."""
    roast = hands_off("pork.roast", 120, uses=(Use(StationKind.OVEN, station="oven-2"),))
    pork = (roast, a_step("pork.carve", minutes=10))
    burner = (Use(StationKind.BURNER),)
    dishes = (
        a_dish("pork", *pork, keep=Keep(0)),
        baked("gratin", 50, 190, gratin),
        baked("squash", 40, 190, 0),
        a_dish("fritters", hands_off("fritters.fry", 15, uses=burner), keep=Keep(0)),
        a_dish("beans", hands_off("beans.boil", 8, uses=burner), keep=Keep(0)),
        a_dish("trout", a_step("trout.slice", minutes=10), keep=Keep(180)),
    )
    ovens = (an_oven(racks=2, heater=Heater(from_cold=())), an_oven("oven-2", 1, None))
    return a_plan(
        *dishes,
        links=(a_link("pork.roast", "pork.carve", 20, rest),),
        kitchen=a_kitchen(stations=(*ovens, *burners(2))),
        plating=plating,
        transfer=0,
    )


def day(plating: str) -> Day:
    """Return 18:40: pork out at 18:35, gratin out now, trout sliced at 17:50."""

    def done(step: str, start: str, end: str) -> Fact:
        return Fact(step, State.DONE, at(start, plating), at(end, plating))

    facts = (
        done("pork.roast", "16:35", "18:35"),
        done("gratin.bake", "17:50", "18:40"),
        done("trout.slice", "17:40", "17:50"),
    )
    return Day(at("18:40", plating), facts)


def clocks(timetable: Timetable, plan: Plan) -> dict[str, str]:
    return {each.step: f"{plan.wall(each.start):%H:%M}" for each in timetable.placed}


DONE = {"pork.roast": "16:35", "gratin.bake": "17:50", "trout.slice": "17:40"}
AS_PLANNED = {"pork.carve": "19:20", "squash.bake": "18:50", "fritters.fry": "19:15", "beans.boil": "19:22"}
LATER = {"pork.carve": "19:50", "squash.bake": "19:20", "fritters.fry": "19:45", "beans.boil": "19:52"}


def test_before_the_call_all_is_well():
    plan = supper()
    outcome = arrange(plan, ENOUGH, day=day(PLANNED))
    assert outcome.fit is Fit.MEETS
    assert clocks(outcome.timetable, plan) == {**DONE, **AS_PLANNED}


def test_half_an_hour_later_two_things_have_waited_too_long():
    # pork until 19:35 and carved 19:50: 15 over. Gratin until 19:40 and served at 20:00: 20 over. Trout until 20:50
    plan = supper(LATE)
    outcome = arrange(plan, ENOUGH, day=day(LATE))
    assert outcome.fit is Fit.IMPOSSIBLE
    assert outcome.clashes == clashes(plan, outcome.timetable, day=day(LATE))
    assert {(clash.kind, clash.steps[0], clash.by) for clash in outcome.clashes} == {
        (ClashKind.WAITED_TOO_LONG, "pork.roast", 15),
        (ClashKind.WAITED_TOO_LONG, "gratin.bake", 20),
    }
    assert clocks(outcome.timetable, plan) == {**DONE, **LATER}


@pytest.mark.parametrize(
    ("rest", "gratin", "fit"),
    [(90, 80, True), (75, 80, True), (74, 80, False), (90, 79, False), (60, 60, False)],
)
def test_an_insulated_box_and_a_cover_mend_it(rest, gratin, fit):
    # carved 19:50, 75 after 18:35; served 80 after 18:40
    plan = supper(LATE, rest, gratin)
    outcome = arrange(plan, ENOUGH, day=day(LATE))
    assert outcome.fit is (Fit.MEETS if fit else Fit.IMPOSSIBLE)
    assert (possible(plan, day=day(LATE)).fit is Fit.MEETS) is fit
    if fit:
        assert clocks(outcome.timetable, plan) == {**DONE, **LATER}


def test_what_was_seen_moves_by_half_an_hour_and_what_is_done_does_not():
    before = arrange(supper(), ENOUGH, day=day(PLANNED)).timetable
    seen = replace(
        before,
        placed=tuple(
            replace(
                each,
                start=each.start - 30,
                hands=tuple(replace(hand, start=hand.start - 30) for hand in each.hands),
            )
            for each in before.placed
        ),
    )
    plan = supper(LATE, 90, 90)
    assert plan.plating == a_moment(LATE)
    found = reflow(plan, seen, day=day(LATE))
    assert found is not None
    assert found.fit is Fit.MEETS
    assert clocks(found.timetable, plan) == {**DONE, **LATER}


def test_the_box_carries_the_pork_to_five_past_eight():
    # 18:35 and 90 are 20:05; carved then, served at 20:15. A minute later it is too long
    for serving, fit in (("20:15", True), ("20:16", False)):
        plating = f"2026-09-26 {serving}"
        plan = supper(plating, 90, 600)
        assert (possible(plan, day=day(plating)).fit is Fit.MEETS) is fit
