"""Acceptance scenarios of the oven: what is offered where they cannot be met; arithmetic beside each answer."""

from dataclasses import replace

from core.arrange.speak.ways import say_way
from core.arrange.ways import Unit, WayKind
from core.plan.day import Day, Fact, State
from core.plan.decisions import Order
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import ClockTime, Heat, Keep, Use
from tests.scenarios.offered import offers, only
from tests.scenarios.test_placing_oven import ALWAYS_HOT, bake, roots_and_tart, three_bakes
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, an_oven, hands_off

# ---- F2: 200 and 160 °C, in the wrong order


def test_f2_the_order_is_lifted_or_one_of_them_pays_33_minutes():
    # roots, 8 min down, 40 of tart: the roots would wait 48 of 15, or the tart comes 33 min later
    plan = roots_and_tart(orders=(Order("roots.bake", "tart.bake"),))
    found = offers(plan)
    assert found[0].kind is WayKind.LIFT_ORDER
    (wait,) = [way for way in found if way.kind is WayKind.WAIT_LONGER]
    assert [(each.dish, each.was, each.now) for each in wait.changes] == [("roots", 15, 48)]
    assert say_way(plan, wait) == "Let Roots wait 48 min instead of 15 until it is served."
    (later,) = [way for way in found if way.kind is WayKind.DISH_LATER]
    assert [(each.dish, each.now) for each in later.changes] == [("tart", 33)]


def test_f2_ranges_25_degrees_apart_with_a_tart_that_does_not_bend_are_not_offered_to_share():
    # both out 18:55 and warm: 190 to 210 and 155 to 165; a tart bears 5 either way and is left alone,
    # and the roots would have to go 200 - 165 = 35 °C down, more than the 25 that bend
    dishes = (
        bake("roots", 45, Heat(200, 190, 210), 0, course=-5),
        bake("tart", 40, Heat(160, 155, 165), 0, course=-5),
    )
    plan = a_plan(*dishes, kitchen=a_kitchen(oven=an_oven(heater=ALWAYS_HOT)), transfer=0)
    kinds = {way.kind for way in offers(plan)}
    assert WayKind.WIDER_HEAT not in kinds
    assert WayKind.DISH_LATER in kinds


# ---- F3: sharing by compromise, where the ranges just fail to meet


def gratin_and_potatoes():
    dishes = (
        bake("gratin", 60, Heat(180, 170, 190), 0, course=-5),
        bake("potatoes", 40, Heat(205, 195, 215), 0, course=-5),
    )
    return a_plan(*dishes, kitchen=a_kitchen(oven=an_oven(heater=ALWAYS_HOT)), transfer=0)


def test_f3_five_degrees_are_missing_and_either_may_give_them():
    # 170 to 190 and 195 to 215: 5 °C apart; the gratin up to 195, the potatoes down to 190, or 3 and 2
    plan = gratin_and_potatoes()
    found = only(plan, WayKind.WIDER_HEAT)
    assert all(way.smallest for way in found)
    told = {tuple((each.step, each.was, each.now) for each in way.changes) for way in found}
    assert told == {
        (("gratin.bake", 190, 195),),
        (("potatoes.bake", 195, 190),),
        (("gratin.bake", 190, 193), ("potatoes.bake", 195, 193)),
    }
    assert {each.unit for way in found for each in way.changes} == {Unit.DEGREES}
    for way in found:
        gratin, potatoes = (way.timetable.at[step, 0] for step in ("gratin.bake", "potatoes.bake"))
        assert gratin.setting == potatoes.setting
        assert 190 <= gratin.setting <= 195
    up = next(way for way in found if way.changes[0].now == 195)
    said = "Let Gratin: Bake bear up to 195 °C instead of 190; the time changes by 1 % a degree."
    assert say_way(plan, up) == said


# ---- F4: three dishes, two racks


