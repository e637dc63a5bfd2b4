"""Places: the right ones, units, shelves, hours, and the places of food that waits."""

from dataclasses import replace

import pytest

from core.plan.ids import StationId
from core.plan.kitchen import Shelf, Station, StationKind, Window
from core.plan.menu import LinkKind
from core.plan.step import Holding, Keep, Loads, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Stay, Timetable
from tests.core.timetable.laid import at, laid, spot, the_clash, told
from tests.support.builders import (
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_room,
    a_use,
    an_oven,
    burners,
    hands_off,
)

DAY = 24 * 60


def hob(units: int = 4) -> Station:
    return Station(StationId("hob"), "Hob", StationKind.BURNER, units)


def only(*stations: Station):
    """Return a kitchen of these stations."""
    return a_kitchen(stations=stations)


def boiling(*minutes: int, kitchen, units: int = 1, kind: str = "burner"):
    """Return a plan of pots "a", "b" ... that boil so many minutes."""
    dishes = [
        a_dish(name, hands_off(f"{name}.boil", each, uses=(a_use(kind, units),)))
        for name, each in zip("abcdefgh", minutes, strict=False)
    ]
    return a_plan(*dishes, kitchen=kitchen)


# ---- units


def test_units_may_be_filled_and_not_exceeded_by_a_minute():
    plan = boiling(20, 20, 20, kitchen=only(hob(2)))
    assert not clashes(
        plan, laid(plan, {"a.boil": at("18:00"), "b.boil": at("18:00"), "c.boil": at("18:20")})
    )
    clash = the_clash(plan, laid(plan, {"a.boil": at("18:00"), "b.boil": at("18:00"), "c.boil": at("18:19")}))
    assert told(clash) == (ClashKind.OVER_FULL, at("18:19"), at("18:20"), 1)
    assert clash.steps == ("a.boil", "b.boil", "c.boil")
    assert clash.stations == ("hob",)
    assert clash.sentence == (
        "From 18:19 to 18:20 three things want the two burners: A: Boil, B: Boil and C: Boil."
    )


def test_a_crowd_is_told_anew_when_somebody_comes_or_goes():
    plan = boiling(30, 30, 30, 10, kitchen=only(hob(2)))
    starts = {"a.boil": at("18:00"), "b.boil": at("18:00"), "c.boil": at("18:05"), "d.boil": at("18:10")}
    found = clashes(plan, laid(plan, starts))
    assert [(clash.start, clash.end, clash.by) for clash in found] == [
        (at("18:05"), at("18:10"), 1),
        (at("18:10"), at("18:20"), 2),
        (at("18:20"), at("18:30"), 1),
    ]


def test_one_burner_bears_one_pot():
    plan = boiling(20, 20, kitchen=only(*burners(2)))
    apart = {"b.boil": [spot("burner-2")]}
    assert not clashes(plan, laid(plan, {"a.boil": at("18:00"), "b.boil": at("18:00")}, spots=apart))
    clash = the_clash(plan, laid(plan, {"a.boil": at("18:00"), "b.boil": at("18:10")}))
    assert (clash.start, clash.end, clash.by) == (at("18:10"), at("18:20"), 1)
    assert clash.sentence == "From 18:10 to 18:20 two things want Burner 1 at once: A: Boil and B: Boil."


def test_wider_things_are_counted_in_units():
    oven = an_oven(racks=3, heater=None)
    plan = boiling(20, 20, kitchen=only(oven), units=2, kind="oven")
    clash = the_clash(plan, laid(plan, {"a.boil": at("18:00"), "b.boil": at("18:10")}))
    assert (clash.start, clash.end, clash.by) == (at("18:10"), at("18:20"), 1)
    assert clash.sentence == (
        "From 18:10 to 18:20 two things want 4 racks in the oven, which has 3: A: Boil (2) and B: Boil (2)."
    )


def test_a_thing_wider_than_its_station_is_over_full_alone():
    plan = boiling(20, kitchen=only(an_oven(racks=2, heater=None), an_oven("big", 3, None, name="Big oven")),
                   units=3, kind="oven")  # fmt: skip
    clash = the_clash(plan, laid(plan, {"a.boil": at("18:00")}))
    assert (clash.start, clash.end, clash.by) == (at("18:00"), at("18:20"), 1)
    assert clash.sentence == "From 18:00 to 18:20 A: Boil wants 3 racks in Oven, which has 2."
    assert not clashes(plan, laid(plan, {"a.boil": at("18:00")}, spots={"a.boil": [spot("big", 3)]}))


