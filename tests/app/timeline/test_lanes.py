from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.timeline.bars import Bar, BarKind, Lane, LaneKind, Tail
from app.timeline.lanes import lanes_of
from app.timeline.staging import stage
from core.plan.decisions import Pin
from core.plan.plan import Plan
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Hand, Placed, Spot, Timetable
from tests.app.timeline.feast import the_plan, the_timetable
from tests.support.builders import a_bench, a_cook, a_kitchen, a_link, a_step, hands_off
from tests.support.strategies import plans


def lanes(reading: str = "station", plan: Plan | None = None, timetable: Timetable | None = None) -> dict[str, Lane]:
    found = lanes_of(plan or the_plan(), timetable or the_timetable(), reading, -1100, 60)
    return {lane.id: lane for lane in found}


def bar_of(lane: Lane, step: str, kind: BarKind = BarKind.STEP) -> Bar:
    return next(bar for bar in lane.bars if bar.step == step and bar.kind is kind)


def test_stations_stand_in_the_order_of_the_kitchen_then_worktop_then_hands() -> None:
    assert list(lanes()) == [
        "station:oven",
        "station:second-oven",
        "station:burner-1",
        "station:burner-2",
        "station:burner-3",
        "station:fridge",
        "worktop",
        "cook:ann",
        "cook:ben",
    ]
    assert [lane.joined for lane in lanes().values()][2:5] == [False, True, True], "burners belong together"


def test_dishes_stand_in_the_order_of_the_menu_with_their_codes() -> None:
    found = lanes("dish")
    assert [(lane.name, lane.code) for lane in found.values()] == [
        ("Potato gratin", "PG"),
        ("Roast pork", "RP"),
        ("Green beans", "GB"),
        ("Lemon curd", "LC"),
    ]
    assert {bar.step for bar in found["dish:pork"].bars} == {"pork.roast", "pork.carve"}


def test_two_things_in_the_oven_take_two_racks_and_a_third_is_over_full() -> None:
    oven = lanes()["station:oven"]
    assert (oven.rows, oven.room) == (2, 2)
    assert {bar_of(oven, "gratin.bake").row, bar_of(oven, "pork.roast").row} == {0, 1}
    more = Placed("beans.boil", -100, 15, spots=(Spot("oven"),))
    kept = [each for each in the_timetable().placed if each.step != "beans.boil"]
    fuller = lanes(timetable=Timetable((*kept, more)))["station:oven"]
    assert (fuller.rows, fuller.room) == (3, 2)
    assert bar_of(fuller, "beans.boil").row == 2


def test_hands_on_is_full_and_touches_are_notches() -> None:
    found = lanes()
    assert bar_of(found["worktop"], "gratin.slice").full
    bake = bar_of(found["station:oven"], "gratin.bake")
    assert not bake.full
    assert [(notch.start, notch.minutes, notch.does) for notch in bake.notches] == [
        (-130, 1, "in"),
        (-85, 2, "foil off"),
        (-56, 1, "out"),
    ]


def test_hands_lanes_show_who_does_what_when_and_the_oven_being_lit() -> None:
    ann = lanes()["cook:ann"]
    assert [(bar.start, bar.end, bar.step) for bar in ann.bars if bar.start > -200] == [
        (-174, -173, None),
        (-150, -130, "gratin.slice"),
        (-130, -129, "gratin.bake"),
        (-56, -55, "gratin.bake"),
        (-25, -20, "beans.cook"),
    ]
    night = next(shade for shade in ann.shades)
    assert (night.start, night.end) == (-1100, -750), "until 07:00; plating is at 19:30"


def test_two_things_at_once_in_one_pair_of_hands_take_two_rows() -> None:
    placed = (
        Placed("soup.cut", -30, 20, hands=(Hand(-30, 20, "ann"),)),
        Placed("soup.stir", -20, 10, hands=(Hand(-20, 10, "ann"),)),
        Placed("soup.salt", -5, 5, hands=(Hand(-5, 5, None),)),
    )
    plan = a_bench(a_step("soup.cut"), a_step("soup.stir"), a_step("soup.salt"))
    found = lanes(plan=plan, timetable=Timetable(placed))
    assert (found["cook:ann"].rows, found["cook:ann"].room) == (2, 1)
    assert found["cook:"].name == "Nobody found"


def test_a_wait_is_a_tail_that_breaks_at_its_limit() -> None:
    bake = bar_of(lanes()["station:oven"], "gratin.bake")
    assert bake.tail == Tail(-55, 0, -15)
    assert bake.tail.sound_until == -15
    roast = bar_of(lanes()["station:oven"], "pork.roast")
    assert roast.tail == Tail(-70, -12, None)
    assert roast.tail.sound_until == -12


def test_a_wait_in_a_scarce_place_is_a_bar_there_and_a_tail_by_dish() -> None:
    fridge = lanes()["station:fridge"]
    stay = bar_of(fridge, "curd.set", BarKind.STAY)
    assert (stay.start, stay.end) == (-510, 0)
    assert bar_of(fridge, "curd.set").tail is None
    assert bar_of(lanes("dish")["dish:curd"], "curd.set").tail == Tail(-510, 0, None)


