"""The search as a whole: what was found is kept, what is shown is judged, and it ends when it is proven best."""

from dataclasses import replace
from threading import Event

import pytest

from core.arrange import Effort, Fit, arrange, arranging
from core.arrange.naming import NobodyLeft
from core.plan.step import Keep
from tests.core.arrange.arranged import LITTLE, answer
from tests.support.builders import a_bench, a_cook, a_kitchen, a_step, chained, hands_off


@pytest.fixture
def supper():
    steps = [a_step(f"soup.{number}", minutes=5) for number in (1, 2, 3)]
    return a_bench(
        *steps, links=chained(*steps, most=30), kitchen=a_kitchen(stations=(), cooks=1), transfer=0
    )


def test_reflow_is_one_of_the_public_names():
    import core.arrange

    assert "reflow" in core.arrange.__all__
    assert callable(core.arrange.reflow)


def test_a_small_plan_is_proven_best_and_ends_before_its_effort(supper):
    outcome = arrange(supper, Effort(work=1000.0))
    assert outcome.fit is Fit.MEETS
    assert outcome.bound == outcome.score
    assert not outcome.stopped


def test_the_parts_of_the_score_are_told(supper):
    outcome = answer(supper)
    assert {each.wish.value for each in outcome.wishes} == {"fresh", "calm", "oven", "sleep"}
    assert all(each.reached >= 0 for each in outcome.wishes)


def test_what_was_found_is_kept_where_a_later_search_comes_to_nothing(supper, monkeypatch):
    """A better day for which no cooks can be named starts the search anew; the first day must outlive that."""
    real_first, real_settle = arranging.first_found, arranging.settle
    searches, settled, stop = [], [], Event()

    def first(model, watch, near=None):
        searches.append(near)
        if len(searches) > 1:
            stop.set()  # the cook has seen enough, or the effort is spent
            return None, False
        return real_first(model, watch, near)

    def settle(model, found):
        settled.append(found)
        if len(settled) == 2:
            raise NobodyLeft(frozenset({0}))
        return real_settle(model, found)

    def improve(model, found, watch, better, _make):
        better(model, found)  # as if a better day had been found
        return found, False

    monkeypatch.setattr(arranging, "first_found", first)
    monkeypatch.setattr(arranging, "settle", settle)
    monkeypatch.setattr(arranging, "improve", improve)
    heard = []
    outcome = arrange(supper, LITTLE, better=heard.append, stop=stop)
    assert heard[0].fit is Fit.MEETS
    assert outcome.fit is Fit.MEETS
    assert outcome.timetable == heard[0].timetable


def test_a_clean_timetable_is_never_called_impossible(supper, monkeypatch):
    """Whatever the solver said before: a timetable without clashes is the proof that it can be."""
    real = arranging.first_found
    asked = []

    def first(model, watch, near=None):
        asked.append(near)
        return (None, True) if len(asked) == 1 else real(model, watch, near)

    monkeypatch.setattr(arranging, "first_found", first)
    outcome = arrange(supper, LITTLE)
    assert outcome.clashes == ()
    assert outcome.fit is Fit.MEETS


def test_naming_that_counts_cannot_see_is_repeated_with_names():
    # ann alone has fire and dough, ben is needed for the lifting: by counts all three fit at once
    cooks = (a_cook("ann", "fire", "dough"), a_cook("ben"), a_cook("cat"))
    steps = (
        a_step("a.one", minutes=10, skill="fire", keeps=Keep(10)),
        a_step("b.one", minutes=10, skill="dough", keeps=Keep(10)),
        a_step("c.lift", minutes=20, hands=2, keeps=Keep(0)),
    )
    plan = a_bench(*steps, kitchen=a_kitchen(stations=(), cooks=cooks), transfer=0)
    outcome = answer(plan)
    assert outcome.fit is Fit.MEETS
    assert sorted(each.start for each in outcome.timetable.placed) == [-20, -20, -10]


def test_a_seen_timetable_draws_the_new_one_to_itself():
    """Two hands-off things that keep for hours stand anywhere; where they were seen is where they stay."""
    steps = (hands_off("a.one", 10, keeps=Keep(600)), hands_off("b.one", 10, keeps=Keep(600)))
    plan = a_bench(*steps, kitchen=a_kitchen(stations=()), transfer=0)
    fresh = answer(plan)
    assert {each.start for each in fresh.timetable.placed} == {-10}
    moved = replace(
        fresh.timetable, placed=tuple(replace(each, start=each.start - 5) for each in fresh.timetable.placed)
    )
    # staying costs 5 x 1 x 5 of waiting for each, coming back 5 x 4 x 4 of moving
    outcome = arrange(plan, LITTLE, seen=moved)
    assert {each.start for each in outcome.timetable.placed} == {-15}
