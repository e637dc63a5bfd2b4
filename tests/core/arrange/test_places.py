"""Racks, shelves, burners, closed hours: plans in which a place alone decides."""

import pytest

from core.arrange import Fit
from core.plan.decisions import Pin
from core.plan.kitchen import Shelf, Station, StationKind, Window
from core.plan.menu import Dish
from core.plan.step import ClockTime, Holding, Keep, Loads, Use, Wait
from tests.core.arrange.arranged import ALWAYS_HOT, answer, bake, meets, refused, starts, where
from tests.support.builders import (
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_room,
    an_oven,
    burners,
    hands_off,
)


def among(*dishes: Dish, stations: tuple[Station, ...], **fields):
    return a_plan(*dishes, kitchen=a_kitchen(stations=stations), transfer=0, **fields)


def cooked(name: str, minutes: int, *uses: Use, keep: int | None = None, **fields) -> Dish:
    """Return a dish of one hands-off step that may wait."""
    return a_dish(name, hands_off(f"{name}.cook", minutes, uses=uses, **fields), keep=Keep(keep))


def pan(name: str, minutes: int, keep: int | None = None, units: int = 1, **fields) -> Dish:
    return cooked(name, minutes, Use(StationKind.BURNER, units, fields.pop("on", None)), keep=keep, **fields)


def hob(name: str, units: int) -> Station:
    return Station(name, name, StationKind.BURNER, units)


# ---- racks


@pytest.mark.parametrize(("racks", "fit"), [(3, Fit.MEETS), (2, Fit.IMPOSSIBLE)])
def test_racks_hold_as_many_as_they_are(racks, fit):
    dishes = [bake(name, 20, 180) for name in "abc"]
    plan = among(*dishes, stations=(an_oven(racks=racks, heater=ALWAYS_HOT),))
    assert answer(plan).fit is fit


# ---- shelves


def chilled(name: str, area: int, height: int = 5, *, raw: bool = False) -> Dish:
    return cooked(name, 60, Use(StationKind.FRIDGE, area=area, height=height, raw=raw), keep=0)


def shelf_of(timetable, step: str) -> int | None:
    return timetable.at[step, 0].spots[0].shelf


def test_raw_things_go_on_the_lowest_shelf_and_tall_ones_where_there_is_height():
    fridge = a_fridge(Shelf(1000, 10), Shelf(1000, 10), Shelf(1000, 25))
    dishes = (chilled("pie", 900), chilled("pork", 900, raw=True), chilled("jelly", 900, 20))
    timetable = meets(among(*dishes, stations=(fridge,)))
    found = {name: shelf_of(timetable, f"{name}.cook") for name in ("pie", "pork", "jelly")}
    assert found == {"pie": 1, "pork": 0, "jelly": 2}


def test_two_raw_things_need_the_lowest_shelf_after_each_other():
    fridge = a_fridge(Shelf(1000, 10), Shelf(1000, 10))
    refused(among(chilled("pork", 600, raw=True), chilled("hen", 600, raw=True), stations=(fridge,)))


def test_what_fits_by_sum_must_fit_by_shelf():
    fridge = a_fridge(Shelf(1000, 10), Shelf(1000, 10))
    refused(among(*(chilled(name, 600) for name in "abc"), stations=(fridge,)))  # 1,800 of 2,000
    meets(among(chilled("a", 600), chilled("b", 600), chilled("c", 400), stations=(fridge,)))


# ---- burners


@pytest.mark.parametrize(("count", "fit"), [(3, Fit.MEETS), (2, Fit.IMPOSSIBLE)])
def test_burners_hold_as_many_as_they_are(count, fit):
    assert answer(among(*(pan(name, 5, 0) for name in "abc"), stations=burners(count))).fit is fit


def test_a_wide_pan_takes_two_burners():
    timetable = meets(among(pan("a", 5, 0, units=2), pan("b", 5, 0), stations=burners(3)))
    assert len(set(where(timetable, "a.cook") + where(timetable, "b.cook"))) == 3
    refused(among(pan("a", 5, 0, units=2), pan("b", 5, 0), stations=burners(2)))


def test_loads_keep_their_burner():
    loads = Loads(2, 1, 3)
    timetable = meets(among(pan("a", 5, loads=loads), pan("b", 5, loads=loads), stations=burners(2)))
    for step in ("a.cook", "b.cook"):
        assert where(timetable, step, 0) == where(timetable, step, 1)
        first, second = timetable.loads_of[step]
        assert second.start >= first.end + 3


def test_between_two_loads_the_burner_is_free():
    # a and b: 5, 10 min of change-over, 5; in the 20 min there is a burner free for c only in that pause
    loads = Loads(2, 1, 10)
    dishes = (pan("a", 5, loads=loads), pan("b", 5, loads=loads), pan("c", 5))
    timetable = meets(among(*dishes, stations=burners(2), opens=-20))
    assert -15 <= starts(timetable)["c.cook"] <= -10


def test_three_rings_may_be_two_on_one_hob_and_one_on_another():
    plan = among(pan("a", 5, units=3), stations=(hob("left", 2), hob("right", 1)))
    assert sorted(where(meets(plan), "a.cook")) == ["left", "right"]


def test_a_wide_pan_may_stand_half_on_either_hob():
    dishes = (pan("a", 5, 0, units=2), pan("b", 5, 0, on="left"), pan("c", 5, 0, on="right"))
    timetable = meets(among(*dishes, stations=(hob("left", 2), hob("right", 2))))
    assert sorted(where(timetable, "a.cook")) == ["left", "right"]


