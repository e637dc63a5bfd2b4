from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from app.timeline.bars import Bar, BarKind, Lane
from app.timeline.lanes import READINGS, lanes_of, next_reading
from app.timeline.staging import stage
from core.plan.plan import Plan
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Hand, Placed, Spot, Timetable, Washing
from tests.app.timeline import terrace
from tests.app.timeline.feast import the_plan, the_timetable
from tests.support.builders import a_bench, a_grill, a_kitchen, a_step, a_use, a_vessel, an_oven
from tests.support.strategies import plans


def lanes(plan: Plan | None = None, timetable: Timetable | None = None) -> dict[str, Lane]:
    found = lanes_of(plan or the_plan(), timetable or the_timetable(), "cook", -1100, 60)
    return {lane.id: lane for lane in found}


def spans(bars: tuple[Bar, ...], kind: BarKind) -> list[tuple[int, int, str]]:
    return [(bar.start, bar.end, bar.says[-1]) for bar in bars if bar.kind is kind]


def test_each_cook_has_a_lane_and_nobody_only_where_nobody_has_the_work() -> None:
    assert [lane.name for lane in lanes().values()] == ["Ann", "Ben"]
    left = Timetable((Placed("gratin.slice", -150, 20, hands=(Hand(-150, 20, None),)),))
    found = lanes(timetable=left)
    assert [lane.name for lane in found.values()] == ["Ann", "Ben", "Nobody found"]
    assert found["cook:"].room == 0
    assert spans(found["cook:"].bars, BarKind.HAND) == [(-150, -130, "Peel and slice")]


def test_hands_tell_their_dish_first_and_touches_their_word_last() -> None:
    ann, ben = lanes()["cook:ann"], lanes()["cook:ben"]
    slicing = next(bar for bar in ann.bars if bar.step == "gratin.slice")
    assert slicing.says == ("Potato gratin: Peel and slice", "Peel and slice")
    touch = next(bar for bar in ben.bars if bar.step == "gratin.bake")
    assert (touch.start, touch.end, touch.says[-1]) == (-85, -83, "foil off")


def test_chores_and_absences_are_in_the_cooks_lane() -> None:
    found = lanes(terrace.the_plan(), terrace.the_timetable())
    chores = [(bar.start, bar.end, bar.says[0]) for bar in found["cook:ben"].bars if bar.kind is BarKind.CHORE]
    assert chores == [(-110, -105, "Wash the big bowl"), (-70, -65, "Light the charcoal grill")]
    lit = next(bar for bar in lanes()["cook:ann"].bars if bar.kind is BarKind.HEATING)
    assert (lit.start, lit.end, lit.says) == (-174, -173, ("Oven on",))
    night = lanes()["cook:ann"].shades[0]
    assert (night.start, night.end) == (-1100, -750)


def walking(*placed: Placed, walk: int = 3, **fields) -> tuple[Bar, ...]:
    kitchen = replace(a_kitchen(stations=(an_oven(), a_grill()), vessels=(a_vessel("bowl"),)), walk=walk)
    plan = a_bench(
        a_step("soup.roast", uses=(a_use("oven"),)),
        a_step("soup.cut"),
        a_step("soup.grill", uses=(a_use("grill"),)),
        kitchen=kitchen,
    )
    return lanes(plan, Timetable(placed, **fields))["cook:ann"].bars


ROAST = Placed("soup.roast", -60, 10, spots=(Spot("oven"),), hands=(Hand(-60, 10, "ann"),))
GRILL = Placed("soup.grill", -20, 10, spots=(Spot("grill"),), hands=(Hand(-20, 10, "ann"),))


def test_a_walk_lies_right_before_the_work_in_the_other_place() -> None:
    assert spans(walking(ROAST, GRILL), BarKind.WALK) == [(-23, -20, "terrace")]
    assert spans(walking(ROAST, GRILL, walk=0), BarKind.WALK) == []


def test_a_walk_lies_where_the_cook_is_free() -> None:
    cut = Placed("soup.cut", -45, 25, hands=(Hand(-45, 25, "ann"),))
    assert spans(walking(ROAST, cut, GRILL), BarKind.WALK) == [(-50, -47, "terrace")], "right after the oven"


def test_a_walk_without_time_is_as_long_as_there_is_and_without_any_is_not_drawn() -> None:
    late = replace(GRILL, start=-48, hands=(Hand(-48, 10, "ann"),))
    assert spans(walking(ROAST, late), BarKind.WALK) == [(-50, -48, "terrace")]
    at_once = replace(GRILL, start=-50, hands=(Hand(-50, 10, "ann"),))
    assert spans(walking(ROAST, at_once), BarKind.WALK) == []


def test_washing_is_in_no_place_and_takes_nobody_there() -> None:
    washed = Washing("bowl", -40, 5, "soup.cut", "ann")
    assert spans(walking(ROAST, GRILL, washings=(washed,)), BarKind.WALK) == [(-23, -20, "terrace")]


def test_one_key_goes_through_all_readings() -> None:
    assert [next_reading(reading) for reading in READINGS] == ["dish", "cook", "station"]


@pytest.mark.parametrize("reading", READINGS)
@settings(suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_no_two_bars_share_an_area_in_any_reading(reading: str, plan: Plan) -> None:
    """Rows are handed out so that nothing lies on anything: heating up alone lies behind what follows."""
    scene = stage(plan, on_paper(plan), (), reading, ppm=2.0)
    for at, lane in enumerate(scene.lanes):
        bars = [bar for bar in lane.bars if bar.kind not in (BarKind.HEATING, BarKind.FIRE)]
        boxes = [(bar, scene.layout.box(at, bar, scene.axis)) for bar in bars if bar.end > bar.start]
        for number, (bar, box) in enumerate(boxes):
            for other, other_box in boxes[number + 1 :]:
                if max(bar.start, other.start) < min(bar.end, other.end):
                    assert not box.meets(other_box), (lane.id, bar, other)
        for bar in lane.bars:
            assert bar.row + bar.rows <= lane.rows, (lane.id, bar)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_by_cook_every_hand_of_the_timetable_is_there_once(plan: Plan) -> None:
    timetable = on_paper(plan)
    found = lanes(plan, timetable)
    shown = sorted(
        (bar.start, bar.end, str(bar.step), bar.load, bar.cook or "")
        for lane in found.values()
        for bar in lane.bars
        if bar.kind is BarKind.HAND
    )
    assert shown == sorted(
        (hand.start, hand.start + hand.minutes, str(placed.step), placed.load, hand.cook or "")
        for placed in timetable.placed
        for hand in placed.hands
    )
