"""Ways: a step with alternatives is done in exactly one of them; plans in which that alone decides."""

import pytest

from core.plan.decisions import Choice
from core.plan.step import Alternative, Attention, Heat, Keep, Loads, Span, StationKind, Touch, Use
from tests.core.arrange.arranged import ALWAYS_HOT, meets, starts, where
from tests.core.arrange.ruled import between, fits, kitchen, worked
from tests.support.builders import (
    a_cook,
    a_dish,
    a_plan,
    a_room,
    a_step,
    an_oven,
    burners,
    hands_off,
)

BURNER = (Use(StationKind.BURNER),)
OVEN = (Use(StationKind.OVEN),)


def quick(minutes: int, *uses: Use) -> tuple[Alternative, ...]:
    """Return one other way."""
    return (Alternative("quick", Span.of(minutes), uses),)


def slow_or_quick(earliest: int, **fields):
    """Return a dish of 65 min, or 60 another way, that must be on the table at once."""
    step = hands_off("a.cook", 65, alternatives=quick(60), earliest=earliest)
    return a_plan(a_dish("a", step, keep=Keep(0)), kitchen=kitchen(), **fields)


# ---- length


@pytest.mark.parametrize(("earliest", "way"), [(-65, 0), (-64, 1), (-60, 1)])
def test_the_way_that_fits_is_taken_and_the_written_one_where_both_do(earliest, way):
    (placed,) = meets(slow_or_quick(earliest)).placed
    assert placed.way == way
    assert (placed.start, placed.length) == ((-65, 65) if way == 0 else (-60, 60))


def test_a_minute_less_than_the_quickest_way_is_too_little():
    assert fits(slow_or_quick(-60))
    assert not fits(slow_or_quick(-59))


def test_without_another_way_there_is_none():
    step = hands_off("a.cook", 65, earliest=-64)
    assert not fits(a_plan(a_dish("a", step, keep=Keep(0)), kitchen=kitchen()))


@pytest.mark.parametrize(
    ("chosen", "earliest", "fit"), [(0, -65, True), (0, -64, False), (1, -60, True), (1, -59, False)]
)
def test_the_way_chosen_is_the_only_one(chosen, earliest, fit):
    plan = slow_or_quick(earliest, choices=(Choice("a.cook", chosen),))
    assert fits(plan) is fit
    if fit:
        assert meets(plan).placed[0].way == chosen


def test_of_three_ways_the_only_one_that_fits_is_taken():
    others = (Alternative("b", Span.of(50)), Alternative("c", Span.of(30)), Alternative("d", Span.of(40)))
    step = hands_off("a.cook", 60, alternatives=others, earliest=-35)
    (placed,) = meets(a_plan(a_dish("a", step, keep=Keep(0)), kitchen=kitchen())).placed
    assert (placed.way, placed.length) == (2, 30)


# ---- loads


@pytest.mark.parametrize(
    ("chosen", "earliest", "way"),
    [(0, -20, 0), (0, -19, None), (None, -19, 1), (None, -16, 1), (None, -12, 1), (None, -11, None)],
)
def test_all_loads_go_the_same_way(chosen, earliest, way):
    # two loads of 10 are 20, of 6 are 12; one of each would be 16
    step = hands_off("a.cook", 10, alternatives=quick(6), earliest=earliest, loads=Loads(2, 1))
    choices = () if chosen is None else (Choice("a.cook", chosen),)
    plan = a_plan(a_dish("a", step, keep=Keep(20)), kitchen=kitchen(), choices=choices)
    assert fits(plan) is (way is not None)
    if way is not None:
        assert {each.way for each in meets(plan).placed} == {way}


# ---- places


def pan_or_oven(burning: int):
    """Return a dish written for the oven that may be done on a burner, while the one rack is taken by another."""
    dishes = (
        a_dish("a", hands_off("a.cook", 10, uses=OVEN, alternatives=quick(10, *BURNER)), keep=Keep(0)),
        a_dish("b", hands_off("b.bake", 10, uses=OVEN), keep=Keep(0)),
        a_dish("c", hands_off("c.fry", 10, uses=BURNER), keep=Keep(0)),
    )
    return a_plan(*dishes, kitchen=kitchen(an_oven(racks=1, heater=None), *burners(burning)), transfer=0)


def test_a_way_takes_its_own_places_and_not_the_written_ones():
    timetable = meets(pan_or_oven(2))
    assert timetable.at["a.cook", 0].way == 1
    assert where(timetable, "a.cook")[0].startswith("burner")
    assert where(timetable, "b.bake") == ["oven"]


def test_a_way_without_room_is_none():
    assert fits(pan_or_oven(2))
    assert not fits(pan_or_oven(1))


def test_a_place_no_longer_needed_is_free():
    # one burner: a leaves it to b by going into the oven
    dishes = (
        a_dish("a", hands_off("a.cook", 10, uses=BURNER, alternatives=quick(12, *OVEN)), keep=Keep(0)),
        a_dish("b", hands_off("b.fry", 10, uses=BURNER), keep=Keep(0)),
    )
    timetable = meets(a_plan(*dishes, kitchen=kitchen(an_oven(heater=None), *burners(1)), transfer=0))
    assert starts(timetable) == {"a.cook": -12, "b.fry": -10}
    assert where(timetable, "a.cook") == ["oven"]


