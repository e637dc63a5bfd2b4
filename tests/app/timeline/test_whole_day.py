"""Fires, pieces, ways and washing on the timeline."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor

from app.timeline import Timeline, spoken, walk
from app.timeline.bars import Bar, BarKind, Lane, Notch, Tail
from app.timeline.drag import named_for
from app.timeline.lanes import lanes_of
from app.timeline.menu import bar_menu
from app.timeline.picture import paint_picture
from app.timeline.scene import concerns
from app.timeline.staging import extent, stage
from app.timeline.thinking import Thinking, moved
from core.plan.decisions import Pin
from core.plan.plan import Plan
from core.plan.step import Alternative, Manner, Span
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.heat_curve import plateaus
from core.timetable.timetable import Hand, Placed, Spot, Timetable
from tests.app.timeline.acting import drag, find, middle, press
from tests.app.timeline.terrace import (
    DRESS,
    FIRES,
    GRILL,
    PEEL,
    PEPPERS,
    THAW,
    WASHED,
    the_plan,
    the_timetable,
)
from tests.app.timeline.test_picture import texts_of
from tests.support.builders import a_bench, a_kitchen, a_step, a_use, an_oven, hands_off


def lanes(plan: Plan | None = None, timetable: Timetable | None = None, reading: str = "station") -> dict[str, Lane]:
    found = lanes_of(plan or the_plan(), timetable or the_timetable(), reading, -400, 60)
    return {lane.id: lane for lane in found}


def kinds(lane: Lane, *wanted: BarKind) -> list[Bar]:
    return [bar for bar in lane.bars if bar.kind in wanted]


def bar_of(lane: Lane, step: str) -> Bar:
    return next(bar for bar in lane.bars if bar.step == step)


@pytest.fixture
def terrace(qtbot) -> Timeline:
    """Give a timeline of 1280 x 900 that shows the whole terrace lunch."""
    made = Timeline()
    qtbot.addWidget(made)
    made.resize(1280, 900)
    with qtbot.waitExposed(made):
        made.show()
    plan, timetable = the_plan(), the_timetable()
    made.set_plan(plan, timetable, clashes(plan, timetable))
    made.fit_all()
    return made


def test_the_terrace_lunch_meets() -> None:
    assert clashes(the_plan(), the_timetable()) == ()


# ---- fires


def test_fires_are_lit_and_burn_in_the_crown_of_the_grill() -> None:
    grill = lanes()["station:grill"]
    assert [
        (bar.kind, bar.start, bar.end, bar.says[0]) for bar in kinds(grill, BarKind.LIGHTING, BarKind.FIRE)
    ] == [
        (BarKind.LIGHTING, -130, -100, "lighting, ready at 17:50"),
        (BarKind.FIRE, -100, -50, "burns until 18:40"),
        (BarKind.LIGHTING, -70, -40, "lighting, ready at 18:50"),
        (BarKind.FIRE, -40, 10, "burns until 19:40"),
    ]
    assert not kinds(grill, BarKind.HEATING)
    assert {bar.setting for bar in kinds(grill, BarKind.LIGHTING, BarKind.FIRE)} == {None}


def test_a_fire_lit_while_another_burns_has_a_row_of_its_own() -> None:
    grill = lanes()["station:grill"]
    assert grill.crown == 2
    assert [bar.row for bar in kinds(grill, BarKind.LIGHTING, BarKind.FIRE)] == [-2, -2, -1, -1]
    scene = stage(the_plan(), the_timetable(), (), "station", ppm=2.0)
    at = next(number for number, lane in enumerate(scene.lanes) if lane.id == "station:grill")
    boxes = [scene.layout.box(at, bar, scene.axis) for bar in grill.bars]
    assert not any(one.meets(other) for number, one in enumerate(boxes) for other in boxes[number + 1 :])
    assert min(box.y for box in boxes) >= scene.layout.tops[at]
    one = lanes(timetable=replace(the_timetable(), heatings=FIRES[:1]))["station:grill"]
    assert (one.crown, {bar.row for bar in kinds(one, BarKind.FIRE)}) == (1, {-1})


def test_a_fire_burns_on_for_what_stands_on_it_where_it_does_not_burn_out() -> None:
    plan = the_plan(burns=None, fires=1)
    grill = lanes(plan, replace(the_timetable(), heatings=FIRES[:1]))["station:grill"]
    (fire,) = kinds(grill, BarKind.FIRE)
    assert (fire.start, fire.end, fire.says) == (-100, -5, ("burning",))


def test_a_fire_has_no_curve_and_its_bars_say_their_setting() -> None:
    """Nothing plunges to 0 °C; the oven beside it keeps its curve."""
    scene = stage(the_plan(), the_timetable(), (), "station")
    assert plateaus(the_plan(), the_timetable(), "grill"), "the core would draw one"
    assert "station:grill" not in scene.curves
    assert "station:oven" in scene.curves
    grill = lanes()["station:grill"]
    assert bar_of(grill, "peppers.grill").says[0].endswith(", 260 °C")


def test_a_heating_without_degrees_of_a_station_that_is_no_fire_says_none() -> None:
    plan = a_bench(hands_off("tart.bake", 30, uses=(a_use("oven"),)), kitchen=a_kitchen(oven=an_oven()))
    stale = Timetable((Placed("tart.bake", -30, 30, spots=(Spot("oven"),)),), (), (replace(FIRES[0], station="oven"),))
    (bar,) = kinds(lanes(plan, stale)["station:oven"], BarKind.HEATING)
    assert (bar.setting, bar.says) == (None, ("heating up",))


def test_lighting_and_washing_stand_in_the_hands_that_do_them() -> None:
    found = lanes()
    chores = {
        lane: [(bar.start, bar.end, bar.says[0]) for bar in kinds(found[lane], BarKind.CHORE)]
        for lane in ("cook:ann", "cook:ben")
    }
    assert chores == {
        "cook:ann": [(-130, -125, "Light the charcoal grill")],
        "cook:ben": [(-110, -105, "Wash the big bowl"), (-70, -65, "Light the charcoal grill")],
    }


def test_what_is_beside_a_hand_is_not_written_over_switching_on() -> None:
    plan = a_bench(a_step("tart.fill", minutes=2), kitchen=a_kitchen(oven=an_oven(name="Big oven")))
    fill = Placed("tart.fill", -60, 2, hands=(Hand(-60, 2, "ann"),))
    on = replace(FIRES[0], station="oven", start=-50, end=-30, setting=180)
    found = lanes(plan, Timetable((fill,), (), (on,)))
    assert bar_of(found["cook:ann"], "tart.fill").until == -50
    (switch,) = kinds(found["cook:ann"], BarKind.HEATING)
    assert (switch.start, switch.end, switch.says) == (-50, -49, ("Big oven on",))


def test_chores_that_nobody_known_does_are_shown_and_those_of_machines_are_not() -> None:
    washings = (replace(WASHED, cook=None), replace(WASHED, vessel="blender"), replace(WASHED, vessel="cauldron"))
    found = lanes(timetable=replace(the_timetable(), washings=washings, heatings=(replace(FIRES[0], cook="zoe"),)))
    assert [bar.says[0] for bar in kinds(found["cook:"], BarKind.CHORE)] == [
        "Light the charcoal grill",
        "Wash the big bowl",
    ]
    plan = the_plan(lighting=0)
    quick = replace(the_timetable(), heatings=(replace(FIRES[0], start=-100),))
    assert not kinds(lanes(plan, quick)["cook:ann"], BarKind.CHORE), "it takes nobody"


def test_a_chore_at_the_same_time_as_a_step_takes_a_second_row() -> None:
    busy = replace(the_timetable(), washings=(replace(WASHED, start=-58),))
    assert lanes(timetable=busy)["cook:ben"].rows == 2


def test_what_is_washed_last_is_in_sight() -> None:
    late = replace(the_timetable(), washings=(replace(WASHED, start=100),))
    assert extent(the_plan(), late)[1] > 105


def test_clashes_of_fires_and_washing_show_where_they_arise() -> None:
    timetable = replace(
        the_timetable(),
        heatings=(replace(FIRES[0], start=-120), FIRES[1]),
        washings=(replace(WASHED, start=-122),),
    )
    found = clashes(the_plan(), timetable)
    lanes_now = lanes(timetable=timetable)
    length = next(each for each in found if each.kind is ClashKind.LENGTH)
    first, second = kinds(lanes_now["station:grill"], BarKind.LIGHTING)
    assert concerns(length, first, lanes_now["station:grill"])
    assert not concerns(length, second, lanes_now["station:grill"])
    early = next(each for each in found if each.kind is ClashKind.OUT_OF_ORDER)
    wash = kinds(lanes_now["cook:ben"], BarKind.CHORE)[0]
    assert concerns(early, wash, lanes_now["cook:ben"])
    assert not concerns(length, wash, lanes_now["cook:ben"])


# ---- pieces


def test_pieces_are_one_bar_with_its_pauses() -> None:
    found = lanes()
    peel = bar_of(found["worktop"], "mash.peel")
    assert (peel.start, peel.end, peel.full) == (-180, -120, False)
    assert peel.pieces == (Notch(-180, 20, "Peel potatoes"), Notch(-130, 10, "Peel potatoes"))
    assert len([bar for bar in found["worktop"].bars if bar.step == "mash.peel"]) == 1
    hands = [(lane, bar.start, bar.end, bar.says) for lane in ("cook:ann", "cook:ben") for bar in found[lane].bars
             if bar.step == "mash.peel"]  # fmt: skip
    assert hands == [
        ("cook:ann", -180, -160, ("Peel potatoes, part 1 of 2", "Peel potatoes")),
        ("cook:ben", -130, -120, ("Peel potatoes, part 2 of 2", "Peel potatoes")),
    ]


def test_one_piece_is_hands_on_throughout() -> None:
    whole = replace(PEEL, length=30, hands=(Hand(-180, 30, "ann"),))
    peel = bar_of(lanes(timetable=Timetable((whole,)))["worktop"], "mash.peel")
    assert (peel.full, peel.pieces) == (True, ())


def test_work_is_darker_than_pause_and_the_words_are_read_on_both(terrace: Timeline) -> None:
    _lane, bar, box = find(terrace, "mash.peel")
    image = terrace.viewport().grab().toImage()
    tone = terrace.kit.tone(bar.tone)
    y = round(box.y + 3)

    def colour_at(minute: float) -> str:
        return QColor(image.pixel(round(terrace.scene.x(minute)), y)).name()

    assert colour_at(-165) == colour_at(-125) == tone.full.name()
    assert colour_at(-145) == tone.soft.name()
    assert terrace.drawn_texts().count("Potato salad: Peel potatoes") == 1, "written twice for its colours, told once"


def test_parts_are_spoken(terrace: Timeline) -> None:
    lane, bar, _box = find(terrace, "mash.peel")
    at = next(number for number, each in enumerate(terrace.scene.lanes) if each.id == lane)
    assert spoken.name_of(terrace.scene, bar) == "Potato salad: Peel potatoes, in 2 parts"
    said = spoken.state_of(terrace.scene, bar, terrace.scene.lanes[at])
    assert "part 1 of 2 16:30–16:50 Ann, part 2 of 2 17:20–17:30 Ben" in said
    assert "part 2 of 2 17:20–17:30 Ben" in spoken.tip_of(terrace.scene, bar, terrace.scene.lanes[at])
    _lane, hand, _box = find(terrace, "mash.peel", BarKind.HAND)
    assert spoken.name_of(terrace.scene, hand) == "Potato salad: Peel potatoes, part 1 of 2"


def test_a_step_in_parts_is_dragged_as_one(terrace: Timeline) -> None:
    told: list[tuple] = []
    terrace.step_dropped.connect(lambda *what: told.append(what))
    scale = terrace.scene.axis.ppm
    drag(terrace, middle(terrace, "mash.peel"), QPoint(round(-20 * scale), 0))
    assert told == [("mash.peel", 0, -200, None)]
    second = next(box for _lane, bar, box in terrace.bar_rects() if bar.kind is BarKind.HAND and bar.start == -130)
    grip = QPoint(round(second.x + second.w / 2), round(second.y + second.h / 2))
    drag(terrace, grip, QPoint(round(-20 * scale), 0))
    assert told[1] == ("mash.peel", 0, -200, None), "by its second part, too"
    drag(terrace, middle(terrace, "mash.peel"), QPoint(-40, 0), release=False)
    assert terrace.scene.held is not None
    terrace.drawn_texts()


# ---- ways


def test_the_way_placed_is_named_and_gives_the_place_and_the_wait() -> None:
    """The likely length of the way in water is 50, with no heat; the step as written would stand in the oven."""
    thaw = bar_of(lanes()["station:room"], "bird.thaw")
    assert thaw.says == ("Grilled bird: Thaw in cold water", "Thaw in cold water")
    assert thaw.setting is None
    assert "bird.thaw" not in {bar.step for bar in lanes()["station:oven"].bars}
    assert thaw.tail == Tail(-100, -30, None)
    by_dish = bar_of(lanes(reading="dish")["dish:bird"], "bird.thaw")
    assert by_dish.says[-1] == "Thaw in cold water"


def test_a_wait_counts_from_the_spread_of_the_way_placed() -> None:
    """Safe, with 90 minutes of room: the way's high length, 60, is reserved, and it may be done 20 sooner."""
    plan = the_plan()
    safe = replace(plan, decisions=replace(plan.decisions, manner=Manner.SAFE))
    late = Timetable((replace(THAW, start=-300, length=60), GRILL))
    thaw = bar_of(lanes(safe, late)["station:room"], "bird.thaw")
    assert thaw.tail == Tail(-240, -30, -240 - 20 + 90)


