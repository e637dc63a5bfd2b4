"""The reader of job-shop instances, against figures published with them; see jobshop.py for the source."""

from itertools import pairwise

import pytest

from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.network import Network, back_timed
from tests.outside.jobshop import as_plan, instances, plan_of

# Fisher and Thompson's 6 x 6 (in Muth and Thompson, Industrial Scheduling, 1963): machine and time, by job.
# The same figures stand in the job-shop example of OR-Tools.
FT06 = (
    ((2, 1), (0, 3), (1, 6), (3, 7), (5, 3), (4, 6)),
    ((1, 8), (2, 5), (4, 10), (5, 10), (0, 10), (3, 4)),
    ((2, 5), (3, 4), (5, 8), (0, 9), (1, 1), (4, 7)),
    ((1, 5), (0, 5), (2, 5), (3, 3), (4, 8), (5, 9)),
    ((2, 9), (1, 3), (4, 5), (5, 4), (0, 3), (3, 1)),
    ((1, 3), (3, 3), (5, 9), (0, 10), (4, 4), (2, 1)),
)

# Published optima (Jain and Meeran 1999 list them; from memory), jobs and machines.
PUBLISHED = {"ft06": (55, 6, 6), "ft10": (930, 10, 10), "ft20": (1165, 20, 5), "la01": (666, 10, 5)}


def test_ft06_is_fisher_and_thompsons():
    assert instances()["ft06"].jobs == FT06
    assert sum(minutes for job in FT06 for _machine, minutes in job) == 197


@pytest.mark.parametrize("name", PUBLISHED)
def test_sizes_and_optima_are_those_published(name):
    plan, optimum = as_plan(name)
    assert (optimum, len(plan.dishes), len(plan.kitchen.stations)) == PUBLISHED[name]
    assert len(plan.steps) == PUBLISHED[name][1] * PUBLISHED[name][2]


def test_the_plan_says_the_same_as_the_instance():
    plan, _optimum = as_plan("ft06")
    for job, dish in zip(FT06, plan.menu.dishes, strict=True):
        assert [(step.length.likely, step.uses[0].station) for step in dish.steps] == [
            (minutes, f"machine-{machine}") for machine, minutes in job
        ]
        assert (dish.course, dish.keep.most) == (0, None)
        joined = [(link.before, link.after) for step in dish.steps for link in plan.links_from[step.id]]
        assert joined == [(one.id, other.id) for one, other in pairwise(dish.steps)]
    waits = {(link.kind, link.least, link.most) for link in plan.menu.links}
    assert waits == {(LinkKind.END_TO_START, 0, None)}
    assert {(each.kind, each.units) for each in plan.kitchen.stations} == {(StationKind.MACHINE, 1)}
    assert all(not step.touches and plan.transfer == 0 for step in plan.steps.values())


def test_without_machines_a_job_shop_is_as_long_as_its_longest_job():
    plan, optimum = as_plan("ft06")
    longest = max(sum(minutes for _machine, minutes in job) for job in FT06)
    assert longest == 47
    assert min(back_timed(plan).values()) == -longest
    assert longest < optimum


def test_every_instance_is_a_plan_without_contradiction():
    for instance in instances().values():
        low, high = instance.bounds
        assert low <= high
        assert instance.optimum is None or low == high == instance.optimum
        plan = plan_of(instance)
        operations = sum(minutes > 0 for job in instance.jobs for _machine, minutes in job)
        assert len(plan.steps) == operations
        if operations <= 100:
            assert Network.of(plan).contradiction() is None


def test_an_open_instance_has_no_optimum_to_reach():
    name = next(each.name for each in instances().values() if each.optimum is None)
    with pytest.raises(ValueError, match="not known"):
        as_plan(name)
