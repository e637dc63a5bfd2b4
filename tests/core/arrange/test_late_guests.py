"""Guests late: which wait decides, what moves, what stays, what is over; the validator agrees."""

from dataclasses import replace

import pytest

import demo_data
from bench.feasts import feast
from core.arrange.chances_limits import LimitKind
from core.arrange.late_guests import guests_late, how_late
from core.arrange.late_offers import OfferKind
from core.intake.text_plan import read_text
from core.measures.refusal import Refusal
from core.plan.day import Day, Fact, State
from core.plan.ids import StepId
from core.plan.kitchen import Station, StationKind
from core.plan.step import Alternative, ClockTime, Holding, Keep, Span, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Heating
from tests.core.timetable.laid import laid, spot
from tests.support.builders import (
    GRILL,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    at_oven,
    hands_off,
)
from tests.support.hand_made import hand_made


def a_roast(rest_most=15, keep=10):
    """Give a roast that rests 15 min and may rest so much longer, and is good carved for so long."""
    steps = (hands_off("roast.bake", 60), hands_off("roast.rest", 15), hands_off("roast.carve", 10))
    links = (a_link("roast.bake", "roast.rest", 0, 0), a_link("roast.rest", "roast.carve", 0, rest_most))
    plan = a_plan(a_dish("roast", *steps, keep=Keep(keep)), links=links)
    return plan, laid(plan, {"roast.bake": -100, "roast.rest": -40, "roast.carve": -15})


def starts(value):
    return {each.step: each.start for each in value.moved}


def test_nothing_begun_can_wait_for_ever():
    plan, timetable = a_roast()
    value = how_late(plan, timetable, -101)
    assert (value.minutes, value.decides) == (None, None)
    late = guests_late(plan, timetable, -101, 600)
    assert starts(late) == {"roast.bake": 500, "roast.rest": 560, "roast.carve": 585}
    assert (late.over, late.held, late.under_way) == ((), (), ())


@pytest.mark.parametrize(
    ("rest_most", "keep", "minutes", "shared"), [(15, 10, 5, 10), (30, 10, 20, 25), (12, 30, 25, 27)]
)
def test_the_roomiest_wait_of_the_way_bears_the_delay(rest_most, keep, minutes, shared):
    """It rests 10 min before it is carved and is carved 5 min before it is served."""
    value = how_late(*a_roast(rest_most, keep), -50)
    assert (value.minutes, value.decides.shared) == (minutes, shared)
    assert value.decides.kind is (LimitKind.KEEP if keep == 30 else LimitKind.WAIT)


def test_at_most_as_long_as_it_bears_nothing_is_over_and_a_minute_more_is():
    for rest_most, keep in ((15, 10), (30, 10), (12, 30), (10, 5)):
        plan, timetable = a_roast(rest_most, keep)
        minutes = how_late(plan, timetable, -50).minutes
        if minutes:
            assert guests_late(plan, timetable, -50, minutes).over == ()
        (over,) = guests_late(plan, timetable, -50, minutes + 1).over
        assert over.by == 1


def test_what_follows_at_once_on_begun_food_stays():
    plan, timetable = a_roast()
    late = guests_late(plan, timetable, -90, 5)
    assert [(each.step, each.start, each.after) for each in late.held] == [("roast.rest", -40, "roast.bake")]
    assert starts(late) == {"roast.carve": -10}
    assert late.under_way == ((StepId("roast.bake"), 0),)


def test_food_that_keeps_better_afterwards_is_done_as_planned():
    steps = (hands_off("pot.heat", 40), hands_off("pot.season", 3))
    plan = a_plan(a_dish("pot", *steps, keep=Keep(120)), links=(a_link("pot.heat", "pot.season", 0, 5),))
    timetable = laid(plan, {"pot.heat": -60, "pot.season": -20})
    assert how_late(plan, timetable, -30).minutes == 103
    late = guests_late(plan, timetable, -30, 20)
    assert [each.step for each in late.held] == ["pot.season"]
    assert (late.moved, late.over) == ((), ())
    assert starts(guests_late(plan, timetable, -30, 4)) == {"pot.season": -16}


