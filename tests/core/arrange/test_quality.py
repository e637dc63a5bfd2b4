"""Quality: bounds that are proven, the price of more, and what each part is called."""

from __future__ import annotations

from dataclasses import replace
from threading import Event

import pytest

from core.arrange import Effort, arrange
from core.arrange.bounds import Proof
from core.arrange.outcome import WishKind
from core.arrange.quality import price, quality, reached_of
from core.arrange.quality_counted import counted
from core.arrange.quality_parts import PartKind
from core.arrange.reading import read
from core.plan.decisions import Wishes
from core.plan.plan import Plan
from core.plan.step import Heat, Keep
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.core.arrange.arranged import bake, meets
from tests.core.arrange.test_goals import morning_plan
from tests.support.builders import a_bench, a_kitchen, a_plan, a_step, an_oven

BARE = a_kitchen(stations=(), cooks=1)


def last_jobs(*minutes: int, cooks: int = 1) -> Plan:
    """Return hands-on jobs that all end as near to the serving as hands allow."""
    steps = [a_step(f"{name}.do", minutes=each, keeps=Keep(120)) for name, each in zip("abcd", minutes, strict=False)]
    return a_bench(*steps, kitchen=a_kitchen(stations=(), cooks=cooks), transfer=0)


# ---- bounds by counting


def test_one_cook_ends_one_thing_at_a_time():
    # the shortest last: 10 min ends at plating, 20 min waits 10, 30 min waits 30
    assert counted(read(last_jobs(30, 10, 20)))[WishKind.FRESH] == 10 + 30


def test_two_cooks_end_two_things():
    assert counted(read(last_jobs(30, 10, 20, cooks=2)))[WishKind.FRESH] == 10


def test_what_keeps_for_days_does_not_count():
    steps = [a_step(f"{name}.do", minutes=10, keeps=Keep(3000)) for name in "ab"]
    assert counted(read(a_bench(*steps, kitchen=BARE, transfer=0)))[WishKind.FRESH] == 0


def test_work_that_cannot_leave_the_last_minutes():
    plan = a_bench(a_step("a.do", minutes=20, keeps=Keep(35)), kitchen=BARE, transfer=0)
    assert counted(read(plan))[WishKind.CALM] == 10  # it ends 35 min before plating at the soonest


def test_temperatures_that_cannot_be_shared():
    degrees = zip("abc", (160, 165, 200), strict=True)
    narrow = [bake(name, 30, Heat(at, at - 5, at + 5), keep=600) for name, at in degrees]
    plan = a_plan(*narrow, kitchen=a_kitchen(stations=(an_oven(),)), transfer=0)
    assert counted(read(plan))[WishKind.OVEN] == 2
    assert len([p for p in reached_of(plan, meets(plan)).of(WishKind.OVEN).parts if p.kind is PartKind.HEATING]) == 1


def test_a_morning_that_cannot_be_slept_through():
    plan = a_bench(
        a_step("a.do", minutes=10, earliest=-300, latest=-280), kitchen=BARE, transfer=0, plating="2026-09-26 12:00"
    )
    assert counted(read(plan))[WishKind.SLEEP] == 50  # it begins at 7:10 at the latest


def test_what_has_to_move_moves():
    plan = a_bench(a_step("a.do", minutes=10, keeps=Keep(0)), kitchen=BARE, transfer=0)
    assert counted(read(plan), {0: -25})[WishKind.KEEP] == 15


def test_contradictory_waits_have_no_bounds():
    plan = a_bench(a_step("a.do", minutes=10, earliest=-5, keeps=Keep(0)), kitchen=BARE, transfer=0)
    assert counted(read(plan)) == {}


# ---- the whole answer


def test_the_best_is_known_to_be_the_best():
    plan = last_jobs(30, 10, 20)
    plan = replace(plan, decisions=replace(plan.decisions, wishes=Wishes(calm=0)))
    found = quality(plan, meets(plan), work=1.0).of(WishKind.FRESH)
    assert found.reached == found.bound.amount == 40
    assert found.bound.proof is Proof.COUNTED
    assert found.best
    assert found.price is None
    assert [(each.dish, each.amount) for each in found.parts] == [("a", 30), ("c", 10)]


