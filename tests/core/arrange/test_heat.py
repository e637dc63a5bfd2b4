"""One temperature at a time, time to change it, time to heat up: plans in which the oven alone decides."""

import pytest

from core.arrange import Fit
from core.plan.kitchen import Heater
from core.plan.menu import Dish
from core.plan.step import Heat, Holding, Keep, StationKind, Use, Wait
from tests.core.arrange.arranged import ALWAYS_HOT, answer, bake, meets, refused, starts
from tests.support.builders import a_cook, a_dish, a_kitchen, a_link, a_plan, a_step, an_oven, hands_off


def in_ovens(*dishes: Dish, ovens=None, heater: Heater = ALWAYS_HOT, racks: int = 2, cooks=1, **fields):
    ovens = (an_oven(racks=racks, heater=heater),) if ovens is None else ovens
    return a_plan(*dishes, kitchen=a_kitchen(stations=ovens, cooks=cooks), transfer=0, **fields)


# ---- sharing


def test_two_share_at_a_compromise_that_both_bear():
    # 165 to 195 and 185 to 215 meet from 185 to 195
    timetable = meets(in_ovens(bake("a", 60, Heat(180, 165, 195)), bake("b", 40, Heat(200, 185, 215))))
    one, other = timetable.placed
    assert one.setting == other.setting
    assert 185 <= one.setting <= 195
    assert (one.end, other.end) == (0, 0)


def test_two_whose_ranges_do_not_meet_cannot_be_done_at_once():
    refused(in_ovens(bake("a", 60, Heat(160, 150, 170)), bake("b", 40, Heat(190, 171, 200))))


def test_ranges_that_meet_in_one_degree_share_that_degree():
    timetable = meets(in_ovens(bake("a", 60, Heat(160, 150, 171)), bake("b", 40, Heat(190, 171, 200))))
    assert {each.setting for each in timetable.placed} == {171}


def test_three_share_what_all_three_bear_though_no_mark_of_the_dial_lies_in_it():
    # 163 to 180, 150 to 170 and 140 to 164 have 163 and 164 in common
    three = (Heat(165, 163, 180), Heat(160, 150, 170), Heat(150, 140, 164))
    plan = in_ovens(*(bake(name, 20, heat) for name, heat in zip("abc", three, strict=True)), racks=3)
    found = {each.setting for each in meets(plan).placed}
    assert len(found) == 1
    assert found <= {163, 164}


def test_a_hands_on_step_at_another_setting_keeps_its_cook_for_its_own_length():
    # both at 190: 20 min less 10 % is 18, 20 min and 10 % is 22; the cook works so long and no longer
    def grilled(name: str, setting: int) -> Dish:
        use = Use(StationKind.OVEN, heat=Heat(setting, setting - 10, setting + 10))
        return a_dish(name, a_step(f"{name}.turn", minutes=20, uses=(use,)), keep=Keep(0))

    timetable = meets(in_ovens(grilled("a", 180), grilled("b", 200), cooks=2))
    assert [(each.setting, each.length) for each in timetable.placed] == [(190, 18), (190, 22)]
    assert [[hand.minutes for hand in each.hands] for each in timetable.placed] == [[18], [22]]


# ---- changing


@pytest.mark.parametrize(
    ("first", "then", "pause"),
    [
        (160, 200, 8),
        (200, 160, 20),
        (160, 201, 9),
    ],  # 5 °C a minute up, 2 down: 40 / 5, 40 / 2, 41 / 5 rounded up
)
def test_the_change_takes_its_time_up_and_down(first, then, pause):
    heater = Heater(from_cold=(), up=5, down=2)
    plan = in_ovens(bake("a", 10, first, None), bake("b", 10, then, 0), heater=heater)
    assert starts(meets(plan)) == {"a.bake": -20 - pause, "b.bake": -10}
    in_time = in_ovens(bake("a", 10, first, 10 + pause), bake("b", 10, then, 0), heater=heater)
    meets(in_time)
    refused(in_ovens(bake("a", 10, first, 9 + pause), bake("b", 10, then, 0), heater=heater))


def test_a_rate_that_is_no_whole_number_is_taken_as_it_is_written():
    # 21 °C at 0.7 a minute are 30 min
    heater = Heater(from_cold=(), up=0.7, down=0.7)
    timetable = meets(in_ovens(bake("a", 20, 160, 50), bake("b", 20, 181, 0), heater=heater))
    assert starts(timetable) == {"a.bake": -70, "b.bake": -20}


