"""A project's shortest makespan is found and proven by arranging alone, in repeatable work.

The projects are drawn after Kolisch, Sprecher and Drexl 1995 (see bench/random_projects.py); the plain model beside
ours, one cumulative for each resource, says what the optimum is.
"""

import pytest
from ortools.sat.python import cp_model

from bench.contest import plain
from bench.instance_files import made
from bench.project import broken
from bench.project_plan import makespan_of, plan_of, starts_of
from bench.random_projects import Shape, drawn
from core.arrange import Effort, Fit, arrange
from core.arrange.model import build
from core.arrange.reading import read
from core.arrange.search import backwards


def solved(model: cp_model.CpModel) -> tuple[int, tuple[int, ...]]:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 20.0
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value), tuple(solver.response_proto.solution)


@pytest.mark.parametrize("lags", [False, True])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_day_read_backwards_has_the_same_best(lags, seed):
    model = build(read(plan_of(drawn(Shape(15, lags, strength=0.3), seed)))).board.model
    turned = backwards(model)
    best, values = solved(model)
    assert solved(turned)[0] == best
    for index, at in enumerate(values):  # what the one calls a solution is one of the other
        turned.proto.variables[index].domain.clear()
        turned.proto.variables[index].domain.extend([at, at])
    assert solved(turned)[0] == best


def test_turning_back_twice_changes_nothing():
    model = build(read(plan_of(drawn(Shape(10), 1)))).board.model
    assert str(backwards(backwards(model)).proto) == str(model.proto)
    assert str(backwards(model).proto) != str(model.proto)


def test_a_makespan_that_parts_of_the_day_cannot_shorten_is_proven():
    """Its shortest makespan is longer than the waits alone ask, so that a search must prove it."""
    project = next(each for each in made()["made 30"] if each.name == "plain30_7")
    outcome = arrange(plan_of(project), Effort(work=30.0))
    assert outcome.fit is Fit.MEETS
    assert outcome.bound == outcome.score
    assert not broken(project, starts_of(project, outcome.timetable))
    known = plain(project, 60.0)
    assert known.proven
    assert makespan_of(outcome.timetable) == known.makespan
