"""How long loads may take: quick, likely and slow turned into a distribution, and lengths drawn from it.

PERT: a beta distribution on [low, high] with the mean (low + 4 likely + high) / 6 (Malcolm, Roseboom, Clark and
Fazar 1959; the shapes 1 + 4 (likely - low) / (high - low) and 1 + 4 (high - likely) / (high - low) after Vose,
both from memory). Triangular: with its mode at the likely length.

Each load draws from a table of so many equally likely lengths, by numbers seeded with its own name: the same seed
gives the same days, whatever else is on the menu.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from math import erf, sqrt
from typing import Literal
from zlib import crc32

import numpy as np
import numpy.typing as npt

from core.arrange.chances_order import Node, Order
from core.measures.clock import days_before
from core.plan.ids import StepId
from core.plan.kitchen import COLD
from core.plan.meaning import heat_of, length_at, length_when_full, reserved, way_of
from core.plan.plan import Plan
from core.plan.step import Attention, Span, Step
from core.timetable.timetable import Placed

Shape = Literal["pert", "triangular"]
Minutes = npt.NDArray[np.float32]
Numbers = npt.NDArray[np.float64]

BINS = 1024
"""Equally likely lengths in a table."""
_FINE = 8
_GRID = 8192
_WIDEST = 4.0
"""Standard deviations to either side that the table of common causes reaches."""


@dataclass(frozen=True, slots=True)
class Spread:
    """Quick, likely and slow minutes of a load as it stands: at its setting, pauses between its pieces included.

    `passed`: minutes it has taken already today; it takes at least as long. `elastic`: it takes `low`, or until
    its planned end where that is later.
    """

    low: float
    likely: float
    high: float
    passed: float = 0.0
    elastic: bool = False

    @property
    def certain(self) -> bool:
        """Return whether there is but one length."""
        return self.high <= max(self.low, self.passed)

    @property
    def shortest(self) -> float:
        """Return the least length."""
        return max(self.low, self.passed)


def spread_of(order: Order, node: Node, tighter: Mapping[StepId, Span] | None = None) -> Spread:
    """Return how long a load may take; `tighter` gives spans (such as measured ones) in place of the recipe's."""
    placed, fact, plan = node.placed, node.fact, order.plan
    if placed is None or (fact is not None and fact.end is not None):
        return Spread(node.minutes, node.minutes, node.minutes)
    step = plan.steps[placed.step]
    span, _uses = way_of(plan, step, placed.way)
    pauses = 0
    if step.least_piece is not None and step.attention is Attention.HANDS_ON and len(placed.hands) > 1:
        pauses = max(0, placed.length - sum(hand.minutes for hand in placed.hands))
    factor = _factor(plan, step, placed)
    span = (tighter or {}).get(placed.step, span)
    passed = 0 if fact is None or order.day is None else max(0, order.day.now - fact.start)
    if ends_when_it_suits(node, order):
        least = float(max(passed, min(span.low, placed.length)))
        return Spread(least, least, least, elastic=True)
    low, likely, high = (pauses + factor * each for each in (span.low, span.likely, span.high))
    return Spread(low, likely, high, passed)


def _factor(plan: Plan, step: Step, placed: Placed) -> float:
    """Return how much longer a load takes at its setting, and in a full oven, than the recipe says."""
    heat, held = heat_of(plan, step, placed.way), reserved(plan, step.id, placed.way).length
    if heat is None or placed.setting is None or held <= 0:
        return 1.0
    changed = length_at(held, heat, placed.setting)
    stations = plan.kitchen.station
    heaters = [stations[spot.station].heater for spot in placed.spots if spot.station in stations]
    for heater in heaters:
        if heater is not None and heater.full and placed.length == length_when_full(changed, heater):
            changed = placed.length
    return changed / held


def ends_when_it_suits(node: Node, order: Order) -> bool:
    """Return whether a load stands in the cold by itself: it is taken out when it suits.

    Chilling, curing, drying and setting in a fridge are ready from the low length on and may go on until the high
    one (common practice), so there the low one is needed, and the rest of the planned one absorbs a late start.
    """
    placed = node.placed
    if placed is None or order.plan.steps[placed.step].attention is Attention.HANDS_ON:
        return False
    stations = order.plan.kitchen.station
    kinds = {stations[spot.station].kind for spot in placed.spots if spot.station in stations}
    return bool(kinds) and kinds <= COLD


