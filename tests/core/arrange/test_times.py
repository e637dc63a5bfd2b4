"""Links, orders, limits, clock, pins, courses, loads: plans in which time alone decides."""

from itertools import pairwise

import pytest

from core.arrange import Fit
from core.plan.decisions import Order, Pin
from core.plan.menu import LinkKind
from core.plan.step import ClockTime, Holding, Keep, Loads, Manner, StationKind, Use, VesselUse, Wait
from core.timetable.clash import ClashKind
from tests.core.arrange.arranged import answer, meets, refused, starts
from tests.support.builders import (
    a_bench,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_vessel,
    burners,
    hands_off,
)

DAY = 24 * 60
BARE = a_kitchen(stations=())


def bench(*steps, **fields):
    return a_bench(*steps, **{"kitchen": BARE, "transfer": 0, **fields})


# ---- links


def test_end_to_start_least_and_most():
    found = starts(
        meets(bench(hands_off("a.one"), hands_off("a.two"), links=(a_link("a.one", "a.two", 7, 9),)))
    )
    assert found == {"a.one": -27, "a.two": -10}


@pytest.mark.parametrize(("most", "fit"), [(20, Fit.MEETS), (19, Fit.IMPOSSIBLE)])
def test_start_to_start(most, fit):
    # b is pinned to begin 20 min after a
    link = a_link("a.one", "b.one", 5, most, kind=LinkKind.START_TO_START)
    pins = (Pin("a.one", start=-60), Pin("b.one", start=-40))
    assert answer(bench(hands_off("a.one", 30), hands_off("b.one", 5), links=(link,), pins=pins)).fit is fit


@pytest.mark.parametrize(("least", "fit"), [(10, Fit.MEETS), (11, Fit.IMPOSSIBLE)])
def test_end_to_end(least, fit):
    # a ends -30, b ends -20
    link = a_link("a.one", "b.one", least, kind=LinkKind.END_TO_END)
    pins = (Pin("a.one", start=-60), Pin("b.one", start=-25))
    assert answer(bench(hands_off("a.one", 30), hands_off("b.one", 5), links=(link,), pins=pins)).fit is fit


def test_loads_are_bound_from_the_first_end_to_the_last_start():
    # three loads of 5 with 1 between: the first ends 12 min before the last; b follows at once
    steps = (hands_off("a.fry", 5, loads=Loads(3, 1, 1)), hands_off("b.eat", 5))
    meets(bench(*steps, links=(a_link("a.fry", "b.eat", 0, 12),)))
    refused(bench(*steps, links=(a_link("a.fry", "b.eat", 0, 11),)))


def test_as_many_loads_feed_each_other_one_by_one():
    steps = (hands_off("a.fry", 5, loads=Loads(3, 1, 1)), hands_off("a.salt", 5, loads=Loads(3, 1, 1)))
    timetable = meets(bench(*steps, links=(a_link("a.fry", "a.salt", 2, 2),)))
    for one, other in zip(timetable.loads_of["a.fry"], timetable.loads_of["a.salt"], strict=True):
        assert other.start - one.end == 2


@pytest.mark.parametrize(("most", "fit"), [(25, Fit.MEETS), (24, Fit.IMPOSSIBLE)])
def test_loads_that_may_be_done_early_wait_that_much_longer(most, fit):
    # likely 10, 8 to 12: 12 reserved, 4 early; two loads and 1 min: the first ends 13 min before the last does,
    # the next step 8 min after that: 13 + 8 + 4 = 25 at the most
    steps = (hands_off("a.fry", (8, 10, 12), loads=Loads(2, 1, 1)), hands_off("b.eat", 5))
    links = (a_link("a.fry", "b.eat", 8, most),)
    assert answer(bench(*steps, links=links, manner=Manner.SAFE)).fit is fit


def test_an_order_of_the_cook_holds():
    steps = (hands_off("a.one"), hands_off("b.one"), hands_off("c.one"))
    orders = tuple(Order(*each) for each in pairwise(("c.one", "a.one", "b.one")))
    assert starts(meets(bench(*steps, orders=orders))) == {"c.one": -30, "a.one": -20, "b.one": -10}


# ---- limits


@pytest.mark.parametrize(("between", "fit"), [(5, Fit.MEETS), (6, Fit.IMPOSSIBLE)])
def test_earliest_and_latest(between, fit):
    # 10 from -35 at the earliest, 5 of waiting, 10 by -10 at the latest
    steps = (hands_off("a.one", earliest=-35), hands_off("a.two", latest=-10))
    assert answer(bench(*steps, links=(a_link("a.one", "a.two", between),))).fit is fit


def test_the_clock_decides_whatever_is_better():
    timetable = meets(bench(hands_off("a.one", 10, clock=ClockTime(1, 8 * 60))))
    assert starts(timetable) == {"a.one": -(DAY + 19 * 60 + 30 - 8 * 60)}


def test_several_courses_each_with_its_own_keeping():
    dishes = (
        a_dish("soup", hands_off("soup.do", 10), course=-60, keep=Keep(0)),
        a_dish("roast", hands_off("roast.do", 10), keep=Keep(0)),
        a_dish("sweet", hands_off("sweet.do", 10), course=75, keep=Keep(0)),
    )
    found = starts(meets(a_plan(*dishes, kitchen=BARE, transfer=0)))
    assert found == {"soup.do": -70, "roast.do": -10, "sweet.do": 65}


