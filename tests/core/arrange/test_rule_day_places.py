"""The day in ovens, on fires and in vessels: what was heated, lit and washed before now; that alone decides."""

import pytest

from core.plan.decisions import Pin
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import Heat, Keep, Use, VesselUse
from core.timetable.timetable import Heating, Timetable, Washing
from tests.core.arrange.arranged import meets
from tests.core.arrange.daily import begun, done, dropped, fits_on, meets_on, on
from tests.core.arrange.ruled import between, kitchen
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_link,
    a_plan,
    a_step,
    a_vessel,
    an_oven,
    hands_off,
)

SLOW = Heater(from_cold=((200, 4),), keep_on=5)
HOT = (Use(StationKind.OVEN, heat=Heat(200, 200, 200)),)
ON_GRILL = (Use(StationKind.GRILL),)


def baked(name: str, minutes: int = 10, keep: int | None = 0, **fields):
    return a_dish(name, hands_off(f"{name}.bake", minutes, uses=HOT, **fields), keep=Keep(keep))


def in_oven(*dishes, racks: int = 2, cooks=1, **fields):
    return a_plan(
        *dishes, kitchen=kitchen(an_oven(racks=racks, heater=SLOW), cooks=cooks), transfer=0, **fields
    )


# ---- ovens


@pytest.mark.parametrize(("now", "fit"), [(-14, True), (-13, False)])
def test_an_oven_is_heated_from_now_at_the_soonest(now, fit):
    assert fits_on(in_oven(baked("a")), on(now)) is fit


@pytest.mark.parametrize(("end", "heatings"), [(-15, 0), (-10, 0), (-16, 1)])
def test_what_was_in_it_keeps_it_warm(end, heatings):
    # in from -10, five minutes of pause at most
    timetable = meets_on(
        in_oven(baked("a"), baked("b", keep=60)),
        on(-16, done("b.bake", -40, end) if end < -15 else begun("b.bake", -40, end)),
    )
    assert sum(each.start >= -16 for each in timetable.heatings) == heatings


@pytest.mark.parametrize("now", [-13, -12, -11, -10])
def test_an_oven_that_was_switched_on_goes_on_heating(now):
    # on since -14 by ann; too late to begin again
    plan = in_oven(baked("a"))
    seen = meets(plan)
    assert seen.heatings == (Heating("oven", -14, -10, 200, "ann"),)
    assert meets_on(plan, on(now), seen).heatings == seen.heatings
    if now > -14:
        assert not fits_on(plan, on(now))


def test_what_was_heated_for_what_is_done_is_not_forgotten():
    plan = in_oven(baked("a"))
    seen = meets(plan)
    assert meets_on(plan, on(-5, begun("a.bake", -10)), seen).heatings == seen.heatings


@pytest.mark.parametrize(("end", "fit"), [(-10, True), (-9, False)])
def test_what_is_in_it_takes_its_rack(end, fit):
    assert (
        fits_on(in_oven(baked("a"), baked("b", keep=60), racks=1), on(-20, begun("b.bake", -40, end))) is fit
    )


@pytest.mark.parametrize(("end", "fit"), [(-18, True), (-17, False)])
def test_what_is_in_it_holds_its_temperature(end, fit):
    # 160 is in, 200 is wanted from -10: eight minutes at five degrees
    use = (Use(StationKind.OVEN, heat=Heat(160, 160, 160)),)
    cool = a_dish("b", hands_off("b.bake", 10, uses=use), keep=Keep(60))
    plan = in_oven(baked("a"), cool)
    assert fits_on(plan, on(-25, begun("b.bake", -40, end))) is fit


# ---- fires


def coals(burns: int | None = 30, fires: int = 1, lighting: int = 20) -> Station:
    return Station(
        "grill", "Grill", StationKind.GRILL, 2, lighting=lighting, burns=burns, laying=5, fires=fires
    )


