"""Several plans: truly different, none beaten by another, each better at what it favours."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.arrange import Effort
from core.arrange.outcome import WishKind
from core.arrange.quality import Quality, WishQuality
from core.arrange.several import Several, chosen, differ, dominates, favouring, several, share_moved
from core.plan.decisions import Wishes
from core.plan.ids import StepId
from core.plan.step import Keep
from core.timetable.clashes import clashes
from core.timetable.timetable import Placed, Timetable
from tests.core.arrange.test_goals import morning_plan
from tests.support.builders import a_bench, a_kitchen, a_step

FRESH, CALM, SLEEP = WishKind.FRESH, WishKind.CALM, WishKind.SLEEP


def one(favours: WishKind | None, fresh: int, calm: int, sleep: int = 0, *, starts=(0,) * 10) -> Several:
    placed = tuple(Placed(StepId(f"a.{number}"), start, 10) for number, start in enumerate(starts))
    reached = ((FRESH, fresh), (CALM, calm), (SLEEP, sleep))
    quality = Quality(tuple(WishQuality(wish, amount, amount) for wish, amount in reached))
    return Several(favours, Wishes(), Timetable(placed), quality)


def favours(found) -> list[WishKind | None]:
    return [each.favours for each in found]


def test_what_is_better_in_all_is_offered_alone():
    found = chosen([one(None, 100, 50), one(FRESH, 40, 40)])
    assert favours(found) == [FRESH]


def test_what_gives_and_takes_is_offered_side_by_side():
    found = chosen([one(None, 100, 50), one(FRESH, 40, 80), one(CALM, 160, 20)])
    assert favours(found) == [FRESH, CALM, None]
    assert [each.clearly for each in found] == [(FRESH,), (CALM,), ()]


def test_never_more_than_three():
    some = [one(None, 100, 50, 60), one(FRESH, 40, 80, 60), one(CALM, 160, 20, 60), one(SLEEP, 160, 80, 0)]
    assert favours(chosen(some)) == [FRESH, CALM, SLEEP]


def test_what_does_not_keep_its_name_is_dropped():
    found = chosen([one(None, 100, 50), one(CALM, 60, 50)])
    assert favours(found) == [None]  # no calmer, whatever else: it would be called calm and is not


def test_much_the_same_is_offered_once():
    found = chosen([one(None, 100, 50), one(FRESH, 95, 51)])
    assert favours(found) == [FRESH]


def test_much_the_same_in_figures_but_another_day_is_another_plan():
    elsewhere = (-21, -21, *(0,) * 8)
    assert differ(one(None, 100, 50), one(FRESH, 95, 51, starts=elsewhere))
    assert not differ(one(None, 100, 50), one(FRESH, 95, 51, starts=(-21, *(0,) * 9)))
    assert not differ(one(None, 100, 50), one(FRESH, 95, 51, starts=(-20,) * 10))
    assert not differ(one(None, 100, 50), one(FRESH, 100, 50, starts=elsewhere))  # nothing to choose by


def test_the_share_that_moved():
    assert share_moved(Timetable(), Timetable()) == 0
    assert share_moved(one(None, 0, 0).timetable, Timetable()) == 1
    tenth = one(None, 0, 0, starts=(30, *(0,) * 9)).timetable
    assert share_moved(one(None, 0, 0).timetable, tenth) == pytest.approx(0.1)


def test_none_beats_itself():
    assert not dominates(one(None, 1, 2), one(FRESH, 1, 2))
    assert dominates(one(None, 1, 2), one(FRESH, 1, 3))
    assert not dominates(one(None, 1, 2), one(FRESH, 0, 3))


def test_weights_that_favour_leave_the_others_a_little():
    wishes = favouring(Wishes(fresh=5, calm=0, oven=3, sleep=1, keep=4), CALM)
    assert (wishes.fresh, wishes.calm, wishes.oven, wishes.sleep, wishes.keep) == (2, 10, 2, 1, 4)


def test_early_and_fresh_or_late_and_calm():
    """Dough that minds: fresh means rising at 7:20; who would sleep mixes it the evening before."""
    plan = morning_plan()
    links = (replace(plan.menu.links[0], most=600),)
    sauce = a_bench(a_step("sauce.stir", minutes=20, keeps=Keep(120)), kitchen=a_kitchen(stations=())).menu.dishes
    menu = replace(plan.menu, links=links, dishes=(*plan.menu.dishes, *sauce))
    plan = replace(plan, menu=menu)
    heard = []
    found = several(plan, Effort(work=4.0), better=heard.append)
    assert heard[-1] == found
    assert len(found) >= 2
    assert all(clashes(plan, each.timetable) == () for each in found)
    by = {each.favours: {wish.wish: wish.reached for wish in each.quality.wishes} for each in found}
    assert by[SLEEP][SLEEP] == 0
    assert by[CALM][CALM] == 0
    assert min(by, key=lambda each: by[each][FRESH]) is not CALM


def test_where_nothing_meets_nothing_is_offered():
    steps = [a_step(f"{name}.do", minutes=10, keeps=Keep(0)) for name in "ab"]
    assert several(a_bench(*steps, kitchen=a_kitchen(stations=(), cooks=1), transfer=0), Effort(work=0.5)) == ()
