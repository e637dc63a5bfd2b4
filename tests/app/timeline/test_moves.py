"""The picture of moves: what moved between two timetables, where its old places are in each reading, and the arrows."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtGui import QImage

from app.timeline import Timeline
from app.timeline.bars import BarKind
from app.timeline.geometry import Box
from app.timeline.lanes import lanes_of
from app.timeline.moves import Compared, arrow, ghosts, moves
from core.timetable.timetable import Hand, Spot, Timetable
from tests.app.timeline.feast import ANN, BEN, the_plan, the_timetable

SLICE, BAKE, CARVE, BOIL = ("gratin.slice", 0), ("gratin.bake", 0), ("pork.carve", 0), ("beans.boil", 0)


def with_loads(*changed, without=()) -> Timetable:
    by_key = {each.key: each for each in changed}
    before = the_timetable()
    placed = tuple(by_key.get(each.key, each) for each in before.placed if each.key not in without)
    return replace(before, placed=placed)


def at(key, timetable=None):
    return (timetable or the_timetable()).at[key]


def later(key, minutes: int, **fields):
    old = at(key)
    hands = tuple(replace(each, start=each.start + minutes) for each in old.hands)
    return replace(old, start=old.start + minutes, hands=hands, **fields)


def test_moves_are_sorted_by_how_far_new_and_gone_ones_first() -> None:
    after = with_loads(
        later(BAKE, -20), later(SLICE, 5), replace(at(BOIL), spots=(Spot("burner-3"),)), without=(CARVE,)
    )
    found = moves(the_timetable(), after)
    assert [(each.key, each.minutes) for each in found] == [(CARVE, 0), (BAKE, -20), (SLICE, 5), (BOIL, 0)]
    assert found[0].after is None
    assert found[3].station == ("burner-1", "burner-3")
    assert moves(after, the_timetable())[0].key == CARVE


def test_another_cook_is_told_and_a_touch_at_another_minute_is_not() -> None:
    carve = at(CARVE)
    by_ann = replace(carve, hands=tuple(replace(each, cook=ANN) for each in carve.hands))
    bake = at(BAKE)
    touched = replace(bake, hands=(*bake.hands[:1], Hand(-80, 2, BEN), *bake.hands[2:]))
    (found,) = moves(the_timetable(), with_loads(by_ann, touched))
    assert (found.key, found.cooks, found.minutes) == (CARVE, ((BEN,), (ANN,)), 0)


def test_nothing_moves_between_a_timetable_and_itself() -> None:
    assert moves(the_timetable(), the_timetable()) == []


@pytest.mark.parametrize(
    ("reading", "lane"), [("station", "station:oven"), ("dish", "dish:gratin"), ("cook", "cook:ann")]
)
def test_the_old_place_is_shown_in_each_reading_with_where_it_went(reading: str, lane: str) -> None:
    plan, before, after = the_plan(), the_timetable(), with_loads(later(BAKE, -20))
    old, new = (lanes_of(plan, each, reading, -1200, 60) for each in (before, after))
    found = [each for each in ghosts(old, new, {BAKE}, reading == "cook") if new[each.lane].id == lane]
    assert found
    for ghost in found:
        assert ghost.to is not None
        assert ghost.to.start == ghost.bar.start - 20
        assert (ghost.lane, ghost.bar.row) == (ghost.to_lane, ghost.to.row)


def test_a_step_on_another_burner_leaves_its_outline_on_the_old_one() -> None:
    plan, before = the_plan(), the_timetable()
    after = with_loads(replace(at(BOIL), spots=(Spot("burner-3"),)))
    old, new = (lanes_of(plan, each, "station", -1200, 60) for each in (before, after))
    (ghost,) = ghosts(old, new, {BOIL}, hands=False)
    assert (new[ghost.lane].id, new[ghost.to_lane].id) == ("station:burner-1", "station:burner-3")


def test_by_station_hands_that_go_with_their_step_are_not_shown_twice() -> None:
    plan, before, after = the_plan(), the_timetable(), with_loads(later(CARVE, -10))
    old, new = (lanes_of(plan, each, "station", -1200, 60) for each in (before, after))
    assert {each.bar.kind for each in ghosts(old, new, {CARVE}, hands=False)} == {BarKind.STEP}
    by_ann = with_loads(replace(at(CARVE), hands=tuple(replace(each, cook=ANN) for each in at(CARVE).hands)))
    other = lanes_of(plan, by_ann, "station", -1200, 60)
    (ghost,) = ghosts(old, other, {CARVE}, hands=False)
    assert (other[ghost.lane].id, other[ghost.to_lane].id) == ("cook:ben", "cook:ann")


def test_what_is_new_and_what_is_gone() -> None:
    plan, before, after = the_plan(), the_timetable(), with_loads(without=(CARVE,))
    old, new = (lanes_of(plan, each, "dish", -1200, 60) for each in (before, after))
    (gone,) = ghosts(old, new, {CARVE}, hands=False)
    assert gone.to is None
    (come,) = ghosts(new, old, {CARVE}, hands=False)
    assert (come.bar, come.to.step) == (None, "pork.carve")


boxes = st.builds(Box, st.floats(0, 900), st.floats(0, 500), st.floats(1, 300), st.floats(8, 60))


@given(boxes, boxes)
def test_an_arrow_goes_from_the_old_box_to_the_edge_of_the_new_one(old: Box, new: Box) -> None:
    way = arrow(old, new)
    if way is None:
        assert abs(new.x - old.x) < 8 or abs(new.right - old.right) < 8
        return
    x, y, to_x, to_y = way
    near = 1e-6
    assert old.y - near <= y <= old.bottom + near
    if abs(old.y + old.h / 2 - new.y - new.h / 2) > 1:  # in one row the lower edge of the old box counts for both
        assert new.y - near <= to_y <= new.bottom + near
    straight = x == to_x
    assert straight or (x in (old.x, old.right) and to_x in (new.x, new.right))


# ---- on the widget


def painted(timeline: Timeline) -> QImage:
    return timeline.grab().toImage()


def test_outlines_and_arrows_are_painted_only_while_compared(timeline: Timeline) -> None:
    timeline.set_plan(the_plan(), with_loads(later(BAKE, -20)))
    plain = painted(timeline)
    timeline.scene.compared = Compared(the_plan(), the_timetable())
    timeline.viewport().update()
    shown = painted(timeline)
    assert shown != plain
    ghost = next(each for each in timeline.scene.compared.ghosts(timeline.scene) if each.bar.kind is BarKind.STEP)
    box = timeline.scene.box(ghost.lane, ghost.bar)
    changed = [
        (x, y)
        for x in range(round(box.x), round(box.right))
        for y in range(round(box.y), round(box.bottom))
        if shown.pixel(x, y) != plain.pixel(x, y)
    ]
    assert changed, "the old place has its outline"
    timeline.scene.compared = None
    timeline.viewport().update()
    assert painted(timeline) == plain


def test_what_is_compared_stays_through_readings_and_zoom(timeline: Timeline) -> None:
    timeline.set_plan(the_plan(), with_loads(later(BAKE, -20)))
    timeline.scene.compared = compared = Compared(the_plan(), the_timetable())
    for reading in ("dish", "cook", "station"):
        timeline.set_reading(reading)
        timeline.sight.zoom(1.5)
        assert timeline.scene.compared is compared
        found = compared.ghosts(timeline.scene)
        assert {each.key for each in found} == {BAKE}
        assert compared.ghosts(timeline.scene) is found, "worked out once for these lanes"
