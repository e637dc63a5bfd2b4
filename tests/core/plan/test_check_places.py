"""Checks of places: stations, shelves, temperatures, vessels."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.plan.check import problems
from core.plan.ids import StationId, VesselId
from core.plan.kitchen import Shelf, Station, StationKind
from core.plan.plan import Plan
from core.plan.step import Alternative, Heat, Keep, Span, VesselUse, Wait
from tests.support.builders import (
    GRILL,
    a_bench,
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_room,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
)

BOIL = a_step("soup.boil")
SERVE = a_step("soup.serve")


def two(kind: str) -> tuple[Station, ...]:
    return tuple(Station(StationId(f"{kind}-{number}"), kind, StationKind(kind)) for number in (1, 2))


def low_shelf() -> tuple[Station, ...]:
    return (replace(a_fridge(Shelf(800, 20), Shelf(1000, 20)), id=StationId("fridge-2"), name="Cellar"),)


def small_room() -> Station:
    return replace(a_room(), units=2)


CASES = [
    pytest.param(
        a_bench(a_step(uses=(a_use("smoker"),))),
        "Soup: Boil needs a smoker, and the kitchen has none; add one under Kitchen, or choose another"
        " place.",
        id="kind that the kitchen lacks",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("burner", 2),)), kitchen=a_kitchen(burning=1)),
        "Soup: Boil needs 2 rings, and Burner 1 has 1; give it fewer, or split it into loads.",
        id="two burners of one",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("burner", 5),))),
        "Soup: Boil needs 5 rings, and the burners together have 4; give it fewer, or split it into loads.",
        id="five burners of four",
    ),
    pytest.param(
        a_bench(a_step(uses=(at_oven(units=3),))),
        "Soup: Boil needs 3 racks, and Oven has 2; give it fewer, or split it into loads.",
        id="three racks of two",
    ),
    pytest.param(
        a_bench(a_step(uses=(at_oven(units=3),)), kitchen=a_kitchen(an_oven("oven-2"))),
        "Soup: Boil needs 3 racks, and the largest oven has 2; give it fewer, or split it into loads.",
        id="racks do not spread",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("machine", 2),)), kitchen=a_kitchen(*two("machine"))),
        "Soup: Boil needs 2 places, and the largest machine has 1; give it fewer, or split it into loads.",
        id="machines do not spread",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("burner", 3), a_use("burner", 2)))),
        "Soup: Boil takes 5 rings at once, and the kitchen's burners have 4 in all; give it fewer, or"
        " add one under Kitchen.",
        id="together too many",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("oven", station=StationId("stove")),))),
        'Soup: Boil is to stand at the station "stove", which the kitchen has not; choose one of its'
        " stations, or any of the kind.",
        id="named station that is gone",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("oven", station=GRILL),))),
        "Soup: Boil needs an oven, but Grill is a grill; choose another station, or any of the kind.",
        id="named station of another kind",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("burner", 2, station=StationId("burner-1")),))),
        "Soup: Boil needs 2 rings, and Burner 1 has 1; give it fewer, or split it into loads.",
        id="named station too small",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("burner", 0),))),
        "Soup: Boil takes 0 of a burner; give it 1 to 100000, or no place at all.",
        id="no units",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("fridge", area=-1),))),
        "Soup: Boil takes -1 cm² 0 cm high; give 0 to 100000 for both.",
        id="area below 0",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("oven", heat=Heat(200, 150, 190)),))),
        "Soup: Boil wants 200 °C and bears 150 to 190 °C; the setting must lie between them.",
        id="setting outside its range",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("oven", heat=Heat(200, 150, 900)),))),
        "Soup: Boil bears 150 to 900 °C; keep within -60 to 600 °C.",
        id="range beyond reason",
    ),
    pytest.param(
        a_bench(a_step(uses=(at_oven(260),))),
        "Soup: Boil wants 260 °C, but Oven goes from 50 to 250 °C; choose another setting or another place.",
        id="hotter than the oven",
    ),
    pytest.param(
        a_bench(a_step(uses=(at_oven(260),)), kitchen=a_kitchen(an_oven("oven-2"))),
        "Soup: Boil wants 260 °C, but Oven goes from 50 to 250 °C and Oven 2 goes from 50 to 250 °C;"
        " choose another setting or another place.",
        id="hotter than both ovens",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("fridge", area=2001),))),
        "Soup: Boil needs 2001 cm² on a shelf, and Fridge has none so large; give it less room, or"
        " change the shelves under Kitchen.",
        id="too large for any shelf",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("fridge", area=100, height=27, raw=True),))),
        "Soup: Boil needs 100 cm² and 27 cm of height on the lowest shelf, where raw things stand, and"
        " Fridge has none so large; give it less room, or change the shelves under Kitchen.",
        id="too high for the lowest shelf",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("fridge", area=900, raw=True),)), kitchen=a_kitchen(stations=low_shelf())),
        "Soup: Boil needs 900 cm² on the lowest shelf, where raw things stand, and Cellar has none so"
        " large; give it less room, or change the shelves under Kitchen.",
        id="raw needs the lowest shelf",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("fridge", area=9000),)), kitchen=a_kitchen(*low_shelf())),
        "Soup: Boil needs 9000 cm² on a shelf, and no fridge has one so large; give it less room, or"
        " change the shelves under Kitchen.",
        id="too large for both fridges",
    ),
    pytest.param(
        a_bench(a_step(uses=(a_use("room", 3),)), kitchen=a_kitchen(stations=(small_room(),))),
        "Soup: Boil needs 3 places, and Worktop has 2; give it fewer, or split it into loads.",
        id="room with too few units",
    ),
    pytest.param(
        a_bench(a_step(alternatives=(Alternative("smoked", Span.of(9), (a_use("smoker"),)),))),
        "Soup: Boil, the other way “smoked”, needs a smoker, and the kitchen has none; add one under"
        " Kitchen, or choose another place.",
        id="other way without a place",
    ),
    pytest.param(
        a_plan(a_dish("soup", keep=Keep(wait=Wait(use=a_use("hot box"))))),
        "Soup, waiting until it is served, needs a hot box, and the kitchen has none; add one under"
        " Kitchen, or choose another place.",
        id="waiting until it is served",
    ),
    pytest.param(
        a_bench(a_step(keeps=Keep(wait=Wait(use=a_use("hot box"))))),
        "Soup: Boil, waiting until it is served, needs a hot box, and the kitchen has none; add one"
        " under Kitchen, or choose another place.",
        id="step waiting until it is served",
    ),
    pytest.param(
        a_bench(BOIL, SERVE, links=(a_link("soup.boil", "soup.serve", wait=Wait(use=a_use("hot box"))),)),
        "Soup: Boil, waiting for Soup: Serve, needs a hot box, and the kitchen has none; add one under"
        " Kitchen, or choose another place.",
        id="waiting for the next step",
    ),
    pytest.param(
        a_bench(a_step(vessels=(VesselUse(VesselId("pot")),))),
        'Soup: Boil uses the vessel "pot", which the kitchen has not; add it under Kitchen, or take it'
        " out of the step.",
        id="missing vessel",
    ),
    pytest.param(
        a_bench(a_step(vessels=(VesselUse(VesselId("pot")),) * 2), kitchen=a_kitchen(vessels=(a_vessel(),))),
        "Soup: Boil names Pot twice; name it once, with how many.",
        id="vessel twice",
    ),
    pytest.param(
        a_bench(a_step(vessels=(VesselUse(VesselId("pot"), 0),)), kitchen=a_kitchen(vessels=(a_vessel(),))),
        "Soup: Boil uses 0 of Pot; give 1 or more.",
        id="none of a vessel",
    ),
    pytest.param(
        a_bench(a_step(vessels=(VesselUse(VesselId("pot"), 2),)), kitchen=a_kitchen(vessels=(a_vessel(),))),
        "Soup: Boil uses 2 of Pot, and the kitchen has 1; use fewer, or add one under Kitchen.",
        id="too few vessels",
    ),
]


@pytest.mark.parametrize(("plan", "sentence"), CASES)
def test_one_thing_wrong_gives_one_sentence_with_the_mend(plan: Plan, sentence: str) -> None:
    assert problems(plan) == (sentence,)
