from __future__ import annotations

from app.timeline.thinking import Thinking, moved
from core.timetable.clash import ClashKind
from core.timetable.timetable import Timetable
from tests.app.timeline.feast import the_plan, the_timetable

BAKE, CARVE = ("gratin.bake", 0), ("pork.carve", 0)


def test_the_legal_stretch_is_what_the_links_leave() -> None:
    thinking = Thinking(the_plan(), the_timetable())
    # carving: at least 30 and at most 60 after the roast, done at plating at the latest and kept 10 min at most
    first, last = thinking.legal_stretch(CARVE)
    assert (first, last) == (-20, -10)


def test_dependents_are_pushed_no_more_than_they_must() -> None:
    thinking = Thinking(the_plan(), the_timetable())
    assert thinking.pushed(BAKE, -140) == {BAKE: -140, ("gratin.slice", 0): -160}
    assert thinking.pushed(BAKE, -120) == {BAKE: -120}


def test_clashes_come_from_the_validator() -> None:
    thinking = Thinking(the_plan(), the_timetable())
    late = thinking.clashes_if(BAKE, -50)
    assert any(clash.kind is ClashKind.LATE and "gratin.bake" in clash.steps for clash in late)
    sooner = thinking.clashes_if(BAKE, -110)
    assert not any(clash.kind is ClashKind.LATE for clash in sooner)


def test_a_moved_step_takes_hands_waits_and_heating_along() -> None:
    plan, before = the_plan(), the_timetable()
    after = moved(plan, before, {("pork.roast", 0): -150, ("curd.set", 0): -980})
    assert after.at["pork.roast", 0].start == -150
    assert (after.stays[0].start, after.stays[0].end) == (-500, 0)
    assert [(each.start, each.end) for each in after.heatings] == [(-164, -150)], "14 min from cold to 160 °C"
    shifted = moved(plan, before, {BAKE: -120})
    assert [hand.start for hand in shifted.at[BAKE].hands] == [-120, -75, -46]


def test_another_station_is_taken_over() -> None:
    after = moved(the_plan(), the_timetable(), {("beans.boil", 0): -40}, ("beans.boil", 0), "burner-3")
    assert [spot.station for spot in after.at["beans.boil", 0].spots] == ["burner-3"]


def test_a_stay_without_length_is_gone() -> None:
    after = moved(the_plan(), the_timetable(), {("curd.set", 0): -480})
    assert after.stays == ()


def test_nothing_moved_is_the_same() -> None:
    before = the_timetable()
    assert moved(the_plan(), before, {}) == Timetable(before.placed, before.stays, before.heatings)
