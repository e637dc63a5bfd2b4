"""The day: facts stand, nothing else begins before now; plans in which that alone decides."""

import pytest

from core.arrange import Fit
from core.arrange.possible import possible
from core.plan.decisions import Pin
from core.plan.step import Alternative, Attention, Holding, Keep, Loads, Span, StationKind, Touch, Use, Wait
from tests.core.arrange.arranged import meets
from tests.core.arrange.daily import answered, begun, done, dropped, fits_on, meets_on, on
from tests.core.arrange.ruled import between, kitchen, worked
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_link,
    a_plan,
    a_step,
    burners,
    hands_off,
)

BURNER = (Use(StationKind.BURNER),)


def pans(*steps, burning: int = 1, cooks=1, keep: int | None = None, links=(), **fields):
    """Return each step as a dish of its own that keeps, on so many burners."""
    dishes = [a_dish(step.id.split(".")[0], step, keep=Keep(keep)) for step in steps]
    return a_plan(*dishes, links=links, kitchen=kitchen(*burners(burning), cooks=cooks), transfer=0, **fields)


# ---- now


@pytest.mark.parametrize(("now", "fit"), [(-11, True), (-10, True), (-9, False)])
def test_nothing_begins_before_now(now, fit):
    assert fits_on(pans(hands_off("a.cook", 10)), on(now)) is fit


@pytest.mark.parametrize(("now", "start"), [(-20, -20), (-19, -10)])
def test_a_pin_before_now_is_void(now, start):
    plan = pans(hands_off("a.cook", 10), pins=(Pin("a.cook", start=-20),))
    assert meets_on(plan, on(now)).at["a.cook", 0].start == start


# ---- done


@pytest.mark.parametrize(("start", "end"), [(-60, -50), (-60, -59), (-60, -20), (-300, -290)])
def test_what_is_done_stays_whatever_its_length_should_be(start, end):
    timetable = meets_on(
        pans(hands_off("a.cook", 10), hands_off("b.cook", 10)), on(-20, done("a.cook", start, end))
    )
    placed = timetable.at["a.cook", 0]
    assert (placed.start, placed.end) == (start, end)


@pytest.mark.parametrize(("end", "fit"), [(-30, True), (-31, False)])
def test_what_waits_since_before_now_is_still_judged(end, fit):
    assert fits_on(pans(hands_off("a.cook", 10), keep=30), on(-20, done("a.cook", -60, end))) is fit


@pytest.mark.parametrize(("end", "fit"), [(-25, True), (-26, False)])
def test_so_is_the_wait_before_the_next_step(end, fit):
    # the next step takes ten minutes until plating, and must begin fifteen after this
    steps = (hands_off("a.rest", 10), hands_off("a.carve", 10))
    plan = a_bench(*steps, links=(a_link("a.rest", "a.carve", 0, 15),), kitchen=kitchen())
    tight = a_plan(
        a_dish("a", *steps, keep=Keep(0)), links=(a_link("a.rest", "a.carve", 0, 15),), kitchen=kitchen()
    )
    assert fits_on(tight, on(-20, done("a.rest", -60, end))) is fit
    assert fits_on(plan, on(-20, done("a.rest", -60, -26)))


@pytest.mark.parametrize(("now", "fit"), [(-40, True), (-30, True), (-29, False)])
def test_least_waits_from_a_fact_are_kept(now, fit):
    # done at -50, a least wait of 20, ten minutes: from -30 on, and now is what else may be too late for twenty
    steps = (hands_off("a.one", 10), hands_off("a.two", 30))
    plan = a_bench(*steps, links=(a_link("a.one", "a.two", 20),), kitchen=kitchen())
    assert fits_on(plan, on(now, done("a.one", -60, -50))) is fit