def test_a_way_is_spoken(terrace: Timeline) -> None:
    lane, bar, _box = find(terrace, "bird.thaw")
    at = next(number for number, each in enumerate(terrace.scene.lanes) if each.id == lane)
    assert spoken.name_of(terrace.scene, bar) == "Grilled bird: Thaw in cold water"
    assert "°C" not in spoken.state_of(terrace.scene, bar, terrace.scene.lanes[at])


def test_a_bar_goes_where_the_way_placed_may_go() -> None:
    """Written for any oven, in the other way for the first one only: the second is offered as the way placed says."""
    first = Alternative("in the first", Span.of(30), (a_use("oven", station="oven"),))
    plan = a_bench(
        hands_off("tart.bake", 30, uses=(a_use("oven"),), alternatives=(first,)),
        kitchen=a_kitchen(stations=(an_oven(), an_oven("second"))),
    )
    for way, named in ((0, frozenset()), (1, frozenset({"oven"}))):
        timetable = Timetable((Placed("tart.bake", -30, 30, spots=(Spot("oven"),), way=way),))
        scene = stage(plan, timetable, (), "station")
        assert named_for(scene, bar_of(scene.lanes[0], "tart.bake")) == named


def test_the_menu_offers_only_stations_that_the_way_may_use(qtbot) -> None:
    first = Alternative("in the first", Span.of(30), (a_use("oven", station="oven"),))
    plan = a_bench(
        hands_off("tart.bake", 30, uses=(a_use("oven"),), alternatives=(first,)),
        kitchen=a_kitchen(stations=(an_oven(), an_oven("second"))),
    )
    timeline = Timeline()
    qtbot.addWidget(timeline)
    for way, offered in ((0, True), (1, False)):
        timeline.set_plan(plan, Timetable((Placed("tart.bake", -30, 30, spots=(Spot("oven"),), way=way),)))
        menu = bar_menu(timeline, 0, bar_of(timeline.scene.lanes[0], "tart.bake"))
        assert any(action.menu() is not None and action.text() == "Move to" for action in menu.actions()) is offered


