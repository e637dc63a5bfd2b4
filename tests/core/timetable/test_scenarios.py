"""Pieces of the acceptance scenarios that a placed timetable answers; each figure is checked by hand there."""

from dataclasses import replace
from itertools import pairwise, permutations

import pytest

from core.plan.ids import StationId
from core.plan.kitchen import Heater, Shelf, Station, StationKind
from core.plan.menu import LinkKind
from core.plan.step import Heat, Holding, Keep, Loads, Use, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.load import area_curve, load_curve, peak, shelf_curves
from tests.core.timetable.laid import at as at_1930
from tests.core.timetable.laid import heating, laid, spot, the_clash, told
from tests.support.builders import (
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    an_oven,
    hands_off,
)

SERVED = "2026-09-26 19:00"


def at(clock: str) -> int:
    return at_1930(clock, 19 * 60)


def bake(name: str, minutes: int, heat: Heat | int, *, keep: int | None = None, **fields):
    """Return a dish that bakes on one rack and keeps so long."""
    if isinstance(heat, int):
        heat = Heat(heat, heat, heat)
    step = hands_off(f"{name}.bake", minutes, uses=(Use(StationKind.OVEN, heat=heat),), **fields)
    return a_dish(name, step, keep=Keep(keep))


# ---- F2: 200 °C and 160 °C in the same hour


def f2():
    """Preheat to 160 in 15 min; from 160 to 200 in 8 (5 °C a minute)."""
    oven = an_oven(heater=Heater(from_cold=((160, 15), (200, 20)), up=5.0, down=5.0))
    roots, tart = (
        bake("roots", 45, Heat(200, 190, 210), keep=15),
        bake("tart", 40, Heat(160, 155, 165), keep=360),
    )
    return a_plan(roots, tart, kitchen=a_kitchen(oven=oven), plating=SERVED)


def f2_at(plan, roots: str, tart: str, on: str):
    starts = {"roots.bake": at(roots), "tart.bake": at(tart)}
    return laid(plan, starts, heatings=[heating("oven", at(on), at(tart), 160)])


def test_f2_tart_first_as_late_as_can_be():
    plan = f2()
    assert not clashes(plan, f2_at(plan, "18:15", "17:27", "17:12"))


def test_f2_the_tart_one_minute_later_leaves_no_time_for_the_oven_to_climb():
    plan = f2()
    clash = the_clash(plan, f2_at(plan, "18:15", "17:28", "17:13"))
    assert told(clash) == (ClashKind.HEATING_MISSING, at("18:15"), at("18:16"), 1)
    assert (
        clash.sentence
        == "The oven takes 8 min from 160 to 200 °C and has 7 between Tart: Bake and Roots: Bake."
    )


def test_f2_the_roots_between_1800_and_1815():
    plan = f2()
    assert not clashes(plan, f2_at(plan, "18:00", "17:12", "16:57"))
    clash = the_clash(plan, f2_at(plan, "17:59", "17:11", "16:56"))
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("18:59"), at("19:00"), 1)
    clash = the_clash(plan, f2_at(plan, "18:16", "17:27", "17:12"))
    assert told(clash) == (ClashKind.LATE, at("19:00"), at("19:01"), 1)


def test_f2_they_cannot_share():
    plan = f2()
    both = {"roots.bake": at("18:15"), "tart.bake": at("18:20")}
    on = [heating("oven", at("17:55"), at("18:15"), 200)]
    found = clashes(plan, laid(plan, both, heatings=on))
    assert [told(clash) for clash in found] == [(ClashKind.OVEN_TEMPERATURE, at("18:20"), at("19:00"), 40)]
    # nor at any one setting: the ranges do not meet
    for setting in range(150, 216):
        same = laid(plan, both, settings=dict.fromkeys(both, setting))
        assert ClashKind.OVEN_TEMPERATURE in {clash.kind for clash in clashes(plan, same)}


# ---- F3: sharing by compromise