def test_what_lies_before_now_clashes_with_nothing():
    # two at once on the one burner and by the one cook
    steps = tuple(a_step(f"{name}.fry", minutes=10, uses=BURNER) for name in "abc")
    day = on(-20, done("a.fry", -50, -40), done("b.fry", -45, -35))
    timetable = meets_on(pans(*steps), day)
    assert timetable.at["c.fry", 0].start == -10


def test_nor_does_the_order_in_which_things_were_done():
    # the second before the first, without the wait that was asked for
    steps = (hands_off("a.one", 10), hands_off("a.two", 10), hands_off("a.three", 10))
    links = (a_link("a.one", "a.two", 30, 40), a_link("a.two", "a.three", 0, 60))
    plan = a_bench(*steps, links=links, kitchen=kitchen())
    meets_on(plan, on(-40, done("a.one", -50, -40), done("a.two", -70, -60)))


# ---- under way


@pytest.mark.parametrize(
    ("start", "said", "end"),
    [
        (-30, None, -20),
        (-30, -18, -18),
        (-45, None, -25),
        (-45, -30, -25),
        (-30, -28, -25 + 0),
        (-25, None, -15),
    ],
)
def test_what_is_under_way_ends_after_its_minutes_or_as_said_but_not_before_now(start, said, end):
    timetable = meets_on(pans(hands_off("a.cook", 10)), on(-25, begun("a.cook", start, said)))
    assert (timetable.at["a.cook", 0].start, timetable.at["a.cook", 0].end) == (start, end)


@pytest.mark.parametrize(("end", "fit"), [(-10, True), (-9, False)])
def test_it_holds_its_burner_until_then(end, fit):
    plan = pans(hands_off("a.cook", 10, uses=BURNER), hands_off("b.cook", 10, uses=BURNER))
    assert fits_on(plan, on(-20, begun("a.cook", -30, end))) is fit


@pytest.mark.parametrize("named", [False, True])
def test_it_stays_on_its_burner(named):
    steps = (hands_off("a.cook", 30, uses=BURNER), hands_off("b.cook", 10, uses=BURNER))
    pins = (Pin("a.cook", start=-30, station="burner-2"),) if named else ()
    plan = pans(*steps, burning=2, pins=pins)
    seen = meets(plan)
    timetable = meets_on(plan, on(-20, begun("a.cook", -30, 0)), seen)
    assert timetable.at["a.cook", 0].spots == seen.at["a.cook", 0].spots


@pytest.mark.parametrize(("end", "fit"), [(-10, True), (-9, False)])
def test_whoever_is_at_it_goes_on_with_it(end, fit):
    steps = (a_step("a.stir", minutes=10), a_step("b.stir", minutes=10))
    assert fits_on(pans(*steps), on(-20, begun("a.stir", -30, end))) is fit


@pytest.mark.parametrize("now", [-20, -15, -11])
def test_hands_under_way_are_those_that_were_there(now):
    plan = pans(
        a_step("a.stir", minutes=20), a_step("b.chop", minutes=10), cooks=2, pins=(Pin("a.stir", start=-20),)
    )
    seen = meets(plan)
    timetable = meets_on(plan, on(now, begun("a.stir", -20)), seen)
    assert worked(timetable, "a.stir") == [(-20, 0)]
    assert timetable.at["a.stir", 0].hands == seen.at["a.stir", 0].hands


@pytest.mark.parametrize(("now", "fit"), [(-25, False), (-19, False), (-18, True)])
def test_touches_to_come_take_a_cook_and_those_gone_by_do_not(now, fit):
    # turned from -20 to -18 by the only cook, who is away until -18
    turned = a_step("a.roast", minutes=30, attention=Attention.TENDED, touches=(Touch(10, 2),))
    cooks = (a_cook("ann", breaks=(between(-40, -18),)),)
    plan = pans(turned, cooks=cooks)
    assert fits_on(plan, on(now, begun("a.roast", -30))) is fit


