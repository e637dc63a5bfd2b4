"""Limits that a late or a quick day may break: waits, keeping, done by, a fire burnt out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from core.arrange.chances_order import Order
from core.plan.ids import StepId
from core.plan.meaning import keep_of
from core.plan.menu import LinkKind


class LimitKind(StrEnum):
    """What sort of limit it is."""

    WAIT = "waits at most"
    KEEP = "keeps until served"
    LATEST = "done by"
    FIRE = "a fire burns out"


@dataclass(frozen=True, slots=True)
class Limit:
    """At most so many minutes from one moment to another.

    WAIT: from the end (or start, by `link`) of `before` until that of `after`. KEEP: from the end of `before`
    until its dish is served, at `until` or when all that is served then is ready. LATEST and FIRE: the end of
    `before` comes not after `until`; `most` is 0. `at_once`: a wait that has no room by its link.
    """

    kind: LimitKind
    before: int
    after: int | None
    most: int
    until: int = 0
    link: LinkKind = LinkKind.END_TO_START
    step: StepId = StepId("")
    then: StepId | None = None
    at_once: bool = False


def limits_of(order: Order) -> tuple[Limit, ...]:
    """Return the limits of an order's loads."""
    return (*_waits(order), *_keeps(order), *_latest(order), *_fires(order))


def served_last(order: Order) -> tuple[tuple[int, int], ...]:
    """Return the loads that end what is served, each with the course (offset) of its dish."""
    plan = order.plan
    return tuple(
        (node, plan.dish_of[step].course)
        for (step, _load), node in order.index.items()
        if step in plan.last_steps and plan.dish_of[step].served
    )


def _waits(order: Order) -> Iterator[Limit]:
    for link, before, after in order.links:
        if link.most is None:
            continue
        first, last = order.index[before[0]], order.index[after[-1]]
        if link.kind is LinkKind.START_TO_START:
            last = order.index[after[0]]
        elif link.kind is LinkKind.END_TO_END:
            first = order.index[before[-1]]
        at_once = link.kind is LinkKind.END_TO_START and link.most <= link.least
        yield Limit(LimitKind.WAIT, first, last, link.most, 0, link.kind, link.before, link.after, at_once)


def _keeps(order: Order) -> Iterator[Limit]:
    plan = order.plan
    for (step, load), node in order.index.items():
        keep = keep_of(plan, plan.steps[step])
        if keep is not None and keep.most is not None and load == 0:
            course = plan.dish_of[step].course
            yield Limit(LimitKind.KEEP, node, None, keep.most, course, step=step)


def _latest(order: Order) -> Iterator[Limit]:
    for (step, _load), node in order.index.items():
        latest = order.plan.steps[step].latest
        if latest is not None:
            yield Limit(LimitKind.LATEST, node, None, 0, latest, step=step)


def _fires(order: Order) -> Iterator[Limit]:
    """Give for each load at a fire the minute at which the fire it is planned at is spent."""
    stations, ends = order.plan.kitchen.station, order.ends
    for (step, _load), node in order.index.items():
        placed = order.nodes[node].placed
        for spot in () if placed is None else placed.spots:
            station = stations.get(spot.station)
            if station is None or station.burns is None:
                continue
            spent = [
                fire.end + station.burns
                for fire in order.timetable.heatings
                if fire.station == station.id and fire.end <= order.starts[node]
            ]
            fitting = [until for until in spent if until >= ends[node]]
            if fitting:
                yield Limit(LimitKind.FIRE, node, None, 0, max(fitting), step=step)