def test_f4_one_of_the_two_longer_dishes_may_wait_30_instead_of_20():
    plan = three_bakes()
    found = only(plan, WayKind.WAIT_LONGER)
    best = [way for way in found if way.size == 10]
    assert {(way.changes[0].dish, way.changes[0].was, way.changes[0].now) for way in best} == {
        ("pie", 20, 30),
        ("tart", 20, 30),
    }
    assert all(way.smallest for way in best)
    assert best == list(found[:2])
    # the buns out at 18:15 leave the rack from then on: the tart in 18:15, pie out 19:00; 45 min old
    assert [(way.changes[0].dish, way.changes[0].now) for way in found[2:]] == [("buns", 45)]
    tart = next(way for way in best if way.changes[0].dish == "tart")
    assert say_way(plan, tart) == "Let Tart wait 30 min instead of 20 until it is served."


def test_f4_or_the_buns_come_ten_minutes_later():
    plan = three_bakes()
    way = only(plan, WayKind.DISH_LATER)[0]
    assert (way.changes[0].dish, way.changes[0].now, way.smallest) == ("buns", 10, True)
    assert say_way(plan, way) == "Serve Buns at 19:10 instead of 19:00."


# ---- F16: the roast is behind


def behind():
    """At 18:35 the pork has 24 min to go, out 18:59; squash at 210 °C on both racks, 8 min from 160; 19:30."""
    oven = an_oven(racks=2, heater=Heater(from_cold=((200, 18),), up=50 / 8, down=50 / 8))
    pork = a_dish(
        "pork",
        hands_off(
            "pork.roast", 24, uses=(Use(StationKind.OVEN, heat=Heat(160, 160, 160)),), clock=ClockTime(0, 1115)
        ),
        a_step("pork.carve", minutes=10, keeps=Keep(10)),
    )
    both = (Use(StationKind.OVEN, 2, heat=Heat(210, 195, 225)),)
    squash = a_dish("squash", hands_off("squash.bake", 35, uses=both), keep=Keep(20))
    grill = Station("grill", "Grill", StationKind.GRILL, 8)
    kitchen = a_kitchen(stations=(oven, grill))
    links = (a_link("pork.roast", "pork.carve", 20, 60),)
    return a_plan(pork, squash, links=links, kitchen=kitchen, transfer=0, opens=-75)


def test_f16_1942_or_squash_elsewhere_or_left_out():
    # out 18:59, 210 at 19:07, + 35 = 19:42, 12 min late; the pork then rests 19:32 - 18:59 = 33 min
    plan = behind()
    found = offers(plan)
    later = next(way for way in found if way.kind is WayKind.SERVE_LATER)
    assert (later.size, later.smallest) == (12, True)
    assert say_way(plan, later) == "Serve everything 12 min later, at 19:42."
    roast, carve = (later.timetable.loads_of[step][0] for step in ("pork.roast", "pork.carve"))
    assert carve.start - roast.end == 33
    grill = next(way for way in found if way.kind is WayKind.ELSEWHERE and way.changes[0].step == "squash.bake")
    assert grill.changes[0].station == "grill"
    oven = next(way for way in found if way.kind is WayKind.BORROW_STATION)
    assert oven.changes[0].name == "Borrowed oven"
    out = [way for way in found if way.kind is WayKind.LEAVE_OUT_DISH and way.changes[0].dish == "squash"]
    assert say_way(plan, out[0]) == "Leave out Squash."


def test_f16_on_the_day_with_the_pork_in_the_oven():
    # 18:35 is 55 min before 19:30; the probe says 24 min more, until 18:59; what has begun stays
    plan = replace(behind(), opens=None)
    day = Day(-55, (Fact("pork.roast", State.UNDER_WAY, -55, -31),))
    found = offers(plan, day=day)
    assert {(way.kind, way.size) for way in found if way.size > 1} == {
        (WayKind.DISH_LATER, 12),
        (WayKind.SERVE_LATER, 12),
    }
    assert {way.changes[0].dish for way in found if way.kind is WayKind.LEAVE_OUT_DISH} == {"squash"}
    assert {way.changes[0].step for way in found if way.kind is WayKind.ELSEWHERE} == {"squash.bake"}
    later = next(way for way in found if way.kind is WayKind.SERVE_LATER)
    assert later.timetable.at["pork.roast", 0].start == -55 - 12
