"""Acceptance scenarios of hands, grill and hob, placed by the scheduler; arithmetic beside each answer."""

from dataclasses import replace
from itertools import pairwise, permutations

import pytest

from core.arrange import Fit
from core.plan.decisions import Order, Pin
from core.plan.kitchen import Station, StationKind
from core.plan.menu import LinkKind
from core.plan.step import ClockTime, Holding, Keep, Loads, Use, Wait
from core.timetable.clash import ClashKind
from core.timetable.sweep import Held, levels
from tests.scenarios.arranged import SERVED, answer, at, impossible, only_clash, times
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_use, burners, hands_off

GRILL = Station("grill", "Grill", StationKind.GRILL, 12)


# ---- F5: the grill too small


def skewers(pieces: int = 24, a_load: int = 9, keep: int = 12):
    place = (Use(StationKind.GRILL, 12),)
    dish = a_dish(
        "skewers",
        hands_off("skewers.light", 20, uses=place),
        hands_off("skewers.grate", 10, uses=place),
        hands_off("skewers.grill", 8, uses=place, loads=Loads(pieces, a_load, change_over=2)),
        keep=Keep(keep),
    )
    links = (a_link("skewers.light", "skewers.grate", 0, 0), a_link("skewers.grate", "skewers.grill"))
    return a_plan(dish, links=links, kitchen=a_kitchen(stations=(GRILL,)), plating=SERVED, transfer=0)


def test_f5_three_loads_are_too_many_for_food_that_keeps_twelve_minutes():
    # 24 by 9: 3 loads, 3 x 8 + 2 x 2 = 28 min from 18:32; the first is out 18:40, 20 min old at 19:00, 8 too many
    outcome = impossible(skewers())
    clash = only_clash(outcome)
    assert (clash.kind, clash.by) == (ClashKind.WAITED_TOO_LONG, 20 - 12)
    assert [each.start for each in outcome.timetable.loads_of["skewers.grill"]] == [
        at("18:32"), at("18:42"), at("18:52")
    ]  # fmt: skip


def test_f5_a_covered_side_zone_of_twenty_minutes_mends_it():
    # 18:32 - 10 for the grate - 20 for lighting = 18:02
    assert times(skewers(keep=20)) == {
        "skewers.light": "18:02",
        "skewers.grate": "18:22",
        "skewers.grill": "18:32",
        "skewers.grill/2": "18:42",
        "skewers.grill/3": "18:52",
    }


@pytest.mark.parametrize(("pieces", "a_load"), [(24, 12), (18, 9)])
def test_f5_two_loads_mend_it(pieces, a_load):
    # 2 x 8 + 2 = 18 min from 18:42; the first is out 18:50, 10 min old
    found = times(skewers(pieces, a_load))
    assert (found["skewers.light"], found["skewers.grill"], found["skewers.grill/2"]) == (
        "18:12",
        "18:42",
        "18:52",
    )


# ---- F6: one pair of hands at the end

WORK = {"gravy": (8, 30), "carve": (10, 10), "salad": (3, 5), "greens": (6, 5)}
RIGHT = ("gravy", "carve", "greens", "salad")


def last_half_hour(order: tuple[str, ...] = ()):
    dishes = [
        a_dish(name, a_step(f"{name}.do", minutes=minutes), keep=Keep(keep))
        for name, (minutes, keep) in WORK.items()
    ]
    orders = tuple(Order(f"{one}.do", f"{other}.do") for one, other in pairwise(order))
    return a_plan(*dishes, kitchen=a_kitchen(cooks=1), plating=SERVED, transfer=0, orders=orders)


def test_f6_feasible_in_one_order():
    # back from 19:00: salad 3 = 18:57, greens 6 = 18:51, carve 10 = 18:41, gravy 8 = 18:33; waits 0, 3, 9, 19
    plan = last_half_hour()
    assert times(plan) == {
        "gravy.do": "18:33",
        "carve.do": "18:41",
        "greens.do": "18:51",
        "salad.do": "18:57",
    }
    waits = {each.step: -each.end for each in answer(plan).timetable.placed}
    assert waits == {"gravy.do": 19, "carve.do": 9, "greens.do": 3, "salad.do": 0}


@pytest.mark.parametrize("order", [order for order in permutations(WORK) if order != RIGHT])
def test_f6_every_other_order_is_impossible(order):
    impossible(last_half_hour(order))


def test_f6_greens_last_lets_the_salad_wait_one_minute_too_long():
    clash = only_clash(impossible(last_half_hour(("gravy", "carve", "salad", "greens"))))
    assert (clash.kind, clash.by, clash.steps) == (ClashKind.WAITED_TOO_LONG, 6 - 5, ("salad.do",))


# ---- F7: a spread that waiting can absorb, and one that it cannot


def test_f7_the_braise_is_safe_and_the_souffle_cannot_be():
    # braise 240 at most, good 2 h: 15:00; soufflé spreads 28 - 22 = 6 over its 2 min: likely 25, in 18:35
    plan = a_plan(
        a_dish("braise", hands_off("braise.cook", (150, 180, 240)), keep=Keep(120, Wait(Holding.HOT))),
        a_dish("souffle", hands_off("souffle.bake", (22, 25, 28)), keep=Keep(2)),
        plating=SERVED,
        transfer=0,
    )
    assert times(plan) == {"braise.cook": "15:00", "souffle.bake": "18:35"}
    lengths = {each.step: each.length for each in answer(plan).timetable.placed}
    assert lengths == {"braise.cook": 240, "souffle.bake": 25}