def test_food_that_waits_on_a_burner_takes_it():
    # the soup is done by -5 and stays on its burner until plating, while something is in the pan
    def supper(count: int):
        hot = Wait(Holding.HOT, Use(StationKind.BURNER))
        soup = a_dish("soup", hands_off("soup.boil", 5, latest=-5), keep=Keep(10, hot))
        return among(soup, pan("pan", 5, 0), stations=burners(count))

    refused(supper(1))
    timetable = meets(supper(2))
    (stay,) = timetable.stays
    assert (stay.start, stay.end) == (-5, 0)
    assert stay.spots[0].station != where(timetable, "pan.cook")[0]


def test_food_that_need_not_wait_takes_no_burner():
    # ten minutes of one pan on the only burner; the other dish goes on at once, its wait of no minutes fits
    passed = a_dish("a", hands_off("a.one", 5), hands_off("a.two", 5), keep=Keep(0))
    links = (a_link("a.one", "a.two", 0, 0, wait=Wait(Holding.HOT, Use(StationKind.BURNER))),)
    timetable = meets(among(passed, pan("b", 10, 0), links=links, stations=burners(1)))
    assert timetable.stays == ()


# ---- worktop, hours


def test_a_worktop_without_end_still_needs_its_spot():
    timetable = meets(among(cooked("a", 5, Use(StationKind.ROOM)), stations=(a_room(),)))
    assert where(timetable, "a.cook") == ["room"]


def test_a_small_worktop_holds_as_many_as_it_has():
    table = Station("room", "Table", StationKind.ROOM, 1)
    refused(among(*(cooked(name, 5, Use(StationKind.ROOM), keep=0) for name in "ab"), stations=(table,)))


def cool_box() -> Station:
    """Return a cool box that is cold from 10:00 to 12:00 on the day; the builders plate at 19:30."""
    hours = (Window(0, 10 * 60, 12 * 60),)
    return Station("box", "Cool box", StationKind.FRIDGE, shelves=(Shelf(500, 20),), hours=hours)


def test_a_cool_box_is_there_in_its_hours_only():
    timetable = meets(among(cooked("a", 60, Use(StationKind.FRIDGE, area=400)), stations=(cool_box(),)))
    assert starts(timetable) == {"a.cook": -(8 * 60 + 30)}  # 11:00 to 12:00
    refused(among(cooked("a", 121, Use(StationKind.FRIDGE, area=400)), stations=(cool_box(),)))


def test_food_waits_in_it_in_its_hours_only():
    cold = Wait(Holding.FRIDGE, Use(StationKind.FRIDGE, area=400))
    dish = a_dish("a", hands_off("a.one", 5, clock=ClockTime(0, 11 * 60)), hands_off("a.two", 5))

    def waiting(minutes: int):
        links = (a_link("a.one", "a.two", minutes, minutes, wait=cold),)
        return among(dish, links=links, stations=(cool_box(),))

    meets(waiting(55))
    refused(waiting(56))
    meets(among(dish, links=(a_link("a.one", "a.two", 0, 0, wait=cold),), stations=(cool_box(),)))


def test_food_that_need_not_wait_needs_no_cool_box_at_any_hour():
    cold = Wait(Holding.FRIDGE, Use(StationKind.FRIDGE, area=400))
    dish = a_dish("a", hands_off("a.one", 5), hands_off("a.two", 5), keep=Keep(0))
    plan = among(dish, links=(a_link("a.one", "a.two", 0, 0, wait=cold),), stations=(cool_box(),))
    assert starts(meets(plan)) == {"a.one": -10, "a.two": -5}


# ---- pinned to a station


@pytest.mark.parametrize("load", [0, 1])
@pytest.mark.parametrize("burner", ["burner-1", "burner-2"])
def test_where_one_load_is_pinned_the_others_follow(load, burner):
    plan = among(
        pan("a", 5, loads=Loads(2, 1, 1)), stations=burners(2), pins=(Pin("a.cook", load, station=burner),)
    )
    timetable = meets(plan)
    assert where(timetable, "a.cook", 0) == where(timetable, "a.cook", 1) == [burner]


def test_of_two_burners_one_may_be_pinned():
    pins = (Pin("a.cook", station="burner-2"),)
    timetable = meets(among(pan("a", 5, units=2), stations=burners(3), pins=pins))
    assert "burner-2" in where(timetable, "a.cook")
    assert len(set(where(timetable, "a.cook"))) == 2


def test_of_two_pans_of_a_step_one_is_pinned():
    two = cooked("a", 5, Use(StationKind.BURNER), Use(StationKind.BURNER))
    timetable = meets(among(two, stations=burners(2), pins=(Pin("a.cook", station="burner-2"),)))
    assert sorted(where(timetable, "a.cook")) == ["burner-1", "burner-2"]


def test_a_pin_to_a_station_is_kept_even_where_it_makes_things_worse():
    pins = (Pin("a.cook", station="burner-1"), Pin("b.cook", station="burner-1"))
    dishes = (pan("a", 5), pan("b", 5))
    timetable = meets(among(*dishes, stations=burners(2), pins=pins))
    assert sorted(starts(timetable).values()) == [-10, -5]
    refused(among(*dishes, stations=burners(2), pins=pins, opens=-9))
