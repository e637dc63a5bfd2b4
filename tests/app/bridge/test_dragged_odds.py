from __future__ import annotations

from itertools import count

from app.bridge import DraggedOdds
from core.arrange.chances import WITHIN, Odds
from core.plan.step import Keep, Manner
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step


def supper():
    soup = a_dish("soup", a_step("soup.stir", minutes=(15, 20, 30)), keep=Keep(60))
    return a_plan(soup, kitchen=a_kitchen(cooks=1), transfer=0, manner=Manner.LIKELY)


def test_the_chance_is_that_of_the_days_drawn_once() -> None:
    plan = supper()
    timetable = on_paper(plan)
    odds = DraggedOdds(lambda: 0.0)
    key = ("soup.stir", 0)
    there, sooner = timetable.at[key].start, timetable.at[key].start - 25
    stands = odds.after(plan, timetable, {key: there})
    assert stands == Odds(plan, timetable).within(WITHIN)
    earlier = odds.after(plan, timetable, {key: sooner})
    assert earlier is not None
    assert stands is not None
    assert earlier > stands
    assert odds.after(plan, timetable, {key: there}) == stands, "the figure does not flicker"


def test_after_a_slow_move_every_other_one_is_left_out() -> None:
    plan = supper()
    timetable = on_paper(plan)
    clock = count()  # every look at the clock is a second later
    odds = DraggedOdds(lambda: float(next(clock)))
    key = ("soup.stir", 0)
    start = timetable.at[key].start
    told = [odds.after(plan, timetable, {key: start - by}) for by in range(4)]
    assert [chance is None for chance in told] == [False, True, False, True]


def test_another_timetable_draws_its_own_days() -> None:
    plan = supper()
    timetable = on_paper(plan)
    odds = DraggedOdds(lambda: 0.0)
    key = ("soup.stir", 0)
    odds.after(plan, timetable, {key: timetable.at[key].start})
    other = supper()
    again = on_paper(other)
    assert odds.after(other, again, {key: again.at[key].start}) == Odds(other, again).within(WITHIN)
