"""Pieces: hands-on work that may be interrupted; plans in which that alone decides."""

import pytest

from core.plan.decisions import Pin, Wishes
from core.plan.kitchen import Window
from core.plan.step import ClockTime, Keep, StationKind, Use, VesselUse
from tests.core.arrange.arranged import meets
from tests.core.arrange.ruled import between, fits, kitchen, there, worked
from tests.support.builders import a_cook, a_dish, a_link, a_plan, a_step, a_vessel, burners, hands_off

BURNER = (Use(StationKind.BURNER),)


def peeling(minutes: int = 20, least: int | None = 5, keep: int = 0, cooks=None, **fields):
    """Return work that must be done by plating, by a cook who is away from -15 to -5."""
    cooks = cooks or (a_cook("ann", breaks=(between(-15, -5),)),)
    step = a_step("a.peel", minutes=minutes, least_piece=least, **fields)
    return a_plan(a_dish("a", step, keep=Keep(keep)), kitchen=kitchen(cooks=cooks))


# ---- whether, and how small


def test_work_goes_around_a_break():
    # five minutes after the break, so fifteen before it
    timetable = meets(peeling(earliest=-30))
    assert worked(timetable, "a.peel") == [(-30, -15), (-5, 0)]
    (placed,) = timetable.placed
    assert (placed.start, placed.length) == (-30, 30)


def test_a_minute_less_before_the_break_is_too_little():
    assert fits(peeling(earliest=-30))
    assert not fits(peeling(earliest=-29))


def test_without_pieces_it_waits_until_after_or_is_done_before():
    assert not fits(peeling(least=None))
    assert fits(peeling(least=None, keep=15))  # done by -15
    assert not fits(peeling(least=None, keep=14))


@pytest.mark.parametrize(("least", "fit"), [(5, True), (6, False)])
def test_no_piece_is_shorter_than_the_least(least, fit):
    # after the break there are five minutes
    assert fits(peeling(least=least)) is fit


@pytest.mark.parametrize(("minutes", "fit"), [(10, True), (9, False)])
def test_what_is_shorter_than_two_pieces_is_not_cut(minutes, fit):
    # 5 + 5 around the break, or nine minutes in one
    assert fits(peeling(minutes)) is fit


@pytest.mark.parametrize("keep", [0, 30])
def test_where_nothing_is_in_the_way_it_is_done_in_one(keep):
    # without the wish for calm, for which some of it might be done an hour sooner
    step = a_step("a.peel", minutes=20, least_piece=5)
    timetable = meets(a_plan(a_dish("a", step, keep=Keep(keep)), kitchen=kitchen(), wishes=Wishes(calm=0)))
    assert worked(timetable, "a.peel") == [(-20, 0)]


def test_other_work_may_come_between():
    # the fish comes at 19:15, five minutes of work; one cook
    fish = a_step("fish.take", minutes=5, clock=ClockTime(0, 19 * 60 + 15))
    peel = a_step("a.peel", minutes=20, least_piece=10, earliest=-25)
    plan = a_plan(a_dish("fish", fish), a_dish("a", peel, keep=Keep(0)), kitchen=kitchen())
    assert worked(meets(plan), "a.peel") == [(-25, -15), (-10, 0)]
    whole = a_step("a.peel", minutes=20, earliest=-25)
    assert not fits(a_plan(a_dish("fish", fish), a_dish("a", whole, keep=Keep(0)), kitchen=kitchen()))


def visits(count: int, minutes: int, pause: int):
    """Return a cook who comes `count` times for some minutes, with pauses between, the last until plating."""
    apart = minutes + pause
    windows = [between(-minutes - number * apart, -number * apart) for number in range(count)]
    return (a_cook("ann", present=tuple(windows)),)


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6])
def test_as_many_pieces_as_there_are_gaps(count):
    cooks = visits(count, 5, 3)
    assert fits(peeling(5 * count, 5, cooks=cooks))
    assert not fits(peeling(5 * count + 1, 5, cooks=cooks))


@pytest.mark.parametrize("days", [1, 2, 3])
def test_a_pause_may_last_for_days(days):
    # ten minutes on the day, ten so many days before
    last, first = between(-10, 0), between(-10, 0)
    cooks = (a_cook("ann", present=(last, Window(days, first.from_minute, first.to_minute))),)
    assert fits(peeling(20, 10, cooks=cooks))
    assert not fits(peeling(21, 10, cooks=cooks))


