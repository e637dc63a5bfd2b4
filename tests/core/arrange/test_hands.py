"""Cooks: one thing at a time, skills, absences, names. Plans in which hands alone decide."""

from collections import Counter

import pytest

from core.arrange import Fit
from core.plan.decisions import Pin
from core.plan.kitchen import Cook, Window
from core.plan.step import Attention, Keep, StationKind, Touch, Use
from tests.core.arrange.arranged import answer, bake, meets, refused, starts
from tests.support.builders import (
    a_bench,
    a_cook,
    a_kitchen,
    a_link,
    a_step,
    an_oven,
    burners,
    chained,
    hands_off,
)


def bench(*steps, cooks: tuple[Cook, ...] | int = 1, stations=(), **fields):
    kitchen = a_kitchen(stations=stations, cooks=cooks)
    return a_bench(*steps, kitchen=kitchen, **{"transfer": 0, **fields})


def cooks_of(timetable, step: str, load: int = 0) -> set[str]:
    return {str(hand.cook) for hand in timetable.at[step, load].hands}


def test_one_cook_does_one_thing_at_a_time():
    plan = bench(a_step("a.one", keeps=Keep(0)), a_step("b.one", keeps=Keep(9)))
    refused(plan)
    found = starts(meets(bench(a_step("a.one", keeps=Keep(0)), a_step("b.one", keeps=Keep(10)))))
    assert found == {"a.one": -10, "b.one": -20}


def test_two_cooks_do_two_things_at_a_time():
    timetable = meets(bench(a_step("a.one", keeps=Keep(0)), a_step("b.one", keeps=Keep(0)), cooks=2))
    assert cooks_of(timetable, "a.one") | cooks_of(timetable, "b.one") == {"ann", "ben"}


def test_a_touch_of_a_tended_pot_interrupts_nothing():
    pot = a_step(
        "a.pot", minutes=30, attention=Attention.TENDED, touches=(Touch(10, 2), Touch(3, 1, from_end=True))
    )
    # touches at -20 to -18 and at -4 to -3: hands-on work of 14 min fits between, of 15 it does not
    meets(bench(pot, a_step("b.one", minutes=14, keeps=Keep(4)), opens=-30))
    refused(bench(pot, a_step("b.one", minutes=15, keeps=Keep(4)), opens=-30))


def test_putting_in_and_taking_out_take_a_minute_of_somebody():
    # the bake of 10 min is out at -0: hands at -10 and -1; hands-on work of 8 min fits between, of 9 it does not
    oven = an_oven(heater=None)
    tart = bake("tart", 10, 180).steps[0]
    tart = a_step("tart.bake", minutes=10, attention=Attention.HANDS_OFF, uses=tart.uses, keeps=Keep(0))
    plan = bench(tart, a_step("b.one", minutes=8, keeps=Keep(1)), stations=(oven,), transfer=1)
    assert starts(meets(plan)) == {"tart.bake": -10, "b.one": -9}
    refused(bench(tart, a_step("b.one", minutes=9, keeps=Keep(1)), stations=(oven,), transfer=1))


def test_a_step_for_two_takes_two():
    timetable = meets(bench(a_step("a.lift", hands=2), a_step("b.one", keeps=Keep(None)), cooks=2))
    assert cooks_of(timetable, "a.lift") == {"ann", "ben"}
    assert not set(range(*_span(timetable, "a.lift"))) & set(range(*_span(timetable, "b.one")))


def _span(timetable, step: str) -> tuple[int, int]:
    placed = timetable.at[step, 0]
    return placed.start, placed.end


def test_a_skill_is_asked_of_who_has_it():
    cooks = (a_cook("ann"), a_cook("ben", "knife"))
    steps = (a_step("a.carve", skill="knife", keeps=Keep(0)), a_step("b.one", keeps=Keep(0)))
    timetable = meets(bench(*steps, cooks=cooks))
    assert (cooks_of(timetable, "a.carve"), cooks_of(timetable, "b.one")) == ({"ben"}, {"ann"})
    twice = (*steps[:1], a_step("b.carve", skill="knife", keeps=Keep(0)))
    refused(bench(*twice, cooks=cooks))


def test_skills_that_only_names_can_tell_apart():
    """Three cooks with two skills each: by counts every pair of skills is there twice, by name not."""
    cooks = (a_cook("ann", "knife", "fire"), a_cook("ben", "fire", "dough"), a_cook("cat", "knife"))
    steps = (
        a_step("a.one", skill="fire", keeps=Keep(0)),
        a_step("b.one", skill="dough", keeps=Keep(0)),
        a_step("c.one", skill="knife", keeps=Keep(0)),
    )
    timetable = meets(bench(*steps, cooks=cooks))
    assert [cooks_of(timetable, step) for step in ("a.one", "b.one", "c.one")] == [{"ann"}, {"ben"}, {"cat"}]


def test_counts_that_no_naming_can_fill_are_not_said_to_meet():
    # fire and dough: ann has both, ben neither; each skill is there once, both at once are not
    cooks = (a_cook("ann", "fire", "dough"), a_cook("ben"))
    steps = (a_step("a.one", skill="fire", keeps=Keep(0)), a_step("b.one", skill="dough", keeps=Keep(0)))
    refused(bench(*steps, cooks=cooks))


def test_somebody_works_from_where_counts_allow_only_by_names():
    # the same two, where one may wait ten minutes: a plan, and only one after the other
    cooks = (a_cook("ann", "fire", "dough"), a_cook("ben"))
    steps = (a_step("a.one", skill="fire", keeps=Keep(0)), a_step("b.one", skill="dough", keeps=Keep(10)))
    assert starts(meets(bench(*steps, cooks=cooks))) == {"a.one": -10, "b.one": -20}


