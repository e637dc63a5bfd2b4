"""Washing up: a vessel is free again when it has been washed; plans in which that alone decides."""

import pytest

from core.plan.step import Holding, Keep, Loads, VesselUse, Wait
from tests.core.arrange.arranged import meets, starts
from tests.core.arrange.ruled import between, fits, kitchen, there
from tests.support.builders import a_cook, a_dish, a_link, a_plan, a_step, a_vessel, hands_off


def boiled(name: str, keep: int | None, minutes: int = 10, count: int = 1, **fields):
    step = hands_off(f"{name}.boil", minutes, vessels=(VesselUse("pot", count),), **fields)
    return a_dish(name, step, keep=Keep(keep))


def in_pots(*dishes, count: int = 1, washing: int = 5, by_hand: bool = True, cooks=1, **fields):
    pots = (a_vessel("pot", count, washing=washing, by_hand=by_hand),)
    return a_plan(*dishes, kitchen=kitchen(vessels=pots, cooks=cooks), transfer=0, **fields)


def washed(timetable) -> list[tuple[str, int, int, str | None]]:
    return [(each.after, each.start, each.end, each.cook) for each in timetable.washings]


@pytest.mark.parametrize("by_hand", [True, False])
@pytest.mark.parametrize("washing", [0, 1, 5, 60])
def test_the_second_waits_until_the_pot_is_washed(washing, by_hand):
    # b from -10; a out of the pot by -10 less the washing
    def plan(keep: int):
        return in_pots(boiled("a", keep), boiled("b", 0), washing=washing, by_hand=by_hand)

    assert fits(plan(10 + washing))
    assert not fits(plan(9 + washing))


@pytest.mark.parametrize(("by_hand", "who"), [(True, "ann"), (False, None)])
def test_who_washes_when(by_hand, who):
    timetable = meets(in_pots(boiled("a", 15), boiled("b", 0), by_hand=by_hand))
    assert starts(timetable) == {"a.boil": -25, "b.boil": -10}
    assert washed(timetable) == [("a.boil", -15, -10, who)]


def test_what_nobody_needs_again_is_not_washed():
    assert meets(in_pots(boiled("a", 0))).washings == ()
    assert meets(in_pots(boiled("a", 0), boiled("b", 0), count=2)).washings == ()
    assert len(meets(in_pots(boiled("a", 40), boiled("b", 20), boiled("c", 0))).washings) == 2


def test_without_washing_nothing_is_washed():
    timetable = meets(in_pots(boiled("a", 10), boiled("b", 0), washing=0))
    assert starts(timetable) == {"a.boil": -20, "b.boil": -10}
    assert timetable.washings == ()


# ---- by hand


@pytest.mark.parametrize(
    ("away", "wait"), [((-15, -10), 20), ((-15, -14), 20), ((-20, -19), 15), ((-12, -10), 17), ((-30, 0), 35)]
)
def test_the_cook_must_be_there(away, wait):
    # five minutes between a's end and -10, none of them while the cook is away
    def plan(keep: int, *, by_hand: bool = True):
        cooks = (a_cook("ann", breaks=(between(*away),)),)
        return in_pots(boiled("a", keep), boiled("b", 0), by_hand=by_hand, cooks=cooks)

    assert fits(plan(wait))
    assert not fits(plan(wait - 1))
    assert fits(plan(15, by_hand=False))


@pytest.mark.parametrize(("cooks", "wait"), [(1, 18), (2, 15)])
def test_whoever_washes_does_nothing_else(cooks, wait):
    # a cook slices from -13 to -10
    def plan(keep: int):
        slicing = a_dish("c", a_step("c.slice", minutes=3, latest=-10, earliest=-13), keep=Keep(10))
        return in_pots(boiled("a", keep), boiled("b", 0), slicing, cooks=cooks)

    assert fits(plan(wait))
    assert not fits(plan(wait - 1))