@pytest.mark.parametrize(
    ("setting", "gratin", "potatoes"),
    [(190, "18:01", "18:11"), (185, "17:58", "18:09"), (195, "18:04", "18:13")],
)
def test_f3_two_bakes_share_any_setting_of_both_ranges(setting, gratin, potatoes):
    oven = an_oven(heater=Heater(from_cold=()))
    dishes = (bake("gratin", 60, Heat(180, 165, 195)), bake("potatoes", 40, Heat(200, 185, 215)))
    plan = a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED)
    starts = {"gratin.bake": at(gratin), "potatoes.bake": at(potatoes)}
    timetable = laid(plan, starts, settings=dict.fromkeys(starts, setting))
    assert {each.end for each in timetable.placed} == {at("18:55")}
    assert not clashes(plan, timetable)


@pytest.mark.parametrize("setting", [184, 196])
def test_f3_outside_the_shared_range_is_wrong(setting):
    oven = an_oven(heater=Heater(from_cold=()))
    dishes = (bake("gratin", 60, Heat(180, 165, 195)), bake("potatoes", 40, Heat(200, 185, 215)))
    plan = a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED)
    starts = {"gratin.bake": at("17:50"), "potatoes.bake": at("18:05")}
    clash = the_clash(plan, laid(plan, starts, settings=dict.fromkeys(starts, setting)))
    assert (clash.kind, clash.by) == (ClashKind.OVEN_TEMPERATURE, 1)


# ---- F4: three dishes, two racks


def f4(keeps: int = 20):
    dishes = [bake(name, minutes, 180, keep=keep) for name, minutes, keep in (
        ("pie", 60, keeps), ("tart", 45, 20), ("buns", 30, 20))]  # fmt: skip
    oven = an_oven(racks=2, heater=Heater(from_cold=()))
    return a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED)


def out(pie: str, tart: str, buns: str) -> dict[str, int]:
    return {"pie.bake": at(pie) - 60, "tart.bake": at(tart) - 45, "buns.bake": at(buns) - 30}


def test_f4_the_ten_minutes_missing_are_named():
    plan = f4()
    clash = the_clash(plan, laid(plan, out("18:40", "19:00", "19:00")))
    assert told(clash) == (ClashKind.OVER_FULL, at("18:30"), at("18:40"), 1)
    assert clash.sentence == (
        "From 18:30 to 18:40 three things want the two racks in the oven: Pie: Bake, Tart: Bake and Buns: Bake."
    )


def test_f4_no_way_out_between_1840_and_1900_works():
    plan = f4()
    for pie in range(40, 61, 5):
        for tart in range(40, 61, 5):
            for buns in range(40, 61, 5):
                starts = {
                    "pie.bake": at("17:00") + pie,
                    "tart.bake": at("17:15") + tart,
                    "buns.bake": at("17:30") + buns,
                }
                found = clashes(plan, laid(plan, starts))
                assert [clash.kind for clash in found] == [ClashKind.OVER_FULL]
                assert found[0].start <= at("18:30")
                assert found[0].end >= at("18:40")


def test_f4_ten_minutes_more_of_waiting_mend_it():
    plan = f4(keeps=30)
    assert not clashes(plan, laid(plan, out("18:30", "19:00", "19:00")))


# ---- F5: the grill too small


@pytest.mark.parametrize(("a_load", "loads", "length", "old"), [(9, 3, 28, 20), (12, 2, 18, 10)])
def test_f5_the_first_load_is_old_when_the_last_is_done(a_load, loads, length, old):
    step = hands_off(
        "skewers.grill", 8, uses=(a_use("grill", a_load),), loads=Loads(24, a_load, change_over=2)
    )
    grill = Station(StationId("grill"), "Grill", StationKind.GRILL, a_load)
    plan = a_plan(
        a_dish("skewers", step, keep=Keep(12)), kitchen=a_kitchen(stations=(grill,)), plating=SERVED
    )
    starts = [at("19:00") - length + 10 * number for number in range(loads)]
    timetable = laid(plan, {"skewers.grill": starts})
    assert timetable.placed[-1].end == at("19:00")
    if old <= 12:
        assert not clashes(plan, timetable)
        return
    clash = the_clash(plan, timetable)
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("18:52"), at("19:00"), old - 12)
    assert clash.sentence == (
        "The first load of Skewers: Grill is done at 18:40 and waits 20 min until it is served; it can wait 12."
    )


