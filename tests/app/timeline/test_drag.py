from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.timeline.bars import BarKind
from app.timeline.drag import Drag, Drop, State, edges_for, snapped
from app.timeline.scene import Scene
from app.timeline.staging import stage
from tests.app.timeline.feast import the_plan, the_timetable


@pytest.fixture
def scene() -> Scene:
    made = stage(the_plan(), the_timetable(), (), "station", ppm=4.0, folded=False)
    made.gutter, made.ruler, made.width, made.height = 100.0, 60.0, 6000.0, 900.0
    return made


def take(scene: Scene, step: str, kind: BarKind = BarKind.STEP) -> tuple[Drag, float, float]:
    """Press on the middle of a bar; return the drag and the point."""
    for at, lane in enumerate(scene.lanes):
        for bar in lane.bars:
            if bar.step == step and bar.kind is kind:
                box = scene.box(at, bar)
                x, y = box.x + box.w / 2, box.y + box.h / 2
                drag = Drag()
                drag.press(scene, at, bar, x, y)
                return drag, x, y
    raise AssertionError(step)


def test_a_press_alone_is_a_click(scene: Scene) -> None:
    drag, x, y = take(scene, "gratin.bake")
    assert drag.state is State.PRESSED
    assert not drag.move(scene, x + 3, y, fine=False)
    assert drag.release() is None
    assert drag.state is State.IDLE


def test_a_drag_snaps_to_five_minutes_of_the_clock(scene: Scene) -> None:
    drag, x, y = take(scene, "pork.roast")
    drag.move(scene, x + 4 * 41, y, fine=False)
    assert drag.held.start == -120, "41 minutes later is 17:29; the grid has 17:30"
    assert drag.release() == Drop("pork.roast", 0, -120, None)


def test_a_fine_drag_snaps_to_the_minute(scene: Scene) -> None:
    drag, x, y = take(scene, "pork.roast")
    drag.move(scene, x + 4 * 41.2, y, fine=True)
    assert drag.release() == Drop("pork.roast", 0, -119, None)


def test_a_neighbours_edge_draws_the_bar(scene: Scene) -> None:
    drag, x, y = take(scene, "pork.roast")
    drag.move(scene, x + 4 * 16.2, y, fine=False)
    assert drag.held.start == -145, "-143.8 is nearer to the end of roasting at the gratin's end: -55 - 90"
    assert -55 in edges_for(scene, drag.held, drag.held.to_lane)


def test_what_a_step_is_linked_to_draws_it_too(scene: Scene) -> None:
    drag, _x, _y = take(scene, "gratin.bake")
    assert -130 in edges_for(scene, drag.held, drag.held.lane), "slicing ends at -130, in another lane"


def test_a_burner_may_be_changed_for_another_but_not_for_the_oven(scene: Scene) -> None:
    drag, x, y = take(scene, "beans.boil")
    row = scene.layout.row + 6
    drag.move(scene, x, y + row * 2, fine=False)
    assert drag.held.station == "burner-3"
    drag.move(scene, x, y - row * 3, fine=False)
    assert drag.held.station is None
    drag.move(scene, x, y + row, fine=False)
    assert drag.release() == Drop("beans.boil", 0, -40, "burner-2")


def test_the_other_oven_takes_it_too(scene: Scene) -> None:
    drag, x, _y = take(scene, "pork.roast")
    other = scene.lane_box(1)
    drag.move(scene, x, other.y + other.h / 2, fine=False)
    assert drag.release() == Drop("pork.roast", 0, -160, "second-oven")


def test_hands_drag_their_step_along_in_time(scene: Scene) -> None:
    drag, x, y = take(scene, "pork.carve", BarKind.HAND)
    drag.move(scene, x - 4 * 10, y, fine=False)
    assert drag.release() == Drop("pork.carve", 0, -20, None), "-22 is 19:08; the grid has 19:10"


def test_a_touch_drags_its_whole_step(scene: Scene) -> None:
    touch = next(bar for lane in scene.lanes for bar in lane.bars if bar.cook == "ben" and bar.step == "gratin.bake")
    at = next(number for number, lane in enumerate(scene.lanes) if touch in lane.bars)
    drag = Drag()
    box = scene.box(at, touch)
    drag.press(scene, at, touch, box.x, box.y)
    drag.move(scene, box.x - 4 * 10, box.y, fine=True)
    assert drag.step_start == -140
    assert drag.release() == Drop("gratin.bake", 0, -140, None)


def test_letting_go_changes_nothing(scene: Scene) -> None:
    drag, x, y = take(scene, "pork.roast")
    drag.move(scene, x + 200, y, fine=False)
    drag.cancel()
    assert drag.held is None
    assert drag.release() is None


def test_waits_and_heating_up_cannot_be_dragged(scene: Scene) -> None:
    drag, x, y = take(scene, "curd.set", BarKind.STAY)
    assert drag.state is State.IDLE
    assert not drag.move(scene, x + 100, y, fine=False)


def test_a_bar_put_back_where_it_was_is_no_drop(scene: Scene) -> None:
    drag, x, y = take(scene, "pork.roast")
    drag.move(scene, x + 100, y, fine=False)
    drag.move(scene, x, y, fine=False)
    assert drag.release() is None


@given(
    st.floats(-5000, 5000),
    st.integers(1, 600),
    st.lists(st.integers(-5000, 5000), max_size=20),
    st.floats(0, 30),
    st.integers(0, 4),
)
def test_snapping_never_strays(wanted: float, length: int, edges: list[int], reach: float, phase: int) -> None:
    start = snapped(wanted, length, False, edges, reach, phase)
    on_edge = start in edges or start + length in edges
    on_grid = (start + phase) % 5 == 0
    assert on_edge or on_grid
    assert abs(start - wanted) <= max(reach, 2.5) + 1e-9
    assert abs(snapped(wanted, length, True, edges, reach, phase) - wanted) <= 0.5
