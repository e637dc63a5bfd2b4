"""What the day's facts do to a plan and to a timetable counted back on paper."""

from __future__ import annotations

from dataclasses import replace

from core.plan import meaning
from core.plan.day import Day, State
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


def without_dropped(plan: Plan, day: Day | None) -> Plan:
    """Return the plan without the steps of which every load was dropped, and without their links."""
    if day is None or all(fact.state is not State.DROPPED for fact in day.facts):
        return plan
    gone = set()
    for dish in plan.menu.dishes:
        for step in dish.steps:
            loads = [day.of.get((step.id, load)) for load in range(meaning.load_count(dish, step))]
            if all(fact is not None and fact.state is State.DROPPED for fact in loads):
                gone.add(step.id)
    dishes = tuple(
        replace(dish, steps=tuple(step for step in dish.steps if step.id not in gone)) for dish in plan.menu.dishes
    )
    links = tuple(link for link in plan.menu.links if link.before not in gone and link.after not in gone)
    decisions = replace(
        plan.decisions,
        pins=tuple(pin for pin in plan.decisions.pins if pin.step not in gone),
        choices=tuple(each for each in plan.decisions.choices if each.step not in gone),
        lengths=tuple(each for each in plan.decisions.lengths if each.step not in gone),
        orders=tuple(each for each in plan.decisions.orders if not {each.first, each.then} & gone),
    )
    return replace(plan, menu=replace(plan.menu, dishes=dishes, links=links), decisions=decisions)


def with_facts(timetable: Timetable, day: Day | None, stood: Timetable | None = None) -> Timetable:
    """Return a timetable in which what has happened stands as it did, and nothing else begins before now.

    `stood` says who was at it, as far as that is known.
    """
    if day is None:
        return timetable
    placed = []
    for each in timetable.placed:
        fact = day.of.get(each.key)
        if fact is None:
            start, end = max(each.start, day.now), max(each.start, day.now) + each.length
        elif fact.state is State.DROPPED:
            continue
        else:
            start = fact.start
            end = fact.start + each.length if fact.end is None else fact.end
            end = end if fact.state is State.DONE else max(end, day.now)
        by = start - each.start
        hands = tuple(replace(hand, start=hand.start + by) for hand in each.hands)
        if fact is not None:
            was = stood.at.get(each.key) if stood is not None else None
            past = tuple(hand for hand in was.hands if start <= hand.start < day.now) if was is not None else ()
            hands = (*past, *(hand for hand in hands if hand.start >= day.now))
        placed.append(replace(each, start=start, length=end - start, hands=hands))
    at = {each.key for each in placed}
    stays = tuple(stay for stay in timetable.stays if (stay.before, stay.load) in at and stay.end > stay.start)
    heatings = tuple(each for each in timetable.heatings if each.start >= day.now)
    return replace(timetable, placed=tuple(placed), stays=stays, heatings=heatings)
