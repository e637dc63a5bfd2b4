"""Fires: what stands on coals does so while some fire burns, lit beforehand; plans in which that alone decides."""

import pytest

from core.plan.decisions import Pin
from core.plan.kitchen import Station, StationKind
from core.plan.step import Holding, Keep, Loads, Use, Wait
from tests.core.arrange.arranged import meets, starts, where
from tests.core.arrange.ruled import fits, kitchen, there
from tests.support.builders import a_dish, a_plan, a_step, hands_off

ON_GRILL = (Use(StationKind.GRILL),)


def coals(
    lighting: int = 20, burns: int | None = 30, laying: int = 5, fires: int = 1, units: int = 2, **fields
):
    """Return a grill that is lit for 20 min, five of them a cook's, and burns for 30."""
    name = fields.pop("name", "grill")
    return Station(
        name,
        name,
        StationKind.GRILL,
        units,
        lighting=lighting,
        burns=burns,
        laying=laying,
        fires=fires,
        **fields,
    )


def meat(name: str, minutes: int, keep: int | None = 0, **fields):
    return a_dish(name, hands_off(f"{name}.grill", minutes, uses=ON_GRILL, **fields), keep=Keep(keep))


def grilled(*dishes, cooks=1, grill: Station | None = None, **fields):
    return a_plan(*dishes, kitchen=kitchen(grill or coals(), cooks=cooks), transfer=0, **fields)


def lit(timetable) -> list[tuple[int, int]]:
    """Return when fires were lit and ready."""
    return [(each.start, each.end) for each in timetable.heatings]


# ---- one fire


def test_it_is_lit_as_late_as_can_be_by_a_cook():
    timetable = meets(grilled(meat("a", 10)))
    (fire,) = timetable.heatings
    assert (fire.station, fire.start, fire.end, fire.setting, fire.cook) == ("grill", -30, -10, 0, "ann")


def test_without_a_fire_nothing_is_lit():
    plain = Station("grill", "Grill", StationKind.GRILL, 2)
    assert meets(grilled(meat("a", 10), grill=plain)).heatings == ()


def at_two_times(first: int, **fields):
    """Return two dishes of ten minutes, one from `first`, one until plating."""
    dishes = (meat("a", 10, None), meat("b", 10))
    return grilled(*dishes, grill=coals(**fields), pins=(Pin("a.grill", start=first),))


@pytest.mark.parametrize(
    ("first", "burns", "fit"),
    [
        (-30, 30, True),
        (-30, 29, False),
        (-31, 30, False),
        (-31, 31, True),
        (-300, None, True),
        (-300, 299, False),
    ],
)
def test_one_fire_burns_for_so_long(first, burns, fit):
    assert fits(at_two_times(first, burns=burns)) is fit


@pytest.mark.parametrize(
    ("first", "burns", "fires", "fit"),
    [
        (-300, 10, 2, True),  # one for each
        (-300, 9, 2, False),
        (-300, 9, 3, False),  # both need two
        (-300, 9, 4, True),
        (-31, 30, 2, True),
    ],
)
def test_it_may_be_lit_so_often(first, burns, fires, fit):
    assert fits(at_two_times(first, burns=burns, fires=fires)) is fit


def test_no_more_fires_than_are_needed():
    assert len(lit(meets(at_two_times(-30, burns=30, fires=3)))) == 1
    assert lit(meets(at_two_times(-300, burns=30, fires=3))) == [(-320, -300), (-30, -10)]


@pytest.mark.parametrize(
    ("minutes", "burns", "fires", "fit"),
    [
        (30, 30, 1, True),
        (31, 30, 1, False),
        (30, 15, 2, True),
        (31, 15, 2, False),
        (30, 10, 3, True),
        (31, 10, 3, False),
    ],
)
def test_one_fire_may_go_on_where_another_ends(minutes, burns, fires, fit):
    assert fits(grilled(meat("a", minutes), grill=coals(burns=burns, fires=fires))) is fit


def test_a_second_is_lit_while_things_cook_on_the_first():
    # 40 min on fires of 30: the second ready by -10 at the latest, lit at -30
    timetable = meets(grilled(meat("a", 40), grill=coals(burns=30, fires=2)))
    first, second = lit(timetable)
    assert first == (-60, -40)
    assert second == (-30, -10)


# ---- the coals of a terrace


def terrace(fires: int, burns: int = 60):
    """Return three loads of 12 min with 2 between, then, after 2, chops of 30 min: 72 in all, one after the other."""
    loads = hands_off(
        "skewers.grill", 12, uses=(Use(StationKind.GRILL, 2),), loads=Loads(3, 1, 2), earliest=-72
    )
    chops = hands_off("chops.grill", 30, uses=(Use(StationKind.GRILL, 2),))
    dishes = (a_dish("skewers", loads, keep=Keep(None)), a_dish("chops", chops, keep=Keep(0)))
    grill = coals(25, burns, 5, fires)
    pins = (Pin("skewers.grill", 0, -72), Pin("skewers.grill", 1, -58), Pin("skewers.grill", 2, -44))
    return grilled(*dishes, grill=grill, pins=pins)


def test_coals_of_sixty_minutes_run_out_before_the_chops_are_done():
    # -72, 12, 2, 12, 2, 12 and 2 more: chops from -30 to 0, and the coals are out at -12
    assert not fits(terrace(1))
    assert not fits(terrace(1, 71))
    assert fits(terrace(1, 72))


