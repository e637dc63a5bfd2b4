"""The least repair: which few wishes, given up together, make all the others possible.

Told where the smallest set of wishes that stand in each other's way is too long to help anybody.
"""

from __future__ import annotations

from threading import Event

from core.arrange.demand import Demand
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.why.assumed import Assumed
from core.arrange.why.giving_up import without
from core.arrange.why.reason import Repair
from core.arrange.why.weights import EACH, WEIGHT
from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.clashes import clashes


def repair(
    plan: Plan, assumed: Assumed, work: float, *, day: Day | None = None, stop: Event | None = None
) -> Repair | None:
    """Return the least repair found, tried out: None where none was found that meets."""
    weights = {demand: EACH + WEIGHT[demand.kind] for demand in assumed.wishes}
    found = assumed.lightest(weights, work)
    if found is None or not found.demands:
        return None
    eased = given_up(plan, found.demands)
    held = found.timetable is not None and not clashes(eased, found.timetable, day=day)
    if not held and possible(eased, work, day=day, stop=stop).fit is not Fit.MEETS:
        return None
    return Repair(found.demands, found.best)


def given_up(plan: Plan, wishes: tuple[Demand, ...]) -> Plan:
    """Return the plan without several wishes."""
    for demand in wishes:
        plan = without(plan, demand)
    return plan
