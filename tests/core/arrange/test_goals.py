"""The wishes where each alone decides: calm, a quiet oven, sleep; and that some freshness always counts."""

from dataclasses import replace

import pytest

from core.arrange import goals_oven
from core.arrange.goals_meaning import mornings, off_recipe, weights_of
from core.arrange.outcome import WishKind
from core.arrange.quality_measure import measure, turned
from core.measures.clock import at_clock
from core.plan.decisions import Wishes
from core.plan.plan import Plan
from core.plan.step import Heat, Keep
from tests.core.arrange.arranged import LITTLE, answer, bake, meets, starts
from tests.support.builders import (
    a_bench,
    a_cook,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    an_oven,
    hands_off,
)

NONE = Wishes(fresh=0, calm=0, oven=0, sleep=0, keep=0)
BARE = a_kitchen(stations=(), cooks=1)


def wishing(plan: Plan, **weights: int) -> Plan:
    return replace(plan, decisions=replace(plan.decisions, wishes=replace(NONE, **weights)))


# ---- calm


@pytest.fixture
def sauce():
    return a_bench(a_step("sauce.stir", minutes=20, keeps=Keep(3000)), kitchen=BARE, transfer=0)


def test_without_the_wish_for_calm_work_ends_at_the_serving(sauce):
    assert starts(meets(wishing(sauce, fresh=5)))["sauce.stir"] == -20


def test_calm_takes_work_out_of_the_last_three_quarters_of_an_hour(sauce):
    assert starts(meets(wishing(sauce, fresh=5, calm=5)))["sauce.stir"] == -65


def test_only_the_minutes_inside_count():
    # it may not end before 18:55, so that 10 of its 20 minutes lie after 18:45 wherever it goes
    step = a_step("sauce.stir", minutes=20, keeps=Keep(35))
    outcome = answer(wishing(a_bench(step, kitchen=BARE, transfer=0), calm=5))
    reached = {each.wish: each.reached for each in outcome.wishes}
    assert starts(outcome.timetable)["sauce.stir"] == -55
    assert reached[WishKind.CALM] == 10


def test_work_after_plating_is_no_rush():
    plan = a_bench(a_step("tart.slice", minutes=10, keeps=Keep(0)), kitchen=BARE, transfer=0)
    later = replace(plan, menu=replace(plan.menu, dishes=(replace(plan.menu.dishes[0], course=75),)))
    outcome = answer(wishing(later, calm=5))
    assert {each.wish: each.reached for each in outcome.wishes}[WishKind.CALM] == 0


def test_two_cooks_at_one_step_count_twice():
    step = a_step("roast.lift", minutes=10, hands=2, keeps=Keep(0))
    plan = a_bench(step, kitchen=a_kitchen(stations=(), cooks=2), transfer=0)
    outcome = answer(wishing(plan, calm=5))
    assert {each.wish: each.reached for each in outcome.wishes}[WishKind.CALM] == 20


# ---- a quiet oven


def in_turn(one: int, other: int) -> Plan:
    """Return two bakes for an oven of one rack, so that they follow each other."""
    ranges = [Heat(each, each - 15, each + 15) for each in (one, other)]
    first, second = bake("bread", 30, ranges[0], keep=60), bake("pie", 30, ranges[1], keep=0)
    return a_plan(first, second, kitchen=a_kitchen(stations=(an_oven(racks=1),)), transfer=0)


def test_two_bakes_a_little_apart_share_a_setting_where_changes_are_minded():
    plan = wishing(in_turn(180, 185), oven=5)
    timetable = meets(plan)
    assert [each.cold for each in turned(plan, timetable)] == [True]
    assert len({each.setting for each in timetable.placed}) == 1
    assert measure(plan, timetable)[WishKind.OVEN] == 20 + off_recipe(5)


def test_two_bakes_far_apart_keep_their_own():
    plan = wishing(in_turn(180, 200), oven=5)
    timetable = meets(plan)
    assert [each.setting for each in timetable.placed] == [180, 200]
    assert [each.cold for each in turned(plan, timetable)] == [True, False]
    assert measure(plan, timetable)[WishKind.OVEN] == 20 + 8


def test_in_a_large_kitchen_changes_are_measured_but_not_made_few(monkeypatch):
    plan = wishing(in_turn(180, 200), oven=5)
    monkeypatch.setattr(goals_oven, "MOST_PAIRS", -1)
    outcome = answer(plan)
    assert {each.wish: each.reached for each in outcome.wishes}[WishKind.OVEN] == 20
    assert measure(plan, outcome.timetable)[WishKind.OVEN] == 20 + 8