def test_a_second_chimney_is_lit_in_time():
    # ready when the first are out, at -12, so lit at -37 at the latest
    timetable = meets(terrace(2))
    first, second = lit(timetable)
    assert first == (-97, -72)
    assert second == (-37, -12)


# ---- hands


@pytest.mark.parametrize(
    ("begins", "ends", "fit"),
    [
        (-30, -25, True),  # lit at the latest
        (-29, -24, False),
        (-50, -45, True),  # lit at the soonest: ready -30, out at 0
        (-51, -46, False),
        (-40, -35, True),
        (-40, -36, False),  # four minutes are too few
    ],
)
def test_laying_takes_a_cook(begins, ends, fit):
    plan = grilled(meat("a", 10), cooks=(there(begins, ends),))
    assert fits(plan) is fit
    if fit:
        assert lit(meets(plan)) == [(begins, begins + 20)]


@pytest.mark.parametrize(
    ("lighting", "laying", "hands"), [(20, 5, 5), (3, 5, 3), (5, 5, 5), (4, 0, 0), (0, 5, 0)]
)
def test_it_takes_the_cook_no_longer_than_lighting_lasts(lighting, laying, hands):
    # the cook is there for just so many minutes, and one less is too few
    def plan(minutes: int):
        light = -10 - lighting
        cooks = (there(light, light + minutes),) if minutes else (there(-100, -99),)
        return grilled(meat("a", 10), grill=coals(lighting, 10, laying), cooks=cooks)

    assert fits(plan(hands))
    if hands:
        assert not fits(plan(hands - 1))


def test_a_fire_without_lighting_has_no_length_and_takes_nobody():
    timetable = meets(grilled(meat("a", 10), grill=coals(0, 15)))
    (fire,) = timetable.heatings
    assert fire.start == fire.end
    assert -15 <= fire.start <= -10
    assert fire.cook is None


@pytest.mark.parametrize(("begins", "fit"), [(-35, True), (-34, False)])
def test_whoever_lays_the_fire_does_nothing_else(begins, fit):
    # one cook: mixing from -20, ten minutes of chopping and five of laying before; laid from -30 at the latest,
    # so laid first and then chopped from -30
    chop, mix = a_step("b.chop", minutes=10), a_step("c.mix", minutes=20)
    dishes = (meat("a", 10), a_dish("b", chop, keep=Keep(30)), a_dish("c", mix, keep=Keep(0)))
    assert fits(grilled(*dishes, cooks=(there(begins, 0),))) is fit


# ---- what counts as use


@pytest.mark.parametrize(("burns", "fit"), [(15, True), (14, False)])
def test_food_kept_over_the_coals_needs_them(burns, fit):
    dish = a_dish(
        "a", hands_off("a.grill", 10, uses=ON_GRILL, latest=-5), keep=Keep(5, Wait(Holding.HOT, ON_GRILL[0]))
    )
    assert fits(grilled(dish, grill=coals(burns=burns))) is fit


@pytest.mark.parametrize(
    ("burns", "fires", "fit"), [(26, 1, True), (25, 1, False), (8, 3, True), (8, 2, False)]
)
def test_between_loads_nothing_need_burn(burns, fires, fit):
    # three loads of 8 with 1 between: 26 from the first to the last; or three fires of 8, each lit for its load
    loads = hands_off("a.grill", 8, uses=ON_GRILL, loads=Loads(3, 1, 1), earliest=-26)
    plan = grilled(a_dish("a", loads, keep=Keep(30)), grill=coals(1, burns, 0, fires))
    assert fits(plan) is fit


# ---- several stations


def test_of_two_grills_only_the_one_that_is_needed_is_lit():
    plan = a_plan(meat("a", 10), meat("b", 10), kitchen=kitchen(coals(), coals(name="other")), transfer=0)
    timetable = meets(plan)
    assert len(timetable.heatings) == 1
    assert where(timetable, "a.grill") == where(timetable, "b.grill") == [timetable.heatings[0].station]


def test_two_grills_are_lit_where_one_is_too_small():
    grills = (coals(units=1), coals(units=1, name="other"))
    timetable = meets(a_plan(meat("a", 10), meat("b", 10), kitchen=kitchen(*grills, cooks=1), transfer=0))
    # one cook lays both: one from -30, the other five minutes sooner
    assert sorted(lit(timetable)) == [(-35, -15), (-30, -10)]


def test_a_grill_without_fire_beside_it_is_better_than_lighting_one():
    gas = Station("gas", "Gas grill", StationKind.GRILL, 1)
    timetable = meets(a_plan(meat("a", 10), kitchen=kitchen(coals(), gas), transfer=0))
    assert where(timetable, "a.grill") == ["gas"]
    assert timetable.heatings == ()


@pytest.mark.parametrize(("burns", "fit"), [(760, True), (759, False)])
def test_nobody_lights_at_night(burns, fit):
    # 540 min until noon, from 03:00. Laid by 23:00, so lit at 22:50 and ready at 23:20: 12 h 40 min before noon
    smoker = Station("smoker", "Smoker", StationKind.SMOKER, 1, lighting=30, burns=burns, laying=10)
    step = hands_off("a.smoke", 540, uses=(Use(StationKind.SMOKER),))
    plan = a_plan(
        a_dish("a", step, keep=Keep(0)), kitchen=kitchen(smoker), transfer=0, plating="2026-09-26 12:00"
    )
    assert fits(plan) is fit
    if fit:
        timetable = meets(plan)
        assert starts(timetable) == {"a.smoke": -540}
        assert lit(timetable) == [(-790, -760)]
