"""Job shops of the literature as plans: the published optimum is reached, and one minute less is impossible.

Optima: Fisher and Thompson 1963 (ft06 55, ft10 930, whose optimality was open for 26 years) and Lawrence 1984 (la01
to la20), as listed with the instances (see jobshop.py). `make bench` measures harder ones. A plan that opens so many
minutes before plating has a timetable if and only if the makespan can be that short; every timetable is judged by the
validator, which knows nothing of the scheduler. 'Impossible' is proven twice, with the solver's presolve and without.
"""

from dataclasses import replace
from threading import Event

import pytest

from core.arrange import Effort, Fit, Outcome, arrange
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from tests.outside.jobshop import as_plan

OPTIMA = {
    "ft06": 55, "ft10": 930,
    # Lawrence's 10 x 5, 15 x 5, 20 x 5 and 10 x 10
    "la01": 666, "la02": 655, "la03": 597, "la04": 590, "la05": 593,
    "la06": 926, "la07": 890, "la08": 863, "la09": 951, "la10": 958,
    "la11": 1222, "la12": 1039, "la13": 1150, "la14": 1292, "la15": 1207,
    "la16": 945, "la17": 784, "la18": 848, "la19": 842, "la20": 902,
}  # fmt: skip
ENOUGH = Effort(work=40.0)  # the proof for ft10 took 2.6 of it, the others 1.2 at the most


def opened(name: str, minutes: int) -> Plan:
    """Return an instance that opens so many minutes before plating."""
    plan, optimum = as_plan(name)
    assert optimum == OPTIMA[name]
    return replace(plan, opens=-minutes)


def first_answer(plan: Plan, effort: Effort = ENOUGH) -> Outcome:
    """Return the first timetable, or the nearest to one, without improving it."""
    stop = Event()
    return arrange(plan, effort, better=lambda _outcome: stop.set(), stop=stop)


@pytest.mark.parametrize("name", OPTIMA)
def test_the_published_optimum_is_reached(name):
    plan = opened(name, OPTIMA[name])
    outcome = first_answer(plan)
    assert outcome.fit is Fit.MEETS
    assert clashes(plan, outcome.timetable) == ()
    assert len(outcome.timetable.placed) == len(plan.steps)
    assert min(each.start for each in outcome.timetable.placed) == -OPTIMA[name]
    assert max(each.end for each in outcome.timetable.placed) <= 0


@pytest.mark.parametrize("name", OPTIMA)
def test_one_minute_less_is_proven_impossible(name):
    plan = opened(name, OPTIMA[name] - 1)
    outcome = first_answer(plan)
    assert outcome.fit is Fit.IMPOSSIBLE
    assert outcome.clashes == clashes(plan, outcome.timetable) != ()
