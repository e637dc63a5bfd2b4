"""The hands-on minutes that a plan asks for between two times, with everything as late as it can be."""

from __future__ import annotations

from core.food.hands import HandsBudget, Person, Task, hands
from core.measures.minutes import show_minutes
from core.measures.refusal import Refusal
from core.plan.calendar import absences
from core.plan.kitchen import Cook
from core.plan.meaning import hands_of
from core.plan.network import Network, back_timed
from core.plan.network_limits import Lengths
from core.plan.plan import Plan


def hands_budget(plan: Plan, low: int, high: int) -> HandsBudget:
    """Return the hands of a plan from one offset to another, each load counted back from serving as on paper.

    Of work that reaches over either end only the part inside counts. Switching on, lighting and washing up
    are not counted. Cooks count with the minutes they are there. Raise Refusal for a stretch without length.
    """
    if high <= low:
        raise Refusal(
            f"From {show_minutes(low)} to {show_minutes(high)} is no stretch of time; end it later."
        )
    found = []
    earliest = _earliest(plan)
    lengths = Lengths.of(plan, written=True).minutes
    for key, start in back_timed(plan).items():
        step = plan.steps[key[0]]
        for hand in hands_of(plan, step, lengths[key]):
            begins = start + hand.start
            minutes = min(begins + hand.minutes, high) - max(begins, low)
            if minutes <= 0:
                continue
            before = earliest.get(key, start) + hand.start + hand.minutes <= low
            name = f"{plan.dish_of[step.id].name}: {hand.does or step.does}"
            found.append(Task(name, minutes * hand.people, hand.skill, earlier=before))
    return hands(found, [_person(plan, cook, low, high) for cook in plan.kitchen.cooks])


def _earliest(plan: Plan) -> dict[tuple[str, int], int]:
    """Return the earliest starts, or none where the plan's waits contradict each other."""
    network = Network.of(plan)
    if network.contradiction() is not None:
        return {}
    return {key: network.earliest(key) for key in network.keys}


def _person(plan: Plan, cook: Cook, low: int, high: int) -> Person:
    away = sum(end - start for start, end in absences(plan, cook, low, high))
    return Person(cook.name, high - low - away, cook.skills)
