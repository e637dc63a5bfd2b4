"""Acceptance scenarios of the oven, placed by the scheduler; the arithmetic stands beside each answer."""

import pytest

from core.arrange import Fit
from core.plan.decisions import Order
from core.plan.kitchen import Heater, StationKind
from core.plan.menu import Dish
from core.plan.step import Heat, Keep, Manner, Use
from core.timetable.clash import ClashKind
from tests.scenarios.arranged import SERVED, answer, at, clock, impossible, only_clash, times
from tests.support.builders import a_bench, a_dish, a_kitchen, a_link, a_plan, a_step, an_oven, hands_off

ALWAYS_HOT = Heater(from_cold=())


def bake(name: str, minutes: int, heat: Heat | int, keep: int | None = None, **fields) -> Dish:
    """Return a dish that bakes on one rack and keeps so long."""
    heat = Heat(heat, heat, heat) if isinstance(heat, int) else heat
    step = hands_off(f"{name}.bake", minutes, uses=(Use(StationKind.OVEN, heat=heat),))
    return a_dish(name, step, keep=Keep(keep), **fields)


# ---- F1: back-timing with rest and preheat


def lamb(manner: Manner):
    oven = an_oven(heater=Heater(from_cold=((160, 20),)))  # 20 min from cold to what the lamb wants
    roast = hands_off("lamb.roast", (80, 90, 105), uses=(Use(StationKind.OVEN, heat=Heat(160, 160, 160)),))
    return a_bench(
        roast,
        a_step("lamb.carve", minutes=10, keeps=Keep(10)),
        links=(a_link("lamb.roast", "lamb.carve", 20, 60),),
        kitchen=a_kitchen(oven=oven),
        plating=SERVED,
        transfer=0,
        manner=manner,
    )


@pytest.mark.parametrize(
    ("manner", "on", "into"),
    [(Manner.SAFE, "16:25", "16:45"), (Manner.LIKELY, "16:40", "17:00")],
)
def test_f1_a_shoulder_of_lamb_with_its_rest(manner, on, into):
    # 19:00 - 10 = carve 18:50; - 20 of rest = out 18:30; - 105 = in 16:45 (- 90 = 17:00); - 20 = on 16:25 (16:40)
    plan = lamb(manner)
    assert times(plan) == {"lamb.roast": into, "lamb.carve": "18:50"}
    found = answer(plan).timetable
    assert clock(found.placed[0].end) == "18:30"
    assert [(clock(each.start), clock(each.end)) for each in found.heatings] == [(on, into)]


def test_f1_the_rest_covers_the_quick_roast():
    # 16:45 + 80 = 18:05, and 45 min of rest until 18:50 are not more than 60
    found = answer(lamb(Manner.SAFE)).timetable
    roast, carve = found.placed
    quick = roast.start + 80
    assert clock(quick) == "18:05"
    assert carve.start - quick == 45


# ---- F2: 200 and 160 °C wanted in the same hour


def roots_and_tart(**fields):
    oven = an_oven(heater=Heater(from_cold=((160, 15), (200, 20)), up=5.0, down=5.0))
    dishes = (bake("roots", 45, Heat(200, 190, 210), 15), bake("tart", 40, Heat(160, 155, 165), 360))
    return a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED, transfer=0, **fields)


def test_f2_tart_first_and_the_oven_climbs_in_between():
    # roots in 19:00 - 45 = 18:15; 40 °C at 5 a minute = 8 min: tart out 18:07, in 17:27; 15 min to 160: on 17:12
    plan = roots_and_tart()
    assert times(plan) == {"roots.bake": "18:15", "tart.bake": "17:27"}
    (heating,) = answer(plan).timetable.heatings
    assert (clock(heating.start), clock(heating.end), heating.setting) == ("17:12", "17:27", 160)


def test_f2_the_other_order_is_impossible():
    # roots, then 8 min down and 40 of tart: the roots would wait 48 of their 15 min, 33 too long
    outcome = impossible(roots_and_tart(orders=(Order("roots.bake", "tart.bake"),)))
    clash = only_clash(outcome)
    assert (clash.kind, clash.by) == (ClashKind.WAITED_TOO_LONG, 8 + 40 - 15)


# ---- F3: sharing by compromise


def test_f3_two_bakes_share_a_setting_of_both_ranges():
    # 180 ± 15 and 200 ± 15 meet from 185 to 195; 1 % of the time a degree: at 190 54 and 44 min; out at 18:55
    dishes = (
        bake("gratin", 60, Heat(180, 165, 195), 0, course=-5),
        bake("potatoes", 40, Heat(200, 185, 215), 0, course=-5),
    )
    oven = an_oven(racks=2, heater=ALWAYS_HOT)
    plan = a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED, transfer=0)
    outcome = answer(plan)
    assert outcome.fit is Fit.MEETS
    gratin, potatoes = outcome.timetable.placed
    assert gratin.setting == potatoes.setting
    assert 185 <= gratin.setting <= 195
    # 60 x (100 - (s - 180)) / 100 and 40 x (100 - (s - 200)) / 100, to the nearest minute
    lengths = {185: (57, 46), 190: (54, 44), 195: (51, 42)}
    assert (gratin.length, potatoes.length) == lengths[gratin.setting]
    assert (clock(gratin.end), clock(potatoes.end)) == ("18:55", "18:55")


# ---- F4: three dishes, two racks


def three_bakes(pie: int = 20, tart: int = 20, buns: int = 20):
    dishes = (bake("pie", 60, 180, pie), bake("tart", 45, 180, tart), bake("buns", 30, 180, buns))
    oven = an_oven(racks=2, heater=ALWAYS_HOT)
    return a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED, transfer=0)


def test_f4_ten_minutes_are_missing():
    # each comes out 18:40 to 19:00, so that all three are inside 18:30 to 18:40, on two racks
    outcome = impossible(three_bakes())
    clash = only_clash(outcome)
    assert (clash.kind, clash.by) == (ClashKind.WAITED_TOO_LONG, 10)
    assert clash.steps[0] in {"pie.bake", "tart.bake"}
    # that is the repair: out 18:30, the buns in its place 18:30 to 19:00
    found = outcome.timetable.at
    assert clock(found[clash.steps[0], 0].end) == "18:30"
    assert (clock(found["buns.bake", 0].start), clock(found["buns.bake", 0].end)) == ("18:30", "19:00")


@pytest.mark.parametrize("longer", ["pie", "tart"])
def test_f4_one_of_the_longer_dishes_may_wait_half_an_hour(longer):
    starts = times(three_bakes(**{longer: 30}))
    assert starts == {"pie": {"pie.bake": "17:30", "tart.bake": "18:15", "buns.bake": "18:30"},
                      "tart": {"pie.bake": "18:00", "tart.bake": "17:45", "buns.bake": "18:30"}}[longer]  # fmt: skip


def test_f4_the_shortest_waiting_longer_does_not_help():
    # the buns out at 18:30 leave 18:00; pie and tart are both in by 18:00 and 18:15 at the latest: 15 min of three
    impossible(three_bakes(buns=30))
    assert at("18:30") - 30 < at("18:15")