def at(setting: int) -> Use:
    return Use(StationKind.OVEN, heat=Heat(setting, setting - 5, setting + 5))


def test_a_way_has_its_own_temperature():
    # 45 min at 190 or 65 at 160; the tart beside it stands at 160 until the end
    roots = hands_off("roots.bake", 45, uses=(at(190),), alternatives=quick(65, at(160)))
    tart = hands_off("tart.bake", 40, uses=(at(160),))
    plan = a_plan(
        a_dish("roots", roots, keep=Keep(0)),
        a_dish("tart", tart, keep=Keep(0)),
        kitchen=kitchen(an_oven(heater=ALWAYS_HOT)),
        transfer=0,
    )
    timetable = meets(plan)
    assert starts(timetable) == {"roots.bake": -65, "tart.bake": -40}
    assert {each.setting for each in timetable.placed} == {160}


# ---- hands


@pytest.mark.parametrize(("chosen", "hands"), [(0, []), (1, [(-10, -9), (-1, 0)])])
def test_transfers_are_the_ways(chosen, hands):
    # on the worktop nobody puts in; on a burner a minute at either end
    step = a_step(
        "a.cook",
        minutes=10,
        attention=Attention.HANDS_OFF,
        uses=(Use(StationKind.ROOM),),
        alternatives=quick(10, *BURNER),
    )
    plan = a_plan(
        a_dish("a", step, keep=Keep(0)),
        kitchen=kitchen(a_room(), *burners(1)),
        transfer=1,
        choices=(Choice("a.cook", chosen),),
    )
    assert worked(meets(plan), "a.cook") == hands


def test_a_way_without_transfers_is_taken_where_nobody_is_there():
    step = a_step(
        "a.cook",
        minutes=10,
        attention=Attention.HANDS_OFF,
        uses=BURNER,
        alternatives=quick(10, Use(StationKind.ROOM)),
    )
    cooks = (a_cook("ann", breaks=(between(-30, 0),)),)
    plan = a_plan(
        a_dish("a", step, keep=Keep(0)), kitchen=kitchen(a_room(), *burners(1), cooks=cooks), transfer=1
    )
    assert meets(plan).placed[0].way == 1


def test_touches_are_the_steps_whatever_the_way():
    step = a_step(
        "a.cook",
        minutes=20,
        attention=Attention.TENDED,
        touches=(Touch(5, 2), Touch(3, 1, from_end=True)),
        alternatives=quick(12),
        earliest=-12,
    )
    plan = a_plan(a_dish("a", step, keep=Keep(0)), kitchen=kitchen())
    # of the 12 from -12: two minutes from -7, and one that ends three before the end
    assert worked(meets(plan), "a.cook") == [(-7, -5), (-4, -3)]


def test_hands_on_work_lasts_as_long_as_its_way():
    step = a_step("a.cook", minutes=20, alternatives=quick(12), earliest=-12)
    plan = a_plan(a_dish("a", step, keep=Keep(0)), kitchen=kitchen())
    assert worked(meets(plan), "a.cook") == [(-12, 0)]


# ---- earliness


@pytest.mark.parametrize(
    ("chosen", "latest", "fit"),
    [(0, -10, True), (0, -11, False), (1, -3, True), (1, -4, False)],
)
def test_earliness_is_the_ways(chosen, latest, fit):
    # it keeps 10. As written 20 without spread: done -10 at the soonest. The other way 5 to 12, safe: 12 reserved,
    # done up to 7 sooner, so that 3 of the 10 are left
    step = hands_off("a.cook", 20, alternatives=(Alternative("b", Span(5, 10, 12)),), latest=latest)
    plan = a_plan(a_dish("a", step, keep=Keep(10)), kitchen=kitchen(), choices=(Choice("a.cook", chosen),))
    assert fits(plan) is fit


@pytest.mark.parametrize(("latest", "way"), [(-3, 0), (-4, 0), (-10, 0), (-11, None)])
def test_of_two_ways_the_one_whose_earliness_can_be_borne(latest, way):
    step = hands_off("a.cook", 20, alternatives=(Alternative("b", Span(5, 10, 12)),), latest=latest)
    plan = a_plan(a_dish("a", step, keep=Keep(10)), kitchen=kitchen())
    assert fits(plan) is (way is not None)
    if way is not None:
        assert meets(plan).placed[0].way == way


# ---- with other rules


@pytest.mark.parametrize("chosen", [None, 0])
def test_a_step_with_another_way_may_be_done_in_pieces_too(chosen):
    # 20 min by the end, 10 of them before the break from -15 to -5 and 5 after it are too few: 15 + 5
    step = a_step("a.peel", minutes=20, least_piece=5, alternatives=quick(18), earliest=-30)
    cooks = (a_cook("ann", breaks=(between(-15, -5),)),)
    choices = () if chosen is None else (Choice("a.peel", chosen),)
    plan = a_plan(a_dish("a", step, keep=Keep(0)), kitchen=kitchen(cooks=cooks), choices=choices)
    assert fits(plan)
