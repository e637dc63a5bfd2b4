"""What temperature a food may have along its story: a band between a thin piece and a thick one. An estimate to draw.

The middle is taken to follow what is around it by Newton's law, a thin piece within 20 minutes to 1/e, a thick one
within 4 hours (both from memory); cooking ends at the temperature that the plan tells, else between 60 and 100 °C.
It judges nothing: limits are held against times (`checking`), cooling against depth, and a probe has the last word.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import exp

from core.plan.food import Arrival
from core.safety.story import Story, Stretch, Warmth

THIN, THICK = 20.0, 240.0
"""Minutes in which what is missing falls to 1/e."""
_STEP = 30
_ICE, _HOT, _DONE = 1.0, (57.0, 95.0), (60.0, 100.0)
_ARRIVES = {
    Arrival.FRIDGE: (4.0, 5.0),
    Arrival.FROZEN: (-18.0, -18.0),
    Arrival.ROOM: (20.0, 22.0),
    None: (4.0, 21.0),
}


@dataclass(frozen=True, slots=True)
class BandPoint:
    """At a minute from plating: the lowest and the highest °C that the middle may have, and what it meets there."""

    at: int
    low: float
    high: float
    warmth: Warmth


def band(story: Story) -> tuple[BandPoint, ...]:
    """Return the band from the first stretch to the last, a point at least every half hour."""
    low, high = _ARRIVES[story.food.arrives]
    found: list[BandPoint] = []
    for stretch in story.stretches:
        found.append(BandPoint(stretch.start, low, high, stretch.warmth))
        points = tuple(_along(stretch, low, high))
        found += points
        if points:
            low, high = points[-1].low, points[-1].high
    return tuple(found)


def _along(stretch: Stretch, low: float, high: float) -> Iterator[BandPoint]:
    times = [*range(_STEP, stretch.minutes, _STEP), stretch.minutes] if stretch.minutes else []
    for minutes in times:
        at = stretch.start + minutes
        if stretch.warmth is Warmth.COOKING:
            yield _cooking(stretch, (low, high), minutes / stretch.minutes)
            continue
        if stretch.warmth is Warmth.HOT:
            least, most = (
                _HOT if stretch.setting is None else (float(stretch.setting), max(high, stretch.setting))
            )
            yield BandPoint(at, min(least, max(low, least)), max(least, most), stretch.warmth)
            continue
        around = _around(stretch)
        ends = [
            around + (now - around) * exp(-minutes / pace) for now in (low, high) for pace in (THIN, THICK)
        ]
        if stretch.warmth is Warmth.COOLING and not stretch.waits and stretch.done.target is not None:
            told = float(stretch.done.target)
            ends = [max(told, each) if minutes < stretch.minutes else min(told, each) for each in ends]
        yield BandPoint(at, min(ends), max(ends), stretch.warmth)


def _around(stretch: Stretch) -> float:
    iced = stretch.warmth is Warmth.COOLING and not stretch.waits and "ice" in stretch.done.effect.value
    return _ICE if iced else float(stretch.around)


def _cooking(stretch: Stretch, begun: tuple[float, float], share: float) -> BandPoint:
    """Return a point of a straight way to what the plan tells, else to the usual span."""
    told = stretch.done.target
    ends = _DONE if told is None else (float(told), float(told))
    low, high = (was + (end - was) * share for was, end in zip(begun, ends, strict=True))
    return BandPoint(
        stretch.start + round(stretch.minutes * share), min(low, high), max(low, high), stretch.warmth
    )
