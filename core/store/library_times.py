"""How long a dish takes by itself: from its first start to its last end, and the minutes of hands in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from core.measures.clock import Moment
from core.plan import meaning
from core.plan.ids import StepId
from core.plan.menu import Dish, Link, LinkKind, Menu
from core.plan.plan import Plan
from core.plan.step import Step

_ANY = Moment(datetime(2000, 1, 1, 12), "UTC")


@dataclass(frozen=True, slots=True)
class DishTimes:
    """Minutes at the likely lengths: `whole` from first start to last end for one cook, `hands` of all cooks."""

    whole: int
    hands: int


def times_of(dish: Dish, links: Sequence[Link]) -> DishTimes:
    """Return how long a dish takes at least for the servings wanted, in a kitchen where nothing else is done.

    That is the longest chain of steps and least waits, or the work in all steps where this is more: one cook does
    one thing at a time. Each step is done as written.
    """
    plan = Plan("", _ANY, Menu((dish,), tuple(links)))
    lengths = {step.id: _length(dish, step) for step in dish.steps}
    starts = dict.fromkeys(lengths, 0)
    inside = [link for link in links if link.before in lengths and link.after in lengths]
    for _ in range(len(lengths)):  # longest paths; a circle, which no plan bears, ends here too
        moved = [_pushed(starts, lengths, link) for link in inside]
        if not any(moved):
            break
    ends = [starts[step] + length for step, length in lengths.items()]
    work = [
        (each.minutes * meaning.load_count(dish, step), each.people)
        for step in dish.steps
        for each in meaning.hands_of(plan, step, step.length.likely)
    ]
    first = min(starts.values(), default=0)
    chain = max(ends, default=first) - first
    alone = sum(minutes for minutes, _people in work)
    return DishTimes(max(chain, alone), sum(minutes * people for minutes, people in work))


def _length(dish: Dish, step: Step) -> int:
    """Return the minutes from the start of a step's first load to the end of its last."""
    loads = meaning.load_count(dish, step)
    return step.length.likely * loads + (step.loads.change_over if step.loads is not None else 0) * (loads - 1)


def _pushed(starts: dict[StepId, int], lengths: dict[StepId, int], link: Link) -> bool:
    """Start what follows no sooner than a link lets it; tell whether it moved."""
    soonest = starts[link.before] + link.least
    if link.kind is not LinkKind.START_TO_START:
        soonest += lengths[link.before]
    if link.kind is LinkKind.END_TO_END:
        soonest -= lengths[link.after]
    if soonest <= starts[link.after]:
        return False
    starts[link.after] = soonest
    return True