def meat(name: str, minutes: int = 10, keep: int | None = 0, **fields):
    return a_dish(name, hands_off(f"{name}.grill", minutes, uses=ON_GRILL, **fields), keep=Keep(keep))


def grilled(*dishes, grill: Station | None = None, cooks=1, **fields):
    return a_plan(*dishes, kitchen=kitchen(grill or coals(), cooks=cooks), transfer=0, **fields)


@pytest.mark.parametrize(("now", "fit"), [(-30, True), (-29, False)])
def test_a_fire_is_lit_from_now_at_the_soonest(now, fit):
    assert fits_on(grilled(meat("a")), on(now)) is fit


@pytest.mark.parametrize("now", [-29, -26, -25, -20, -10])
def test_a_fire_that_was_lit_is_the_fire(now):
    # lit at -30 by ann
    plan = grilled(meat("a"))
    seen = meets(plan)
    assert seen.heatings == (Heating("grill", -30, -10, 0, "ann"),)
    assert meets_on(plan, on(now), seen).heatings == seen.heatings


@pytest.mark.parametrize(("start", "fit"), [(-50, True), (-51, False)])
def test_a_fire_that_was_lit_burns_out(start, fit):
    # ready twenty minutes later and good for thirty
    seen = Timetable(heatings=(Heating("grill", start, start + 20, 0, "ann"),))
    assert fits_on(grilled(meat("a")), on(-25), seen) is fit


@pytest.mark.parametrize(("fires", "fit"), [(1, False), (2, True)])
def test_a_fire_that_has_burnt_out_was_one_of_those_there_are(fires, fit):
    # the first load was grilled on it long ago
    plan = grilled(meat("a"), meat("b", keep=None), grill=coals(fires=fires))
    seen = Timetable(heatings=(Heating("grill", -220, -200, 0, "ann"),))
    assert fits_on(plan, on(-60, done("b.grill", -200, -190)), seen) is fit


def test_a_fire_that_burns_is_not_lit_again():
    plan = grilled(meat("a"), meat("b", keep=None), grill=coals(burns=60, fires=2))
    seen = Timetable(heatings=(Heating("grill", -80, -60, 0, "ann"),))
    timetable = meets_on(plan, on(-45, done("b.grill", -60, -50)), seen)
    assert timetable.heatings == seen.heatings


@pytest.mark.parametrize(("cooks", "fit"), [(1, False), (2, True)])
def test_whoever_lays_a_fire_now_goes_on_with_it(cooks, fit):
    # laid from -30 to -25; chopping from -28 at the latest
    chop = a_dish("b", a_step("b.chop", minutes=28), keep=Keep(0))
    plan = grilled(meat("a"), chop, cooks=cooks)
    seen = Timetable(heatings=(Heating("grill", -30, -10, 0, "ann"),))
    assert fits_on(plan, on(-28), seen) is fit


# ---- vessels


def boiled(name: str, keep: int | None = None, minutes: int = 10, **fields):
    step = hands_off(f"{name}.boil", minutes, vessels=(VesselUse("pot"),), **fields)
    return a_dish(name, step, keep=Keep(keep))


def in_pots(*dishes, count: int = 1, by_hand: bool = True, cooks=1, **fields):
    pots = (a_vessel("pot", count, by_hand=by_hand),)
    return a_plan(*dishes, kitchen=kitchen(vessels=pots, cooks=cooks), transfer=0, **fields)


@pytest.mark.parametrize("by_hand", [True, False])
@pytest.mark.parametrize(("now", "fit"), [(-15, True), (-14, False)])
def test_what_is_dirty_now_is_washed_from_now_on(now, fit, by_hand):
    plan = in_pots(boiled("a"), boiled("b", 0), by_hand=by_hand)
    assert fits_on(plan, on(now, done("a.boil", -60, -50))) is fit


