"""The goal of a part is that of the whole: what is held counts too, so that parts can be compared."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from ortools.sat.python import cp_model

from bench.feasts import feast
from core.arrange import Effort, Fit, arrange
from core.arrange.found import read_found
from core.arrange.freeze import frozen, hint, without
from core.arrange.model import build
from core.arrange.outcome import WishKind
from core.arrange.quality_measure import measure
from core.arrange.reading import read
from core.arrange.search import first_found
from core.arrange.watch import Watch
from core.plan.step import Alternative, Keep, Span
from tests.support.builders import a_bench, a_cook, a_dish, a_kitchen, a_plan, a_step


@pytest.fixture(scope="module")
def small():
    """A feast of 84 steps with a first solution, changes of temperature counted however many pairs there are."""
    problem = replace(read(feast(12).plan), changes=True)
    model = build(problem)
    first, _impossible = first_found(model, Watch(Effort(work=10.0), None))
    at_these_starts = model.board.model.clone()
    for start, at in zip(model.board.start, first.starts, strict=True):
        at_these_starts.add(start == at)
    solver, status = Watch(Effort(work=10.0), None).solve(at_these_starts, 10.0)
    assert status == cp_model.OPTIMAL
    return problem, model, read_found(model, solver)


@pytest.mark.parametrize("seed", range(12))
def test_a_part_has_the_goal_of_the_whole_whatever_is_free(small, seed):
    problem, model, found = small
    dishes = sorted({task.dish.id for task in problem.tasks})
    chosen = Random(seed).sample(dishes, seed % 4)  # noqa: S311  # repeatable on purpose
    free = {task.index for task in problem.tasks if task.dish.id in chosen}
    part = build(frozen(model, found, free))
    hint(part, model, found, free)
    for index in range(len(problem.tasks)):
        part.board.model.add(part.board.start[index] == found.starts[index])
        for (way, celsius), pick in part.board.picks[index].items():
            part.board.model.add(pick == int((way, celsius) == (found.ways[index], found.settings[index])))
    solver, status = Watch(Effort(work=5.0), None).solve(part.board.model, 5.0)
    assert status == cp_model.OPTIMAL
    again = read_found(part, solver)
    others = set(found.parts) - {WishKind.OVEN}
    assert {wish: again.parts[wish] for wish in others} == {wish: found.parts[wish] for wish in others}
    # heatings that nobody needed may go, and one may begin no sooner than it must: never more than there was
    assert again.score <= found.score


def test_what_a_large_feast_reached_is_what_is_measured_on_its_timetable():
    """`measure` knows nothing of the model: it reads the timetable."""
    plan = feast(29).plan
    outcome = arrange(plan, Effort(work=4.0))
    assert outcome.fit is Fit.MEETS
    reached = {each.wish: each.reached for each in outcome.wishes}
    measured = measure(plan, outcome.timetable)
    assert len(reached) >= 3
    assert reached == {wish: measured[wish] for wish in reached}


def test_a_way_held_that_is_not_the_first_keeps_its_price():
    whisked = a_step("cream.whisk", minutes=20, keeps=Keep(5))
    by_machine = Alternative("by machine", Span(5, 5, 5), whisked.uses)
    plan = a_bench(replace(whisked, alternatives=(by_machine,)), kitchen=a_kitchen(stations=(), cooks=1), transfer=0)
    problem = read(plan)
    model = build(problem)
    model.board.model.add(model.board.way[0][1] == 1)
    solver, status = Watch(Effort(work=5.0), None).solve(model.board.model, 5.0)
    assert status == cp_model.OPTIMAL
    found = read_found(model, solver)
    part = build(frozen(model, found, set()))
    solver, status = Watch(Effort(work=5.0), None).solve(part.board.model, 5.0)
    assert status == cp_model.OPTIMAL
    assert read_found(part, solver).given == found.given > 0


def test_a_labour_is_not_held_to_cooks_by_a_number_that_other_skills_give_to_others():
    """Where nobody asks for slicing Ann and Ben are one crew; once somebody does, each is one."""
    cooks = (a_cook("ann", "shape"), a_cook("ben", "shape", "slice"), a_cook("cat"))
    dishes = (
        a_dish("loaf", a_step("loaf.shape", minutes=20, skill="shape"), keep=Keep(0)),
        a_dish("cream", a_step("cream.whip", minutes=20), keep=Keep(0)),
        a_dish("ham", a_step("ham.slice", minutes=20, skill="slice"), keep=Keep(0)),
    )
    problem = read(a_plan(*dishes, kitchen=replace(a_kitchen(stations=()), cooks=cooks), transfer=0))
    first = build(without(problem, frozenset({2})))
    solver, status = Watch(Effort(work=5.0), None).solve(first.board.model, 5.0)
    assert status == cp_model.OPTIMAL
    part = build(frozen(first.about(problem), read_found(first, solver), {2}))
    _solver, status = Watch(Effort(work=5.0), None).solve(part.board.model, 5.0)
    assert status == cp_model.OPTIMAL