def test_what_counting_cannot_show_the_solver_does():
    # both must be in the oven when they are done, at temperatures that do not meet: one waits for the other
    plan = a_plan(
        bake("a", 30, 160, keep=120), bake("b", 30, 200, keep=120), kitchen=a_kitchen(stations=(an_oven(),)), transfer=0
    )
    found = quality(plan, meets(plan), work=3.0).of(WishKind.FRESH)
    assert found.reached == 38  # 30 min of the one, 8 min to change, by 5 °C a minute
    assert found.bound.amount == 38
    assert found.bound.proof is Proof.SOLVED


@pytest.fixture(scope="module")
def early():
    """Dough mixed at 7:20, by one who would rather sleep until 8:30 but weighs freshness more."""
    plan = morning_plan()
    return plan, arrange(plan, Effort(work=0.5)).timetable


def test_sleep_has_its_price(early):
    plan, timetable = early
    # bread cannot wait, so that its minutes are minded: ten hours for dough
    plan = replace(plan, menu=replace(plan.menu, links=(replace(plan.menu.links[0], most=300 * 2),)))
    found = price(plan, timetable, WishKind.SLEEP, work=1.0)
    assert found is not None
    assert clashes(plan, found.timetable) == ()
    assert (found.differences[0].was, found.differences[0].now) == (70, 0)
    assert found.moved == 1


def test_the_price_names_the_dish_that_pays():
    # to be calm at the end the sauce is made 45 min sooner, and it minds
    plan = a_bench(a_step("sauce.stir", minutes=20, keeps=Keep(120)), kitchen=BARE, transfer=0)
    plan = replace(plan, decisions=replace(plan.decisions, wishes=Wishes(fresh=10, calm=0)))
    timetable = meets(plan)
    found = quality(plan, timetable, work=1.0).of(WishKind.CALM)
    assert found.reached == 20
    assert found.price.best
    assert [(each.wish, each.was, each.now) for each in found.price.differences][:2] == [
        (WishKind.CALM, 20, 0),
        (WishKind.FRESH, 0, 45),
    ]
    assert [(each.dish, each.was, each.now) for each in found.price.dishes] == [("sauce", 0, 45)]


def test_a_timetable_that_breaks_a_limit_is_measured_too():
    plan = last_jobs(10, 10)
    both = meets(plan)
    crowded = Timetable(tuple(replace(each, start=-10, hands=()) for each in both.placed))
    found = quality(plan, crowded, work=0.5).of(WishKind.FRESH)
    assert found.reached == 0
    assert found.bound.amount == 10  # nobody can end both at once


def test_moves_count_only_against_what_was_seen():
    plan = last_jobs(10)
    timetable = meets(plan)
    seen = Timetable(tuple(replace(each, start=each.start - 30) for each in timetable.placed))
    with pytest.raises(KeyError):
        reached_of(plan, timetable).of(WishKind.KEEP)
    assert reached_of(plan, timetable, seen).of(WishKind.KEEP).reached == 30
    found = quality(plan, timetable, work=0.6, seen=seen).of(WishKind.KEEP)
    assert found.price.differences[0].now == 0


def test_a_stop_leaves_what_was_measured():
    stop = Event()
    stop.set()
    plan = last_jobs(30, 10, 20)
    timetable = meets(plan)
    found = quality(plan, timetable, work=1000.0, stop=stop)
    assert [each.reached for each in found.wishes] == [each.reached for each in reached_of(plan, timetable).wishes]
    assert all(each.price is None for each in found.wishes)


def test_the_same_work_and_seed_give_the_same_quality():
    plan = last_jobs(30, 10, 20)
    timetable = meets(plan)
    assert quality(plan, timetable, work=0.5) == quality(plan, timetable, work=0.5)
