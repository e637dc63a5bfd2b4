"""What steps come to: the way chosen, number of loads, reserved length, touches, keeping. Minutes and °C."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from core.plan.ids import StepId
from core.plan.kitchen import Heater, StationKind
from core.plan.menu import Dish, LinkKind
from core.plan.plan import Plan
from core.plan.step import Attention, Heat, Keep, Manner, Span, Step, Use

LONGEST_PAUSE = 7 * 24 * 60
"""Minutes by which a step in pieces may last longer than its work."""
_NO_TRANSFER = frozenset({StationKind.ROOM, StationKind.MACHINE})


@dataclass(frozen=True, slots=True)
class Reserved:
    """The length a timetable reserves and how much sooner the food may be done (covered by the wait after it)."""

    length: int
    early: int


@dataclass(frozen=True, slots=True)
class HandsAt:
    """Cooks needed during part of a step: minutes from its start, length, how many, which skill."""

    start: int
    minutes: int
    people: int
    skill: str
    does: str


def ways_open(plan: Plan, step: Step) -> tuple[int, ...]:
    """Return the ways a timetable may choose among: 0 as the step is written, then its alternatives' numbers."""
    choice = plan.choices.get(step.id)
    if choice is None:
        return tuple(range(len(step.alternatives) + 1))
    return (choice.way if choice.way <= len(step.alternatives) else 0,)


def way_of(plan: Plan, step: Step, way: int | None = None) -> tuple[Span, tuple[Use, ...]]:
    """Return the length and places of a way of a step; None: the chosen one, or the step as written."""
    if way is None:
        way = ways_open(plan, step)[0]
    if not 0 < way <= len(step.alternatives):
        return step.length, step.uses
    other = step.alternatives[way - 1]
    return other.length, other.uses


def load_count(dish: Dish, step: Step) -> int:
    """Return how many loads the servings wanted come to (1 without loads)."""
    if step.loads is None:
        return 1
    return max(1, ceil(step.loads.pieces * dish.factor / step.loads.per_load))


def keep_of(plan: Plan, step: Step) -> Keep | None:
    """Return how a last step's food keeps until it is served; None where nothing is served from it."""
    dish = plan.dish_of[step.id]
    if step.id not in plan.last_steps:
        return None
    if step.keeps is not None:
        return step.keeps
    return dish.keep if dish.served else None


def room_after(plan: Plan, step: Step) -> int | None:
    """Return the minutes by which the wait after a step may stretch; None: without limit."""
    rooms = [
        link.most - link.least
        for link in plan.links_from[step.id]
        if link.kind is LinkKind.END_TO_START and link.most is not None
    ]
    keep = keep_of(plan, step)
    if keep is not None and keep.most is not None:
        rooms.append(keep.most)
    return min(rooms, default=None)


def reserved(plan: Plan, step: StepId, way: int | None = None) -> Reserved:
    """Return what the plan's manner reserves for a way of a step, before any change of oven setting."""
    the_step = plan.steps[step]
    span, _uses = way_of(plan, the_step, way)
    manner = plan.manners.get(step, plan.decisions.manner)
    if manner is Manner.HIGH:
        return Reserved(span.high, 0)
    if manner is Manner.SAFE:
        room = room_after(plan, the_step)
        spread = span.high - span.low
        if room is None or room >= spread:
            return Reserved(span.high, spread)
    return Reserved(span.likely, 0)


def length_at(length: int, heat: Heat, setting: int) -> int:
    """Return the length at another setting: 1 % shorter per degree hotter (common practice, within 15 degrees)."""
    return max(1, (length * (100 - (setting - heat.setting)) + 50) // 100)


def length_when_full(length: int, heater: Heater) -> int:
    """Return the length in a station that is full with more than one dish (common practice: 10 to 15 % longer)."""
    return longer_by(length, heater.full)


def longer_by(length: int, per_cent: int) -> int:
    """Return the length so many per cent longer, begun minutes counted."""
    return -(-length * (100 + per_cent) // 100)


def heat_of(plan: Plan, step: Step, way: int | None = None) -> Heat | None:
    """Return the temperature a step wants, if that way of it has one."""
    _span, uses = way_of(plan, step, way)
    return next((use.heat for use in uses if use.heat is not None), None)


def most_pieces(step: Step, length: int) -> int:
    """Return into how many pieces a step of this length may be cut at most (1: it may not)."""
    if step.least_piece is None or step.attention is not Attention.HANDS_ON or step.hands != 1:
        return 1
    return max(1, length // step.least_piece)


def hands_of(plan: Plan, step: Step, length: int, way: int | None = None) -> tuple[HandsAt, ...]:
    """Return when a step of this length needs cooks, in order of time; one in pieces as if it had only one."""
    if step.attention is Attention.HANDS_ON:
        return (HandsAt(0, length, step.hands, step.skill, step.does),)
    put_in, take_out = transfers(plan, step, way)
    if put_in + take_out >= length and put_in and take_out:
        return (HandsAt(0, length, 1, step.skill, step.does),)
    found = [HandsAt(0, put_in, 1, "", "in")] if put_in else []
    if step.attention is Attention.TENDED:
        for touch in step.touches:
            at = length - touch.at - touch.minutes if touch.from_end else touch.at
            at = max(0, min(at, length - touch.minutes))
            found.append(HandsAt(at, min(touch.minutes, length), 1, touch.skill, touch.does))
    if take_out:
        found.append(HandsAt(length - take_out, take_out, 1, "", "out"))
    return tuple(sorted(found, key=lambda each: each.start))


def transfers(plan: Plan, step: Step, way: int | None = None) -> tuple[int, int]:
    """Return the minutes of putting in and of taking out."""
    _span, uses = way_of(plan, step, way)
    there = any(use.kind not in _NO_TRANSFER for use in uses)
    usual = plan.transfer if there and step.attention is not Attention.HANDS_ON else 0
    put_in = usual if step.put_in is None else step.put_in
    take_out = usual if step.take_out is None else step.take_out
    return put_in, take_out