def test_a_very_slow_change_is_slow_and_not_impossible():
    # 10 °C at 0.05 a minute are 200 min; the compromise that `c` brings in makes the settings a choice
    heater = Heater(from_cold=(), up=0.05, down=0.05)
    dishes = (bake("a", 20, Heat(160, 160, 165), None), bake("b", 20, 170, 0), bake("c", 1, 165, None))
    meets(in_ovens(*dishes, heater=heater))


def test_of_two_ovens_each_changes_at_its_own_rate():
    # the quick one takes 40 / 20 = 2 min; the slow one is full
    slow = an_oven("slow", racks=1, heater=Heater(from_cold=(), up=1, down=1))
    quick = an_oven("quick", racks=1, heater=Heater(from_cold=(), up=20, down=20))
    dishes = (bake("a", 20, 160, 22), bake("b", 20, 200, 0), bake("c", 42, 180, 0, oven="slow"))
    timetable = meets(in_ovens(*dishes, ovens=(slow, quick)))
    assert starts(timetable)["a.bake"] == -42


def test_a_roast_that_is_turned_down_stays_in_while_the_oven_cools():
    def roast(*, steady: bool) -> tuple[Dish, ...]:
        blast = Use(StationKind.OVEN, heat=Heat(230, 230, 230))
        low = Use(StationKind.OVEN, heat=Heat(160, 160, 160, steady=steady))
        steps = hands_off("roast.blast", 20, uses=(blast,)), hands_off("roast.roast", 60, uses=(low,))
        return (a_dish("roast", *steps, keep=Keep(0)),)

    links = (a_link("roast.blast", "roast.roast", 0, 0),)
    timetable = meets(in_ovens(*roast(steady=False), links=links))
    assert starts(timetable) == {"roast.blast": -80, "roast.roast": -60}
    refused(in_ovens(*roast(steady=True), links=links))


# ---- from cold

FROM_COLD = Heater(from_cold=((160, 10), (200, 15)), keep_on=30)


def test_the_oven_is_switched_on_so_that_it_is_hot():
    # 160 in 10 min, 200 in 15: 180 in 12.5, so 13
    for setting, minutes in ((160, 10), (180, 13), (200, 15), (240, 20)):
        (heating,) = meets(in_ovens(bake("a", 20, setting), heater=FROM_COLD)).heatings
        assert (heating.start, heating.end, heating.setting) == (-20 - minutes, -20, setting)
        assert heating.cook == "ann"


@pytest.mark.parametrize(("pause", "heatings"), [(30, 1), (31, 2)])
def test_it_is_kept_on_through_a_short_pause(pause, heatings):
    # a is out `pause` minutes before b goes in
    apart = a_link("a.bake", "b.bake", pause, pause)
    timetable = meets(
        in_ovens(bake("a", 20, 160, None), bake("b", 20, 160), links=(apart,), heater=FROM_COLD)
    )
    assert len(timetable.heatings) == heatings


@pytest.mark.parametrize(("keep", "fit"), [(50, Fit.MEETS), (49, Fit.IMPOSSIBLE)])
def test_it_is_not_heated_up_while_something_else_is_in_it(keep, fit):
    # never kept on: b in at -20 needs the oven from -50, 30 min from cold, so a is out by then
    heater = Heater(from_cold=((240, 30),), keep_on=0, up=100)
    outcome = answer(in_ovens(bake("a", 20, 160, keep), bake("b", 20, 240), heater=heater))
    assert outcome.fit is fit
    if fit is Fit.MEETS:
        assert starts(outcome.timetable) == {"a.bake": -70, "b.bake": -20}


def test_nobody_gets_up_at_night_to_switch_it_on():
    # breakfast at 8:00, an hour of baking from 7:00: the oven would have to go on at 6:30, in the night
    slow = Heater(from_cold=((160, 30),))
    cook = (a_cook("ann", night=(23 * 60, 7 * 60)),)
    plan = in_ovens(bake("a", 60, 160), heater=slow, cooks=cook, plating="2026-09-26 08:00")
    refused(plan)
    meets(in_ovens(bake("a", 30, 160), heater=slow, cooks=cook, plating="2026-09-26 08:00"))
    meets(
        in_ovens(
            bake("a", 60, 160), heater=slow, cooks=(a_cook("ann", night=None),), plating="2026-09-26 08:00"
        )
    )


