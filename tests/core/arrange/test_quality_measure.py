"""Reading off a timetable what it reached: by hand, and against what the model's own sums said."""

from __future__ import annotations

from dataclasses import replace

import pytest

import demo_data
from core.arrange.goals_meaning import minds
from core.arrange.outcome import WishKind
from core.arrange.quality_measure import (
    heated_too_soon,
    measure,
    moved,
    off_recipes,
    rushed,
    too_early,
    turned,
    waited,
)
from core.arrange.quality_room import tight
from core.arrange.reading import read
from core.intake.text_plan import read_text
from core.plan.ids import CookId, StationId, StepId
from core.plan.step import Heat, Keep
from core.timetable.timetable import Hand, Heating, Placed, Spot, Timetable
from tests.core.arrange.arranged import answer, bake
from tests.support.builders import (
    a_bench,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    an_oven,
    hands_off,
)
from tests.support.hand_made import hand_made

BARE = a_kitchen(stations=(), cooks=1)
ANN = CookId("ann")


def placed(step: str, start: int, length: int, *, load: int = 0, setting: int | None = None, hands=()) -> Placed:
    spots = (Spot(StationId("oven")),) if setting is not None else ()
    return Placed(StepId(step), start, length, load, spots, setting, tuple(hands))


@pytest.fixture(scope="module")
def supper():
    return read_text(demo_data.text_of("harvest_supper.toml"))


# ---- the harvest supper's hand-made timetable, counted by hand from its table


def test_its_hands_on_minutes_after_a_quarter_to_seven(supper):
    # gravy 1, platter 8, batter 5, cheeks 3, bread 5, carving 10, honey 1, frying 5 + 5, plates 7, beans 5,
    # cold things 4, three people plating for 3
    assert measure(supper, hand_made(supper))[WishKind.CALM] == 1 + 8 + 5 + 3 + 5 + 10 + 1 + 10 + 7 + 5 + 4 + 9


def test_its_oven(supper):
    # Thursday for the stock, Friday for the cheeks, on Saturday 230 for bread and pork, 160, 210 for the squash
    found = [(each.setting, each.cold) for each in turned(supper, hand_made(supper))]
    assert found == [(220, True), (150, True), (230, True), (160, False), (210, False)]
    assert off_recipes(supper, hand_made(supper)) == heated_too_soon(supper, hand_made(supper)) == ()
    assert measure(supper, hand_made(supper))[WishKind.OVEN] == 3 * 20 + 2 * 8


def test_its_mornings(supper):
    # a touch at 7:00 on Thursday and another on Friday
    found = [(each.day, supper.wall(each.first).strftime("%H:%M")) for each in too_early(supper, hand_made(supper))]
    assert found == [(2, "07:00"), (1, "07:00")]
    assert measure(supper, hand_made(supper))[WishKind.SLEEP] == 120


# ---- one thing at a time


def test_waits_are_counted_beyond_the_least_and_by_what_the_food_bears():
    steps = (hands_off("pie.bake", 30), a_step("pie.cut", minutes=5, keeps=Keep(60)))
    plan = a_bench(*steps, links=(a_link("pie.bake", "pie.cut", 10, 40),), kitchen=BARE, transfer=0)
    timetable = Timetable((placed("pie.bake", -90, 30), placed("pie.cut", -45, 5)))
    assert [(each.after, each.over, each.minds) for each in waited(plan, timetable)] == [
        ("pie.cut", 5, 15),  # 15 min after the bake where 10 must be; it bears 40
        (None, 40, 10),
    ]
    assert measure(plan, timetable)[WishKind.FRESH] == 5 * 15 + 40 * 10


def test_what_food_minds_is_what_the_model_is_given(supper):
    given = {(wait.before, wait.after): wait.cost for wait in read(supper).waits}
    problem = read(supper)
    own = {}
    for each in waited(supper, hand_made(supper)):
        after = None if each.after is None else problem.loads[each.after][-1]
        own.setdefault((problem.index[each.before, each.load], after), each.minds)
    assert own == given


@pytest.mark.parametrize(("most", "cost"), [(0, 60), (10, 60), (40, 15), (600, 1), (3000, 1)])
def test_food_at_its_limit_costs_the_same_whatever_the_limit_is(most, cost):
    assert minds(most, served=True) == minds(most, served=False) == cost


def test_without_a_limit_only_the_serving_is_minded():
    assert minds(None, served=True) == 5
    assert minds(None, served=False) == 1


