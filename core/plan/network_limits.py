"""What a plan asks of its starts, stations and hands apart: one limit for each wait, order and bound."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from core.plan.calendar import clock_offset
from core.plan.ids import StepId
from core.plan.meaning import (
    LONGEST_PAUSE,
    Reserved,
    heat_of,
    keep_of,
    length_at,
    load_count,
    longer_by,
    most_pieces,
    reserved,
    ways_open,
)
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Step

Key = tuple[StepId, int]
"""A step and the number of its load, from 0."""


class LimitKind(StrEnum):
    """Where a limit comes from."""

    LEAST = "least wait"
    MOST = "most wait"
    LOADS = "load after load"
    ORDER = "order decided"
    FOLLOWS = "order on a station"
    SERVED = "served"
    KEEPS = "keeps until served"
    EARLIEST = "earliest"
    LATEST = "latest"
    CLOCK = "fixed by the clock"
    PIN = "pin"
    OPENS = "the plan opens"


@dataclass(frozen=True, slots=True)
class Limit:
    """`after` starts not sooner than `minutes` after `before` starts; None stands for plating, at offset 0.

    A most wait is the same thing seen backwards: the earlier step starts not sooner than so many minutes
    (a negative number) after the later one. `link` is the link that asks it, where one does.
    """

    kind: LimitKind
    before: Key | None
    after: Key | None
    minutes: int
    link: Link | None = None


class Follows(NamedTuple):
    """An order seen in a timetable: `after` starts not sooner than `gap` minutes after `before` ends."""

    before: Key
    after: Key
    gap: int = 0


@dataclass(frozen=True)
class Lengths:
    """Loads of each step and the minutes of each load, as reserved or as given.

    `longest`: what a load may come to at most, in another way, at a cooler setting or in a full oven: waits after it
    and pins before it are judged by that, so that what contradicts does so whatever is chosen.
    """

    loads: dict[StepId, int]
    minutes: dict[Key, int]
    reserved: dict[StepId, Reserved]
    longest: dict[Key, int]

    @classmethod
    def of(cls, plan: Plan, given: Mapping[Key, int] | None = None, *, written: bool = False) -> Lengths:
        """Return the lengths the plan reserves; `given` replaces those of the loads it names.

        A step that may be done in several ways takes the shortest, so that what contradicts does so in every
        way; `written`: the way it is written.
        """
        loads = {step.id: load_count(plan.dish_of[step.id], step) for step in plan.steps.values()}
        held = {step: reserved(plan, step) if written else _shortest(plan, step) for step in plan.steps}
        minutes = {(step, load): held[step].length for step, count in loads.items() for load in range(count)}
        longest = {key: minutes[key] if written else _longest(plan, key[0]) for key in minutes}
        known = {key: length for key, length in (given or {}).items() if key in minutes}
        return cls(loads, minutes | known, held, longest | known)

    def first(self, step: StepId) -> Key:
        """Return the first load of a step."""
        return (step, 0)

    def last(self, step: StepId) -> Key:
        """Return the last load of a step."""
        return (step, self.loads[step] - 1)


def _shortest(plan: Plan, step: StepId) -> Reserved:
    """Return the least that any way open to a step reserves, at the hottest setting it bears."""
    ways = [(way, reserved(plan, step, way)) for way in ways_open(plan, plan.steps[step])]
    return Reserved(
        min(_at_setting(plan, step, way, found.length, hottest=True) for way, found in ways),
        min(found.early for _way, found in ways),
    )


def _longest(plan: Plan, step: StepId) -> int:
    """Return the most that any way open to a step may take: at the coolest setting it bears, in a full oven."""
    the_step = plan.steps[step]
    fullest = max((each.heater.full for each in plan.kitchen.stations if each.heater is not None), default=0)
    found = 0
    for way in ways_open(plan, the_step):
        length = _at_setting(plan, step, way, reserved(plan, step, way).length, hottest=False)
        found = max(found, longer_by(length, fullest) if heat_of(plan, the_step, way) is not None else length)
    return found + (LONGEST_PAUSE if most_pieces(the_step, found) > 1 else 0)


def _at_setting(plan: Plan, step: StepId, way: int, length: int, *, hottest: bool) -> int:
    heat = heat_of(plan, plan.steps[step], way)
    return length if heat is None else length_at(length, heat, heat.high if hottest else heat.low)


def pinned_starts(plan: Plan) -> dict[Key, int]:
    """Return the starts that the cook pinned."""
    return {key: pin.start for key, pin in plan.pins.items() if pin.start is not None}


def limits_of(
    plan: Plan, lengths: Lengths, follows: Sequence[Follows] = (), pinned: Mapping[Key, int] | None = None
) -> list[Limit]:
    """Return every limit of a plan but that of its opening; `pinned` replaces the pins' starts."""
    found = [limit for step in plan.steps.values() for limit in _of_step(plan, step, lengths)]
    for link in plan.menu.links:
        found += _OF_LINK[link.kind](link, lengths)
    for order in plan.decisions.orders:
        before = lengths.last(order.first)
        found.append(Limit(LimitKind.ORDER, before, lengths.first(order.then), lengths.minutes[before]))
    for before, after, gap in follows:
        found.append(Limit(LimitKind.FOLLOWS, before, after, lengths.minutes[before] + gap))
    for key, start in (pinned_starts(plan) if pinned is None else pinned).items():
        # A pin of a load that smaller servings did away with binds nothing.
        if key in lengths.minutes:
            found += _at(LimitKind.PIN, key, start)
    return found


