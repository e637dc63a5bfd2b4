"""Parts of a large feast: what is held stays, a part's solution is one of the whole, and the same comes out again."""

from __future__ import annotations

import pytest

from bench.feasts import feast
from core.arrange import Effort, Fit, arrange
from core.arrange.freeze import frozen, hint
from core.arrange.model import build
from core.arrange.reading import read
from core.arrange.search import first_found
from core.arrange.search_parts import Placing, groups, improve_by_parts, solved_part, stretched_tasks
from core.arrange.settle import settle
from core.arrange.watch import Watch
from core.plan.step import Keep
from core.timetable.clashes import clashes
from tests.support.builders import a_bench, a_kitchen, a_step, hands_off


def make(problem, *, asking=False, giving=False, aims=True):
    return build(problem, asking=asking, giving=giving, aims=aims)


@pytest.fixture(scope="module")
def small():
    """A feast of 84 steps with a first solution."""
    plan = feast(12).plan
    problem = read(plan)
    model = build(problem)
    found, _impossible = first_found(model, Watch(Effort(work=10.0), None))
    return plan, problem, model, found


def test_held_tasks_stay_and_a_part_solves_the_whole(small):
    plan, problem, model, found = small
    dish = problem.tasks[0].dish.id
    free = {task.index for task in problem.tasks if task.dish.id == dish}
    part = make(frozen(model, found, free))
    hint(part, model, found, free)
    (solved, again), infeasible = solved_part(part, Watch(Effort(work=2.0), None), 1.0)
    assert not infeasible
    assert all(
        again.starts[task.index] == found.starts[task.index] for task in problem.tasks if task.index not in free
    )
    assert clashes(plan, settle(solved.about(problem), again)) == ()


def test_with_all_held_the_solution_itself_is_still_one(small):
    """Heatings and washings that are held must not contradict what is held beside them."""
    _plan, _problem, model, found = small
    part = make(frozen(model, found, set()))
    hint(part, model, found, set())
    solved, infeasible = solved_part(part, Watch(Effort(work=2.0), None), 1.0)
    assert not infeasible
    assert solved[1].starts == found.starts


def test_improving_never_makes_it_worse_and_stays_clash_free(small):
    plan, problem, model, found = small
    told = []
    last = improve_by_parts(problem, (model, found), make, Watch(Effort(work=1.0), None), told.append)
    assert last[1].score < found.score
    scores = [each[1].score for each in told]
    assert scores == sorted(scores, reverse=True)
    assert clashes(plan, settle(last[0].about(problem), last[1])) == ()


def test_groups_hold_every_task_once():
    problem = read(feast(29).plan)
    every = [index for group in groups(problem) for index in group]
    assert sorted(every) == [task.index for task in problem.tasks]


def test_a_feast_of_two_hundred_steps_is_placed_in_parts_and_repeatably():
    plan = feast(29).plan
    problem = read(plan)
    placings = [Placing(problem, make, Watch(Effort(work=4.0), None)) for _each in range(2)]
    one, other = (placing.place() for placing in placings)
    assert one is not None
    assert clashes(plan, settle(one[0].about(problem), one[1])) == ()
    assert other is not None
    assert one[1].starts == other[1].starts
    assert placings[0].watch.work == placings[1].watch.work


def test_what_finds_no_place_stretches_a_limit_and_is_named():
    """Two things to be served at the minute they are done, one pair of hands."""
    steps = (a_step("a.one", minutes=10, keeps=Keep(0)), a_step("b.one", minutes=10, keeps=Keep(0)))
    problem = read(a_bench(*steps, kitchen=a_kitchen(stations=(), cooks=1), transfer=0))
    placing = Placing(problem, make, Watch(Effort(work=20.0), None))
    assert placing.place() is None
    assert not placing.hopeless
    squeezed = placing.squeeze()
    assert squeezed is not None
    assert squeezed[1].given > 0
    assert stretched_tasks(problem, squeezed[1])
    assert placing.mend() is None


def test_a_dish_that_has_no_place_in_an_empty_kitchen_is_hopeless():
    steps = (a_step("a.one", minutes=10), a_step("b.grill", minutes=10, skill="fire"))
    problem = read(a_bench(*steps, kitchen=a_kitchen(stations=(), cooks=1), transfer=0))
    placing = Placing(problem, make, Watch(Effort(work=20.0), None))
    assert placing.place() is None
    assert placing.hopeless


def test_a_large_menu_goes_through_the_same_door_in_parts():
    """160 things that only stand: large by number, and nothing hard about it."""
    steps = tuple(hands_off(f"d{number}.stand", 10, keeps=Keep(60)) for number in range(160))
    plan = a_bench(*steps, kitchen=a_kitchen(stations=()), transfer=0)
    heard = []
    outcome = arrange(plan, Effort(work=1.0), better=heard.append)
    assert outcome.fit is Fit.MEETS
    assert heard[0].fit is Fit.MEETS
    assert outcome.score == 0
    assert outcome == arrange(plan, Effort(work=1.0))
