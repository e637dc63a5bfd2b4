"""Sizes in words, and which stations a step's vessels leave it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from core.plan import check
from core.plan.edits import ChangeVessel, PinStep, RemoveStation
from core.plan.fits import barred, fits
from core.plan.ids import StationId
from core.plan.kitchen import StationKind, Vessel
from core.plan.outline import goes_in, outline
from core.plan.plan import Plan
from core.plan.step import VesselUse
from tests.support.builders import a_bench, a_kitchen, a_room, a_use, a_vessel, an_oven, burners, hands_off

BIG, SMALL = an_oven("big", name="Big oven", wide=70, deep=50), an_oven("small", name="Small oven", wide=46, deep=38)
FULL = a_vessel("full", name="Full sheet", size="26x18 in")
HALF = a_vessel("half", name="Half sheet", size="18x13 in")


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("40x30 cm", ("40", "30")),
        ("30×40", ("40", "30")),
        ("530x325", ("53", "32.5")),
        ("35x25x6 cm", ("35", "25")),
        ("26x18 in", ("66.04", "45.72")),
        ('13 x 9"', ("33.02", "22.86")),
        ("9 1/2 by 13 inches", ("33.02", "24.13")),
        ("28 cm", ("28", "28")),
        ("round 26 cm, 8 cm high", ("26", "26")),
        ("300 mm across", ("30", "30")),
        ("GN 1/1-65", ("53", "32.5")),
        ("gn2/1", ("65", "53")),
        ("30,5 cm x 20 cm", ("30.5", "20")),
    ],
)
def test_a_size_in_words_has_two_sides(text: str, sides: tuple[str, str]) -> None:
    assert outline(text) == tuple(Fraction(each) for each in sides)


@pytest.mark.parametrize("text", ["", "5 l", "large", "12 cm high", "GN 2/9", "1/0 cm", "for 8", "x" * 2000, "7"])
def test_a_size_may_tell_no_sides(text: str) -> None:
    assert outline(text) is None


def test_something_goes_in_either_way_round_and_with_no_room_to_spare() -> None:
    sides = (Fraction(40), Fraction(30))
    assert goes_in(sides, 40, 30)
    assert goes_in(sides, 30, 40)
    assert not goes_in(sides, 39, 39)
    assert not goes_in(sides, 50, 29)


def test_a_full_sheet_is_too_large_for_a_home_oven_and_a_half_sheet_is_not() -> None:
    """Common practice: a 26x18 in sheet does not go into a home oven of 46x38 cm inside, an 18x13 in one does."""
    assert not fits(FULL, SMALL)
    assert fits(HALF, SMALL)
    assert fits(FULL, BIG)


def test_what_a_vessel_says_itself_goes_before_its_size() -> None:
    assert fits(replace(FULL, fits=(SMALL.id,)), SMALL)
    assert not fits(replace(HALF, fits=(SMALL.id,)), BIG)
    assert fits(replace(HALF, fits=(SMALL.id,)), a_room())


def test_a_place_of_which_one_side_is_told_bears_anything() -> None:
    assert fits(FULL, replace(SMALL, deep=0))
    assert fits(replace(FULL, size="the large one"), SMALL)


def bake(*vessels: Vessel, kind: StationKind = StationKind.OVEN, **kitchen: object) -> Plan:
    uses = tuple(VesselUse(each.id) for each in vessels)
    step = hands_off("tart.bake", uses=(a_use(kind),), vessels=uses)
    stations = kitchen.pop("stations", (SMALL,))
    return a_bench(step, kitchen=a_kitchen(stations=stations, vessels=vessels, cooks=1))  # type: ignore[arg-type]


def test_a_step_whose_vessel_fits_nowhere_is_no_sound_plan() -> None:
    (sentence,) = check.problems(bake(FULL))
    assert sentence == (
        "Tart: Bake uses Full sheet (26x18 in), which does not fit Small oven (46x38 cm inside); use a smaller one or"
        " another place, or change what it fits under Kitchen."
    )
    assert check.problems(bake(HALF)) == ()
    assert check.problems(bake(FULL, stations=(SMALL, BIG))) == ()
    (sentence,) = check.problems(bake(FULL, stations=(SMALL, replace(SMALL, id=StationId("other")))))
    assert "fits none of the kitchen's ovens" in sentence


def test_two_vessels_that_fit_different_stations_only_are_said() -> None:
    one, two = burners(2)
    wok, kettle = a_vessel("wok", fits=(one.id,)), a_vessel("kettle", fits=(two.id,))
    (sentence,) = check.problems(bake(wok, kettle, kind=StationKind.BURNER, stations=(one, two)))
    assert "vessels of which each fits another burner, and none fits them all" in sentence


def test_a_pan_on_the_ring_beside_a_tray_in_the_oven() -> None:
    one, two = burners(2)
    pan, tray = a_vessel("pan", fits=(one.id,)), a_vessel("tray", fits=(BIG.id,))
    kitchen = a_kitchen(stations=(one, two, BIG, SMALL), vessels=(pan, tray))
    step = hands_off("a.b", uses=(a_use("burner"), a_use("oven")), vessels=(VesselUse(pan.id), VesselUse(tray.id)))
    assert [each.stations for each in barred(kitchen, step, step.uses)] == [{two.id}, {SMALL.id}]
    assert check.problems(a_bench(step, kitchen=kitchen)) == ()


def test_a_pin_where_the_vessel_does_not_fit_is_refused() -> None:
    plan = bake(FULL, stations=(SMALL, BIG))
    assert PinStep("tart.bake", station=BIG.id)(plan).decisions.pins
    with pytest.raises(ValueError, match="pinned to Small oven, where its vessel does not fit"):
        PinStep("tart.bake", station=SMALL.id)(plan)


def test_a_station_that_goes_leaves_what_vessels_fit() -> None:
    plan = bake(replace(HALF, fits=(SMALL.id, BIG.id)), stations=(SMALL, BIG))
    assert RemoveStation(BIG.id)(plan).kitchen.vessel[HALF.id].fits == (SMALL.id,)
    alone = bake(replace(HALF, fits=(BIG.id,)), stations=(SMALL, BIG))
    assert RemoveStation(BIG.id)(alone).kitchen.vessel[HALF.id].fits == ()


def test_a_vessel_may_not_be_made_too_large_for_its_step() -> None:
    plan = bake(HALF)
    with pytest.raises(ValueError, match="does not fit Small oven"):
        ChangeVessel(HALF.id, replace(HALF, size=FULL.size))(plan)
