from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings

from app.timeline.bars import Bar, BarKind, Lane, LaneKind
from app.timeline.lanes import lanes_of
from app.timeline.scene import concerns
from app.timeline.staging import stage
from core.plan.plan import Plan
from core.plan.step import VesselUse
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.on_paper import on_paper
from core.timetable.sweep import Held, crowds
from core.timetable.timetable import Placed, Spot, Timetable, Washing
from tests.app.timeline import terrace
from tests.support.builders import a_bench, a_kitchen, a_link, a_step, a_use, a_vessel
from tests.support.strategies import plans


def vessel_lane(plan: Plan, timetable: Timetable, name: str = "bowl") -> Lane:
    found = lanes_of(plan, timetable, "station", -400, 60)
    return next(lane for lane in found if lane.id == f"vessel:{name}")


def told(bars: tuple[Bar, ...]) -> list[tuple[str, int, int, int]]:
    return [(bar.kind.value, bar.start, bar.end, bar.row) for bar in bars]


def test_a_bowl_is_in_use_stands_unwashed_and_is_washed() -> None:
    lane = vessel_lane(terrace.the_plan(), terrace.the_timetable())
    assert (lane.name, lane.rows, lane.room, lane.kind) == ("Big bowl", 1, 1, LaneKind.VESSEL)
    assert told(lane.bars) == [
        ("vessel", -180, -120, 0),
        ("unwashed", -120, -110, 0),
        ("chore", -110, -105, 0),
        ("vessel", -60, -50, 0),
    ]
    assert lane.bars[0].says == ("Potato salad: Worktop", "Potato salad")
    assert lane.bars[0].code == "P"


def test_vessels_stand_below_the_stations_and_above_the_hands() -> None:
    found = [lane.id for lane in lanes_of(terrace.the_plan(), terrace.the_timetable(), "station", -400, 60)]
    assert found[-4:] == ["worktop", "vessel:bowl", "cook:ann", "cook:ben"]
    assert "vessel:blender" not in found, "nothing uses it"
    for other in ("dish", "cook"):
        assert not any(lane.kind is LaneKind.VESSEL for lane in lanes_of(terrace.the_plan(), Timetable(), other, 0, 9))


def a_feast(count: int, washing: int = 5) -> tuple[Plan, Timetable]:
    """Return two dishes that want two pots and one pot, the first on a burner and then on the table."""
    boil = a_step("soup.boil", uses=(a_use("burner"),), vessels=(VesselUse("pot", 2),))
    rest = a_step("soup.rest", vessels=(VesselUse("pot", 1),))
    fry = a_step("chips.fry", vessels=(VesselUse("pot"),))
    kitchen = a_kitchen(vessels=(a_vessel("pot", count, washing=washing),))
    plan = a_bench(boil, rest, fry, links=(a_link("soup.boil", "soup.rest"),), kitchen=kitchen)
    placed = (
        Placed("soup.boil", -60, 10, spots=(Spot("burner-1"),)),
        Placed("soup.rest", -45, 10),
        Placed("chips.fry", -40, 10),
    )
    return plan, Timetable(placed)


def test_a_run_holds_its_pots_from_first_to_last_and_tells_where_they_are() -> None:
    lane = vessel_lane(*a_feast(3, washing=0), "pot")
    assert (lane.name, lane.rows, lane.room) == ("Pot ×3", 3, 3)
    assert [(bar.start, bar.end, bar.row, bar.rows) for bar in lane.bars] == [(-60, -35, 0, 2), (-40, -30, 2, 1)]
    assert lane.bars[0].says[0] == "Soup: Burner 1, Worktop"


def test_a_pot_too_few_lies_in_a_row_that_does_not_exist_and_shows_the_clash() -> None:
    plan, timetable = a_feast(2)
    lane = vessel_lane(plan, timetable, "pot")
    assert (lane.rows, lane.room) == (3, 2)
    short = [clash for clash in clashes(plan, timetable) if clash.kind is ClashKind.VESSEL_SHORT]
    assert short, "three are asked for where there are two"
    assert [concerns(short[0], bar, lane) for bar in lane.bars if bar.kind is BarKind.VESSEL] == [True, True]


def test_what_is_washed_later_holds_its_row_until_then() -> None:
    plan, timetable = a_feast(3)
    washed = replace(timetable, washings=(Washing("pot", -20, 5, "soup.boil"),))
    lane = vessel_lane(plan, washed, "pot")
    assert [(bar.kind, bar.start, bar.end) for bar in lane.bars if bar.row == 0] == [
        (BarKind.VESSEL, -60, -35),
        (BarKind.UNWASHED, -35, -20),
        (BarKind.CHORE, -20, -15),
    ]


def test_what_is_never_washed_stands_until_nobody_asks_for_it_days_later() -> None:
    plan, timetable = a_feast(3)
    early = replace(timetable.placed[2], start=-3000)
    lane = vessel_lane(plan, replace(timetable, placed=(*timetable.placed[:2], early)), "pot")
    assert [(bar.kind, bar.start, bar.end) for bar in lane.bars if bar.start < -100] == [
        (BarKind.VESSEL, -3000, -2990),
        (BarKind.UNWASHED, -2990, -35),
    ]


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_rows_are_over_full_exactly_where_the_validator_misses_vessels(plan: Plan) -> None:
    """The rows are compared with the validator's own sweep over what the bars say."""
    timetable = on_paper(plan)
    scene = stage(plan, timetable, (), "station", ppm=2.0)
    wrong = [clash for clash in clashes(plan, timetable) if clash.kind is ClashKind.VESSEL_SHORT]
    short = {name for clash in wrong for name in clash.vessels}
    for lane in scene.lanes:
        if lane.kind is LaneKind.VESSEL:
            held = [Held(bar.start, bar.end, bar.rows, number) for number, bar in enumerate(lane.bars)]
            over = bool(crowds(held, lane.room or 0, lambda number: number))
            assert over == (lane.id.removeprefix("vessel:") in short), lane
            assert (lane.rows > (lane.room or 0)) >= over