def test_names_change_in_the_middle_of_nothing():
    """A cook who leaves in the middle: what runs across it is given to the other."""
    # ann is away 19:00 to 19:10, ben 19:15 to 19:25; three times ten minutes from 19:00 to 19:30
    cooks = (
        a_cook("ann", breaks=(Window(0, 19 * 60, 19 * 60 + 10),)),
        a_cook("ben", breaks=(Window(0, 19 * 60 + 15, 19 * 60 + 25),)),
    )
    pins = tuple(Pin(f"{name}.one", start=start) for name, start in (("a", -30), ("b", -18), ("c", -10)))
    steps = (a_step("a.one"), a_step("b.one", minutes=8), a_step("c.one"))
    timetable = meets(bench(*steps, cooks=cooks, pins=pins))
    assert [cooks_of(timetable, step) for step in ("a.one", "b.one", "c.one")] == [{"ben"}, {"ann"}, {"ann"}]


def test_an_absence_stops_all_work():
    away = (a_cook("ann", breaks=(Window(0, 19 * 60, 19 * 60 + 25),)),)  # 19:00 to 19:25, plating 19:30
    found = starts(meets(bench(a_step("a.one", keeps=Keep(30)), cooks=away)))
    assert found == {"a.one": -40}  # done by 19:00
    refused(bench(a_step("a.one", keeps=Keep(29)), cooks=away))


def test_nobody_works_at_night_and_food_may():
    steps = (a_step("a.mix", minutes=10), hands_off("a.prove", 10 * 60), a_step("a.shape", minutes=10))
    plan = bench(*steps, links=chained(*steps, most=0), plating="2026-09-26 08:30")
    timetable = meets(plan)
    mix, _prove, shape = timetable.placed
    assert plan.wall(mix.start).hour < 23
    assert plan.wall(shape.start).hour >= 7
    steps = (steps[0], hands_off("a.prove", 7 * 60 + 30), steps[2])  # 23:00 to 7:00 is longer than that
    refused(bench(*steps, links=chained(*steps, most=0), plating="2026-09-26 08:30", opens=-10 * 60))


def test_a_cook_is_there_only_when_promised():
    ann = a_cook("ann", present=(Window(0, 17 * 60, 18 * 60),))
    assert starts(meets(bench(a_step("a.one"), cooks=(ann,)))) == {
        "a.one": -100
    }  # ends 18:00, 90 before 19:30
    refused(bench(a_step("a.one", minutes=61), cooks=(ann,)))


# ---- pinned to a cook


@pytest.mark.parametrize("who", ["ann", "ben"])
def test_a_pin_to_a_cook_holds(who):
    steps = (a_step("a.one", keeps=Keep(0)), a_step("b.one", keeps=Keep(0)))
    timetable = meets(bench(*steps, cooks=2, pins=(Pin("a.one", cook=who),)))
    assert cooks_of(timetable, "a.one") == {who}


def test_two_things_pinned_to_one_cook_are_done_in_turn():
    steps = (a_step("a.one", keeps=Keep(10)), a_step("b.one", keeps=Keep(10)))
    pins = (Pin("a.one", cook="ben"), Pin("b.one", cook="ben"))
    timetable = meets(bench(*steps, cooks=2, pins=pins))
    assert sorted(starts(timetable).values()) == [-20, -10]


def test_a_pin_to_somebody_who_is_not_there_cannot_be():
    ben = a_cook("ben", present=(Window(0, 8 * 60, 9 * 60),))
    plan = bench(
        a_step("a.one", keeps=Keep(10)), cooks=(a_cook("ann"), ben), pins=(Pin("a.one", cook="ben"),)
    )
    refused(plan)


def test_a_pin_to_somebody_without_the_skill_cannot_be():
    cooks = (a_cook("ann"), a_cook("ben", "knife"))
    refused(bench(a_step("a.one", skill="knife"), cooks=cooks, pins=(Pin("a.one", cook="ann"),)))


def test_a_pin_to_one_cook_of_a_step_for_two_cannot_be():
    """The validator asks all hands of the pinned cook."""
    assert (
        answer(bench(a_step("a.one", hands=2), cooks=2, pins=(Pin("a.one", cook="ann"),))).fit
        is Fit.IMPOSSIBLE
    )


# ---- naming


def test_a_dish_stays_with_one_cook_where_it_can():
    steps = [a_step(f"{dish}.{number}", minutes=5) for dish in ("a", "b") for number in (1, 2, 3)]
    links = chained(*steps[:3], most=0) + chained(*steps[3:], most=0)
    timetable = meets(bench(*steps, links=links, cooks=2, opens=-15))
    for dish in ("a", "b"):
        who = Counter(
            cook for step in steps if step.id.startswith(dish) for cook in cooks_of(timetable, step.id)
        )
        assert len(who) == 1


def test_the_least_skilled_who_can_does_it():
    cooks = (a_cook("ann", "knife", "fire"), a_cook("ben"))
    timetable = meets(bench(a_step("a.one"), cooks=cooks))
    assert cooks_of(timetable, "a.one") == {"ben"}


def test_a_burner_is_kept_from_step_to_step_where_it_can():
    burner = (Use(StationKind.BURNER),)
    steps = (hands_off("a.boil", 5, uses=burner), hands_off("a.simmer", 5, uses=burner))
    plan = bench(*steps, links=(a_link("a.boil", "a.simmer", 0, 0),), stations=burners(3))
    placed = meets(plan).placed
    assert placed[0].spots == placed[1].spots