@pytest.mark.parametrize("days", [1, 3, 5, 9])
def test_what_is_due_days_before_has_its_days(days):
    meets(bench(hands_off("a.one", 10, latest=-days * DAY)))
    meets(a_plan(a_dish("a", hands_off("a.one", 10), course=-days * DAY), kitchen=BARE, transfer=0))


@pytest.mark.parametrize("fixed", ["clock", "pin"])
def test_a_chain_before_a_fixed_time_days_before_has_its_days(fixed):
    # three days before what is fixed five days before
    then = hands_off("a.two", 10, clock=ClockTime(5, 10 * 60) if fixed == "clock" else None)
    pins = (Pin("a.two", start=-5 * DAY),) if fixed == "pin" else ()
    steps = (hands_off("a.one", 3 * DAY), then)
    timetable = meets(bench(*steps, links=(a_link("a.one", "a.two", 0, 0),), pins=pins))
    assert timetable.placed[0].end == timetable.placed[1].start


def test_nothing_begins_before_the_plan_opens():
    meets(bench(hands_off("a.one", 10), opens=-10))
    refused(bench(hands_off("a.one", 10), opens=-9))


def test_a_pin_holds_its_start():
    timetable = meets(bench(hands_off("a.one"), a_step("b.one"), pins=(Pin("a.one", start=-47),)))
    assert starts(timetable)["a.one"] == -47


def test_a_pin_holds_its_load():
    step = hands_off("a.one", 5, loads=Loads(3, 1, 2))
    timetable = meets(bench(step, pins=(Pin("a.one", 1, start=-40),)))
    first, second, third = timetable.loads_of["a.one"]
    assert (first.end + 2 <= second.start, second.start, third.start >= second.end + 2) == (True, -40, True)


def test_an_empty_plan_meets():
    assert meets(a_plan(kitchen=BARE)).placed == ()


# ---- the nearest timetable of what cannot meet


def test_the_nearest_of_what_comes_late_is_late_and_nothing_else():
    outcome = refused(bench(hands_off("a.one", 20), opens=-10))
    assert [(each.kind, each.by) for each in outcome.clashes] == [(ClashKind.LATE, 10)]


def test_what_waits_in_a_place_until_it_is_served_may_be_late_too():
    keep = Keep(5, Wait(Holding.HOT, Use(StationKind.BURNER)))
    plan = a_plan(
        a_dish("a", hands_off("a.one", 20), keep=keep), kitchen=a_kitchen(stations=burners(1)), opens=-10
    )
    outcome = refused(plan)
    assert [(each.kind, each.by) for each in outcome.clashes] == [(ClashKind.LATE, 10)]


# ---- vessels


@pytest.mark.parametrize(("count", "washing", "opens", "fit"), [
    (2, 5, -10, Fit.MEETS),  # both at once
    (1, 5, -25, Fit.MEETS),  # 10, 5 to wash, 10
    (1, 5, -24, Fit.IMPOSSIBLE),
    (1, 0, -20, Fit.MEETS),
])  # fmt: skip
def test_a_pot_is_washed_between_two_dishes(count, washing, opens, fit):
    dishes = (
        a_dish("a", hands_off("a.boil", 10, vessels=(VesselUse("pot"),))),
        a_dish("b", hands_off("b.boil", 10, vessels=(VesselUse("pot"),))),
    )
    kitchen = a_kitchen(stations=(), vessels=(a_vessel("pot", count, washing=washing),))
    assert answer(a_plan(*dishes, kitchen=kitchen, transfer=0, opens=opens)).fit is fit


@pytest.mark.parametrize(("how", "fit"), [(Holding.VESSEL, Fit.IMPOSSIBLE), (Holding.COUNTER, Fit.MEETS)])
def test_food_that_waits_in_its_pot_keeps_the_pot(how, fit):
    # 10 min of a pinned early; in its pot until plating it leaves none for b
    dishes = (
        a_dish("a", hands_off("a.boil", 10, vessels=(VesselUse("pot"),)), keep=Keep(60, Wait(how))),
        a_dish("b", hands_off("b.boil", 10, vessels=(VesselUse("pot"),)), keep=Keep(0)),
    )
    kitchen = a_kitchen(stations=(), vessels=(a_vessel("pot", 1, washing=5),))
    plan = a_plan(*dishes, kitchen=kitchen, transfer=0, orders=(Order("a.boil", "b.boil"),))
    assert answer(plan).fit is fit


def test_a_run_of_steps_holds_its_pot_through_its_waits():
    # a: 5 min, 20 of waiting, 5 more, all in one pot; b has it before or after
    steps = (
        hands_off("a.one", 5, vessels=(VesselUse("pot"),)),
        hands_off("a.two", 5, vessels=(VesselUse("pot"),)),
        hands_off("b.one", 10, vessels=(VesselUse("pot"),)),
    )
    kitchen = a_kitchen(stations=(), vessels=(a_vessel("pot", 1, washing=0),))
    links = (a_link("a.one", "a.two", 20, 20),)
    meets(bench(*steps, links=links, kitchen=kitchen, opens=-40))
    refused(bench(*steps, links=links, kitchen=kitchen, opens=-39))
