"""Not both: stations of one appliance are never used or heated in the same minute; that alone decides."""

from dataclasses import replace

import pytest

from core.plan.decisions import Pin
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import Heat, Holding, Keep, Use, Wait
from tests.core.arrange.arranged import meets, starts
from tests.core.arrange.ruled import fits, kitchen
from tests.support.builders import a_dish, a_plan, an_oven, burners, hands_off

HOT = Heater(from_cold=())
SLOW = Heater(from_cold=((200, 4),))
IN_OVEN, ON_GRILL = (Use(StationKind.OVEN, heat=Heat(200, 200, 200)),), (Use(StationKind.GRILL),)


def apart(*stations: Station, both: bool = False) -> tuple[Station, ...]:
    """Return stations of which the first names the others, or all name all."""
    return tuple(
        replace(each, not_with=tuple(other.id for other in stations if other is not each))
        if both or number == 0
        else each
        for number, each in enumerate(stations)
    )


def grill(units: int = 2, heater: Heater | None = None, name: str = "grill") -> Station:
    return Station(name, name, StationKind.GRILL, units, heater=heater)


def baked(keep: int | None, minutes: int = 10, **fields):
    return a_dish("bake", hands_off("bake.do", minutes, uses=IN_OVEN, **fields), keep=Keep(keep))


def grilled(keep: int | None, minutes: int = 10, **fields):
    return a_dish("grill", hands_off("grill.do", minutes, uses=ON_GRILL, **fields), keep=Keep(keep))


def plan(*dishes, stations, **fields):
    return a_plan(*dishes, kitchen=kitchen(*stations), transfer=0, **fields)


WAYS = [
    apart(an_oven(heater=HOT), grill()),
    apart(grill(), an_oven(heater=HOT)),
    apart(an_oven(heater=HOT), grill(), both=True),
]


@pytest.mark.parametrize("stations", WAYS)
def test_one_after_the_other_whoever_names_whom(stations):
    assert fits(plan(baked(0), grilled(10), stations=stations))
    assert not fits(plan(baked(0), grilled(9), stations=stations))
    assert fits(plan(baked(10), grilled(0), stations=stations))
    assert not fits(plan(baked(9), grilled(0), stations=stations))


def test_two_machines_are_used_at_once():
    assert fits(plan(baked(0), grilled(0), stations=(an_oven(heater=HOT), grill())))


def test_two_dishes_in_the_same_station_are_not_kept_apart():
    more = a_dish("more", hands_off("more.do", 10, uses=IN_OVEN), keep=Keep(0))
    assert fits(plan(baked(0), more, stations=apart(an_oven(heater=HOT), grill())))


def test_a_station_not_named_is_free():
    fry = a_dish("fry", hands_off("fry.do", 10, uses=(Use(StationKind.BURNER),)), keep=Keep(0))
    stations = (*apart(an_oven(heater=HOT), grill()), *burners(1))
    assert fits(plan(baked(0), fry, stations=stations))


# ---- heated


@pytest.mark.parametrize(("keep", "fit"), [(14, True), (13, False)])
def test_heating_up_counts(keep, fit):
    # the oven is on from -14, for the bake from -10
    assert fits(plan(baked(0), grilled(keep), stations=apart(an_oven(heater=SLOW), grill()))) is fit


@pytest.mark.parametrize(("keep", "fit"), [(10, True), (9, False)])
def test_cooling_down_does_not(keep, fit):
    assert fits(plan(baked(keep), grilled(0), stations=apart(an_oven(heater=SLOW), grill()))) is fit


@pytest.mark.parametrize(("minutes", "fit"), [(10, True), (11, False)])
def test_through_a_pause_the_oven_is_kept_on_and_the_grill_may_be_used(minutes, fit):
    # bakes from -30 and from -10: ten minutes between
    other = a_dish("other", hands_off("other.do", 10, uses=IN_OVEN), keep=Keep(0))
    stations = apart(an_oven(heater=SLOW), grill())
    found = plan(
        baked(None),
        other,
        grilled(20, minutes, earliest=-10 - minutes, latest=-10),
        stations=stations,
        pins=(Pin("bake.do", start=-30),),
    )
    assert fits(found) is fit