def table_of(spread: Spread, shape: Shape) -> Minutes:
    """Return the equally likely lengths of a load, ascending; the last ones given that some have passed."""
    whole = _unit_table(shape, _ratio(spread))
    lengths = spread.low + (spread.high - spread.low) * whole
    if spread.passed > spread.low:
        later = lengths[lengths > spread.passed]
        if len(later) == 0:
            return np.full(BINS, max(spread.passed, spread.low), np.float32)
        at = (np.arange(BINS) + 0.5) / BINS * len(later) - 0.5
        lengths = np.interp(at, np.arange(len(later)), later)
    return lengths.astype(np.float32)


def draw(
    order: Order, spreads: list[Spread], *, runs: int, seed: int, shape: Shape, correlated: float
) -> list[Minutes]:
    """Return for each load the minutes it takes in each run; what has no spread has one number for all.

    `correlated`: the share of the (normal-scaled) spread that loads on one station on one day have in common.
    """
    causes = {} if correlated <= 0 else dict(_causes(order, spreads))
    common: dict[str, Numbers] = {}
    found: list[Minutes] = []
    for number, (node, spread) in enumerate(zip(order.nodes, spreads, strict=True)):
        if spread.certain:
            found.append(np.full(1, spread.shortest, np.float32))
            continue
        chance = _chance(seed, f"{node.key[0]}/{node.key[1]}")
        table, cause = table_of(spread, shape), causes.get(number)
        if cause is None:
            picked = chance.bit_generator.random_raw(-(-runs // 4)).view(np.uint16)[:runs] % BINS
        else:
            if cause not in common:
                common[cause] = _chance(seed, cause).standard_normal(runs)
            mixed = sqrt(correlated) * common[cause] + sqrt(1 - correlated) * chance.standard_normal(runs)
            scaled = (mixed + _WIDEST) * (BINS / (2 * _WIDEST))
            picked = np.clip(scaled, 0, BINS - 1).astype(np.uint16)
            table = np.interp(_normal_shares(), (np.arange(BINS) + 0.5) / BINS, table).astype(np.float32)
        found.append(table.take(picked))
    return found


def _causes(order: Order, spreads: list[Spread]) -> Iterator[tuple[int, str]]:
    """Give the loads that stand on a station, with its name and the day."""
    for number, (node, spread) in enumerate(zip(order.nodes, spreads, strict=True)):
        if node.placed is not None and node.placed.spots and not spread.certain:
            day = days_before(order.plan.plating, node.placed.start)
            yield number, f"{node.placed.spots[0].station} on day {day}"


def _chance(seed: int, name: str) -> np.random.Generator:
    return np.random.Generator(np.random.SFC64((seed & 0xFFFFFFFF) << 32 | crc32(name.encode())))


def _ratio(spread: Spread) -> float:
    return round((spread.likely - spread.low) / (spread.high - spread.low), 4)


@cache
def _unit_table(shape: Shape, mode: float) -> Numbers:
    """Return the mean of each of BINS equally likely slices of the distribution on [0, 1]."""
    shares = (np.arange(BINS * _FINE) + 0.5) / (BINS * _FINE)
    if shape == "triangular":
        rising = np.sqrt(shares * mode)
        falling = 1 - np.sqrt((1 - shares) * (1 - mode))
        values = np.where(shares < mode, rising, falling)
    else:
        at = (np.arange(_GRID) + 0.5) / _GRID
        density = at ** (4 * mode) * (1 - at) ** (4 * (1 - mode))
        reached = np.concatenate(([0.0], np.cumsum(density)))
        values = np.interp(shares, reached / reached[-1], np.arange(_GRID + 1) / _GRID)
    sliced: Numbers = values.reshape(BINS, _FINE).mean(axis=1)
    return sliced


@cache
def _normal_shares() -> Numbers:
    """Return for each slice of -4 to 4 standard deviations how much of the normal distribution lies below."""
    at = (np.arange(BINS) + 0.5) * (2 * _WIDEST / BINS) - _WIDEST
    return np.array([(1 + erf(each / sqrt(2))) / 2 for each in at])
