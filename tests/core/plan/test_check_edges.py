"""The least and the most of every number: allowed to the last, refused one beyond."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from core.measures.quantity import Quantity
from core.plan.check import problems
from core.plan.check_problem import LONGEST, MOST_AMOUNT, MOST_COUNT
from core.plan.decisions import Pin, Wishes
from core.plan.ids import StationId, VesselId
from core.plan.kitchen import Heater, Shelf, Station, StationKind, Window
from core.plan.menu import Ingredient
from core.plan.plan import Plan
from core.plan.step import Attention, ClockTime, Doneness, Heat, Keep, Loads, Touch, VesselUse, Wait
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_fridge,
    a_grill,
    a_kitchen,
    a_link,
    a_plan,
    a_room,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    burners,
    hands_off,
)

BOIL, SERVE = a_step("soup.boil"), a_step("soup.serve")
DAY = 24 * 60


def touched(at: int = 2, minutes: int = 1) -> Plan:
    return a_bench(a_step(minutes=10, attention=Attention.TENDED, touches=(Touch(at, minutes),)))


def linked(least: int, most: int | None) -> Plan:
    return a_bench(BOIL, SERVE, links=(a_link(BOIL.id, SERVE.id, least, most),))


def heated(**fields: int) -> Plan:
    return a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(**fields))))


def with_cook(**fields: object) -> Plan:
    return a_plan(kitchen=a_kitchen(cooks=(a_cook(**fields),)))


def shelved(area: int, height: int) -> Plan:
    return a_plan(kitchen=a_kitchen(stations=(a_fridge(Shelf(area, height)),)))


def baked(heat: Heat) -> Plan:
    return a_bench(a_step(uses=(a_use("oven", heat=heat),)), kitchen=a_kitchen(oven=an_oven(heater=None)))


EDGES: list[tuple[str, Callable[[int], Plan], int, int]] = [
    ("transfer", lambda n: a_plan(transfer=n), 0, 120),
    ("opens", lambda n: a_plan(opens=n), -LONGEST, LONGEST),
    ("year", lambda n: a_plan(plating=f"{n}-09-26 19:30"), 2000, 2199),
    ("written for", lambda n: a_plan(a_dish("soup", written_for=n)), 1, MOST_COUNT),
    ("wanted", lambda n: a_plan(a_dish("soup", wanted=n)), 1, MOST_COUNT),
    ("course", lambda n: a_plan(a_dish("soup", course=n)), -LONGEST, LONGEST),
    ("keeps", lambda n: a_plan(a_dish("soup", keep=Keep(n))), 0, LONGEST),
    ("step keeps", lambda n: a_bench(a_step(keeps=Keep(n))), 0, LONGEST),
    (
        "amount",
        lambda n: a_plan(a_dish("soup", ingredients=(Ingredient("leeks", Quantity(Fraction(n), "g")),))),
        0,
        MOST_AMOUNT,
    ),
    ("length", lambda n: a_bench(a_step(minutes=n)), 1, LONGEST),
    ("low", lambda n: a_bench(a_step(minutes=(n, 10, 20))), 1, 10),
    ("likely", lambda n: a_bench(a_step(minutes=(10, n, 20))), 10, 20),
    ("least piece", lambda n: a_bench(a_step(minutes=10, least_piece=n)), 1, 10),
    ("touch at", lambda n: touched(at=n), 0, 9),
    ("touch minutes", lambda n: touched(minutes=n), 1, 8),
    ("put in", lambda n: a_bench(hands_off(minutes=9, put_in=n)), 0, 9),
    ("take out", lambda n: a_bench(hands_off(minutes=9, take_out=n)), 0, 9),
    ("pieces", lambda n: a_bench(a_step(loads=Loads(n, MOST_COUNT))), 1, MOST_COUNT),
    ("per load", lambda n: a_bench(a_step(loads=Loads(1, n))), 1, MOST_COUNT),
    ("loads", lambda n: a_bench(a_step(loads=Loads(n, 1))), 1, 200),
    ("change-over", lambda n: a_bench(a_step(loads=Loads(2, 1, n))), 0, LONGEST),
    ("earliest", lambda n: a_bench(a_step(earliest=n)), -LONGEST, LONGEST),
    ("latest", lambda n: a_bench(a_step(latest=n)), -LONGEST, LONGEST),
    ("earliest before latest", lambda n: a_bench(a_step(minutes=10, earliest=n, latest=0)), -LONGEST, -10),
    ("clock minute", lambda n: a_bench(a_step(clock=ClockTime(0, n))), 0, DAY - 1),
    ("clock day", lambda n: a_bench(a_step(clock=ClockTime(n, 60))), -366, 366),
    ("core", lambda n: a_bench(a_step(doneness=Doneness(core=n))), -60, 350),
    ("rest", lambda n: a_bench(a_step(doneness=Doneness(rest=n))), 0, LONGEST),
    ("burners", lambda n: a_bench(a_step(uses=(a_use("burner", n),))), 1, 4),
    ("racks", lambda n: a_bench(a_step(uses=(at_oven(units=n),))), 1, 2),
    ("two shares", lambda n: a_bench(a_step(uses=(a_use("burner", 2), a_use("burner", n)))), 1, 2),
    ("area", lambda n: a_bench(a_step(uses=(a_use("fridge", area=n),))), 0, 2000),
    ("height", lambda n: a_bench(a_step(uses=(a_use("fridge", height=n),))), 0, 26),
    ("setting in the oven", lambda n: a_bench(a_step(uses=(at_oven(n),))), 50, 250),
    ("setting in its range", lambda n: baked(Heat(n, 160, 190)), 160, 190),
    ("lowest of a range", lambda n: baked(Heat(190, n, 190)), -60, 190),
    ("highest of a range", lambda n: baked(Heat(190, 180, n)), 190, 600),
    (
        "waiting area",
        lambda n: a_bench(
            BOIL, SERVE, links=(a_link(BOIL.id, SERVE.id, wait=Wait(use=a_use("fridge", area=n))),)
        ),
        0,
        2000,
    ),
    (
        "vessels",
        lambda n: a_bench(
            a_step(vessels=(VesselUse(VesselId("pot"), n),)), kitchen=a_kitchen(vessels=(a_vessel(count=3),))
        ),
        1,
        3,
    ),
    ("hands", lambda n: a_bench(a_step(hands=n), kitchen=a_kitchen(cooks=3)), 1, 3),
    ("least wait", lambda n: linked(n, None), 0, LONGEST),
    ("most wait", lambda n: linked(5, n), 5, LONGEST),
    ("oven racks", lambda n: a_plan(kitchen=a_kitchen(racks=n)), 1, MOST_COUNT),
    ("worktop", lambda n: a_plan(kitchen=a_kitchen(stations=(replace(a_room(), units=n),))), 0, MOST_COUNT),
    (
        "fridge units",
        lambda n: a_plan(kitchen=a_kitchen(stations=(replace(a_fridge(), units=n),))),
        0,
        MOST_COUNT,
    ),
    ("shelf area", lambda n: shelved(n, 20), 1, MOST_COUNT),
    ("shelf height", lambda n: shelved(900, n), 1, MOST_COUNT),
    ("lighting", lambda n: a_plan(kitchen=a_kitchen(stations=(replace(a_grill(), lighting=n),))), 0, LONGEST),
    ("burning", lambda n: a_plan(kitchen=a_kitchen(stations=(replace(a_grill(), burns=n),))), 1, LONGEST),
    ("lowest setting", lambda n: heated(lowest=n), -60, 250),
    ("highest setting", lambda n: heated(highest=n), 50, 600),
    ("rate up", lambda n: heated(up=n), 1, MOST_COUNT),
    ("rate down", lambda n: heated(down=n), 1, MOST_COUNT),
    ("kept on", lambda n: heated(keep_on=n), 0, LONGEST),
    ("cold", lambda n: heated(cold=n), -60, 199),
    ("minutes from cold", lambda n: heated(from_cold=((100, 5), (200, n))), 5, LONGEST),
    ("degrees from cold", lambda n: heated(from_cold=((100, 5), (n, 9), (200, 18))), 101, 199),
    ("vessel count", lambda n: a_plan(kitchen=a_kitchen(vessels=(a_vessel(count=n),))), 1, MOST_COUNT),
    ("washing", lambda n: a_plan(kitchen=a_kitchen(vessels=(a_vessel(washing=n),))), 0, LONGEST),
    ("night begins", lambda n: with_cook(night=(n, 720)), 0, DAY - 1),
    ("night ends", lambda n: with_cook(night=(720, n)), 0, DAY - 1),
    ("break begins", lambda n: with_cook(breaks=(Window(0, n, 2000),)), 0, DAY - 1),
    ("break ends", lambda n: with_cook(breaks=(Window(0, 600, n),)), 601, 600 + 14 * DAY),
    ("presence day", lambda n: with_cook(present=(Window(n, 0, 60),)), -366, 366),
    ("pinned load", lambda n: a_bench(a_step(loads=Loads(8, 4)), pins=(Pin(BOIL.id, n, 0),)), 0, 1),
    ("pinned start", lambda n: a_bench(BOIL, pins=(Pin(BOIL.id, start=n),)), -LONGEST, LONGEST),
    ("wish", lambda n: a_plan(wishes=Wishes(oven=n)), 0, 10),
]


@pytest.mark.parametrize(("made", "low", "high"), [pytest.param(*each, id=name) for name, *each in EDGES])
def test_the_least_and_the_most_pass_and_one_beyond_is_refused(
    made: Callable[[int], Plan], low: int, high: int
) -> None:
    assert problems(made(low)) == ()
    assert problems(made(high)) == ()
    assert len(problems(made(low - 1))) == 1
    assert len(problems(made(high + 1))) == 1


def test_a_cool_box_without_shelves_takes_what_the_fridge_cannot() -> None:
    box = Station(StationId("box"), "Cool box", StationKind.FRIDGE, 2)
    kitchen = a_kitchen(box)
    assert problems(a_bench(a_step(uses=(a_use("fridge", 2, area=5000),)), kitchen=kitchen)) == ()
    assert len(problems(a_bench(a_step(uses=(a_use("fridge", 3, area=5000),)), kitchen=kitchen))) == 1


def test_one_burner_of_three_rings_is_as_good_as_three_burners() -> None:
    hob = replace(burners(1)[0], units=3)
    assert problems(a_bench(a_step(uses=(a_use("burner", 3),)), kitchen=a_kitchen(stations=(hob,)))) == ()
    both = a_kitchen(hob, stations=burners(4)[1:])
    assert problems(a_bench(a_step(uses=(a_use("burner", 6),)), kitchen=both)) == ()
    assert len(problems(a_bench(a_step(uses=(a_use("burner", 7),)), kitchen=both))) == 1