def test_units_of_other_kinds_have_their_words():
    grill = Station(StationId("grill"), "Grill", StationKind.GRILL, 2)
    plan = boiling(20, 20, 20, kitchen=only(grill), kind="grill")
    clash = the_clash(plan, laid(plan, {"a.boil": 0 - 20, "b.boil": -20, "c.boil": -20}))
    assert clash.sentence == (
        "From 19:10 to 19:30 three things want the two grate places on the grill: A: Boil, B: Boil and C: Boil."
    )


@pytest.mark.parametrize(("units", "number"), [(0, 0), (1, 1)])
def test_a_room_counts_only_where_it_has_units(units, number):
    plan = boiling(20, 20, kitchen=only(replace(a_room(), units=units)), kind="room")
    assert len(clashes(plan, laid(plan, {"a.boil": -20, "b.boil": -20}))) == number


def test_the_loads_of_a_step_go_on_being_the_same_thing():
    leeks = a_dish("leeks", hands_off("leeks.grill", 8, uses=(a_use("burner"),), loads=Loads(12, 6)))
    soup = a_dish("soup", hands_off("soup.boil", 30, uses=(a_use("burner"),)))
    plan = a_plan(leeks, soup, kitchen=only(hob(1)))
    clash = the_clash(plan, laid(plan, {"leeks.grill": [at("18:05"), at("18:13")], "soup.boil": at("18:00")}))
    assert (clash.start, clash.end) == (at("18:05"), at("18:21"))


# ---- the right place


POT = a_dish("pot", hands_off("pot.boil", 20, uses=(a_use("burner", 2),)))
TART = a_dish("tart", hands_off("tart.bake", 20, uses=(a_use("oven"),)))
START = {"pot.boil": at("18:00")}


def misplaced(plan, spots, **starts):
    step = next(iter(plan.steps))
    clash = the_clash(plan, laid(plan, {step: at("18:00"), **starts}, spots={step: spots}))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("18:00"), at("18:20"))
    assert clash.steps == (step,)
    return clash


def test_burners_may_be_apart():
    plan = a_plan(POT)
    good = [spot("burner-1"), spot("burner-4")]
    assert not clashes(plan, laid(plan, START, spots={"pot.boil": good}))
    one = a_plan(POT, kitchen=only(hob()))
    assert not clashes(one, laid(one, START))
    assert not clashes(one, laid(one, START, spots={"pot.boil": [spot("hob"), spot("hob")]}))


def test_a_thing_needs_its_places():
    clash = misplaced(a_plan(POT), [])
    assert (clash.by, clash.stations) == (2, ())
    assert clash.sentence == "Pot: Boil needs 2 burners and has no place on the timetable."
    clash = misplaced(a_plan(TART, kitchen=a_kitchen(oven=an_oven(heater=None))), [])
    assert clash.sentence == "Tart: Bake needs an oven and has no place on the timetable."


def test_a_thing_takes_as_many_units_as_it_needs():
    clash = misplaced(a_plan(POT), [spot("burner-1")])
    assert (clash.by, clash.stations) == (1, ("burner-1",))
    assert clash.sentence == "Pot: Boil takes 1 burner and needs 2."
    plan = a_plan(TART)
    clash = misplaced(plan, [spot("oven", 2)])
    assert clash.sentence == "Tart: Bake takes 2 racks and needs 1."
    clash = misplaced(plan, [spot("oven", -1)])
    assert (clash.by, clash.sentence) == (2, "Tart: Bake takes −1 rack and needs 1.")


def test_a_place_too_many_is_told():
    clash = misplaced(a_plan(POT), [spot("burner-1"), spot("burner-2"), spot("burner-3")])
    assert clash.stations == ("burner-3",)
    assert clash.sentence == "Pot: Boil stands on Burner 3, which it does not need."


def test_oven_racks_are_all_in_one_oven():
    wide = a_dish("tart", hands_off("tart.bake", 20, uses=(a_use("oven", 2),)))
    plan = a_plan(wide, kitchen=only(an_oven("left", 2, None), an_oven("right", 2, None)))
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00")}, spots={"tart.bake": [spot("right", 2)]}))
    found = clashes(
        plan, laid(plan, {"tart.bake": at("18:00")}, spots={"tart.bake": [spot("left"), spot("right")]})
    )
    assert [clash.sentence for clash in found] == [
        "Tart: Bake stands in Right, which it does not need.",
        "Tart: Bake takes 1 rack and needs 2.",
    ]


