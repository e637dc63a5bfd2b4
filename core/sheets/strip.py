"""The day at one glance: how full ovens, burners and hands are, hour by hour, for the head of each page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from core.plan.ids import CookId, StationId
from core.plan.kitchen import HEATED, StationKind
from core.plan.plan import Plan
from core.sheets.lines import Act, Line
from core.sheets.places import station_name
from core.sheets.words import mark_at, shortened
from core.timetable.heat_curve import plateaus
from core.timetable.load import hands_curve, load_curve
from core.timetable.sweep import Level
from core.timetable.timetable import Timetable

_HOUR = 60
_MOST_HOURS = 13
_PLACES = 3
_LABELS = 17
"""So many settings can be read side by side."""
_NAME = 16


@dataclass(frozen=True, slots=True)
class Bar:
    """From `start` to `end` (minutes from plating) a share of what there is, above 0 and at most 1, is in use."""

    start: int
    end: int
    share: float
    label: str = ""


@dataclass(frozen=True, slots=True)
class StripRow:
    """A place or the hands, with what is in use of them."""

    name: str
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """From hour to hour: `hours` are (minute from plating, what the clock shows); `serves` the servings."""

    start: int
    end: int
    hours: tuple[tuple[int, str], ...]
    rows: tuple[StripRow, ...]
    serves: tuple[int, ...]


def strip_of(plan: Plan, timetable: Timetable, lines: tuple[Line, ...], cook: CookId | None = None) -> Strip:
    """Return the strip of one day's lines (at least one); with `cook` the hands are that cook's."""
    first, last = lines[0].at, max(line.at + line.minutes for line in lines)
    start = first - plan.wall(first).minute
    end = max(last + (-(last - start)) % _HOUR, start + 2 * _HOUR)
    count = (end - start) // _HOUR
    every = -(-count // _MOST_HOURS)
    marks = range(start, end + 1, every * _HOUR)
    hours = tuple((at, mark_at(plan, at)) for at in marks)
    rows = [row for row in _rows(plan, timetable, start, end, cook) if row.bars]
    serves = tuple(line.at for line in lines if line.act is Act.SERVE)
    return Strip(start, end, hours, tuple(rows), serves)


def _rows(plan: Plan, timetable: Timetable, start: int, end: int, cook: CookId | None) -> Iterable[StripRow]:
    heated = [each for each in plan.kitchen.stations if each.kind in HEATED]
    shown: list[StripRow] = []
    for station in heated:
        bars = cut(load_curve(plan, timetable, station.id), station.units, start, end)
        if bars and len(shown) < _PLACES:
            name = shortened(station_name(station).partition(",")[0], _NAME)
            apart = (end - start) // _LABELS
            shown.append(StripRow(name, _told(plan, timetable, station.id, bars, apart)))
    yield from shown
    burners = plan.kitchen.of_kind(StationKind.BURNER)
    curves = [load_curve(plan, timetable, each.id) for each in burners]
    yield StripRow("Burners", cut(together(curves), sum(each.units for each in burners), start, end))
    name = "Hands" if cook is None else shortened(plan.kitchen.cook[cook].name, _NAME)
    people = len(plan.kitchen.cooks) if cook is None else 1
    yield StripRow(name, cut(hands_curve(plan, timetable, cook), people, start, end))


def _told(
    plan: Plan, timetable: Timetable, station: StationId, bars: tuple[Bar, ...], apart: int
) -> tuple[Bar, ...]:
    """Write the setting into the first bar of each stretch at one temperature, where there is room for it."""
    labels: dict[int, str] = {}
    for plateau in plateaus(plan, timetable, station):
        at = next((n for n, bar in enumerate(bars) if bar.end > plateau.start and n not in labels), None)
        near = labels and at is not None and bars[at].start - bars[max(labels)].start < apart
        if at is not None and not near and bars[at].start < plateau.end:
            labels[at] = f"{plateau.setting}°"
    return tuple(Bar(bar.start, bar.end, bar.share, labels.get(number, "")) for number, bar in enumerate(bars))


def cut(curve: Iterable[Level], whole: int, start: int, end: int) -> tuple[Bar, ...]:
    """Return a curve between two minutes as shares of the whole; more than the whole is the whole."""
    return tuple(
        Bar(max(level.start, start), min(level.end, end), min(1.0, level.amount / max(1, whole)))
        for level in curve
        if level.amount > 0 and level.start < end and level.end > start
    )


def together(curves: Iterable[Iterable[Level]]) -> tuple[Level, ...]:
    """Return the sum of curves."""
    levels = [level for curve in curves for level in curve]
    times = sorted({level.start for level in levels} | {level.end for level in levels})
    found = []
    for start, end in pairwise(times):
        amount = sum(level.amount for level in levels if level.start <= start < level.end)
        if amount:
            found.append(Level(start, end, amount))
    return tuple(found)