@pytest.mark.parametrize(("end", "fit"), [(0, True), (1, False)])
def test_what_is_under_way_too_long_for_its_serving_cannot_meet(end, fit):
    assert fits_on(pans(hands_off("a.cook", 10)), on(-20, begun("a.cook", -30, end))) is fit


# ---- dropped


def test_what_is_dropped_is_gone_with_its_links():
    steps = (hands_off("a.one", 10), hands_off("a.two", 10), hands_off("a.three", 10))
    links = (a_link("a.one", "a.two", 0, 0), a_link("a.two", "a.three", 30, 30))
    plan = a_bench(*steps, links=links, kitchen=kitchen())
    timetable = meets_on(plan, on(-15, dropped("a.two"), done("a.one", -40, -30)))
    assert set(timetable.at) == {("a.one", 0), ("a.three", 0)}


def test_where_the_last_step_is_dropped_the_one_before_is_done_by_the_serving():
    # soup at -60, tart at 0: the soup's garnish is left out, and the soup must still be there at -60
    soup = a_dish("soup", hands_off("soup.boil", 10), hands_off("soup.deck", 5), course=-60, keep=Keep(20))
    plan = a_plan(
        soup,
        a_dish("tart", hands_off("tart.bake", 10)),
        links=(a_link("soup.boil", "soup.deck"),),
        kitchen=kitchen(),
    )
    timetable = meets_on(plan, on(-100, dropped("soup.deck")))
    assert -80 <= timetable.at["soup.boil", 0].end <= -60
    assert not fits_on(plan, on(-69, dropped("soup.deck")))


@pytest.mark.parametrize(("now", "fit"), [(-16, True), (-15, True), (-14, False)])
def test_a_dropped_load_saves_its_time(now, fit):
    # three loads of five with five between: two are fifteen
    step = hands_off("a.fry", 5, loads=Loads(3, 1, 5))
    assert fits_on(pans(step), on(now, dropped("a.fry", 1))) is fit


# ---- loads and ways


@pytest.mark.parametrize("load", [0, 1, 2])
def test_loads_go_on_where_they_began(load):
    step = hands_off("a.fry", 5, uses=BURNER, loads=Loads(3, 1))
    pins = tuple(Pin("a.fry", each, station="burner-2") for each in range(3))
    seen = meets(pans(step, burning=3, pins=pins))
    facts = [done("a.fry", -40 + 5 * each, -35 + 5 * each, each) for each in range(load)]
    now = -40 + 5 * load + 2
    timetable = meets_on(pans(step, burning=3), on(now, *facts, begun("a.fry", now - 2, load=load)), seen)
    assert {spot.station for each in timetable.placed for spot in each.spots} == {"burner-2"}


def fried_or_baked():
    """Return three loads, five minutes each, or four in another way."""
    step = hands_off("a.fry", 5, loads=Loads(3, 1), alternatives=(Alternative("hot", Span.of(4)),))
    return pans(step)


def test_loads_to_come_are_done_the_way_of_those_done():
    plan = fried_or_baked()
    quick = pans(plan.steps["a.fry"], opens=-12)
    seen = meets(quick)
    assert {each.way for each in seen.placed} == {1}
    timetable = meets_on(plan, on(-8, done("a.fry", -12, -8)), seen)
    assert {each.way for each in timetable.placed} == {1}
    written = meets_on(plan, on(-50, done("a.fry", -60, -55)), meets(pans(plan.steps["a.fry"])))
    assert len({each.way for each in written.placed}) == 1


@pytest.mark.parametrize("load", [0, 1, 2])
def test_a_load_may_be_dropped_of_what_may_be_done_in_two_ways(load):
    timetable = meets_on(fried_or_baked(), on(-30, dropped("a.fry", load)))
    assert len(timetable.placed) == 2
    assert len({each.way for each in timetable.placed}) == 1