@pytest.mark.parametrize("kind", ["machine", "hot box"])
def test_other_places_of_several_units_are_one_place_too(kind):
    step = hands_off("dough.knead", 20, uses=(a_use(kind, 2),))
    one = Station(StationId("one"), "One", StationKind(kind), 2)
    stations = (one, Station(StationId("two"), "Two", StationKind(kind)))
    plan = a_plan(a_dish("dough", step), kitchen=only(*stations))
    assert not clashes(plan, laid(plan, {"dough.knead": at("18:00")}))
    apart = {"dough.knead": [spot("one"), spot("two")]}
    assert len(clashes(plan, laid(plan, {"dough.knead": at("18:00")}, spots=apart))) == 2


def test_places_of_one_unit_each_may_be_apart():
    step = hands_off("dough.rise", 20, uses=(a_use("hot box", 2),))
    stations = [Station(StationId(each), each, StationKind.HOT_BOX) for each in ("one", "two")]
    plan = a_plan(a_dish("dough", step), kitchen=only(*stations))
    apart = {"dough.rise": [spot("one"), spot("two")]}
    assert not clashes(plan, laid(plan, {"dough.rise": at("18:00")}, spots=apart))


def test_a_station_of_another_kind_is_the_wrong_place():
    clash = misplaced(a_plan(TART), [spot("grill")])
    assert clash.stations == ("grill",)
    assert clash.sentence == "Tart: Bake stands on the grill and needs an oven."
    clash = misplaced(a_plan(TART), [spot("room")])
    assert clash.sentence == "Tart: Bake stands at Worktop and needs an oven."


def test_a_named_station_is_the_one():
    tart = a_dish("tart", hands_off("tart.bake", 20, uses=(a_use("oven", station=StationId("right")),)))
    plan = a_plan(tart, kitchen=only(an_oven("left", 2, None), an_oven("right", 2, None)))
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00")}))
    clash = misplaced(plan, [spot("left")])
    assert clash.sentence == "Tart: Bake stands in Left and needs Right."


def test_a_station_that_is_not_there_is_told():
    clash = misplaced(a_plan(TART), [spot("kiln")])
    assert clash.sentence == 'Tart: Bake stands at "kiln", which is not in the kitchen.'


def test_of_two_places_the_one_that_lacks_is_told():
    step = hands_off("pan.sear", 20, uses=(a_use("oven"), a_use("burner")))
    plan = a_plan(a_dish("pan", step))
    clash = the_clash(plan, laid(plan, {"pan.sear": at("18:00")}, spots={"pan.sear": [spot("burner-1")]}))
    assert clash.sentence == "Pan: Sear needs an oven and has no place on the timetable."
    clash = the_clash(plan, laid(plan, {"pan.sear": at("18:00")}, spots={"pan.sear": [spot("oven")]}))
    assert clash.sentence == "Pan: Sear needs a burner and has no place on the timetable."


def test_room_temperature_is_anywhere_in_a_kitchen_without_a_place_for_it():
    dough = a_dish("dough", hands_off("dough.rise", 20, uses=(a_use("room"),)))
    plan = a_plan(dough, kitchen=only(hob()))
    assert not clashes(plan, laid(plan, {"dough.rise": at("18:00")}))
    there = a_plan(dough)
    assert not clashes(
        there, laid(there, {"dough.rise": at("18:00")}, spots={"dough.rise": [spot("room", 0)]})
    )
    assert misplaced(there, []).sentence == "Dough: Rise needs a room and has no place on the timetable."


def test_all_loads_stand_where_the_first_stands():
    step = hands_off("leeks.grill", 8, uses=(a_use("burner"),), loads=Loads(12, 6))
    plan = a_plan(a_dish("leeks", step))
    good = laid(plan, {"leeks.grill": [at("18:00"), at("18:08")]})
    assert not clashes(plan, good)
    first, second = good.placed
    clash = the_clash(plan, Timetable((first, replace(second, spots=(spot("burner-2"),)))))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("18:08"), at("18:16"))
    assert clash.stations == ("burner-2", "burner-1")
    assert clash.sentence == (
        "Load 2 of Leeks: Grill stands on Burner 2, the first load on Burner 1;"
        " all loads of a step stand in one place."
    )


# ---- shelves


TWO_SHELVES = (Shelf(1000, 20), Shelf(800, 10))


