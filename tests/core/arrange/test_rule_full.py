"""Full: in a station that is full with more than one dish everything takes longer; plans in which that decides."""

import pytest

from core.plan.decisions import Pin
from core.plan.kitchen import Heater, Shelf, Station, StationKind
from core.plan.step import Heat, Holding, Keep, Loads, Use, Wait
from tests.core.arrange.arranged import meets, starts, where
from tests.core.arrange.ruled import fits, kitchen, worked
from tests.support.builders import a_dish, a_link, a_plan, an_oven, hands_off


def oven(full: int = 10, racks: int = 2, name: str = "oven") -> Station:
    return an_oven(name, racks, Heater(from_cold=(), full=full))


def use(units: int = 1, setting: int = 180, spread: int = 0, station=None) -> Use:
    return Use(StationKind.OVEN, units, station, heat=Heat(setting, setting - spread, setting + spread))


def baked(name: str, minutes: int, keep: int | None = 0, taking: Use | None = None, **fields):
    return a_dish(
        name, hands_off(f"{name}.bake", minutes, uses=(taking or use(),), **fields), keep=Keep(keep)
    )


def in_oven(*dishes, ovens: tuple[Station, ...] = (), **fields):
    return a_plan(*dishes, kitchen=kitchen(*(ovens or (oven(),))), transfer=0, **fields)


def lengths(plan) -> dict[str, int]:
    return {each.step: each.length for each in meets(plan).placed}


# ---- when


@pytest.mark.parametrize(
    ("full", "minutes", "longer"),
    [(0, 20, 20), (10, 20, 22), (10, 15, 17), (10, 1, 2), (15, 60, 69), (100, 20, 40), (7, 45, 49)],
)  # 16.5, 1.1 and 48.15 are rounded up
def test_both_take_longer_where_two_dishes_fill_it(full, minutes, longer):
    plan = in_oven(baked("a", minutes), baked("b", minutes), ovens=(oven(full),))
    assert lengths(plan) == {"a.bake": longer, "b.bake": longer}


def test_where_a_rack_is_free_nothing_takes_longer():
    assert lengths(in_oven(baked("a", 20), baked("b", 20), ovens=(oven(racks=3),))) == {
        "a.bake": 20,
        "b.bake": 20,
    }


def test_a_dish_that_fills_it_alone_takes_no_longer():
    assert lengths(in_oven(baked("a", 20, taking=use(2)))) == {"a.bake": 20}
    two = a_dish("a", *(hands_off(f"a.{name}", 20, uses=(use(),)) for name in ("one", "other")), keep=Keep(0))
    assert lengths(in_oven(two)) == {"a.one": 20, "a.other": 20}


def test_of_three_all_take_longer():
    dishes = (baked("a", 20), baked("b", 30), baked("c", 40))
    assert lengths(in_oven(*dishes, ovens=(oven(racks=3),))) == {"a.bake": 22, "b.bake": 33, "c.bake": 44}


@pytest.mark.parametrize(("keep", "fit"), [(20, True), (19, False)])
def test_a_minute_together_is_enough(keep, fit):
    # b may begin at -21, so it must not be full: a is out by then, or at -20 at the latest
    assert fits(in_oven(baked("a", 20, keep), baked("b", 20, earliest=-21))) is fit


@pytest.mark.parametrize(("earliest", "fit"), [(-22, True), (-21, False)])
def test_the_longer_time_is_needed(earliest, fit):
    assert fits(in_oven(baked("a", 30), baked("b", 20, earliest=earliest))) is fit


@pytest.mark.parametrize(("end", "fit"), [(-22, True), (-21, False)])
def test_exactly_where_they_meet(end, fit):
    # b from -22 to -2 has twenty minutes and no more, so a is out when b comes in
    pins = (Pin("a.bake", start=end - 20), Pin("b.bake", start=-22))
    assert fits(in_oven(baked("a", 20, None), baked("b", 20, 2, latest=-2), pins=pins)) is fit


def test_touching_is_not_meeting():
    pins = (Pin("a.bake", start=-40), Pin("b.bake", start=-20))
    assert lengths(in_oven(baked("a", 20, None), baked("b", 20), pins=pins)) == {"a.bake": 20, "b.bake": 20}


def test_what_would_meet_only_by_being_longer_does_not_have_to():
    # a from -41: alone it is out at -21, before b from -20; with b from -22 they meet and both are longer
    pins = (Pin("a.bake", start=-41), Pin("b.bake", start=-20))
    assert lengths(in_oven(baked("a", 20, None), baked("b", 20), pins=pins)) == {"a.bake": 20, "b.bake": 20}
    pins = (Pin("a.bake", start=-41), Pin("b.bake", start=-22))
    assert lengths(in_oven(baked("a", 20, None), baked("b", 20), pins=pins)) == {"a.bake": 22, "b.bake": 22}