def test_a_step_before_one_that_stays_stays_too():
    """The sauce is not begun, but what it goes into cannot wait, so it is made as planned."""
    plan = a_plan(
        a_dish("egg", hands_off("egg.boil", 6), hands_off("egg.mix", 2), keep=Keep(60)),
        a_dish("sauce", hands_off("sauce.stir", 5), served=False),
        links=(a_link("egg.boil", "egg.mix", 0, 0), a_link("sauce.stir", "egg.mix")),
    )
    timetable = laid(plan, {"egg.boil": -10, "sauce.stir": -9, "egg.mix": -4})
    late = guests_late(plan, timetable, -10, 30)
    assert {each.step for each in late.held} == {"sauce.stir", "egg.mix"}
    assert late.over == ()


def test_a_limit_already_broken_allows_nothing():
    value = how_late(*a_roast(rest_most=8, keep=0), -50)
    assert value.minutes == 0
    (over,) = guests_late(*a_roast(rest_most=8, keep=0), -50, 10).over
    assert (over.by, over.step) == (12, "roast.rest")


def test_a_safe_length_counts_from_when_the_food_may_be_done():
    """With the high length reserved the braise may be done 90 min sooner, and then waits 90 of 120."""
    plan = a_plan(a_dish("braise", hands_off("braise.cook", (150, 180, 240)), keep=Keep(120)))
    timetable = laid(plan, {"braise.cook": -240})
    assert how_late(plan, timetable, -100).minutes == 30
    done = Day(-50, (Fact(StepId("braise.cook"), State.DONE, -240, -60),))
    assert how_late(plan, timetable, -50, done).minutes == 60


# ---------------------------------------------------------------- the day's facts


def test_the_day_says_what_has_begun():
    plan, timetable = a_roast()
    idle = Day(-100)
    assert how_late(plan, timetable, -100).minutes == 5
    assert how_late(plan, timetable, -100, idle).minutes is None  # planned for now, and not begun
    behind = Day(-35, (Fact(StepId("roast.bake"), State.UNDER_WAY, -90, -30),))
    late = guests_late(plan, timetable, -35, 5, behind)
    assert late.timetable.at[StepId("roast.bake"), 0].end == -30
    dropped = Day(-50, tuple(Fact(StepId(f"roast.{each}"), State.DROPPED) for each in ("bake", "rest", "carve")))
    assert how_late(plan, timetable, -50, dropped).minutes is None


# ---------------------------------------------------------------- clock, fire, hours


def test_what_the_world_sets_cannot_move():
    steps = (a_step("fish.fetch", minutes=20, clock=ClockTime(0, 16 * 60)), hands_off("fish.cook", 10))
    plan = a_plan(a_dish("fish", *steps, keep=Keep(5)), links=(a_link("fish.fetch", "fish.cook", 0, 300),))
    timetable = laid(plan, {"fish.fetch": -210, "fish.cook": -10})
    assert how_late(plan, timetable, -300).minutes == 120
    late = guests_late(plan, timetable, -300, 60)
    assert [each.step for each in late.held] == ["fish.fetch"]
    assert starts(late) == {"fish.cook": 50}


def test_a_fire_that_is_lit_burns_on():
    dish = a_dish("leek", hands_off("leek.grill", 20, uses=(a_use(StationKind.GRILL),)), keep=Keep(5))
    grill = Station(GRILL, "Charcoal", StationKind.GRILL, 8, lighting=25, burns=60)
    plan = a_plan(dish, kitchen=a_kitchen(stations=(grill,)))
    fire = Heating(GRILL, -65, -40, 0, None)
    timetable = laid(plan, {"leek.grill": -20}, heatings=(fire,), cooks={"leek.grill": None})
    assert how_late(plan, timetable, -70).minutes is None
    value = how_late(plan, timetable, -50)
    assert (value.minutes, value.decides.kind) == (20, LimitKind.FIRE)
    (over,) = guests_late(plan, timetable, -50, 25).over
    assert (over.kind, over.by, over.offers) == (LimitKind.FIRE, 5, ())


def test_a_cook_who_has_gone_home_is_told():
    cook = a_cook("ann", night=(19 * 60 + 40, 7 * 60))
    plan = a_plan(a_dish("tart", a_step("tart.cut", minutes=5)), kitchen=a_kitchen(cooks=(cook,)))
    late = guests_late(plan, laid(plan, {"tart.cut": -5}), -30, 20)
    assert [clash.kind for clash in late.clashes] == [ClashKind.COOK_ABSENT]
    assert guests_late(plan, laid(plan, {"tart.cut": -5}), -30, 10).clashes == ()


# ---------------------------------------------------------------- offers