def cold(*things, shelves=TWO_SHELVES):
    """Return a plan of things (area, height, raw) that chill 60 minutes in a fridge, called a, b ..."""
    dishes = [
        a_dish(
            name, hands_off(f"{name}.chill", 60, uses=(a_use("fridge", area=area, height=height, raw=raw),))
        )
        for name, (area, height, raw) in zip("abcdefgh", things, strict=False)
    ]
    return a_plan(*dishes, kitchen=only(a_fridge(*shelves)))


def chilled(plan, *shelves: int | None, start: int = -60):
    names = [str(step) for step in plan.steps]
    spots = {name: [spot("fridge", shelf=shelf)] for name, shelf in zip(names, shelves, strict=True)}
    return laid(plan, dict.fromkeys(names, start), spots=spots)


def test_a_shelf_may_be_filled_and_not_exceeded_by_a_square_centimetre():
    plan = cold((600, 10, False), (400, 10, False))
    assert not clashes(plan, chilled(plan, 0, 0))
    plan = cold((600, 10, False), (401, 10, False))
    clash = the_clash(plan, chilled(plan, 0, 0))
    assert told(clash) == (ClashKind.OVER_FULL, -60, 0, 1)
    assert clash.stations == ("fridge",)
    assert clash.sentence == (
        "From 18:30 to 19:30 the lowest shelf of the fridge is over-full by 1 cm²: it has 1,000, and"
        " A: Chill (600) and B: Chill (401) want 1,001."
    )
    assert not clashes(plan, chilled(plan, 0, 1))


def test_all_shelves_together_are_told_when_no_order_of_them_helps():
    plan = cold((1000, 10, False), (800, 10, False), (5, 5, False))
    found = clashes(plan, chilled(plan, 0, 1, 1))
    assert [(clash.kind, clash.by) for clash in found] == [(ClashKind.OVER_FULL, 5)] * 2
    assert [clash.sentence for clash in found] == [
        (
            "From 18:30 to 19:30 all of the fridge is over-full by 5 cm²: it has 1,800, and A: Chill (1,000),"
            " B: Chill (800) and C: Chill (5) want 1,805."
        ),
        (
            "From 18:30 to 19:30 shelf 2 of the fridge is over-full by 5 cm²: it has 800, and B: Chill (800) and"
            " C: Chill (5) want 805."
        ),
    ]


def test_one_thing_may_be_too_large_for_its_shelf():
    plan = cold((900, 10, False), shelves=(Shelf(1000, 20), Shelf(800, 10, "door")))
    clash = the_clash(plan, chilled(plan, 1))
    assert clash.sentence == (
        "From 18:30 to 19:30 “door” of the fridge is over-full by 100 cm²: it has 800, and A: Chill (900)"
        " wants 900."
    )


def test_a_thing_may_not_be_higher_than_its_shelf():
    plan = cold((100, 10, False))
    assert not clashes(plan, chilled(plan, 1))
    plan = cold((100, 11, False))
    clash = the_clash(plan, chilled(plan, 1))
    assert told(clash) == (ClashKind.WRONG_PLACE, -60, 0, 1)
    assert clash.sentence == "A: Chill is 11 cm high, and shelf 2 of the fridge has 10."
    assert not clashes(plan, chilled(plan, 0))


def test_raw_things_stand_lowest():
    plan = cold((100, 5, True))
    assert not clashes(plan, chilled(plan, 0))
    clash = the_clash(plan, chilled(plan, 1))
    assert clash.kind is ClashKind.WRONG_PLACE
    assert clash.sentence == (
        "A: Chill is raw and stands on shelf 2 of the fridge; raw things go on the lowest."
    )


@pytest.mark.parametrize(
    ("shelf", "words"),
    [
        (None, "A: Chill has no shelf in the fridge."),
        (2, "A: Chill stands on shelf 3 of the fridge, which has 2."),
        (-1, "A: Chill stands on shelf 0 of the fridge, which has 2."),
    ],
)
def test_a_thing_in_a_place_with_shelves_has_one_of_them(shelf, words):
    plan = cold((100, 5, False))
    clash = the_clash(plan, chilled(plan, shelf))
    assert (clash.kind, clash.sentence) == (ClashKind.WRONG_PLACE, words)


def test_a_thing_that_takes_no_area_is_on_any_shelf():
    plan = cold((0, 0, False))
    for shelf in (None, 0, 1):
        assert not clashes(plan, chilled(plan, shelf))
    raw = cold((0, 0, True))
    assert clashes(raw, chilled(raw, None))


