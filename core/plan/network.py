"""The network of waits: between which starts each load of each step may move, and what forces each bound.

A simple temporal network (Dechter, Meiri, Pearl 1991) over one node for each load and plating as origin.
It knows links, loads, orders, serving, earliest and latest, the clock and pins; no stations and no hands.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from core.measures.refusal import Refusal
from core.plan.menu import Link
from core.plan.network_labels import FAR, Labels, Web, web_of
from core.plan.network_limits import Follows, Key, Lengths, Limit, LimitKind, limits_of
from core.plan.plan import Plan

if TYPE_CHECKING:
    from core.plan.network_why import Contradiction

DAY = 24 * 60
AHEAD = 2 * DAY
"""Minutes before the longest chain of a plan that does not say when it opens: nights, shared places."""
AFTER = 60
"""Minutes of the horizon after the last course."""

Side = Literal["earliest", "latest"]
_FORWARD = frozenset({LimitKind.LEAST, LimitKind.LOADS, LimitKind.ORDER, LimitKind.FOLLOWS})


@dataclass(frozen=True, slots=True)
class Force:
    """What forces a bound: the load that pushes (None: plating or a fixed time) and the limit between."""

    by: Key | None
    limit: Limit

    @property
    def link(self) -> Link | None:
        """Return the link, where a link is what forces."""
        return self.limit.link


@dataclass(frozen=True, slots=True)
class Holds:
    """What holds a load from both sides; None where nothing does."""

    earliest: Force | None
    latest: Force | None


@dataclass(frozen=True)
class Network:
    """All limits of a plan, with labels worked out when first asked for. Starts are offsets from plating."""

    plan: Plan
    lengths: Lengths
    limits: tuple[Limit, ...]
    web: Web

    @classmethod
    def of(
        cls,
        plan: Plan,
        lengths: Mapping[Key, int] | None = None,
        orders: Sequence[Follows] = (),
        pinned: Mapping[Key, int] | None = None,
    ) -> Network:
        """Return the network of a plan.

        `lengths` replace reserved ones, `orders` come on top of the cook's own, `pinned` stands for the pins.
        """
        known = Lengths.of(plan, lengths)
        limits = limits_of(plan, known, orders, pinned)
        low = plan.opens
        if low is None:
            low = _low(known, limits, _web(known, limits).latest())
        limits += [Limit(LimitKind.OPENS, None, key, low) for key in known.minutes]
        return cls(plan, known, tuple(limits), _web(known, limits))

    @cached_property
    def keys(self) -> tuple[Key, ...]:
        """All loads of all steps, in the menu's order."""
        return tuple(self.lengths.minutes)

    @cached_property
    def index(self) -> dict[Key, int]:
        """The number of each load in the web."""
        return {key: number for number, key in enumerate(self.keys)}

    def earliest(self, key: Key) -> int:
        """Return the earliest start of a load; raise Refusal where waits chase each other in a circle."""
        return self._labels("earliest").starts[self.index[key]]

    def latest(self, key: Key) -> int:
        """Return the latest start of a load; raise Refusal where waits chase each other in a circle."""
        return self._labels("latest").starts[self.index[key]]

    def forced_by(self, key: Key, side: Side) -> Force | None:
        """Return what forces the earliest or latest start of a load; None: nothing does."""
        number = self._labels(side).because[self.index[key]]
        if number < 0:
            return None
        limit = self.limits[number]
        return Force(limit.before if side == "earliest" else limit.after, limit)

    def holds(self, key: Key) -> Holds:
        """Return what forces each bound of a load."""
        return Holds(self.forced_by(key, "earliest"), self.forced_by(key, "latest"))

    def contradiction(self) -> Contradiction | None:
        """Return limits that cannot hold together, or None when some starts satisfy all."""
        if self._consistent:
            return None
        from core.plan.network_why import contradiction_in

        return contradiction_in(self)

    @cached_property
    def _consistent(self) -> bool:
        return self.first.rest and all(
            start <= minutes
            for start, bounds in zip(self.first.starts, self.web.ceilings, strict=True)
            for minutes, _number in bounds
        )

    @cached_property
    def first(self) -> Labels:
        """The earliest starts, by number of the load."""
        return self.web.earliest()

    @cached_property
    def last(self) -> Labels:
        """The latest starts, by number of the load."""
        return self.web.latest()

    def _labels(self, side: Side) -> Labels:
        labels = self.first if side == "earliest" else self.last
        if not labels.rest:
            from core.plan.network_why import contradiction_in

            raise Refusal(contradiction_in(self).sentence)
        return labels


def horizon(plan: Plan) -> tuple[int, int]:
    """Return the offsets between which a plan is placed; without `opens`, days before its longest chain."""
    lengths = Lengths.of(plan, written=True)
    limits = limits_of(plan, lengths)
    low = plan.opens
    if low is None:
        low = _low(lengths, limits, _web(lengths, limits).latest())
    ends = [0, *(dish.course for dish in plan.menu.dishes)]
    for limit in limits:
        if limit.kind in {LimitKind.CLOCK, LimitKind.PIN} and limit.after is not None:
            ends.append(limit.minutes + lengths.minutes[limit.after])
        elif limit.kind is LimitKind.LATEST and limit.before is not None:
            ends.append(lengths.minutes[limit.before] - limit.minutes)
    return low, max(ends) + AFTER


def back_timed(plan: Plan) -> dict[Key, int]:
    """Return every load at its latest start, counted back as on paper: waits and serving, not who is free.

    Where limits contradict each other the waits that are too long stay so; there is always an answer.
    """
    lengths = Lengths.of(plan, written=True)
    limits = limits_of(plan, lengths)
    web = _web(lengths, limits)
    labels = web.latest()
    starts = labels.starts if labels.rest else _counted_back(web, lengths)
    return dict(zip(lengths.minutes, starts, strict=True))


def _counted_back(web: Web, lengths: Lengths) -> list[int]:
    """Return latest starts by least waits alone; where even these run in a circle the last one is let go."""
    starts = [
        min((minutes for minutes, _number in bounds), default=-length)
        for bounds, length in zip(web.ceilings, lengths.minutes.values(), strict=True)
    ]
    for node in reversed(web.order):
        for other, minutes, _number in web.after[node]:
            if web.rank[other] > web.rank[node]:
                starts[node] = min(starts[node], starts[other] - minutes)
    return starts


def _low(lengths: Lengths, limits: Sequence[Limit], latest: Labels) -> int:
    if not latest.rest:
        between = [limit.minutes for limit in limits if limit.before is not None and limit.after is not None]
        earliest = -sum(max(0, minutes) for minutes in between) - sum(lengths.minutes.values())
    else:
        earliest = min((start for start in latest.starts if start < FAR // 2), default=0)
    return (earliest - AHEAD) // DAY * DAY


def _web(lengths: Lengths, limits: Sequence[Limit]) -> Web:
    return web_of(
        tuple(lengths.minutes),
        [(limit.before, limit.after, limit.minutes) for limit in limits],
        lambda number: limits[number].kind in _FORWARD,
    )