def test_whoever_has_no_hand_free_at_that_minute_switches_it_on_sooner():
    # in the oven at -10, hot in 15: on at -25 at the latest, when the only cook stirs from -30 to -10
    stirred = a_dish("stew", a_step("stew.stir", minutes=20, keeps=Keep(10)))
    held = a_link("stew.stir", "a.bake", 0, 0)
    heater = Heater(from_cold=((180, 15),))
    timetable = meets(in_ovens(bake("a", 10, 180), stirred, links=(held,), heater=heater))
    assert starts(timetable) == {"a.bake": -10, "stew.stir": -30}
    assert timetable.heatings[0].start < -30


# ---- food held hot in an oven


def test_food_held_hot_shares_the_temperature_of_what_bakes():
    stew = a_dish("stew", hands_off("stew.cook", 30), hands_off("stew.rest", 5), keep=Keep(0))
    hot = Wait(Holding.HOT, Use(StationKind.OVEN, heat=Heat(80, 70, 95)))
    links = (a_link("stew.cook", "stew.rest", 20, 20, wait=hot),)
    timetable = meets(in_ovens(stew, bake("a", 30, 90, 5), links=links))
    (stay,) = timetable.stays
    assert (stay.end - stay.start, stay.setting) == (20, 90)
    timetable = meets(in_ovens(stew, bake("a", 30, 92, 5), links=links))
    assert timetable.stays[0].setting == 92  # within 70 to 95, though no mark of the dial
    refused(in_ovens(stew, bake("a", 30, 96, 5), links=links))


def test_food_that_need_not_wait_needs_no_temperature():
    # out of the roasting oven straight to the table: no minute of waiting at 80 °C, so none of cooling to it
    stew = a_dish(
        "stew",
        hands_off("stew.roast", 20, uses=(Use(StationKind.OVEN, heat=Heat(200, 200, 200)),)),
        hands_off("stew.carve", 5),
        keep=Keep(0),
    )
    hot = Wait(Holding.HOT, Use(StationKind.OVEN, heat=Heat(80, 70, 90)))
    timetable = meets(in_ovens(stew, links=(a_link("stew.roast", "stew.carve", 0, 60, wait=hot),), racks=1))
    assert timetable.stays == ()


def test_food_that_need_not_wait_does_not_keep_the_oven_on():
    # the bake a is 40 min before b, more than the 30 the oven is kept on; a wait of no minutes lies between
    passed = a_dish("c", hands_off("c.one", 5), hands_off("c.two", 5))
    hot = Wait(Holding.HOT, Use(StationKind.OVEN, heat=Heat(160, 160, 160)))
    links = (
        a_link("a.bake", "b.bake", 40, 40),
        a_link("a.bake", "c.one", 15, 15),
        a_link("c.one", "c.two", 0, 0, wait=hot),
    )
    plan = in_ovens(bake("a", 20, 160, None), bake("b", 20, 160), passed, links=links, heater=FROM_COLD)
    assert len(meets(plan).heatings) == 2


@pytest.mark.parametrize(("between", "fit"), [(24, Fit.MEETS), (23, Fit.IMPOSSIBLE)])
def test_held_food_wants_a_steady_oven_whatever_its_heat_says(between, fit):
    # a hot wait is taken as steady: 200 to 80 at 5 a minute are 24 min
    hot = Wait(Holding.HOT, Use(StationKind.OVEN, heat=Heat(80, 80, 80, steady=False)))
    stew = a_dish("stew", hands_off("stew.cook", between), hands_off("stew.fill", 5), keep=Keep(0))
    links = (a_link("a.bake", "stew.cook", 0, 0), a_link("stew.cook", "stew.fill", 10, 10, wait=hot))
    assert answer(in_ovens(bake("a", 20, 200, None), stew, links=links)).fit is fit


# ---- ovens of unlike reach


def test_a_bake_goes_where_its_setting_can_be_reached():
    small = an_oven("small", racks=2, heater=Heater(50, 200, from_cold=()))
    big = an_oven("big", racks=1, heater=Heater(50, 250, from_cold=()))
    pizza = [bake(name, 10, Heat(220, 190, 240), None) for name in ("a", "b", "c")]
    timetable = meets(in_ovens(*pizza, ovens=(small, big)))
    for each in timetable.placed:
        assert each.setting <= (200 if each.spots[0].station == "small" else 250)