# ---- F6: one pair of hands at the end

F6 = {"gravy": (8, 30), "pork": (10, 10), "greens": (6, 5), "salad": (3, 5)}


def f6():
    dishes = [
        a_dish(name, a_step(f"{name}.do", minutes=length), keep=Keep(keep))
        for name, (length, keep) in F6.items()
    ]
    return a_plan(*dishes, plating=SERVED, kitchen=a_kitchen(cooks=1))


def in_turn(*names: str) -> dict[str, int]:
    """Return the starts when each follows the one before and the last is done at 19:00."""
    start = at("19:00") - sum(F6[name][0] for name in names)
    found = {}
    for name in names:
        found[f"{name}.do"] = start
        start += F6[name][0]
    return found


def test_f6_the_one_good_order_is_clean():
    plan = f6()
    starts = in_turn("gravy", "pork", "greens", "salad")
    assert starts == {
        "gravy.do": at("18:33"),
        "pork.do": at("18:41"),
        "greens.do": at("18:51"),
        "salad.do": at("18:57"),
    }
    assert not clashes(plan, laid(plan, starts))


def test_f6_every_other_order_clashes():
    plan = f6()
    good = [order for order in permutations(F6) if not clashes(plan, laid(plan, in_turn(*order)))]
    assert good == [("gravy", "pork", "greens", "salad")]


def test_f6_greens_last_lets_the_salad_wait_six():
    plan = f6()
    clash = next(
        c
        for c in clashes(plan, laid(plan, in_turn("gravy", "pork", "salad", "greens")))
        if "Salad" in c.sentence
    )
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("18:59"), at("19:00"), 1)
    assert clash.sentence == "Salad: Do is done at 18:54 and waits 6 min until it is served; it can wait 5."


# ---- F9: Friday night's fridge

THINGS = {"panna-cotta": 1200, "pork": 1200, "braise": 900, "trout": 600, "dough": 600, "vegetables": 1000}


def f9(*, crate: bool):
    """Everything chills from 21:00 to 7:00; three shelves of 1,750 cm2."""
    names = [name for name in THINGS if crate or name != "vegetables"]
    dishes = [
        a_dish(name, hands_off(f"{name}.chill", 600, uses=(
            a_use("fridge", area=THINGS[name], raw=name == "pork"),)))
        for name in names
    ]  # fmt: skip
    fridge = a_fridge(*[Shelf(1750, 30)] * 3)
    return a_plan(*dishes, kitchen=a_kitchen(stations=(fridge,)), plating="2026-09-26 19:00")


def f9_at(plan, **shelves: int):
    evening = at("21:00") - 24 * 60
    spots = {
        f"{name.replace('_', '-')}.chill": [spot("fridge", shelf=shelf)] for name, shelf in shelves.items()
    }
    return laid(plan, {str(step): evening for step in plan.steps}, spots=spots)


def test_f9_by_sum_it_is_over_by_250():
    plan = f9(crate=True)
    timetable = f9_at(plan, panna_cotta=1, pork=0, braise=2, trout=2, dough=1, vegetables=0)
    found = clashes(plan, timetable)
    whole = [clash for clash in found if "all of the fridge" in clash.sentence]
    evening = at("21:00") - 24 * 60
    assert [told(clash) for clash in whole] == [(ClashKind.OVER_FULL, evening, evening + 600, 250)]
    assert whole[0].sentence.startswith(
        "From Fri 21:00 to 07:00 all of the fridge is over-full by 250 cm²: it has 5,250, and "
    )
    assert whole[0].sentence.endswith(" want 5,500.")
    level = peak(area_curve(plan, timetable, StationId("fridge")))
    assert level == (evening, evening + 600, 5500)


