"""Seeks ways out: every kind proposes easings near the trouble; what was solved is priced and ranked."""

from __future__ import annotations

from collections.abc import Callable, Collection
from threading import Event

from core.arrange.arranging import arrange
from core.arrange.demand import Demand
from core.arrange.effort import Effort
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.ways.asking import Asking
from core.arrange.ways.borrow_station import borrow_stations, second_fires
from core.arrange.ways.borrow_vessel import borrow_vessels
from core.arrange.ways.case import Case
from core.arrange.ways.choices import other_ways, shorter_lengths
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.effects import effect_of
from core.arrange.ways.hands import fewer_hands, helpers, novices
from core.arrange.ways.heats import wider_heats
from core.arrange.ways.later import dishes_later, everything_later
from core.arrange.ways.leave_out import dishes_left_out, steps_left_out
from core.arrange.ways.limits import clocks_moved, done_later, made_ahead
from core.arrange.ways.loads import bigger_loads, fewer_servings, smaller_loads
from core.arrange.ways.orders import orders_lifted, pins_lifted
from core.arrange.ways.places import elsewhere, stacked
from core.arrange.ways.prices import price_of
from core.arrange.ways.smallest import Sufficient, edit_of, smallest
from core.arrange.ways.waits import longer_waits
from core.arrange.ways.waves import waves
from core.arrange.ways.way import WayKind, WayOut
from core.plan.day import Day
from core.plan.edits import Edit, Together
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

Hear = Callable[[WayOut], None]

PROPOSERS: dict[WayKind, Callable[[Case], Family]] = {
    WayKind.WAIT_LONGER: longer_waits,
    WayKind.LIFT_ORDER: orders_lifted,
    WayKind.LIFT_PIN: pins_lifted,
    WayKind.OTHER_WAY: other_ways,
    WayKind.MOVE_CLOCK: clocks_moved,
    WayKind.MAKE_AHEAD: made_ahead,
    WayKind.DONE_LATER: done_later,
    WayKind.DISH_LATER: dishes_later,
    WayKind.SERVE_LATER: everything_later,
    WayKind.ELSEWHERE: elsewhere,
    WayKind.STACK: stacked,
    WayKind.BIGGER_LOADS: bigger_loads,
    WayKind.SMALLER_LOADS: smaller_loads,
    WayKind.WIDER_HEAT: wider_heats,
    WayKind.SHORTER: shorter_lengths,
    WayKind.SECOND_FIRE: second_fires,
    WayKind.BORROW_VESSEL: borrow_vessels,
    WayKind.BORROW_STATION: borrow_stations,
    WayKind.HELPER: helpers,
    WayKind.FEWER_HANDS: fewer_hands,
    WayKind.NOVICE: novices,
    WayKind.WAVES: waves,
    WayKind.FEWER_SERVINGS: fewer_servings,
    WayKind.LEAVE_OUT_STEP: steps_left_out,
    WayKind.LEAVE_OUT_DISH: dishes_left_out,
}
"""Every kind with what proposes its easings, in the order in which they are tried."""

_EACH_OF_A_KIND = 6
_ASK = 0.5  # of a kind's work, what a single ask may take


def ways_out(
    plan: Plan,
    *,
    day: Day | None = None,
    seen: Timetable | None = None,
    work: float = 1.0,
    kinds: Collection[WayKind] | None = None,
    demands: tuple[Demand, ...] = (),
    hear: Hear | None = None,
    stop: Event | None = None,
) -> tuple[WayOut, ...]:
    """Return ways out of a plan that was not found to meet, cheapest first; none for a plan that meets.

    Each was solved and has no clash by the validator. `work` is spent on each kind at most, in the units of
    Effort; `hear` is told each as found; `demands` (from reasons) say where the trouble lies. Repeatable.
    """
    stop = stop or Event()
    if possible(plan, work, near=seen, day=day, stop=stop).fit is Fit.MEETS or stop.is_set():
        return ()
    nearest = arrange(plan, Effort(work=work, limit=4 * work + 2), seen=seen, day=day, stop=stop)
    case = Case(plan, nearest.timetable, nearest.clashes, day, demands)
    asking = Asking(plan, day, seen or nearest.timetable, each=work * _ASK, budget=work, stop=stop)
    found: list[WayOut] = []
    for kind, proposer in PROPOSERS.items():
        if stop.is_set():
            break
        if kinds is None or kind in kinds:
            asking.begin()
            found += _of_kind(case, proposer(case), asking, seen, hear)
    return tuple(sorted(found, key=lambda way: (way.price, way.kind.value)))


def _of_kind(
    case: Case, family: Family, asking: Asking, seen: Timetable | None, hear: Hear | None
) -> list[WayOut]:
    """Return the best few of a kind."""
    if family.joint and len(family.easings) > 2 and _hopeless(family, asking):
        return []
    found: list[WayOut] = []
    suffice: list[frozenset[str]] = []
    for easing in family.easings:
        if asking.over:
            break
        if any(parts <= easing.parts for parts in suffice):
            continue
        enough = smallest(easing, asking)
        if enough is None:
            continue
        way = _way(case, easing, enough, asking, seen)
        found.append(way)
        if easing.parts:
            suffice.append(easing.parts)
        if hear is not None:
            hear(way)
        if family.one_will_do:
            break
    return sorted(found, key=lambda way: way.price)[:_EACH_OF_A_KIND]


def _hopeless(family: Family, asking: Asking) -> bool:
    """Tell whether it is proven that not even all easings together suffice."""
    edits: list[Edit] = [easing.make(easing.most) for easing in family.easings]
    return asking.with_edit(Together(family.kind.value, tuple(edits)))[0] is Fit.IMPOSSIBLE


def _way(
    case: Case, easing: Easing, enough: Sufficient, asking: Asking, seen: Timetable | None
) -> WayOut:
    edit, timetable = edit_of(easing, enough, asking)
    later = enough.size if easing.later else 0
    return WayOut(
        easing.kind,
        edit,
        easing.told(enough.size, timetable),
        timetable,
        price_of(easing.kind, easing.weight(enough.size), case.plan.decisions.wishes),
        enough.size,
        enough.smallest,
        effect_of(case.plan, edit(case.plan), timetable, later, seen or case.nearest),
    )