@pytest.mark.parametrize(
    ("keep_on", "minutes", "fit"), [(10, 10, True), (9, 10, False), (9, 6, True), (9, 7, False)]
)
def test_after_a_longer_pause_it_is_heated_again(keep_on, minutes, fit):
    # ten minutes between; where it is switched off, four of them are heating up
    other = a_dish("other", hands_off("other.do", 10, uses=IN_OVEN), keep=Keep(0))
    heater = replace(SLOW, keep_on=keep_on)
    found = plan(
        baked(None),
        other,
        grilled(20, minutes, earliest=-20, latest=-10),
        stations=apart(an_oven(heater=heater), grill()),
        pins=(Pin("bake.do", start=-30),),
    )
    assert fits(found) is fit


# ---- what uses it


@pytest.mark.parametrize(("keep", "fit"), [(15, True), (14, False)])
def test_food_that_waits_there_uses_it(keep, fit):
    # grilled until -5 at the latest and held on the grill until it is served; the bake is out by its beginning
    held = a_dish(
        "grill",
        hands_off("grill.do", 10, uses=ON_GRILL, latest=-5),
        keep=Keep(5, Wait(Holding.HOT, ON_GRILL[0])),
    )
    assert fits(plan(baked(keep), held, stations=apart(an_oven(heater=HOT), grill()))) is fit


@pytest.mark.parametrize(("keep", "fit"), [(20, True), (19, False)])
def test_three_of_one_machine_are_used_in_turn(keep, fit):
    smoke = a_dish("smoke", hands_off("smoke.do", 10, uses=(Use(StationKind.SMOKER),)), keep=Keep(10))
    three = apart(an_oven(heater=HOT), grill(), Station("smoker", "Smoker", StationKind.SMOKER), both=True)
    assert fits(plan(baked(0), smoke, grilled(keep), stations=three)) is fit


def test_of_three_that_two_may_be_used_at_once_which_are_not_named_by_each_other():
    # the oven names both, they do not name each other
    smoke = a_dish("smoke", hands_off("smoke.do", 10, uses=(Use(StationKind.SMOKER),)), keep=Keep(10))
    three = apart(an_oven(heater=HOT), grill(), Station("smoker", "Smoker", StationKind.SMOKER))
    timetable = meets(plan(baked(0), smoke, grilled(10), stations=three))
    assert starts(timetable) == {"bake.do": -10, "smoke.do": -20, "grill.do": -20}


def test_two_burners_of_one_plug_are_used_in_turn():
    # all alike, but not at once
    pans = [
        a_dish(name, hands_off(f"{name}.do", 5, uses=(Use(StationKind.BURNER),)), keep=Keep(keep))
        for name, keep in (("a", 0), ("b", 5))
    ]
    assert fits(plan(*pans, stations=apart(*burners(2))))
    pans[1] = replace(pans[1], keep=Keep(4))
    assert not fits(plan(*pans, stations=apart(*burners(2))))
    assert fits(plan(*pans, stations=burners(2)))
    assert fits(plan(*pans, stations=(*apart(*burners(2)), *burners(3)[2:])))


@pytest.mark.parametrize(("keep", "fit"), [(30, True), (29, False)])
def test_lighting_a_fire_counts_as_heating(keep, fit):
    # coals lit 20 min before the ten minutes on them, so from -30 on the drawer beneath is not used
    coals = Station("grill", "Grill", StationKind.GRILL, 2, lighting=20, burns=10)
    assert fits(plan(baked(keep), grilled(0), stations=apart(an_oven(heater=HOT), coals))) is fit


@pytest.mark.parametrize(("keep", "fit"), [(10, True), (9, False)])
def test_coals_that_burn_unused_do_not(keep, fit):
    # lit at -40 and ready at -20: the drawer is used until -10, and then the coals, which burn until 10
    coals = Station("grill", "Grill", StationKind.GRILL, 2, lighting=20, burns=30)
    assert fits(plan(baked(keep), grilled(0), stations=apart(an_oven(heater=HOT), coals))) is fit