def test_a_cold_place_without_shelves_counts_units():
    counter = Station(StationId("slab"), "Slab", StationKind.COLD_COUNTER, 1)
    plan = boiling(20, 20, kitchen=only(counter), kind="cold counter")
    clash = the_clash(plan, laid(plan, {"a.boil": -40, "b.boil": -25}))
    assert (clash.start, clash.end, clash.by) == (-25, -20, 1)
    assert (
        clash.sentence == "From 19:05 to 19:10 two things want the cold counter at once: A: Boil and B: Boil."
    )


# ---- hours


def test_nothing_stands_in_a_place_that_is_not_there():
    box = Station(StationId("box"), "Cool box", StationKind.FREEZER, 4, hours=(Window(0, 17 * 60, 18 * 60),))
    plan = boiling(20, kitchen=only(box), kind="freezer")
    assert not clashes(plan, laid(plan, {"a.boil": at("17:00")}))
    assert not clashes(plan, laid(plan, {"a.boil": at("17:40")}))
    clash = the_clash(plan, laid(plan, {"a.boil": at("17:41")}))
    assert told(clash) == (ClashKind.WRONG_PLACE, at("18:00"), at("18:01"), 1)
    assert (
        clash.sentence == "A: Boil stands in the freezer from 18:00 to 18:01, when the freezer is not there."
    )
    found = clashes(plan, laid(plan, {"a.boil": at("16:55")}))
    assert [(clash.start, clash.end) for clash in found] == [(at("16:55"), at("17:00"))]


# ---- food that waits


def waiting(least: int = 0, loads: int = 1, keep: Keep = Keep()):  # noqa: B008  a value
    use = a_use("fridge", area=600, height=5)
    many = Loads(6 * loads, 6) if loads > 1 else None
    dish = a_dish(
        "pork",
        hands_off("pork.rub", 10, loads=many),
        hands_off("pork.roast", 10, loads=many),
        keep=keep,
    )
    link = a_link("pork.rub", "pork.roast", least, wait=Wait(Holding.FRIDGE, use))
    milk = a_dish("milk", hands_off("milk.chill", 60, uses=(a_use("fridge", area=500, height=5),)))
    return a_plan(dish, milk, links=(link,), kitchen=only(a_fridge(Shelf(1000, 10), Shelf(1000, 10)), hob()))


PORK = {"pork.rub": at("17:00"), "pork.roast": at("18:10"), "milk.chill": at("16:10")}


def test_food_that_waits_takes_its_place_from_end_to_start():
    plan = waiting()
    assert not clashes(plan, laid(plan, PORK))
    clash = the_clash(plan, laid(plan, {**PORK, "milk.chill": at("16:11")}))
    assert told(clash) == (ClashKind.OVER_FULL, at("17:10"), at("17:11"), 100)
    assert clash.steps == ("milk.chill", "pork.rub", "pork.roast")
    assert clash.sentence == (
        "From 17:10 to 17:11 the lowest shelf of the fridge is over-full by 100 cm²: it has 1,000, and"
        " Milk: Chill (500) and Pork: Rub (waiting) (600) want 1,100."
    )
    assert not clashes(plan, laid(plan, {**PORK, "milk.chill": at("18:10")}))
    clash = the_clash(plan, laid(plan, {**PORK, "milk.chill": at("18:09")}))
    assert (clash.start, clash.end) == (at("18:09"), at("18:10"))


def test_a_wait_without_its_place_is_missing():
    plan = waiting()
    clash = the_clash(plan, replace(laid(plan, PORK), stays=()))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.MISSING, at("17:10"), at("18:10"))
    assert clash.steps == ("pork.rub", "pork.roast")
    assert clash.sentence == (
        "Pork: Rub waits from 17:10 to 18:10, needs a fridge and has no place on the timetable."
    )


def test_no_wait_needs_no_place():
    plan = waiting()
    good = laid(plan, {**PORK, "pork.roast": at("17:10")})
    assert good.stays == ()
    assert not clashes(plan, good)
    stay = Stay(plan.menu.links[0].before, plan.menu.links[0].after, at("17:10"), at("17:10"))
    assert not clashes(plan, replace(good, stays=(stay,)))
    clash = the_clash(plan, replace(good, stays=(replace(stay, end=at("17:12")),)))
    assert told(clash) == (ClashKind.LENGTH, at("17:10"), at("17:12"), 2)
    assert clash.sentence == (
        "The place for what waits after Pork: Rub is kept from 17:10 to 17:12; nothing waits there."
    )