# ---- what follows while a step is dragged


def test_the_legal_stretch_counts_from_the_spread_of_the_way_placed() -> None:
    """Thawed in water in 60, perhaps in 40, pinned to -180: done at -140 at the soonest, grilled 90 later at most."""
    plan = the_plan()
    safe = replace(plan, decisions=replace(plan.decisions, manner=Manner.SAFE))
    for thawed, last in ((-180, -50), (-200, -70)):
        timetable = Timetable((replace(THAW, start=thawed, length=60), replace(GRILL, start=thawed + 60)))
        pinned = replace(safe, decisions=replace(safe.decisions, pins=(Pin("bird.thaw", 0, thawed),)))
        assert Thinking(pinned, timetable).legal_stretch(GRILL.key) == (thawed + 60, last)


def test_washing_is_kept_and_never_before_the_vessel_is_empty() -> None:
    after = moved(the_plan(), the_timetable(), {("bird.thaw", 0): -160})
    assert after.washings == (WASHED,)
    later = moved(the_plan(), the_timetable(), {PEEL.key: -160})
    assert [each.start for each in later.washings] == [-100], "peeled by then"
    assert [hand.start for hand in later.at[PEEL.key].hands] == [-160, -110]


def test_a_drag_that_touches_no_vessel_makes_no_clash_of_vessels() -> None:
    found = Thinking(the_plan(), the_timetable()).clashes_if(DRESS.key, -50)
    assert not [each for each in found if each.kind is ClashKind.VESSEL_SHORT]


