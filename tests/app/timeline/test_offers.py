"""What may be decided about a bar: the lists to choose from, by values."""

from __future__ import annotations

import pytest

from app.timeline import offers
from app.timeline.bar_facts import Sign, ordered, signed, signs_of
from app.timeline.bars import BarKind
from app.timeline.scene import Scene
from app.timeline.staging import stage
from app.timeline.stations import beside, other_stations
from core.plan.decisions import Choice, LengthOf, Order, Pin
from core.plan.edits import AddOrder, Choose, LiftPin, PinStep, RemoveOrder, SetLength, Together
from core.plan.step import Manner
from tests.app.timeline.decided import BAKE, BOIL, COOK, ROAST, decided_plan, open_plan
from tests.app.timeline.feast import the_timetable


def scene_of(plan=None, reading: str = "station") -> Scene:
    return stage(plan or open_plan(), the_timetable(), (), reading)


def bar_of(scene: Scene, step: str, kind: BarKind = BarKind.STEP):
    return next(
        (at, bar) for at, lane in enumerate(scene.lanes) for bar in lane.bars if bar.step == step and bar.kind is kind
    )


def words(found: list[offers.Offer]) -> list[str]:
    return [offer.words for offer in found]


def test_ways_are_offered_with_their_length_and_places() -> None:
    scene = scene_of()
    found = offers.way_offers(scene, bar_of(scene, ROAST)[1])
    assert words(found) == [
        "Roast to 60 °C, 1 h 20 min to 1 h 50 min, likely 1 h 30 min, oven",
        "Roast to 60 °C: in the hot oven, 1 h to 1 h 20 min, likely 1 h 10 min, oven",
        "Whichever fits best",
    ]
    assert [offer.edit for offer in found] == [Choose(ROAST, 0), Choose(ROAST, 1), Choose(ROAST, None)]
    assert [offer.so for offer in found] == [False, False, True]
    chosen = scene_of(open_plan(choices=(Choice(ROAST, 1),)))
    assert [offer.so for offer in offers.way_offers(chosen, bar_of(chosen, ROAST)[1])] == [False, True, False]
    assert offers.way_offers(scene, bar_of(scene, COOK)[1]) == []


@pytest.mark.parametrize("manner", [*Manner, None])
def test_lengths_say_how_cautious_they_are_and_what_that_comes_to(manner) -> None:
    lengths = () if manner is None else (LengthOf(ROAST, manner),)
    scene = scene_of(open_plan(lengths=lengths, manner=Manner.LIKELY))
    found = offers.length_offers(scene, bar_of(scene, ROAST)[1])
    # the pork may rest 30 to 60 minutes: its spread of 30 is borne, so the safe length is the slow one
    assert words(found) == [
        "likely length (1 h 30 min)",
        "with time to spare where it can wait (1 h 50 min)",
        "slow length (1 h 50 min)",
        "As the whole plan: likely length (1 h 30 min)",
    ]
    assert [offer.edit for offer in found] == [SetLength(ROAST, each) for each in (*Manner, None)]
    assert [offer.so for offer in found] == [each is manner for each in (*Manner, None)]
    assert offers.length_offers(scene, bar_of(scene, COOK)[1]) == [], "nothing to choose without a spread"


def test_a_place_or_a_cook_alone_may_be_pinned() -> None:
    scene = scene_of()
    place, cook = offers.pin_offers(scene, bar_of(scene, COOK)[1])
    assert (place.words, place.edit) == ("Keep it at Burner 2, at any time", PinStep(COOK, 0, station="burner-2"))
    assert (cook.words, cook.edit) == ("Leave it to Ann, at any time", PinStep(COOK, 0, cook="ann"))
    pinned = scene_of(open_plan(pins=(Pin(COOK, 0, -25),)))
    place = offers.pin_offers(pinned, bar_of(pinned, COOK)[1])[0]
    assert place.edit == Together(place.words, (LiftPin(COOK, 0), PinStep(COOK, 0, station="burner-2")))
    after = place.edit(pinned.plan)
    assert after.decisions.pins == (Pin(COOK, 0, None, "burner-2"),), "its time is free again"
    loose = scene_of(open_plan(pins=(Pin(COOK, 0, None, None, "ann"),)))
    assert [offer.so for offer in offers.pin_offers(loose, bar_of(loose, COOK)[1])] == [False, True]


def test_who_goes_first_is_asked_of_those_that_share_the_lane_or_the_place() -> None:
    scene = scene_of()
    at, bar = bar_of(scene, ROAST)
    found = offers.order_offers(scene, at, bar, first=True)
    assert words(found) == ["Potato gratin: Bake on the upper rack"]
    assert found[0].edit == AddOrder(ROAST, BAKE)
    assert offers.order_offers(scene, at, bar, first=False)[0].edit == AddOrder(BAKE, ROAST)
    known = scene_of(open_plan(orders=(Order(ROAST, BOIL),)))
    first, other = offers.order_offers(known, *bar_of(known, ROAST), first=True)
    assert (first.words, first.so) == ("Green beans: Bring water to the boil", True)
    assert first.edit == RemoveOrder(ROAST, BOIL)
    assert (other.edit, other.so) == (AddOrder(ROAST, BAKE), False)
    by_dish = scene_of(reading="dish")
    at, bar = bar_of(by_dish, ROAST)
    assert [offer.edit for offer in offers.order_offers(by_dish, at, bar, first=True)] == [AddOrder(ROAST, BAKE)], (
        "the dish's own steps are linked already; the gratin stands in the same oven"
    )


@pytest.mark.parametrize("reading", ["station", "dish", "cook"])
def test_other_places_and_cooks_are_known_in_every_reading(reading: str) -> None:
    scene = scene_of(reading=reading)
    kind = BarKind.STEP if reading != "cook" else BarKind.HAND
    found = [
        bar for lane in scene.lanes for bar in lane.bars if bar.step == COOK and bar.kind in (kind, BarKind.STEP)
    ]
    assert found
    assert [station.id for station in other_stations(scene, found[0])] == ["burner-1", "burner-3"]
    assert beside(scene, found[0], 1).id == "burner-3"
    assert beside(scene, found[0], -1).id == "burner-1"
    assert [(offer.words, offer.edit) for offer in offers.cook_offers(scene, found[0])] == [
        ("Ben", PinStep(COOK, 0, -25, None, "ben"))
    ]


def test_what_was_decided_is_shown_on_the_bar_by_signs() -> None:
    plan = decided_plan()
    scene = scene_of(plan)
    assert signs_of(scene, bar_of(scene, ROAST)[1]) == (Sign.PIN, Sign.WAY, Sign.LENGTH, Sign.ORDER)
    assert signs_of(scene, bar_of(scene, COOK)[1]) == (Sign.PLACE,)
    assert signs_of(scene, bar_of(scene, BAKE)[1]) == (Sign.LENGTH,)
    assert signs_of(scene, bar_of(scene, BOIL)[1]) == (Sign.WAY, Sign.ORDER)
    assert signs_of(scene, bar_of(scene, "gratin.slice")[1]) == ()
    touch = next(
        bar for lane in scene.lanes for bar in lane.bars if bar.step == BAKE and bar.kind is BarKind.HAND
    )
    assert signs_of(scene, touch) == (), "a touch is not the step"
    assert signed(plan) == {ROAST, COOK, BAKE, BOIL}
    assert ordered(plan) == {ROAST: ((), (BOIL,)), BOIL: ((ROAST,), ())}