def test_food_done_early_waits_from_then_on() -> None:
    # by default a length is reserved at its most where the wait has room for the spread; the wait counts from its least
    plan = a_bench(
        hands_off("soup.boil", (30, 40, 50)), a_step("soup.serve"), links=(a_link("soup.boil", "soup.serve", 0, 60),)
    )
    placed = (Placed("soup.boil", -150, 50), Placed("soup.serve", -50, 10))
    boil = bar_of(lanes("dish", plan, Timetable(placed))["dish:soup"], "soup.boil")
    assert boil.tail == Tail(-100, -50, -100 - 20 + 60)


def test_loads_that_feed_loads_wait_each_for_its_own() -> None:
    fry, dress = hands_off("soup.fry", 10), a_step("soup.dress", minutes=5)
    plan = a_bench(fry, dress, links=(a_link("soup.fry", "soup.dress", 0, 4),), kitchen=a_kitchen(cooks=(a_cook(),)))
    placed = (
        Placed("soup.fry", -60, 10),
        Placed("soup.fry", -50, 10, 1),
        Placed("soup.dress", -45, 5),
        Placed("soup.dress", -30, 5, 1),
    )
    found = lanes("dish", plan, Timetable(placed))["dish:soup"].bars
    tails = {bar.load: bar.tail for bar in found if bar.step == "soup.fry"}
    assert tails == {0: Tail(-50, -45, -46), 1: Tail(-40, -30, -36)}


def test_a_shelf_says_how_full_it_is() -> None:
    fridge = lanes()["station:fridge"]
    assert [track.name for track in fridge.tracks] == ["shelf 4", "shelf 3", "shelf 2", "lowest shelf"]
    second = fridge.tracks[2]
    assert [(level.start, level.end, level.amount) for level in second.filling] == [(-990, 0, 800)]
    assert second.area == 2000
    rows = {bar.row for bar in fridge.bars}
    assert rows == {second.row}, "the shelf's gauge stands below what is on it"
    assert second.rows == 2


def test_pins_show_on_their_own_load() -> None:
    plan = the_plan(pins=(Pin("gratin.bake", 0, -130),))
    found = lanes(plan=plan)
    assert bar_of(found["station:oven"], "gratin.bake").pinned
    assert not bar_of(found["station:oven"], "pork.roast").pinned


def test_machines_show_only_when_they_are_used() -> None:
    from core.plan.kitchen import Station, StationKind

    mixer = Station("mixer", "Mixer", StationKind.MACHINE)
    plan = a_bench(a_step("soup.cut"), kitchen=a_kitchen(mixer))
    assert "station:mixer" not in lanes(plan=plan, timetable=Timetable())
    used = Timetable((Placed("soup.cut", -30, 20, spots=(Spot("mixer"),)),))
    assert "station:mixer" in lanes(plan=plan, timetable=used)


def test_what_takes_no_units_of_a_room_stands_in_its_lane() -> None:
    plan = a_bench(a_step("soup.rest"), kitchen=a_kitchen())
    rests = Timetable((Placed("soup.rest", -30, 20, spots=(Spot("room", 0),)),))
    assert [bar.step for bar in lanes(plan=plan, timetable=rests)["station:room"].bars] == ["soup.rest"]


@pytest.mark.parametrize("reading", ["station", "dish"])
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_no_two_bars_overlap_in_a_row_and_nothing_is_lost(reading: str, plan: Plan) -> None:
    timetable = on_paper(plan)
    scene = stage(plan, timetable, (), reading, ppm=2.0)
    boxes = [(at, bar, box) for at, bar, box in scene.layout.boxes(scene.axis) if bar.kind is not BarKind.HEATING]
    for number, (at, bar, box) in enumerate(boxes):
        for other_at, other, other_box in boxes[number + 1 :]:
            if at == other_at and max(bar.start, other.start) < min(bar.end, other.end):
                assert not box.meets(other_box), (bar, other)
    shown = {bar.key for _at, bar, _box in boxes if bar.kind is BarKind.STEP}
    assert shown == {placed.key for placed in timetable.placed}
    for at, bar, box in boxes:
        assert scene.layout.tops[at] <= box.y
        assert box.bottom <= scene.layout.tops[at] + scene.layout.heights[at] + 0.01
        assert bar.until is None or bar.until >= bar.end or scene.lanes[at].kind is LaneKind.DISH


@settings(max_examples=30, suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans(), x=st.floats(0, 1), y=st.floats(0, 1))
def test_a_bar_in_a_random_feast_is_hit_in_its_middle(plan: Plan, x: float, y: float) -> None:
    scene = stage(plan, on_paper(plan), (), "station", ppm=3.0)
    for at, bar, box in scene.layout.boxes(scene.axis):
        if bar.kind is BarKind.HEATING or box.w < 2:
            continue
        found = scene.layout.hit(box.x + box.w * (0.01 + 0.98 * x), box.y + box.h * (0.01 + 0.98 * y), scene.axis)
        assert found is not None
        assert found[1].kind is BarKind.HEATING or found == (at, bar)