@pytest.mark.parametrize(
    ("start", "ready"),
    [(-95, -100), (-65, -100), (-64, -99), (-105, -105), (-200, -200)],
)
def test_a_fire_follows_what_it_burns_for_no_more_than_it_must(start: int, ready: int) -> None:
    """It burns for 50 minutes: peppers of 15 are done in time if they begin 35 after it is ready at the latest."""
    after = moved(the_plan(), the_timetable(), {PEPPERS.key: start})
    assert (after.heatings[0].start, after.heatings[0].end) == (ready - 30, ready)
    assert after.heatings[1] == FIRES[1]
    assert not [each for each in clashes(the_plan(), after) if each.kind in {ClashKind.NO_FIRE, ClashKind.LENGTH}]


def test_a_fire_that_burns_for_nothing_stays() -> None:
    bare = replace(the_timetable(), placed=(THAW, PEEL))
    assert moved(the_plan(), bare, {PEEL.key: -190}).heatings == FIRES


def test_heating_from_cold_is_kept_beside_fires() -> None:
    plan = the_plan(heater=None)
    assert moved(plan, the_timetable(), {GRILL.key: -31}).heatings == FIRES


# ---- keys, mouse, pictures


def test_keys_stop_at_fires_and_chores_and_leave_them_where_they_are(terrace: Timeline, qtbot) -> None:
    told: list[tuple] = []
    terrace.step_dropped.connect(lambda *what: told.append(what))
    terrace.focus_on(*walk.find(terrace.scene, "peppers.grill"))
    press(terrace, Qt.Key.Key_Left)
    press(terrace, Qt.Key.Key_Left)
    assert terrace.focused is not None
    assert terrace.focused[1].kind is BarKind.LIGHTING
    assert terrace.accessibleName().endswith("lighting, ready at 17:50")
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Delete, Qt.Key.Key_Menu):
        press(terrace, key)
    press(terrace, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    drag(terrace, QPoint(*[round(each) for each in _middle_of(terrace, BarKind.CHORE)]), QPoint(60, 0))
    assert told == []


def test_home_and_end_are_of_the_day_not_of_the_coals(terrace: Timeline) -> None:
    press(terrace, Qt.Key.Key_End)
    assert terrace.focused is not None
    assert terrace.focused[1].kind is not BarKind.FIRE


def test_a_wash_is_spoken_with_who_does_it(terrace: Timeline) -> None:
    bars = walk.all_bars(terrace.scene)
    at, bar = next((at, bar) for at, bar in bars if bar.vessel == "bowl" and terrace.scene.lanes[at].cook)
    assert spoken.name_of(terrace.scene, bar) == "Wash the big bowl"
    assert spoken.state_of(terrace.scene, bar, terrace.scene.lanes[at]).endswith("17:40–17:45 (5 min), Ben")


def test_food_is_hit_before_heating_up_behind_it() -> None:
    """A heating drawn over all racks of an oven does not hide what bakes on one of them."""
    plan = a_bench(hands_off("tart.bake", 30, uses=(a_use("oven"),)), kitchen=a_kitchen(oven=an_oven()))
    heating = replace(FIRES[0], station="oven", start=-50, end=-20, setting=180)
    tart = Placed("tart.bake", -30, 30, spots=(Spot("oven"),))
    scene = stage(plan, Timetable((tart,), (), (heating,)), (), "station")
    box = scene.layout.box(0, bar_of(scene.lanes[0], "tart.bake"), scene.axis)
    found = scene.layout.hit(scene.axis.x(-25), box.y + box.h / 2, scene.axis)
    assert found is not None
    assert found[1].step == "tart.bake"
    before = scene.layout.hit(scene.axis.x(-45), box.y + box.h / 2, scene.axis)
    assert before is not None
    assert before[1].kind is BarKind.HEATING


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_all_of_it_is_on_the_picture(qapp, tmp_path: Path, theme: str) -> None:
    path = tmp_path / "lunch.svg"
    paint_picture(the_plan(), the_timetable(), (), path, width=2400, theme=theme)
    texts = texts_of(path)
    for words in ("burns until 18:40", "lighting, ready at 18:50", "Grilled bird: Thaw in cold water"):
        assert words in texts
    assert not [text for text in texts if text.startswith("0 °C") or text.endswith(" 0 °C")]


def _middle_of(timeline: Timeline, kind: BarKind) -> tuple[float, float]:
    box = next(box for _lane, bar, box in timeline.bar_rects() if bar.kind is kind)
    return box.x + box.w / 2, box.y + box.h / 2