def test_the_change_for_the_setting_comes_first():
    # both at 190: 40 min less 10 % is 36, and a tenth is 39.6, so 40; 40 and 10 % is 44, and a tenth 48.4, so 49
    dishes = (
        baked("a", 40, taking=use(setting=180, spread=10)),
        baked("b", 40, taking=use(setting=200, spread=10)),
    )
    plan = in_oven(*dishes)
    assert {each.setting for each in meets(plan).placed} == {190}
    assert lengths(plan) == {"a.bake": 40, "b.bake": 49}


# ---- what fills it


@pytest.mark.parametrize(("racks", "length"), [(2, 22), (3, 20)])
def test_food_held_there_fills_it_too(racks, length):
    hot = Wait(Holding.HOT, use())
    held = a_dish("a", hands_off("a.bake", 10, uses=(use(),), latest=-30), keep=Keep(30, hot))
    assert lengths(in_oven(held, baked("b", 20), ovens=(oven(racks=racks),)))["b.bake"] == length


def test_food_of_its_own_dish_held_there_does_not():
    hot = Wait(Holding.HOT, use())
    one, other = hands_off("a.one", 10, uses=(use(),)), hands_off("a.other", 20, uses=(use(),))
    after = hands_off("a.mix", 5)
    links = (a_link("a.one", "a.mix", 20, 20, wait=hot), a_link("a.other", "a.mix", 0, 0))
    plan = in_oven(a_dish("a", one, other, after, keep=Keep(0)), links=links)
    assert lengths(plan) == {"a.one": 10, "a.other": 20, "a.mix": 5}


def test_each_load_by_itself():
    # two loads of ten one after the other; beside the second stands b
    dish = baked("a", 10, 30, loads=Loads(2, 1))
    plan = in_oven(dish, baked("b", 10), pins=(Pin("a.bake", 0, -30), Pin("a.bake", 1, -11)))
    found = {each.key: each.length for each in meets(plan).placed}
    assert found == {("a.bake", 0): 10, ("a.bake", 1): 11, ("b.bake", 0): 11}


@pytest.mark.parametrize(
    ("minutes", "hands"), [(2, [(-3, -2), (-1, 0)]), (3, [(-5, -4), (-1, 0)]), (1, [(-2, 0)])]
)
def test_putting_in_and_taking_out_are_one_visit_only_where_they_fill_its_true_length(minutes, hands):
    # a minute each: of two minutes one visit, of the three or five that they come to in the full oven two
    filler = hands_off("b.bake", 20, uses=(use(),))
    step = hands_off("a.bake", minutes, uses=(use(),), put_in=1, take_out=1)
    dishes = (a_dish("a", step, keep=Keep(0)), a_dish("b", filler, keep=Keep(0)))
    timetable = meets(in_oven(*dishes, ovens=(oven(50),)))
    assert worked(timetable, "a.bake") == hands


# ---- several ovens


def test_in_an_oven_each_nothing_takes_longer():
    plan = in_oven(
        baked("a", 20, earliest=-21), baked("b", 20, earliest=-21), ovens=(oven(), oven(name="other"))
    )
    timetable = meets(plan)
    assert where(timetable, "a.bake") != where(timetable, "b.bake")
    assert {each.length for each in timetable.placed} == {20}


@pytest.mark.parametrize(("first", "then"), [(10, 0), (0, 10), (10, 20), (20, 10)])
def test_each_oven_has_its_own_measure(first, then):
    # two dishes in either oven, by name
    ovens = (oven(first, name="one"), oven(then, name="two"))
    dishes = [
        baked(name, 20, taking=use(station=place))
        for name, place in zip("abcd", ("one", "one", "two", "two"), strict=True)
    ]
    found = lengths(in_oven(*dishes, ovens=ovens))
    assert found == {
        "a.bake": 20 + first // 5,
        "b.bake": 20 + first // 5,
        "c.bake": 20 + then // 5,
        "d.bake": 20 + then // 5,
    }


@pytest.mark.parametrize(("other", "fit"), [(0, True), (5, True), (10, True)])
def test_four_dishes_fill_two_ovens_of_different_measure(other, fit):
    ovens = (oven(10, name="one"), oven(other, name="two"))
    plan = in_oven(*(baked(name, 20) for name in "abcd"), ovens=ovens)
    assert fits(plan) is fit
    found = sorted(meets(plan).placed, key=lambda each: each.length)
    assert [each.length for each in found] == sorted([20 + other // 5, 20 + other // 5, 22, 22])
    assert starts(meets(plan)) == {each.step: -each.length for each in found}


def test_a_place_with_shelves_is_never_full_in_this_sense():
    shelves = (Shelf(1000, 20), Shelf(1000, 20))
    drawer = Station("oven", "Oven", StationKind.OVEN, 1, shelves, Heater(from_cold=(), full=50))
    stands = Use(StationKind.OVEN, 1, heat=Heat(180, 180, 180), area=800, height=5)
    plan = in_oven(baked("a", 20, taking=stands), baked("b", 20, taking=stands), ovens=(drawer,))
    assert lengths(plan) == {"a.bake": 20, "b.bake": 20}