def kept_hot(stations, how=Holding.COUNTER):
    plan = a_plan(
        a_dish("gratin", hands_off("gratin.bake", 30, uses=(at_oven(160),)), keep=Keep(20, Wait(how))),
        a_dish("bread", hands_off("bread.bake", 30, uses=(at_oven(220, units=2),))),
        kitchen=a_kitchen(*stations),
    )
    timetable = laid(plan, {"gratin.bake": -60, "bread.bake": -20}, cooks=dict.fromkeys(plan.steps))
    (over,) = guests_late(plan, timetable, -25, 30).over
    return over


def test_a_free_hot_place_and_warming_again_are_offered():
    box = Station("box", "Box", StationKind.HOT_BOX)
    over = kept_hot((box,))
    assert (over.step, over.by) == ("gratin.bake", 40)
    found = [(each.kind, each.station, each.start, each.until) for each in over.offers]
    assert found == [
        (OfferKind.HOT_PLACE, "box", -25, 30),
        (OfferKind.WARM_AGAIN, "burner-1", 15, 30),  # the oven is full of bread, put off with the guests
    ]
    assert [each.kind for each in kept_hot(()).offers] == [OfferKind.WARM_AGAIN]


def test_cold_food_is_not_put_in_a_hot_place():
    assert kept_hot((Station("box", "Box", StationKind.HOT_BOX),), Holding.FRIDGE).offers == ()


def test_a_full_box_is_not_offered():
    box = Station("box", "Box", StationKind.HOT_BOX)
    other = Alternative("in the box", Span(20, 45, 75), (a_use(StationKind.HOT_BOX),))
    plan = a_plan(
        a_dish(
            "roast",
            hands_off("roast.rest", (15, 15, 45), alternatives=(other,)),
            hands_off("roast.carve", 10),
            keep=Keep(0),
        ),
        a_dish("soup", hands_off("soup.hold", 90, uses=(a_use(StationKind.HOT_BOX),))),
        links=(a_link("roast.rest", "roast.carve", 0, 15),),
        kitchen=a_kitchen(box),
        manner="likely",
    )
    starts_at = {"roast.rest": -30, "roast.carve": -10, "soup.hold": -90}
    timetable = laid(plan, starts_at, spots={"soup.hold": (spot("box"),)})
    (over,) = [each for each in guests_late(plan, timetable, -20, 20).over if each.step == "roast.rest"]
    assert {each.kind for each in over.offers} == {OfferKind.WARM_AGAIN}


def test_nonsense_is_refused():
    for minutes in (0, -5, 1441):
        with pytest.raises(Refusal):
            guests_late(*a_roast(), -50, minutes)


# ---------------------------------------------------------------- the validator agrees


def served_later(plan, now, minutes):
    dishes = tuple(
        replace(dish, course=dish.course + minutes) if dish.served and dish.course > now else dish
        for dish in plan.menu.dishes
    )
    return replace(plan, menu=replace(plan.menu, dishes=dishes))


def too_long(plan, timetable):
    kinds = {ClashKind.WAITED_TOO_LONG, ClashKind.WAIT_TOO_SHORT, ClashKind.OUT_OF_ORDER, ClashKind.LATE}
    return {(each.kind, each.steps, each.by) for each in clashes(plan, timetable) if each.kind in kinds}


@pytest.mark.parametrize("which", ["supper", "small", "middle"])
def test_the_validator_finds_what_is_over_and_nothing_else(which):
    if which == "supper":
        plan = read_text(demo_data.text_of("harvest_supper.toml"))
        timetable = hand_made(plan)
    else:
        one = feast(12 if which == "small" else 29)
        plan, timetable = one.plan, one.planted
    before = too_long(plan, timetable)
    for now in (-1500, -700, -300, -120, -90, -60, -45, -30, -15, -5):
        patience = how_late(plan, timetable, now).minutes
        for minutes in {1, 7, 20, 90, *([patience, patience + 1] if patience else [])}:
            value = guests_late(plan, timetable, now, minutes)
            found = too_long(served_later(plan, now, minutes), value.timetable) - before
            told = {
                (ClashKind.WAITED_TOO_LONG, (each.step,) if each.then is None else (each.step, each.then), each.by)
                for each in value.over
                if each.kind in {LimitKind.WAIT, LimitKind.KEEP}
            }
            assert found == told
            assert bool(value.over) == (patience is not None and minutes > patience)
