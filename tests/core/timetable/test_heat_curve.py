"""The temperature curve: heating up, plateaus, changes, off and cooling; and what clashing timetables look like."""

from dataclasses import replace

import pytest

from core.plan.ids import StationId
from core.plan.kitchen import Heater, StationKind
from core.plan.step import Heat, Use
from core.timetable.heat_curve import curve, plateaus
from core.timetable.timetable import Timetable
from tests.core.timetable.laid import heating, laid
from tests.support.builders import a_dish, a_kitchen, a_plan, an_oven, hands_off

OVEN = StationId("oven")
HEATER = Heater(from_cold=((100, 4), (200, 14)), up=5.0, down=4.0, keep_on=30, cold=20)


def bakes(*settings: int, heater: Heater | None = HEATER, steady: bool = True, minutes: int = 30):
    """Return a plan of bakes "a", "b" ... of half an hour at these settings."""
    dishes = [
        a_dish(
            name,
            hands_off(
                f"{name}.bake", minutes, uses=(Use(StationKind.OVEN, heat=Heat(each, each, each, steady)),)
            ),
        )
        for name, each in zip("abcdef", settings, strict=False)
    ]
    return a_plan(*dishes, kitchen=a_kitchen(oven=an_oven(heater=heater)))


def drawn(plan, starts, *heatings) -> list[tuple[float, float]]:
    return [tuple(point) for point in curve(plan, laid(plan, starts, heatings=heatings), OVEN)]


def test_it_heats_up_as_measured_stays_and_cools():
    plan = bakes(200)
    assert drawn(plan, {"a.bake": -60}, heating("oven", -74, -60, 200)) == [
        (-74, 20), (-70, 100), (-60, 200), (-30, 200), (15, 20),
    ]  # fmt: skip
    timetable = laid(plan, {"a.bake": -60}, heatings=[heating("oven", -74, -60, 200)])
    assert plateaus(plan, timetable, OVEN) == ((-60, -30, 200),)


def test_a_long_heating_up_is_hot_before_its_end():
    plan = bakes(150)
    assert drawn(plan, {"a.bake": -60}, heating("oven", -80, -60, 150)) == [
        (-80, 20), (-76, 100), (-71, 150), (-60, 150), (-30, 150), (2.5, 20),
    ]  # fmt: skip


def test_past_the_last_point_it_goes_on_by_the_last_slope():
    plan = bakes(250)
    assert drawn(plan, {"a.bake": -60}, heating("oven", -79, -60, 250))[:4] == [
        (-79, 20), (-75, 100), (-65, 200), (-60, 250)]  # fmt: skip


def test_a_short_heating_up_goes_on_with_the_food_inside():
    plan = bakes(200)
    assert drawn(plan, {"a.bake": -60}, heating("oven", -69, -60, 200)) == [
        (-69, 20), (-65, 100), (-60, 150), (-55, 200), (-30, 200), (15, 20),
    ]  # fmt: skip
    assert drawn(plan, {"a.bake": -60})[:4] == [(-60, 20), (-56, 100), (-46, 200), (-30, 200)]


def test_a_heating_up_that_ends_at_a_measured_point_goes_on_from_there():
    plan = bakes(200)
    assert drawn(plan, {"a.bake": -60}, heating("oven", -64, -60, 200))[:4] == [
        (-64, 20), (-60, 100), (-50, 200), (-30, 200)]  # fmt: skip


def test_a_change_begins_when_the_last_thing_is_out():
    plan = bakes(160, 200)
    points = drawn(plan, {"a.bake": -90, "b.bake": -52}, heating("oven", -100, -90, 160))
    assert points == [
        (-100, 20), (-96, 100), (-90, 160), (-60, 160), (-52, 200), (-22, 200), (23, 20),
    ]  # fmt: skip
    points = drawn(plan, {"a.bake": -90, "b.bake": -56}, heating("oven", -100, -90, 160))
    assert points[3:] == [(-60, 160), (-56, 180), (-52, 200), (-26, 200), (19, 20)]


def test_a_change_downwards_goes_at_its_own_rate():
    plan = bakes(200, 160)
    points = drawn(plan, {"a.bake": -90, "b.bake": -40}, heating("oven", -104, -90, 200))
    assert points[2:] == [(-90, 200), (-60, 200), (-50, 160), (-40, 160), (-10, 160), (25, 20)]


def test_a_roast_that_is_turned_down_is_inside_while_it_cools():
    plan = bakes(200, 160, steady=False)
    points = drawn(plan, {"a.bake": -90, "b.bake": -60}, heating("oven", -104, -90, 200))
    assert points[2:] == [(-90, 200), (-60, 200), (-50, 160), (-30, 160), (5, 20)]
    assert plateaus(plan, laid(plan, {"a.bake": -90, "b.bake": -60}), OVEN) == (
        (-90, -60, 200),
        (-60, -30, 160),
    )