def test_work_in_pieces_counts_piece_by_piece():
    # 40 min of shelling in pieces of 10 or more that keep no minute: all but the last piece can be done sooner
    step = a_step("pea.shell", minutes=40, keeps=Keep(0), least_piece=10)
    plan = wishing(a_bench(step, kitchen=BARE, transfer=0), fresh=1, calm=10)
    outcome = answer(plan)
    (shelling,) = outcome.timetable.placed
    late = sum(hand.minutes for hand in shelling.hands if hand.start >= -45)
    assert late == 10  # the last piece must end at the serving
    assert {each.wish: each.reached for each in outcome.wishes}[WishKind.CALM] == 10


# ---- sleep


def morning_plan(until: int = 8 * 60 + 30, **fields) -> Plan:
    """Return dough to be made before 280 min of proving that end at 12:10: at 7:20, or the evening before."""
    mix, prove = a_step("bread.mix", minutes=10), hands_off("bread.prove", 280, keeps=Keep(0))
    plan = a_bench(
        mix,
        prove,
        links=(a_link("bread.mix", "bread.prove"),),
        kitchen=BARE,
        transfer=0,
        plating=fields.pop("plating", "2026-09-26 12:10"),
        **fields,
    )
    wishes = replace(NONE, fresh=5, sleep_until=until)
    return replace(plan, decisions=replace(plan.decisions, wishes=wishes))


def sleeping(plan: Plan, sleep: int) -> Plan:
    return replace(
        plan, decisions=replace(plan.decisions, wishes=replace(plan.decisions.wishes, sleep=sleep))
    )


def test_who_does_not_mind_rises_for_fresh_dough():
    assert starts(meets(morning_plan()))["bread.mix"] == -290


def test_who_would_sleep_mixes_the_evening_before():
    timetable = meets(sleeping(morning_plan(), 10))
    evening = at_clock(morning_plan().plating, 1, 23 * 60)
    assert starts(timetable)["bread.mix"] == evening - 10
    assert measure(sleeping(morning_plan(), 10), timetable)[WishKind.SLEEP] == 0


def test_the_first_hands_of_a_day_count_once_and_later_ones_not():
    steps = [a_step(f"jam.{n}", minutes=10, latest=at_clock(morning_plan().plating, 0, 7 * 60 + 30)) for n in "ab"]
    steps = [replace(each, earliest=at_clock(morning_plan().plating, 0, 7 * 60)) for each in steps]
    plan = a_bench(*steps, kitchen=a_kitchen(stations=(), cooks=1), transfer=0, plating="2026-09-26 12:10")
    outcome = answer(wishing(plan, sleep=5))
    # the two fill 7:10 to 7:30: the day begins 50 min before 8:00
    assert {each.wish: each.reached for each in outcome.wishes}[WishKind.SLEEP] == 50


def test_switching_on_is_hands_too():
    heat = Heat(200, 200, 200)
    plan = a_plan(
        bake("bread", 240, heat), kitchen=a_kitchen(stations=(an_oven(),)), transfer=0, plating="2026-09-26 12:00"
    )
    outcome = answer(wishing(plan, sleep=5))
    # in at 8:00, so that it is switched on at 7:42
    assert {each.wish: each.reached for each in outcome.wishes}[WishKind.SLEEP] == 18


def test_mornings_are_by_the_clock_on_the_wall():
    # on 29 March 2026 clocks in London go forward at 1:00, so 8:00 is an hour nearer to midnight
    plan = sleeping(morning_plan(8 * 60, plating="2026-03-29 12:10"), 5)
    today, before = mornings(plan, -32 * 60, 0)[-1], mornings(plan, -32 * 60, 0)[-2]
    assert plan.wall(today.until).strftime("%d %H:%M") == "29 08:00"
    assert plan.wall(before.until).strftime("%d %H:%M") == "28 08:00"
    assert today.until - before.until == 23 * 60


def test_work_in_the_small_hours_belongs_to_the_evening_before():
    cooks = (a_cook("ann", night=None),)
    clock_step = a_step("stock.skim", minutes=10, earliest=-9 * 60, latest=-8 * 60)
    plan = a_bench(
        clock_step, kitchen=a_kitchen(stations=(), cooks=cooks), transfer=0, plating="2026-09-26 12:00"
    )
    outcome = answer(wishing(plan, sleep=5, fresh=1))
    # between 3:00 and 4:00 is still the night; only from 4:00 would the day have begun
    assert {each.wish: each.reached for each in outcome.wishes}[WishKind.SLEEP] == 0


# ---- weights


def test_some_freshness_always_counts():
    assert weights_of(NONE)[WishKind.FRESH] == 1
    assert not any(weight for wish, weight in weights_of(NONE).items() if wish is not WishKind.FRESH)


def test_a_wish_that_weighs_nothing_is_no_part_of_the_sum(sauce):
    outcome = answer(wishing(sauce, fresh=5), LITTLE)
    assert {each.wish for each in outcome.wishes} == {WishKind.FRESH}
