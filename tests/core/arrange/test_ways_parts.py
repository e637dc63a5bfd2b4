"""Small parts of the ways out: prices, hours, fires, degrees that bend, the day seen from another plating."""

import pytest

from core.arrange.speak import ways as spoken
from core.arrange.ways.asking import later_day, moved
from core.arrange.ways.borrow_station import light_by
from core.arrange.ways.heats import room_to_bend
from core.arrange.ways.hours import window_of
from core.arrange.ways.prices import PRICES, price_of
from core.arrange.ways.seeking import PROPOSERS
from core.arrange.ways.way import WayKind
from core.plan.calendar import stretch_of
from core.plan.day import Day, Fact, State
from core.plan.decisions import Wishes
from core.plan.kitchen import Station, StationKind
from core.plan.step import Heat
from core.timetable.timetable import Hand, Heating, Placed, Spot, Timetable
from tests.support.builders import a_plan


@pytest.mark.parametrize("kind", list(WayKind))
def test_every_kind_is_sought_priced_and_spoken(kind):
    assert kind in PROPOSERS
    assert kind in PRICES
    assert kind in spoken._SAID
    assert price_of(kind, 0, Wishes()) >= 1


def test_larger_changes_cost_no_less_and_wishes_weigh():
    for kind in WayKind:
        assert price_of(kind, 20, Wishes()) >= price_of(kind, 10, Wishes())
    assert price_of(WayKind.WIDER_HEAT, 10, Wishes(oven=0)) < price_of(WayKind.WIDER_HEAT, 10, Wishes())
    assert price_of(WayKind.WIDER_HEAT, 10, Wishes(oven=10)) > price_of(WayKind.WIDER_HEAT, 10, Wishes())


@pytest.mark.parametrize("zone", ["Europe/London", "America/New_York"])
@pytest.mark.parametrize(
    ("start", "end"), [(-60, 0), (-1440, -1380), (-20 * 60, -18 * 60), (200, 400), (-1700, -1100), (-5, 1500)]
)
def test_a_window_covers_just_its_offsets(zone, start, end):
    plan = a_plan(zone=zone)
    assert stretch_of(plan, window_of(plan, start, end)) == (start, end)


def test_a_window_over_the_night_the_clocks_go_back():
    # on Sunday 25 October 2026 the clocks of London go back an hour at 02:00
    plan = a_plan(plating="2026-10-25 12:00")
    assert stretch_of(plan, window_of(plan, -16 * 60, -60)) == (-16 * 60, -60)


@pytest.mark.parametrize(
    ("heat", "up", "down"),
    [
        (Heat(180, 165, 195), 10, 10),  # 15 either way, 25 at most
        (Heat(200, 190, 210), 15, 15),
        (Heat(160, 155, 165), 0, 0),  # 5 either way: custard, cake, pastry
        (Heat(160, 130, 190), 0, 0),  # bears 30 already
        (Heat(160, 145, 165), 0, 0),  # one side delicate
    ],
)
def test_degrees_that_bend(heat, up, down):
    assert (room_to_bend(heat, 1), room_to_bend(heat, -1)) == (up, down)


def on_fire(*cooking: tuple[int, int], lit: tuple[int, ...] = (0, 55)) -> Timetable:
    placed = tuple(
        Placed(f"x.{number}", start, end - start, spots=(Spot("grill", 1),))
        for number, (start, end) in enumerate(cooking)
    )
    return Timetable(placed, heatings=tuple(Heating("grill", at, at + 25, 0) for at in lit))


@pytest.mark.parametrize(
    ("timetable", "by"),
    [
        (on_fire((25, 61), (67, 97)), 60),  # ready at 25, spent at 85: ready then, lit at 60
        (on_fire((25, 61), (100, 130)), 75),  # nothing cooks from 85 to 100: ready at 100
        (on_fire((25, 61), lit=(0,)), None),  # but one fire
        (on_fire((25, 85)), None),  # the second one is not needed
    ],
)
def test_by_when_the_second_fire_is_lit(timetable, by):
    grill = Station("grill", "Grill", StationKind.GRILL, 8, lighting=25, burns=60)
    assert light_by(grill, timetable) == by


def test_a_day_and_a_timetable_seen_from_a_later_plating():
    day = Day(-50, (Fact("x.a", State.DONE, -90, -60), Fact("x.b", State.UNDER_WAY, -55)))
    later = later_day(day, 12)
    assert later == Day(-62, (Fact("x.a", State.DONE, -102, -72), Fact("x.b", State.UNDER_WAY, -67)))
    assert later_day(day, 0) is day
    timetable = Timetable((Placed("x.a", -90, 30, hands=(Hand(-90, 5, "ann"),)),))
    there = moved(timetable, -12)
    assert (there.placed[0].start, there.placed[0].hands[0].start) == (-102, -102)
    assert moved(there, 12) == timetable