# ---- F13: five pans, four burners

PANS = {
    "potatoes": ("18:20", "18:55"),
    "beans": ("18:50", "18:58"),
    "gravy": ("18:40", "18:55"),
    "braise": ("18:15", "19:00"),
    "fritters": ("18:42", "19:00"),
}


def pans(*free: str, pinned: bool = False, hob: bool = False):
    dishes, pins = [], []
    for name, (start, end) in PANS.items():
        fixed = None if name in free or pinned else ClockTime(0, at(start) + 19 * 60)
        step = hands_off(f"{name}.cook", at(end) - at(start), uses=(a_use("burner"),), clock=fixed)
        dishes.append(a_dish(name, step, keep=Keep(60 if name in free else None)))
        if pinned and name not in free:
            pins.append(Pin(f"{name}.cook", start=at(start)))
    stations = (Station("hob", "Hob", StationKind.BURNER, 4),) if hob else burners(4)
    kitchen = a_kitchen(stations=stations)
    return a_plan(*dishes, kitchen=kitchen, plating=SERVED, transfer=0, pins=tuple(pins))


def test_f13_five_on_four():
    clash = only_clash(impossible(pans(hob=True)))
    assert (clash.kind, clash.start, clash.end, clash.by) == (
        ClashKind.OVER_FULL,
        at("18:50"),
        at("18:55"),
        5 - 4,
    )
    impossible(pans())  # and with four burners of their own


def test_f13_with_pins_the_clash_is_where_five_stand_on_four():
    # potatoes and gravy end 18:55, five minutes into the beans; pins stay, so two share a burner
    clash = only_clash(impossible(pans(pinned=True)))
    assert (clash.kind, clash.start, clash.end, clash.by) == (
        ClashKind.OVER_FULL,
        at("18:50"),
        at("18:55"),
        1,
    )


@pytest.mark.parametrize("hob", [False, True])
def test_f13_the_gravy_in_a_flask_is_made_sooner(hob):
    # at 18:50 the beans make four without it, until 18:55; 15 min of gravy end by 18:50, so it starts by 18:35
    plan = pans("gravy", hob=hob)
    assert times(plan)["gravy.cook"] == "18:35"
    held = [Held(each.start, each.end, 1, each.step) for each in answer(plan).timetable.placed]
    assert max(level.amount for level in levels(held)) == 4


def test_f13_the_gravy_from_1805_meets():
    plan = pans("gravy")
    decisions = replace(plan.decisions, pins=(Pin("gravy.cook", start=at("18:05")),))
    assert times(replace(plan, decisions=decisions))["gravy.cook"] == "18:05"


# ---- F17: the coals run out


def coals(*more, most: int | None = 60, links=(), pins=()):
    """The chops must be done `most` minutes after the coals are ready at 17:20."""
    place = (a_use("grill", 12),)
    ready = a_step("coals.glow", minutes=25, attention="hands-off", clock=ClockTime(0, 16 * 60 + 55))
    leeks = hands_off("leeks.grill", 12, uses=place, loads=Loads(24, 8, change_over=2))
    chops = hands_off("chops.grill", 30, uses=place)
    own = [a_link("coals.glow", "leeks.grill"), a_link("leeks.grill", "chops.grill", 2)]
    if most is not None:
        own.append(a_link("coals.glow", "chops.grill", 0, most, kind=LinkKind.END_TO_END))
    return a_plan(
        a_dish("coals", ready, served=False),
        a_dish("leeks", leeks),
        a_dish("chops", chops),
        *more,
        links=(*own, *links),
        kitchen=a_kitchen(stations=(GRILL,)),
        plating=SERVED,
        transfer=0,
        pins=pins,
    )


def test_f17_twelve_minutes_past_the_coals():
    # 17:20 + 3 x 12 + 2 x 2 = 18:00; 18:02 + 30 = 18:32, 12 min past 17:20 + 60 = 18:20
    outcome = impossible(coals())
    clash = only_clash(outcome)
    assert (clash.kind, clash.by) == (ClashKind.WAITED_TOO_LONG, 12)
    loads = outcome.timetable.loads_of
    assert [each.start for each in loads["leeks.grill"]] == [at("17:20"), at("17:34"), at("17:48")]
    assert loads["leeks.grill"][-1].end == at("18:00")
    assert (loads["chops.grill"][0].start, loads["chops.grill"][0].end) == (at("18:02"), at("18:32"))


def test_f17_twelve_minutes_more_of_glow_are_just_enough():
    found = times(coals(most=72))
    assert (found["leeks.grill"], found["chops.grill"]) == ("17:20", "18:02")
    impossible(coals(most=71))


@pytest.mark.parametrize(("lit", "fit"), [("17:55", Fit.MEETS), ("17:56", Fit.IMPOSSIBLE)])
def test_f17_a_second_chimney_by_1755(lit, fit):
    # 5 to lay and 20 to catch: lit 17:55 it is ready 18:20, when the first one is spent
    second = a_dish(
        "chimney",
        hands_off("chimney.lay", 5),
        hands_off("chimney.catch", 20, latest=at("18:20")),
        served=False,
    )
    links = (
        a_link("chimney.lay", "chimney.catch", 0, 0),
        a_link("chimney.catch", "chops.grill", 0, 60, kind=LinkKind.END_TO_END),
    )
    plan = coals(second, most=None, links=links, pins=(Pin("chimney.lay", start=at(lit)),))
    assert answer(plan).fit is fit