# ---- who


def test_pieces_may_be_different_cooks():
    # ann until -12, ben from -8
    cooks = (there(-22, -12), there(-8, 2, "ben"))
    timetable = meets(peeling(18, 8, cooks=cooks))
    assert [(each.start, each.minutes, each.cook) for each in timetable.at["a.peel", 0].hands] == [
        (-22, 10, "ann"),
        (-8, 8, "ben"),
    ]


def test_one_cook_hands_over_to_the_next_without_a_pause():
    # ann until -10, ben from then on: twenty minutes from -20 are ten of each
    cooks = (there(-20, -10), there(-10, 0, "ben"))
    plan = peeling(20, 10, cooks=cooks)
    assert fits(plan)
    assert worked(meets(plan), "a.peel") == [(-20, -10), (-10, 0)]


def test_each_piece_needs_the_skill():
    cooks = (there(-22, -12, "ann", "knife"), there(-8, 2, "ben"))
    assert fits(peeling(18, 8, cooks=cooks))
    assert not fits(peeling(18, 8, cooks=cooks, skill="knife"))


def test_pinned_to_a_cook_all_pieces_are_that_cooks():
    cooks = (a_cook("ann", breaks=(between(-15, -5),)), a_cook("ben"))
    step = a_step("a.peel", minutes=20, least_piece=5, earliest=-30)
    pins = (Pin("a.peel", cook="ann"),)
    plan = a_plan(a_dish("a", step, keep=Keep(0)), kitchen=kitchen(cooks=cooks), pins=pins)
    hands = meets(plan).at["a.peel", 0].hands
    assert {each.cook for each in hands} == {"ann"}
    assert [(each.start, each.minutes) for each in hands] == [(-30, 15), (-5, 5)]


# ---- what it holds meanwhile


@pytest.mark.parametrize(("count", "fit"), [(1, False), (2, True)])
def test_its_place_is_held_through_the_pause(count, fit):
    # the pause from -15 to -5 would be long enough for the pan that must be done by -6
    step = a_step("a.stir", minutes=20, least_piece=5, uses=BURNER, earliest=-30)
    pan = hands_off("b.fry", 8, uses=BURNER, latest=-6)
    cooks = (a_cook("ann", breaks=(between(-15, -5),)),)
    plan = a_plan(
        a_dish("a", step, keep=Keep(0)),
        a_dish("b", pan, keep=Keep(8)),
        kitchen=kitchen(*burners(count), cooks=cooks),
    )
    assert fits(plan) is fit


@pytest.mark.parametrize(("count", "fit"), [(1, False), (2, True)])
def test_its_vessel_is_held_through_the_pause(count, fit):
    bowl = (VesselUse("bowl"),)
    step = a_step("a.stir", minutes=20, least_piece=5, vessels=bowl, earliest=-30)
    other = hands_off("b.soak", 8, vessels=bowl, latest=-6)
    cooks = (a_cook("ann", breaks=(between(-15, -5),)),)
    plan = a_plan(
        a_dish("a", step, keep=Keep(0)),
        a_dish("b", other, keep=Keep(8)),
        kitchen=kitchen(cooks=cooks, vessels=(a_vessel("bowl", count, washing=0),)),
    )
    assert fits(plan) is fit


@pytest.mark.parametrize(("most", "fit"), [(0, True), (30, True)])
def test_what_follows_comes_after_the_last_piece_and_what_precedes_before_the_first(most, fit):
    before, after = hands_off("a.soak", 10), hands_off("a.cook", 5)
    step = a_step("a.peel", minutes=20, least_piece=5)
    cooks = (a_cook("ann", breaks=(between(-20, -10),)),)
    links = (a_link("a.soak", "a.peel", 0, most), a_link("a.peel", "a.cook", 0, 0))
    dish = a_dish("a", before, step, after, keep=Keep(0))
    plan = a_plan(dish, links=links, kitchen=kitchen(cooks=cooks))
    assert fits(plan) is fit
    timetable = meets(plan)
    # cook from -5: peeled from -10 to -5, and fifteen minutes before the break at -20
    soak, peel, cook = (timetable.at[each, 0] for each in ("a.soak", "a.peel", "a.cook"))
    assert (peel.end, cook.start) == (-5, -5)
    assert 0 <= peel.start - soak.end <= most
    assert sum(end - start for start, end in worked(timetable, "a.peel")) == 20