def test_a_pause_that_is_not_worth_switching_off_stays_hot():
    plan = bakes(160, 160)
    starts = {"a.bake": -90, "b.bake": -30}
    points = drawn(plan, starts, heating("oven", -100, -90, 160))
    assert points[2:] == [(-90, 160), (-60, 160), (-30, 160), (0, 160), (35, 20)]
    assert plateaus(plan, laid(plan, starts), OVEN) == ((-90, 0, 160),)
    starts = {"a.bake": -91, "b.bake": -30}
    assert plateaus(plan, laid(plan, starts), OVEN) == ((-91, -61, 160), (-30, 0, 160))


def test_after_a_long_pause_it_heats_up_from_where_it_has_cooled_to():
    plan = bakes(160, 160)
    on = (heating("oven", -210, -200, 160), heating("oven", -150, -140, 160))
    points = drawn(plan, {"a.bake": -200, "b.bake": -140}, *on)
    # off at -170, 80 °C at -150; from 80 (3 min from cold) to 160 (10 min) in 7
    assert points[2:] == [
        (-200, 160), (-170, 160), (-150, 80), (-149, 100), (-143, 160), (-140, 160), (-110, 160), (-75, 20),
    ]  # fmt: skip
    points = drawn(plan, {"a.bake": -200, "b.bake": -60}, on[0], heating("oven", -70, -60, 160))
    assert points[3:6] == [(-170, 160), (-135, 20), (-70, 20)]


def test_a_colder_setting_while_it_is_still_cooling():
    plan = bakes(200, 60)
    on = (heating("oven", -214, -200, 200), heating("oven", -160, -139, 60))
    points = drawn(plan, {"a.bake": -200, "b.bake": -139}, *on)
    # off at -170 at 200; at -160 it is 160 and set to 60: down by 4 a minute until -135
    assert points[3:] == [(-170, 200), (-160, 160), (-139, 76), (-135, 60), (-109, 60), (-99, 20)]


def test_a_place_that_needs_no_heating_up_is_there_at_once():
    plan = bakes(200, heater=replace(HEATER, from_cold=()))
    assert drawn(plan, {"a.bake": -60}) == [(-60, 20), (-60, 200), (-30, 200), (15, 20)]


def test_of_two_settings_at_once_the_last_to_come_is_drawn():
    plan = bakes(200, 160)
    points = drawn(plan, {"a.bake": -60, "b.bake": -50}, heating("oven", -74, -60, 200))
    assert points[2:] == [(-60, 200), (-50, 200), (-40, 160), (-30, 160), (-20, 160), (15, 20)]
    assert plateaus(plan, laid(plan, {"a.bake": -60, "b.bake": -50}), OVEN) == (
        (-60, -30, 200),
        (-50, -20, 160),
    )


def test_bakes_that_share_are_one_plateau():
    plan = bakes(160, 160, 200, 160)
    starts = {"a.bake": -100, "b.bake": -80, "c.bake": -45, "d.bake": -10}
    assert plateaus(plan, laid(plan, starts), OVEN) == ((-100, -50, 160), (-45, -15, 200), (-10, 20, 160))
    inside = {"a.bake": -100, "b.bake": -100, "c.bake": -90, "d.bake": -75}
    assert plateaus(plan, laid(plan, inside), OVEN) == ((-100, -45, 160), (-90, -60, 200))


def test_a_heating_that_nothing_follows_is_drawn_too():
    plan = bakes(160)
    assert drawn(plan, {}, heating("oven", -20, -10, 160)) == [(-20, 20), (-16, 100), (-10, 160), (25, 20)]


def test_a_setting_below_cold_is_left_as_it_is_when_off():
    plan = bakes(10, heater=replace(HEATER, lowest=0))
    assert drawn(plan, {"a.bake": -30}) == [(-30, 20), (-27.5, 10), (0, 10)]


def test_no_rate_jumps():
    plan = bakes(160, 200, heater=replace(HEATER, up=0.0))
    points = drawn(plan, {"a.bake": -60, "b.bake": -30}, heating("oven", -70, -60, 160))
    assert (-30, 200) in points


@pytest.mark.parametrize("station", ["burner-1", "kiln", "grill", "oven"])
def test_what_does_not_heat_or_is_not_used_has_no_curve(station):
    plan = bakes(160)
    assert curve(plan, Timetable(), StationId(station)) == ()
    assert plateaus(plan, Timetable(), StationId(station)) == ()


def test_a_bake_without_a_setting_is_not_drawn():
    plan = bakes(160)
    placed = laid(plan, {"a.bake": -60}).placed[0]
    assert curve(plan, Timetable((replace(placed, setting=None),)), OVEN) == ()


def test_the_lighting_of_a_fire_is_not_drawn():
    fired = replace(an_oven(heater=HEATER), lighting=20, burns=90)
    plan = a_plan(a_dish("a", *bakes(200).menu.dishes[0].steps), kitchen=a_kitchen(oven=fired))
    warm, lit = heating("oven", -74, -60, 200), heating("oven", -90, -70, 0)
    assert drawn(plan, {"a.bake": -60}, warm, lit) == drawn(plan, {"a.bake": -60}, warm)
    assert curve(plan, laid(plan, {}, heatings=[lit]), OVEN) == ()