def test_f9_without_the_crate_it_fits_by_sum_and_not_by_shelf():
    plan = f9(crate=False)
    apart = {"panna_cotta": 1, "pork": 0, "braise": 2, "trout": 2}
    for shelf, over in ((0, 50), (1, 50), (2, 350)):
        timetable = f9_at(plan, **apart, dough=shelf)
        clash = the_clash(plan, timetable)
        assert (clash.kind, clash.by) == (ClashKind.OVER_FULL, over)
        levels = [peak(curve) for curve in shelf_curves(plan, timetable, StationId("fridge"))]
        assert levels[shelf] is not None
        assert levels[shelf].amount == 1750 + over
        assert peak(area_curve(plan, timetable, StationId("fridge"))).amount == 4500


def test_f9_no_order_of_the_shelves_helps_and_moving_the_dough_does():
    plan = f9(crate=False)
    names = ("panna_cotta", "pork", "braise", "trout", "dough")
    free = [{}]
    for name in names:
        free = [{**each, name: shelf} for each in free for shelf in range(3) if name != "pork" or shelf == 0]
    assert len(free) == 81
    assert all(clashes(plan, f9_at(plan, **each)) for each in free)
    without = replace(plan, menu=replace(plan.menu, dishes=plan.menu.dishes[:-1]))
    assert not clashes(without, f9_at(without, panna_cotta=1, pork=0, braise=2, trout=2))


def test_f9_raw_pork_has_the_lowest_shelf():
    plan = f9(crate=False)
    plan = replace(plan, menu=replace(plan.menu, dishes=plan.menu.dishes[:-1]))
    clash = the_clash(plan, f9_at(plan, panna_cotta=0, pork=1, braise=2, trout=2))
    assert (
        clash.sentence
        == "Pork: Chill is raw and stands on shelf 2 of the fridge; raw things go on the lowest."
    )


# ---- F13: five pans, four burners

PANS = {
    "potatoes": ("18:20", "18:55"),
    "beans": ("18:50", "18:58"),
    "gravy": ("18:40", "18:55"),
    "braise": ("18:15", "19:00"),
    "fritters": ("18:42", "19:00"),
}


def f13():
    hob = Station(StationId("hob"), "Hob", StationKind.BURNER, 4)
    dishes = [
        a_dish(name, hands_off(f"{name}.cook", at(end) - at(start), uses=(a_use("burner"),)))
        for name, (start, end) in PANS.items()
    ]
    return a_plan(*dishes, kitchen=a_kitchen(stations=(hob,)), plating=SERVED)


def test_f13_five_on_four():
    plan = f13()
    starts = {f"{name}.cook": at(start) for name, (start, _end) in PANS.items()}
    clash = the_clash(plan, laid(plan, starts))
    assert told(clash) == (ClashKind.OVER_FULL, at("18:50"), at("18:55"), 1)
    assert clash.sentence == (
        "From 18:50 to 18:55 five things want the four burners: Braise: Cook, Potatoes: Cook, Gravy: Cook,"
        " Fritters: Cook and Beans: Cook."
    )
    assert peak(load_curve(plan, laid(plan, starts), StationId("hob"))) == (at("18:50"), at("18:55"), 5)


def test_f13_the_gravy_in_a_flask_mends_it():
    plan = f13()
    starts = {f"{name}.cook": at(start) for name, (start, _end) in PANS.items()} | {"gravy.cook": at("18:05")}
    assert not clashes(plan, laid(plan, starts))
    assert peak(load_curve(plan, laid(plan, starts), StationId("hob"))).amount == 4


# ---- F10: the dessert must set