@pytest.mark.parametrize(("minutes", "fit"), [(5, True), (4, False)])
def test_washing_is_done_in_one_go(minutes, fit):
    # the cook comes for some minutes, long after a and long before b, and again for three just before b
    cooks = (a_cook("ann", present=(between(-100, -100 + minutes), between(-13, -10))),)
    assert fits(in_pots(boiled("a", 100), boiled("b", 0), cooks=cooks)) is fit


def test_it_may_be_washed_long_after():
    cooks = (there(-40, -35),)
    timetable = meets(in_pots(boiled("a", None, latest=-90), boiled("b", 0), cooks=cooks))
    assert washed(timetable) == [("a.boil", -40, -35, "ann")]


# ---- several


@pytest.mark.parametrize(
    ("count", "of_a", "of_b", "wait"),
    [(2, 1, 1, 0), (2, 2, 1, 15), (2, 1, 2, 15), (3, 2, 1, 0), (3, 2, 2, 15)],
)
def test_more_are_not_in_use_than_there_are(count, of_a, of_b, wait):
    def plan(keep: int):
        return in_pots(boiled("a", keep, count=of_a), boiled("b", 0, count=of_b), count=count)

    assert fits(plan(wait))
    if wait:
        assert not fits(plan(wait - 1))


def test_all_vessels_of_a_run_are_one_washing():
    timetable = meets(in_pots(boiled("a", 15, count=3), boiled("b", 0, count=2), count=3))
    assert washed(timetable) == [("a.boil", -15, -10, "ann")]


def test_of_two_dirty_pots_one_is_washed():
    # a and b take both pots; c needs one of them again
    timetable = meets(in_pots(boiled("a", 30), boiled("b", 30), boiled("c", 0), count=2))
    assert len(timetable.washings) == 1


@pytest.mark.parametrize(("cooks", "wait"), [(1, 20), (2, 15)])
def test_two_pots_are_washed_by_one_after_the_other_or_by_two(cooks, wait):
    # c needs both pots from -10
    def plan(keep: int):
        both = (boiled("a", keep), boiled("b", keep), boiled("c", 0, count=2))
        return in_pots(*both, count=2, cooks=cooks)

    # one cook: the first from -20, the second from -15
    assert fits(plan(wait))
    assert not fits(plan(wait - 1))


@pytest.mark.parametrize("washing", [0, 5])
def test_a_pot_passed_on_is_washed_at_the_end_only(washing):
    # sweat and simmer in one pot, three minutes apart, then b
    steps = tuple(hands_off(f"a.{name}", 10, vessels=(VesselUse("pot"),)) for name in ("sweat", "simmer"))
    links = (a_link("a.sweat", "a.simmer", 3, 3),)

    def plan(keep: int):
        return in_pots(a_dish("a", *steps, keep=Keep(keep)), boiled("b", 0), links=links, washing=washing)

    assert fits(plan(10 + washing))
    assert not fits(plan(9 + washing))
    timetable = meets(plan(10 + washing))
    assert [each.after for each in timetable.washings] == (["a.sweat"] if washing else [])


def test_loads_do_not_wash_between():
    # two loads with one minute between in one pot
    timetable = meets(in_pots(boiled("a", 20, 5, loads=Loads(2, 1, 1)), boiled("b", None, 5)))
    first, second = (timetable.at["a.boil", load] for load in (0, 1))
    assert second.start >= first.end + 1
    assert len(timetable.washings) == 1


def test_food_that_waits_in_its_pot_keeps_it_until_it_is_served():
    # a waits in the pot until it is served at -30; then the pot is washed and b comes
    def plan(minutes: int):
        step = hands_off("a.boil", 10, vessels=(VesselUse("pot"),), latest=-40)
        a = a_dish("a", step, keep=Keep(60, Wait(Holding.VESSEL)), course=-30)
        return in_pots(a, boiled("b", 0, minutes))

    assert fits(plan(25))
    assert not fits(plan(26))


@pytest.mark.parametrize(("keep", "fit"), [(30, True), (29, False)])
def test_three_in_turn(keep, fit):
    # c from -10, b from -25 to -15, a until -30
    assert fits(in_pots(boiled("a", keep), boiled("b", 15), boiled("c", 0))) is fit