@pytest.mark.parametrize("way", [0, 1])
def test_what_is_under_way_is_done_the_way_it_was_begun(way):
    # as written ten minutes, or twenty another way; both in time
    step = hands_off("a.cook", 10, alternatives=(Alternative("slow", Span.of(20)),))
    limit = pans(hands_off("a.cook", 10, alternatives=step.alternatives, earliest=-10 - 10 * way, latest=0))
    seen = meets(limit)
    if way == 1:
        seen = meets(pans(hands_off("a.cook", 30, alternatives=step.alternatives, earliest=-20)))
    timetable = meets_on(pans(step), on(-25, begun("a.cook", -30)), seen)
    placed = timetable.at["a.cook", 0]
    assert (placed.way, placed.length) == (way, 10 + 10 * way)


# ---- waiting


@pytest.mark.parametrize(("burning", "fit"), [(1, False), (2, True)])
def test_food_that_waits_since_before_now_keeps_its_place(burning, fit):
    kept = a_dish("a", hands_off("a.cook", 10, uses=BURNER), keep=Keep(60, Wait(Holding.HOT, BURNER[0])))
    other = a_dish("b", hands_off("b.cook", 10, uses=BURNER))
    plan = a_plan(kept, other, kitchen=kitchen(*burners(burning)), transfer=0)
    assert fits_on(plan, on(-20, done("a.cook", -40, -30))) is fit


# ---- where nothing fits


@pytest.mark.parametrize(
    "facts",
    [
        (begun("a.cook", -30, -5), begun("b.cook", -30, -5)),  # two on the one burner
        (done("a.cook", -40, -30), begun("b.cook", -30, 5)),  # late at the table
    ],
)
def test_facts_stand_even_where_nothing_fits(facts):
    steps = tuple(hands_off(f"{name}.cook", 10, uses=BURNER) for name in "abc")
    outcome = answered(pans(*steps), on(-20, *facts))
    assert outcome.fit is Fit.IMPOSSIBLE
    assert outcome.clashes != ()


def test_a_day_on_which_everything_is_done_or_dropped_meets():
    steps = tuple(hands_off(f"{name}.cook", 10, uses=BURNER) for name in "ab")
    day = on(5, done("a.cook", -20, -10), dropped("b.cook"))
    assert set(meets_on(pans(*steps), day).at) == {("a.cook", 0)}


def test_everything_dropped_is_nothing_to_do():
    day = on(-30, dropped("a.cook"))
    assert meets_on(pans(hands_off("a.cook", 10)), day).placed == ()


def test_the_quick_question_is_answered_by_the_day_too():
    plan = pans(hands_off("a.cook", 10))
    assert possible(plan, day=on(-10)).fit is Fit.MEETS
    assert possible(plan, day=on(-9)).fit is Fit.IMPOSSIBLE


# ---- faults that a search of random days found


@pytest.mark.parametrize("end", [-15, -11, -10])
def test_hands_at_what_was_done_sooner_than_planned_have_ended_with_it(end):
    # planned from -20 to 0, done by `end`; nobody is at it any more, so that ann may do the next ten minutes
    stir = pans(a_step("a.stir", minutes=20), a_step("b.chop", minutes=10), pins=(Pin("a.stir", start=-20),))
    plan = pans(a_step("a.stir", minutes=20), a_step("b.chop", minutes=10))
    seen = meets(stir)
    timetable = meets_on(plan, on(end, done("a.stir", -20, end)), seen)
    assert timetable.at["b.chop", 0].start >= end
    assert all(until <= end for _from, until in worked(timetable, "a.stir"))


@pytest.mark.parametrize("now", [-300, -21, -20, -15])
def test_a_plan_that_opens_after_now_opens_when_it_does(now):
    plan = pans(hands_off("a.cook", 10, uses=BURNER), hands_off("b.cook", 10, uses=BURNER), opens=-20)
    assert fits_on(plan, on(now)) is (now <= -20)
    tight = pans(hands_off("a.cook", 10, uses=BURNER), hands_off("b.cook", 11, uses=BURNER), opens=-20)
    assert not fits_on(tight, on(now))