def test_a_place_is_kept_for_as_long_as_the_food_waits():
    plan = waiting()
    good = laid(plan, PORK)
    short = replace(good.stays[0], end=at("18:09"))
    clash = the_clash(plan, replace(good, stays=(short,)))
    assert told(clash) == (ClashKind.LENGTH, at("17:10"), at("18:10"), 1)
    assert clash.sentence == (
        "The place for what waits after Pork: Rub is kept from 17:10 to 18:09; it waits from 17:10 to 18:10."
    )


def test_a_stay_stands_where_it_may():
    plan = waiting()
    clash = the_clash(plan, laid(plan, PORK, stays={"pork.rub": [spot("hob")]}))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("17:10"), at("18:10"))
    assert clash.sentence == "What waits after Pork: Rub stands on the burner and needs a fridge."


def test_a_stay_too_many_is_told():
    plan = waiting()
    good = laid(plan, PORK)
    clash = the_clash(plan, replace(good, stays=(*good.stays, good.stays[0])))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("17:10"), at("18:10"))
    assert clash.sentence == (
        "A place is kept from 17:10 to 18:10 for what waits after Pork: Rub, which has one already."
    )
    for odd in (
        replace(good.stays[0], after=None),
        replace(good.stays[0], load=1),
        replace(good.stays[0], kind=LinkKind.START_TO_START),
    ):
        clash = the_clash(plan, replace(good, stays=(*good.stays, odd)))
        assert clash.sentence == (
            "A place is kept from 17:10 to 18:10 for what waits after Pork: Rub, which does not wait there."
        )


def test_food_waits_in_its_place_until_it_is_served():
    plan = waiting(keep=Keep(None, Wait(Holding.FRIDGE, a_use("fridge", area=600, height=5))))
    good = laid(plan, PORK)
    assert [(stay.before, stay.after, stay.start, stay.end) for stay in good.stays] == [
        ("pork.rub", "pork.roast", at("17:10"), at("18:10")),
        ("pork.roast", None, at("18:20"), 0),
    ]
    assert not clashes(plan, good)
    clash = the_clash(plan, replace(good, stays=good.stays[:1]))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.MISSING, at("18:20"), 0)
    assert clash.steps == ("pork.roast",)
    full = laid(plan, {**PORK, "milk.chill": at("18:30")})
    clash = the_clash(plan, full)
    assert (clash.kind, clash.start, clash.end) == (ClashKind.OVER_FULL, at("18:30"), 0)
    assert clash.steps == ("pork.roast", "milk.chill")


def test_paired_loads_wait_each_for_itself():
    plan = waiting(loads=2)
    good = laid(plan, {**PORK, "pork.rub": [at("17:00"), at("17:10")], "pork.roast": [at("17:20"), at("17:30")]},
                stays={"pork.rub": [spot("fridge", shelf=0)]})  # fmt: skip
    assert [(stay.load, stay.start, stay.end) for stay in good.stays] == [
        (0, at("17:10"), at("17:20")),
        (1, at("17:20"), at("17:30")),
    ]
    assert not clashes(plan, good)
    clash = the_clash(plan, replace(good, stays=good.stays[:1]))
    assert clash.sentence == (
        "Load 2 of Pork: Rub waits from 17:20 to 17:30, needs a fridge and has no place on the timetable."
    )


def test_food_stands_in_a_closed_place_while_it_waits():
    plan = waiting()
    fridge = replace(plan.kitchen.stations[0], hours=(Window(0, 0, 18 * 60),))
    plan = replace(plan, kitchen=only(fridge, hob()))
    clash = the_clash(plan, laid(plan, PORK))
    assert told(clash) == (ClashKind.WRONG_PLACE, at("18:00"), at("18:10"), 10)
    assert clash.sentence == (
        "What waits after Pork: Rub stands in the fridge from 18:00 to 18:10, when the fridge is not there."
    )


def test_other_days_are_named():
    plan = cold((600, 10, False), (401, 10, False))
    assert (
        "From Fri 19:30 to Fri 20:30 the lowest" in the_clash(plan, chilled(plan, 0, 0, start=-DAY)).sentence
    )
    found = the_clash(plan, chilled(plan, 0, 0, start=-9 * DAY))
    assert "From Thu 17 Sep 19:30 to Thu 17 Sep 20:30 the lowest" in found.sentence