def test_minutes_in_the_rush_are_those_of_the_hands():
    plan = a_bench(a_step("pea.shell", minutes=30, keeps=Keep(60), least_piece=5), kitchen=BARE, transfer=0)
    hands = (Hand(-60, 20, ANN), Hand(-20, 10, ANN))
    timetable = Timetable((placed("pea.shell", -60, 50, hands=hands),))
    assert [each.minutes for each in rushed(plan, timetable)] == [5 + 10]


def test_a_pause_in_which_the_oven_is_kept_on_is_no_heating():
    one, two, three = (bake(name, 30, Heat(180, 165, 195), keep=None) for name in ("a", "b", "c"))
    plan = a_plan(one, two, three, kitchen=a_kitchen(stations=(an_oven(),)), transfer=0)
    ends = [("a.bake", -200, 180), ("b.bake", -140, 180), ("c.bake", -79, 180)]
    timetable = Timetable(tuple(placed(step, start, 30, setting=setting) for step, start, setting in ends))
    # 30 min after a's end b goes in; 31 min after b's end c does, and the oven has been off
    assert [(each.at, each.cold) for each in turned(plan, timetable)] == [(-200, True), (-79, True)]
    hotter = replace(timetable, placed=(*timetable.placed[:1], replace(timetable.placed[1], setting=190)))
    assert [(each.at, each.cold) for each in turned(plan, hotter)] == [(-200, True), (-140, False)]
    assert [(each.setting, each.wanted) for each in off_recipes(plan, hotter)] == [(190, 180)]
    assert measure(plan, hotter)[WishKind.OVEN] == 20 + 8 + 10 + 100 // 15


def test_an_oven_on_too_soon_is_told():
    plan = a_plan(bake("a", 30, 200), kitchen=a_kitchen(stations=(an_oven(),)), transfer=0)
    timetable = Timetable((placed("a.bake", -30, 30, setting=200),), (), (Heating(StationId("oven"), -50, -30, 200),))
    assert heated_too_soon(plan, timetable) == (("oven", 2),)  # 18 min would do


def test_what_moved_is_counted_by_the_minute_either_way():
    plan = a_bench(a_step("a.one"), a_step("b.one"), kitchen=BARE, transfer=0)
    seen = Timetable((placed("a.one", -40, 10), placed("b.one", -20, 10)))
    now = Timetable((placed("a.one", -45, 10), placed("b.one", -10, 10)))
    assert moved(now, seen) == (("a.one", 0, -5), ("b.one", 0, 10))
    assert measure(plan, now, seen)[WishKind.KEEP] == 15
    assert WishKind.KEEP not in measure(plan, now)


# ---- room before what cannot wait


def in_a_row(gap: int, keeps: int):
    """Return two jobs of one cook with a pause: the first takes 10 to 18 min, the second ends before its serving."""
    plan = a_bench(
        a_step("a.chop", minutes=(10, 10, 18), keeps=Keep(600)),
        a_step("b.fry", minutes=5, keeps=Keep(600)),
        kitchen=BARE,
        transfer=0,
    )
    fry = -5 - keeps
    chop = fry - gap - 10
    hands = [Hand(chop, 10, ANN)], [Hand(fry, 5, ANN)]
    return plan, Timetable(
        (placed("a.chop", chop, 10, hands=hands[0]), placed("b.fry", fry, 5, hands=hands[1]))
    )


def test_a_job_that_may_run_over_leaves_too_little_room():
    (found,) = tight(*in_a_row(gap=3, keeps=0))
    assert (found.cook, found.before, found.after, found.over, found.room) == (ANN, "a.chop", "b.fry", 8, 3)


@pytest.mark.parametrize(("gap", "keeps"), [(8, 0), (0, 8), (4, 4)])
def test_a_pause_or_what_can_slip_is_room_enough(gap, keeps):
    assert tight(*in_a_row(gap, keeps)) == ()


def test_what_the_one_makes_for_the_other_has_no_room_and_needs_none():
    plan, timetable = in_a_row(gap=0, keeps=0)
    linked = replace(plan, menu=replace(plan.menu, links=(a_link("a.chop", "b.fry"),)))
    assert tight(linked, timetable) == ()


# ---- against the model


def test_the_model_says_the_same_of_a_proven_plan():
    roast, pie = bake("roast", 60, Heat(180, 165, 195), keep=30), bake("pie", 30, Heat(185, 170, 200), keep=0)
    plan = a_plan(roast, pie, kitchen=a_kitchen(stations=(an_oven(racks=1),)), plating="2026-09-26 09:00")
    outcome = answer(plan)
    assert outcome.bound == outcome.score
    own = measure(plan, outcome.timetable)
    assert {each.wish: each.reached for each in outcome.wishes} == own
    assert own[WishKind.SLEEP] > 0
    assert own[WishKind.OVEN] > 0