@pytest.mark.parametrize(("end", "fit"), [(-15, True), (-14, False)])
def test_what_is_in_use_is_washed_when_it_is_empty(end, fit):
    plan = in_pots(boiled("a"), boiled("b", 0))
    assert fits_on(plan, on(-20, begun("a.boil", -40, end))) is fit


@pytest.mark.parametrize("now", [-45, -44, -12])
def test_what_was_washed_is_clean(now):
    plan = in_pots(boiled("a"), boiled("b", 0))
    seen = Timetable(washings=(Washing("pot", -50, 5, "a.boil", "ann"),))
    timetable = meets_on(plan, on(now, done("a.boil", -60, -50)), seen)
    assert timetable.washings == seen.washings


@pytest.mark.parametrize(("cooks", "fit"), [(1, False), (2, True)])
def test_whoever_is_washing_goes_on_with_it(cooks, fit):
    # washed from -15 to -10 for b; chopping from -13 at the latest
    chop = a_dish("c", a_step("c.chop", minutes=13), keep=Keep(0))
    plan = in_pots(boiled("a"), boiled("b", 0), chop, cooks=cooks)
    seen = Timetable(washings=(Washing("pot", -15, 5, "a.boil", "ann"),))
    day = on(-13, done("a.boil", -60, -50))
    assert fits_on(plan, day, seen) is fit
    if fit:
        assert meets_on(plan, day, seen).washings == seen.washings


def test_what_was_done_with_one_pot_that_could_not_be_is_past():
    # two in the one pot one after the other, at once even: it happened; the third needs it washed
    plan = in_pots(boiled("a"), boiled("b"), boiled("c", 0))
    assert fits_on(plan, on(-15, done("a.boil", -60, -50), done("b.boil", -50, -40)))
    assert fits_on(plan, on(-15, done("a.boil", -60, -50), done("b.boil", -55, -40)))
    assert not fits_on(plan, on(-14, done("a.boil", -60, -50), done("b.boil", -50, -40)))


def test_what_began_sooner_than_the_pot_was_to_be_clean_is_past():
    plan = in_pots(boiled("a"), boiled("b", 0, 30))
    seen = meets(in_pots(boiled("a"), boiled("b", 0, 30), pins=(Pin("a.boil", start=-60),)))
    meets_on(plan, on(-20, done("a.boil", -60, -50), begun("b.boil", -48, 0)), seen)


def test_where_the_middle_is_dropped_the_pot_is_passed_on_no_longer():
    # sweat, simmer and keep warm in one pot, washed at the end; without the simmering it is washed twice
    steps = tuple(
        hands_off(f"a.{name}", 10, vessels=(VesselUse("pot"),)) for name in ("sweat", "simmer", "warm")
    )
    links = (a_link("a.sweat", "a.simmer"), a_link("a.simmer", "a.warm"))
    pots = kitchen(vessels=(a_vessel("pot"),))
    plan = a_bench(*steps, links=links, kitchen=pots)
    timetable = meets_on(plan, on(-60, dropped("a.simmer")))
    sweat, warm = (timetable.at[f"a.{name}", 0] for name in ("sweat", "warm"))
    first, then = sorted((sweat, warm), key=lambda each: each.start)
    assert then.start >= first.end + 5
    assert len(timetable.washings) == 1


# ---- what must not be moved with a cook who is away


def test_a_cook_who_went_home_is_not_asked_for_what_has_been_done():
    cooks = (a_cook("ann", breaks=(between(-50, 0),)), a_cook("ben"))
    chop, mix = a_step("a.chop", minutes=10), a_step("b.mix", minutes=10)
    plan = a_plan(a_dish("a", chop), a_dish("b", mix, keep=Keep(0)), kitchen=kitchen(cooks=cooks))
    day = on(-20, done("a.chop", -40, -30))
    timetable = meets_on(plan, day)
    assert {hand.cook for hand in timetable.at["b.mix", 0].hands} == {"ben"}
