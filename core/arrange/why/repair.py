"""The least repair: which few wishes, given up together, make all the others possible.

Told where the smallest set of wishes that stand in each other's way is too long to help anybody.
"""

from __future__ import annotations

from threading import Event

from core.arrange.demand import Demand, DemandKind
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.why.assumed import Assumed
from core.arrange.why.giving_up import without
from core.arrange.why.reason import Repair
from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.clashes import clashes

_EACH = 10
_WEIGHT = {
    DemandKind.PIN: 0,
    DemandKind.ORDER: 0,
    DemandKind.MOST_WAIT: 2,
    DemandKind.KEEPS: 2,
    DemandKind.EARLIEST: 3,
    DemandKind.LATEST: 4,
    DemandKind.SERVED: 4,
    DemandKind.OPENS: 6,
    DemandKind.CLOCK: 8,
    DemandKind.ABSENT: 10,
    DemandKind.CLOSED: 15,
    DemandKind.VESSEL: 15,
    DemandKind.HANDS: 20,
    DemandKind.STATION: 20,
    DemandKind.NOT_WITH: 20,
    DemandKind.HEAT: 20,
    DemandKind.FIRE: 20,
}
"""What a wish weighs beside the ten of being one more: what the cook can change at the table is light."""


def repair(
    plan: Plan, assumed: Assumed, work: float, *, day: Day | None = None, stop: Event | None = None
) -> Repair | None:
    """Return the least repair found, tried out: None where none was found that meets."""
    weights = {demand: _EACH + _WEIGHT[demand.kind] for demand in assumed.wishes}
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