def _of_step(plan: Plan, step: Step, lengths: Lengths) -> Iterator[Limit]:
    first, last = lengths.first(step.id), lengths.last(step.id)
    if step.loads is not None:
        for load in range(lengths.loads[step.id] - 1):
            before, after = (step.id, load), (step.id, load + 1)
            yield Limit(LimitKind.LOADS, before, after, lengths.minutes[before] + step.loads.change_over)
    if step.id in plan.last_steps:
        course = plan.dish_of[step.id].course
        yield Limit(LimitKind.SERVED, last, None, lengths.minutes[last] - course)
        keep = keep_of(plan, step)
        if keep is not None and keep.most is not None:
            ready = lengths.longest[first] - lengths.reserved[step.id].early
            yield Limit(LimitKind.KEEPS, None, first, course - keep.most - ready)
    if step.earliest is not None:
        yield Limit(LimitKind.EARLIEST, None, first, step.earliest)
    if step.latest is not None:
        yield Limit(LimitKind.LATEST, last, None, lengths.minutes[last] - step.latest)
    if step.clock is not None:
        yield from _at(LimitKind.CLOCK, first, clock_offset(plan, step.clock))


def _at(kind: LimitKind, key: Key, start: int) -> list[Limit]:
    return [Limit(kind, None, key, start), Limit(kind, key, None, -start)]


def _end_to_start(link: Link, lengths: Lengths) -> list[Limit]:
    found = []
    for first, last, next_first, next_last in _fed(link, lengths):
        found.append(Limit(LimitKind.LEAST, last, next_first, lengths.minutes[last] + link.least, link))
        if link.most is not None:
            ready = lengths.longest[first] - lengths.reserved[link.before].early
            found.append(Limit(LimitKind.MOST, next_last, first, -ready - link.most, link))
    return found


def _fed(link: Link, lengths: Lengths) -> list[tuple[Key, Key, Key, Key]]:
    """Return first and last load before, first and last after: load by load where there are as many."""
    before, after = link.before, link.after
    if lengths.loads[before] == lengths.loads[after]:
        loads = range(lengths.loads[before])
        return [((before, load), (before, load), (after, load), (after, load)) for load in loads]
    return [(lengths.first(before), lengths.last(before), lengths.first(after), lengths.last(after))]


def _start_to_start(link: Link, lengths: Lengths) -> list[Limit]:
    return _between(link, lengths.first(link.before), lengths.first(link.after), 0, 0)


def _end_to_end(link: Link, lengths: Lengths) -> list[Limit]:
    before, after = lengths.last(link.before), lengths.last(link.after)
    least = lengths.minutes[before] - lengths.longest[after]
    return _between(link, before, after, least, lengths.longest[before] - lengths.minutes[after])


def _between(link: Link, before: Key, after: Key, least: int, most: int) -> list[Limit]:
    found = [Limit(LimitKind.LEAST, before, after, least + link.least, link)]
    if link.most is not None:
        found.append(Limit(LimitKind.MOST, after, before, -most - link.most, link))
    return found


_OF_LINK: dict[LinkKind, Callable[[Link, Lengths], list[Limit]]] = {
    LinkKind.END_TO_START: _end_to_start,
    LinkKind.START_TO_START: _start_to_start,
    LinkKind.END_TO_END: _end_to_end,
}
