"""Drags as numbers: several at once, other cooks, lengths, links, bands, plating, and where nothing clashes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.timeline.bars import BarKind
from app.timeline.drag import Drag, Drop
from app.timeline.drag_free import MOST, Sweep
from app.timeline.drag_gesture import BandHeld
from app.timeline.drag_hands import hands_at_length, why_not
from app.timeline.drag_length import Sizes, edit_for, handle_at, note_for, wish_for
from app.timeline.drag_link import curves_of, grip_at, knob_of
from app.timeline.drag_link import edit_for as link_edit
from app.timeline.drag_link import why_not as why_no_link
from app.timeline.drag_places import places_of
from app.timeline.drag_plating import clashes_at, timetable_at
from app.timeline.drag_wish import Wish
from app.timeline.pointer import push
from app.timeline.pointer_band import inside
from app.timeline.scene import Scene
from app.timeline.staging import stage
from app.timeline.thinking import Thinking
from core.plan.decisions import Pin
from core.plan.edits import AddLink, ChangeLink, ChangeStep, RemoveLink, ServeLater, SetLength, StretchStep
from core.plan.kitchen import Window
from core.plan.meaning import length_at, reserved
from core.plan.menu import LinkKind
from core.plan.step import Loads, Manner, Span
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Placed, Spot, Timetable
from tests.app.timeline.feast import ANN, BEN, the_plan, the_timetable
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_use, burners

ROAST, CARVE, BAKE, SLICE = ("pork.roast", 0), ("pork.carve", 0), ("gratin.bake", 0), ("gratin.slice", 0)


@pytest.fixture
def scene() -> Scene:
    return a_scene()


def a_scene(plan=None) -> Scene:
    made = stage(plan or the_plan(), the_timetable(), (), "station", ppm=4.0, folded=False)
    made.gutter, made.ruler, made.width, made.height = 100.0, 60.0, 6000.0, 900.0
    return made


def place(scene: Scene, step: str, kind: BarKind = BarKind.STEP):
    bars = ((at, bar) for at, lane in enumerate(scene.lanes) for bar in lane.bars)
    return next((at, bar) for at, bar in bars if (bar.step, bar.kind) == (step, kind))


def take(scene: Scene, step: str, kind: BarKind = BarKind.STEP, also=()) -> tuple[Drag, float, float]:
    at, bar = place(scene, step, kind)
    box, drag = scene.box(at, bar), Drag()
    x, y = box.x + box.w / 2, box.y + box.h / 2
    drag.press(scene, at, bar, x, y, also)
    return drag, x, y


def cook_lane(scene: Scene, cook: str) -> int:
    return next(at for at, lane in enumerate(scene.lanes) if lane.cook == cook)


# ------------------------------------------------------------ several


def test_several_are_dragged_by_the_same_minutes(scene: Scene) -> None:
    drag, x, y = take(scene, "pork.roast", also=(ROAST, CARVE))
    drag.move(scene, x - 4 * 21, y, fine=True)
    assert drag.wish(scene) == Wish(ROAST, {ROAST: -181, CARVE: -33})
    assert drag.release() == Drop("pork.roast", 0, -181, None, None, frozenset({CARVE}), -21)


def test_several_stay_in_their_lanes(scene: Scene) -> None:
    drag, x, y = take(scene, "beans.boil", also=(("beans.cook", 0),))
    drag.move(scene, x, y + scene.layout.row + 6, fine=False)
    assert drag.held.station is None


def test_the_index_knows_every_bar_of_every_load(scene: Scene) -> None:
    places = places_of(scene)
    told = {(at, bar.key) for at, lane in enumerate(scene.lanes) for bar in lane.bars if bar.kind is BarKind.STEP}
    assert {(at, key) for key, there in places.items() for at, _bar in there} == told
    assert places_of(scene) is places
    scene.lanes = scene.lanes[:2]
    assert {at for there in places_of(scene).values() for at, _bar in there} <= {0, 1}


# ------------------------------------------------------------ another cook


def test_hands_go_to_another_cook(scene: Scene) -> None:
    drag, x, _y = take(scene, "pork.carve", BarKind.HAND)
    lane = scene.lane_box(cook_lane(scene, ANN))
    drag.move(scene, x + 8, lane.y + 5, fine=False)
    drag.move(scene, x, lane.y + 5, fine=True)
    assert (drag.held.cook, drag.held.refused) == (ANN, "")
    assert drag.release() == Drop("pork.carve", 0, -12, None, ANN)


def test_the_timetable_gives_all_hands_of_the_step_to_that_cook() -> None:
    after = Thinking(the_plan(), the_timetable()).timetable_by(Wish(BAKE, {BAKE: -130}, cook=BEN))
    assert {hand.cook for hand in after.at[BAKE].hands} == {BEN}
    assert [hand.start for hand in after.at[BAKE].hands] == [-130, -85, -56]


def test_a_cook_without_the_skill_is_refused_by_name() -> None:
    plan = the_plan()
    carve = replace(plan.steps["pork.carve"], skill="knife")
    plan = ChangeStep(carve.id, carve).change(plan)
    said = why_not(plan, the_timetable().at[CARVE], ANN, -12)
    assert "knife" in said
    assert "Carve" in said
    assert plan.kitchen.cook[ANN].name in said
    scene = a_scene(plan)
    drag, x, _y = take(scene, "pork.carve", BarKind.HAND)
    drag.move(scene, x + 8, scene.lane_box(cook_lane(scene, ANN)).y + 5, fine=False)
    assert drag.held.refused == said
    assert drag.release() is None, "a refused drop changes nothing"


def test_a_cook_who_is_away_is_refused_with_the_time() -> None:
    plan = the_plan()
    away = Window(0, 19 * 60, 19 * 60 + 20)
    cooks = tuple(replace(cook, breaks=(away,)) if cook.id == ANN else cook for cook in plan.kitchen.cooks)
    plan = replace(plan, kitchen=replace(plan.kitchen, cooks=cooks))
    carve = the_timetable().at[CARVE]
    assert "19:18" in why_not(plan, carve, ANN, -12), "she is back at 19:20; carving would begin at 19:18"
    assert why_not(plan, carve, ANN, -10) == ""
    assert why_not(plan, carve, "nobody", -12) != ""


def test_nobodys_hands_and_two_cooks_work_cannot_be_given_away() -> None:
    plan = the_plan(transfer=0)
    assert "nobody's hands" in why_not(plan, the_timetable().at["curd.set", 0], ANN, -990)
    carve = replace(plan.steps["pork.carve"], hands=2)
    both = ChangeStep(carve.id, carve)(plan)
    assert "2 cooks" in why_not(both, the_timetable().at[CARVE], ANN, -12)


# ------------------------------------------------------------ lengths


def test_a_bars_end_is_taken_at_its_last_six_points(scene: Scene) -> None:
    at, bar = place(scene, "pork.roast")
    box = scene.box(at, bar)
    y = box.y + box.h / 2
    assert handle_at(scene, (box.right - 6, y)) == (at, bar)
    assert handle_at(scene, (box.right - 7, y)) is None
    assert handle_at(scene, (box.right - 3, box.bottom + 1)) is None


def test_a_narrow_bar_has_its_handle_outside_while_it_is_chosen(scene: Scene) -> None:
    at, bar = place(scene, "beans.cook")
    box = scene.box(at, bar)
    assert box.w < 24
    point = (box.right + 4, box.y + 4)
    assert handle_at(scene, point) is None
    scene.selected = "beans.cook"
    assert handle_at(scene, point) == (at, bar)
    assert handle_at(scene, (box.right - 4, box.y + 4)) is None, "there it is dragged"


def test_hands_of_a_longer_step_keep_their_cooks() -> None:
    bake = the_timetable().at[BAKE]
    assert hands_at_length(the_plan(), bake, 85) == (Hand(-130, 1, ANN), Hand(-85, 2, BEN), Hand(-46, 1, ANN))


def test_another_length_pushes_what_follows_and_is_one_edit() -> None:
    plan, timetable = the_plan(), the_timetable()
    wish = wish_for(plan, timetable, ROAST, 125)
    thinking = Thinking(plan, timetable)
    assert thinking.pushed_by(wish) == {ROAST: -160}, "-160 + 125 + 30 is -5, when carving no longer could end in time"
    assert thinking.pushed_by(wish_for(plan, timetable, ROAST, 120)) == {ROAST: -160, CARVE: -10}
    edit = edit_for(plan, timetable.at[ROAST], 120)
    assert edit == StretchStep("pork.roast", 120, 0)
    after = thinking.timetable_by(wish_for(plan, timetable, ROAST, 120))
    assert not [clash for clash in clashes(edit(plan), after) if clash.kind is ClashKind.LENGTH]


def test_loads_all_take_as_long_and_follow_each_other() -> None:
    fry = a_step("cakes.fry", "Fry", 10, uses=(a_use("burner"),), loads=Loads(3, 1, 2))
    plan = a_plan(a_dish("cakes", fry), kitchen=a_kitchen(stations=burners(1)))
    spots = (Spot("burner-1"),)
    timetable = Timetable(tuple(Placed("cakes.fry", -36 + 12 * load, 10, load, spots) for load in range(3)))
    wish = wish_for(plan, timetable, ("cakes.fry", 1), 13)
    assert wish.starts == {("cakes.fry", 0): -39, ("cakes.fry", 1): -24, ("cakes.fry", 2): -9}
    assert set(wish.lengths.values()) == {13}


def test_beyond_what_is_known_it_asks() -> None:
    sizes = Sizes(30, 20, 40, lambda minutes: minutes)
    assert [sizes.asks(minutes) for minutes in (19, 20, 40, 41)] == [True, False, False, True]
    assert "20 min" in note_for(sizes, 19)
    assert "40 min" in note_for(sizes, 41)
    assert note_for(sizes, 30) == ""


@settings(max_examples=60)
@given(st.integers(2, 300), st.integers(1, 300), st.sampled_from(list(Manner)), st.integers(-12, 12))
def test_the_length_shown_is_the_length_asked_for(high: int, wanted: int, manner: Manner, hotter: int) -> None:
    plan = the_plan()
    bake = replace(plan.steps["gratin.bake"], length=Span(max(1, high // 2), max(1, high * 3 // 4), high), touches=())
    plan = SetLength(bake.id, manner)(ChangeStep(bake.id, bake)(plan))
    heat = bake.uses[0].heat
    setting = heat.setting + hotter
    length = length_at(reserved(plan, bake.id).length, heat, setting)
    placed = replace(the_timetable().at[BAKE], length=length, setting=setting)
    sizes = Sizes.of(plan, placed)
    minutes = sizes.minutes_for(wanted)
    after = StretchStep(bake.id, minutes, 0)(plan)
    assert length_at(reserved(after, bake.id).length, heat, setting) == sizes.shown(minutes)
    assert abs(sizes.shown(minutes) - wanted) <= 1


# ------------------------------------------------------------ links


def test_the_chosen_steps_links_have_their_far_ends_to_take(scene: Scene) -> None:
    scene.selected = "pork.roast"
    (curve,) = curves_of(scene)
    roast, carve = scene.box(*place(scene, "pork.roast")), scene.box(*place(scene, "pork.carve"))
    assert curve.near == (roast.right, roast.y + roast.h / 2)
    assert curve.far == (carve.x, carve.y + carve.h / 2)
    assert grip_at(scene, (curve.far[0] + 8, curve.far[1] - 8)) == curve
    knob = knob_of(scene)
    assert grip_at(scene, knob) == knob
    assert grip_at(scene, (knob[0] + 30, knob[1])) is None
    scene.selected = "pork.carve"
    assert curves_of(scene)[0].far == (roast.right, roast.y + roast.h / 2)


def test_what_a_drop_of_an_end_does(scene: Scene) -> None:
    scene.selected = "pork.roast"
    (curve,) = curves_of(scene)
    moved = link_edit(curve, "pork.roast", "beans.cook")
    assert isinstance(moved, ChangeLink)
    assert moved.replacement == replace(curve.link, after="beans.cook")
    assert link_edit(curve, "pork.roast", None) == RemoveLink(("pork.roast", "pork.carve", LinkKind.END_TO_START))
    assert link_edit(curve, "pork.roast", "pork.carve") is None
    new = link_edit(None, "pork.roast", "beans.cook")
    assert isinstance(new, AddLink)
    assert new.link.key == ("pork.roast", "beans.cook", LinkKind.END_TO_START)
    assert link_edit(None, "pork.roast", None) is None
    assert link_edit(None, "pork.roast", "pork.roast") is None


def test_a_circle_is_refused_with_its_chain(scene: Scene) -> None:
    back = link_edit(None, "pork.carve", "pork.roast")
    said = why_no_link(scene.plan, back)
    assert "circle" in said
    assert "Carve" in said
    assert "Roast to 60 °C" in said
    assert why_no_link(scene.plan, link_edit(None, "beans.cook", "pork.carve")) == ""


def test_a_wait_that_cannot_be_is_refused_and_the_chain_named() -> None:
    steps = (a_step("soup.boil", "Boil", 20), a_step("soup.skim", "Skim", 30), a_step("soup.fill", "Fill", 5))
    links = (a_link("soup.boil", "soup.fill", 0, 10), a_link("soup.boil", "soup.skim"))
    plan = a_plan(a_dish("soup", *steps), links=links)
    said = why_no_link(plan, link_edit(None, "soup.skim", "soup.fill"))
    # filling waits for 30 min of skimming, 10 are allowed
    assert all(word in said for word in ("Skim", "Fill", "Boil"))
    assert why_no_link(plan, link_edit(None, "soup.fill", "soup.skim")) == ""


# ------------------------------------------------------------ plating


def test_later_plating_leaves_steps_by_the_clock_or_takes_them_along() -> None:
    plan, timetable = the_plan(pins=(Pin("pork.carve", 0, -12),)), the_timetable()
    stay = timetable_at(plan, timetable, 20, along=False)
    assert {each.step: each.start for each in stay.placed} == {each.step: each.start - 20 for each in timetable.placed}
    assert (stay.stays[0].start, stay.stays[0].end) == (-530, 0), "the curd is served at the new plating"
    along = timetable_at(plan, timetable, 20, along=True)
    assert along.at[CARVE].start == -32, "what is pinned stays by the clock"
    assert along.at[BAKE].start == -130


def test_what_a_sooner_plating_makes_late_is_told() -> None:
    plan, timetable = the_plan(), the_timetable()
    sooner = [clash for clash in clashes_at(plan, timetable, -5, along=False) if clash.kind is ClashKind.LATE]
    assert any("pork.carve" in clash.steps for clash in sooner)
    assert not any(clash.kind is ClashKind.LATE for clash in clashes_at(plan, timetable, 5, along=False))


@settings(max_examples=25)
@given(st.integers(-90, 90))
def test_what_is_told_of_plating_is_what_the_validator_finds(by: int) -> None:
    plan, timetable = the_plan(), the_timetable()
    whole = clashes(ServeLater(by)(plan), timetable_at(plan, timetable, by, along=False))
    last = set(plan.last_steps)
    assert clashes_at(plan, timetable, by, along=False) == [clash for clash in whole if last & set(clash.steps)]


# ------------------------------------------------------------ bands and borders


def test_a_band_takes_each_load_once_in_order_of_time(scene: Scene) -> None:
    held = BandHeld((scene.x(-165), scene.ruler), (scene.x(0), scene.height + 500))
    keys = [bar.key for _lane, bar in inside(scene, held)]
    assert len(keys) == len(set(keys))
    assert set(keys) == {ROAST, CARVE, BAKE, SLICE, ("beans.boil", 0), ("beans.cook", 0)}
    assert keys[0] == ROAST
    assert inside(scene, BandHeld((scene.x(-300), scene.ruler), (scene.x(-200), scene.height))) == []


@given(st.floats(-500, 1500), st.floats(-500, 1500))
def test_deeper_into_the_border_scrolls_no_slower(one: float, other: float) -> None:
    a, b = sorted((one, other))
    assert push(a, 100, 1000) <= push(b, 100, 1000)
    assert (push(a, 100, 1000) == 0) == (126 <= a <= 974)


# ------------------------------------------------------------ where nothing clashes


def test_the_sweep_asks_the_grid_first_and_joins_what_it_knows() -> None:
    asked = []

    def ask(wish):
        asked.append(wish.start)
        wrong = -40 <= wish.start < -30
        return [Clash(ClashKind.OVER_FULL, "Full.", 0, 1, ("pork.roast",))] if wrong else []

    sweep = Sweep(ask, Wish(ROAST, {ROAST: -50}), (-60, -20), ())
    while not sweep.done:
        sweep.work(slice_=0)
    assert asked[:9] == sorted(range(-60, -19, 5), key=lambda start: abs(start + 50))
    assert len(asked) == len(set(asked)) == 41
    assert sweep.stretches() == ((-60, -41), (-30, -20))


def test_only_what_was_asked_about_is_told() -> None:
    sweep = Sweep(lambda wish: [], Wish(ROAST, {ROAST: -50}), (-60, -20), ())
    sweep.work(clock=iter([0.0, 1.0]).__next__)
    assert sweep.stretches() == ((-50, -50),)
    wide = Sweep(lambda wish: [], Wish(ROAST, {ROAST: 0}), (-9000, 9000), ())
    while not wide.done:
        wide.work()
    assert wide.asked == MOST


def test_a_clash_of_others_counts_only_if_it_is_new() -> None:
    old = Clash(ClashKind.OVER_FULL, "Full.", 0, 1, ("beans.cook",))
    for known, free in (((old,), ((-50, -50),)), ((), ())):
        sweep = Sweep(lambda wish: [old], Wish(ROAST, {ROAST: -50}), (-50, -50), known)
        sweep.work()
        assert sweep.stretches() == free


@settings(max_examples=40)
@given(st.integers(-30, 30), st.sampled_from([ROAST, CARVE, BAKE, SLICE, ("beans.boil", 0), ("curd.set", 0)]))
def test_the_legal_stretch_agrees_with_the_validator(by: int, key) -> None:
    plan, timetable = the_plan(), the_timetable()
    waits = {ClashKind.LATE, ClashKind.TOO_EARLY, ClashKind.OUT_OF_ORDER}
    waits |= {ClashKind.WAIT_TOO_SHORT, ClashKind.WAITED_TOO_LONG}
    thinking = Thinking(plan, timetable)
    legal = thinking.legal_stretch(key)
    edges = {legal[0], legal[1], legal[0] - 1, legal[1] + 1} if legal else set()
    # a plan that does not say when it opens ends days ahead, which is no clash
    for start in {timetable.at[key].start + by} | {edge for edge in edges if edge > -3000}:
        found = [clash for clash in thinking.clashes_if(key, start) if clash.kind in waits and key[0] in clash.steps]
        inside_it = legal is not None and legal[0] <= start <= legal[1]
        assert (not found) == inside_it, (start, legal, found)