def test_f10_the_mousse_sets_from_1530_and_is_half_an_hour_late():
    use = a_use("fridge", area=1000, height=5)
    lamb = a_dish("lamb", hands_off("lamb.keep", 60, uses=(use,)), hands_off("lamb.roast", 180))
    mousse = a_dish("mousse", hands_off("mousse.set", 360, uses=(use,)), course=120)
    plan = a_plan(lamb, mousse, links=(a_link("lamb.keep", "lamb.roast", wait=Wait(Holding.COUNTER)),),
                  kitchen=a_kitchen(stations=(a_fridge(Shelf(1000, 10)),)), plating=SERVED)  # fmt: skip
    roast = {"lamb.keep": at("14:30"), "lamb.roast": at("15:30")}
    clash = the_clash(plan, laid(plan, {**roast, "mousse.set": at("15:30")}))
    assert told(clash) == (ClashKind.LATE, at("21:00"), at("21:30"), 30)
    clash = the_clash(plan, laid(plan, {**roast, "mousse.set": at("15:00")}))
    assert told(clash) == (ClashKind.OVER_FULL, at("15:00"), at("15:30"), 1000)
    temper = {"lamb.keep": at("14:00"), "lamb.roast": at("15:30")}
    assert not clashes(plan, laid(plan, {**temper, "mousse.set": at("15:00")}))


# ---- F17: the coals run out


def test_f17_twelve_minutes_past_the_coals():
    """With the coals as a step and a limit: the chops must be done 60 min after they are ready (as a fire: fires)."""
    coals = a_dish("coals", hands_off("coals.glow", 25), served=False)
    leeks = hands_off("leeks.grill", 12, uses=(a_use("grill", 8),), loads=Loads(24, 8, change_over=2))
    chops = hands_off("chops.grill", 30, uses=(a_use("grill", 8),))
    grill = Station(StationId("grill"), "Grill", StationKind.GRILL, 8)
    links = (
        a_link("coals.glow", "leeks.grill"),
        a_link("leeks.grill", "chops.grill", 2),
        a_link("coals.glow", "chops.grill", 0, 60, kind=LinkKind.END_TO_END),
    )
    plan = a_plan(coals, a_dish("leeks", leeks), a_dish("chops", chops), links=links,
                  kitchen=a_kitchen(stations=(grill,)), plating=SERVED)  # fmt: skip
    starts = {
        "coals.glow": at("16:55"),
        "leeks.grill": [at("17:20"), at("17:34"), at("17:48")],
        "chops.grill": at("18:02"),
    }
    timetable = laid(plan, starts)
    assert timetable.loads_of[leeks.id][-1].end == at("18:00")
    clash = the_clash(plan, timetable)
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("18:20"), at("18:32"), 12)
    assert clash.sentence == (
        "Chops: Grill is done at 18:32, 1 h 12 min after Coals: Glow is done; at most 1 h is allowed."
    )
    twelve_sooner = replace(plan, menu=replace(plan.menu, links=(*links[:2], replace(links[2], most=72))))
    assert not clashes(twelve_sooner, timetable)


# ---- F20: a by-product feeds another dish


def test_f20_buttermilk_reaches_the_panna_cotta_in_time():
    butter = a_dish(
        "butter",
        hands_off("butter.warm", 8),
        hands_off("butter.culture", 20 * 60),
        hands_off("butter.chill", 240),
        hands_off("butter.churn", 25),
        served=False,
    )
    panna = a_dish("panna", hands_off("panna.pour", 10), hands_off("panna.set", 360), course=105)
    chain = ("butter.warm", "butter.culture", "butter.chill", "butter.churn", "panna.pour", "panna.set")
    links = tuple(a_link(one, other) for one, other in pairwise(chain))
    plan = a_plan(butter, panna, links=links, kitchen=a_kitchen(stations=()), plating=SERVED)
    friday = -24 * 60
    good = {
        "butter.warm": at("14:02") + friday,
        "butter.culture": at("14:10") + friday,
        "butter.chill": at("10:10"),
        "butter.churn": at("14:10"),
        "panna.pour": at("14:35"),
        "panna.set": at("14:45"),
    }
    assert not clashes(plan, laid(plan, good))
    for step, start in good.items():
        found = clashes(plan, laid(plan, {**good, step: start + 1}))
        assert [clash.by for clash in found] == [1]
