"""The temperature log: what is measured when, its limit, and boxes for the reading, what was done if missed, by whom.

Core temperatures are those of the plan. Cooling and holding: US FDA Food Code 2022, 3-501.14 and 3-501.16; reheating
3-403.11. What cools, is reheated or held hot is told by the plan's food care, else by a step's first word or its place.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from core.measures.clock import offset_of
from core.measures.minutes import show_minutes
from core.plan import meaning
from core.plan.food import Effect
from core.plan.ids import StepId
from core.plan.kitchen import COLD, HEATED, StationKind
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Holding, Step
from core.sheets.following import goes_on
from core.sheets.lines import Act
from core.sheets.places import kinds_of, station_name
from core.sheets.run_sheet import day_lines
from core.sheets.step_words import done_as
from core.sheets.table import Column, Group, Look, Row, TableSheet
from core.sheets.words import clock_at, day_about, day_name, shortened
from core.timetable.timetable import Placed, Timetable

TO_21, TO_5 = 120, 360
"""Minutes from 57 °C in which food is to be at 21 °C and at 5 °C."""
HOLD_EVERY = 60
"""Minutes between two readings of food held hot; every 30 to 60 is common practice."""
_LONG_HOLD = 30
_PLAN = "plan"
_CODE = "FDA Food Code 2022"
_WORDS = {
    **dict.fromkeys(("cool", "chill", "shock", "ice"), Effect.COOL),
    **dict.fromkeys(("reheat", "re-heat", "rewarm"), Effect.REHEAT),
}
_ENDS = frozenset({Act.OUT, Act.OFF, Act.READY})
_COOLING = frozenset({Effect.COOL, Effect.COOL_IN_ICE})
_HOT = HEATED | {StationKind.BURNER}
_DISH, _WHAT = 60, 70


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading: when (offset, clock), of which dish and doing or place, its limit and where that is from."""

    at: int
    clock: str
    code: str
    dish: str
    what: str
    limit: str
    source: str
    step: StepId | None = None
    load: int = 0


@dataclass(frozen=True, slots=True)
class LogDay:
    """The readings of a day in the order of the clock."""

    title: str
    about: str
    readings: tuple[Reading, ...]


def temperature_log(plan: Plan, timetable: Timetable) -> tuple[LogDay, ...]:
    """Return all readings by day."""
    found = _Readings(plan, timetable)
    found.cores()
    for placed in timetable.placed:
        step = plan.steps[placed.step]
        if _cools(plan, timetable, placed):
            found.cooling(placed, step)
        if _is_held(plan, placed):
            found.holding(placed.start, placed.end, placed)
    for placed in timetable.placed:
        for start, end in _hot_waits(plan, timetable, placed):
            found.holding(start, end, placed)
    days: dict[date, list[Reading]] = {}
    for reading in sorted(found.all, key=lambda each: (each.at, each.limit)):
        days.setdefault(plan.wall(reading.at).date(), []).append(reading)
    for day, readings in days.items():
        readings[:0] = _cold_places(plan, timetable, day)
    return tuple(LogDay(day_name(day), day_about(plan, day), tuple(own)) for day, own in sorted(days.items()))


def effect_of(step: Step) -> Effect | None:
    """Return what a step does to its food as told, else by its first word where that says so; None: not known."""
    if step.food is not None and step.food.effect is not None:
        return step.food.effect
    words = step.does.casefold().split()
    return _WORDS.get(words[0].strip(",.;:")) if words else None


def _cools(plan: Plan, timetable: Timetable, placed: Placed) -> bool:
    """Return whether cooked food begins to cool for the cold; where only words tell it, it comes off the heat."""
    step = plan.steps[placed.step]
    if effect_of(step) not in _COOLING:
        return False
    befores = [link.before for link in plan.links_to[step.id] if link.kind is LinkKind.END_TO_START]
    if any(effect_of(plan.steps[each]) in _COOLING for each in befores):
        return False  # its clock runs already
    if step.food is not None and step.food.effect is not None:
        return True
    return _stands(plan, timetable, _reached(plan, step.id, plan.links_to, "before"), _HOT) and (
        _goes_cold(plan, timetable, {step.id, *_reached(plan, step.id, plan.links_from, "after")})
    )


def _reached(plan: Plan, step: StepId, links: Mapping[StepId, tuple[Link, ...]], side: str) -> set[StepId]:
    """Return the steps of the same dish that come before a step, or after it, however far."""
    found: set[StepId] = set()
    waiting = [step]
    while waiting:
        for link in links[waiting.pop()]:
            other: StepId = getattr(link, side)
            same = plan.dish_of[other] is plan.dish_of[step]
            if link.kind is LinkKind.END_TO_START and same and other not in found:
                found.add(other)
                waiting.append(other)
    return found


def _stands(plan: Plan, timetable: Timetable, steps: set[StepId], kinds: frozenset[StationKind]) -> bool:
    return any(kinds_of(plan, each) & kinds for step in steps for each in timetable.loads_of.get(step, ()))


def _goes_cold(plan: Plan, timetable: Timetable, steps: set[StepId]) -> bool:
    waits = {link.wait.how for step in steps for link in plan.links_from[step]}
    keeps = [meaning.keep_of(plan, plan.steps[step]) for step in steps]
    waits |= {keep.wait.how for keep in keeps if keep is not None}
    return bool(waits & {Holding.FRIDGE, Holding.FREEZER}) or _stands(plan, timetable, steps, COLD)


@dataclass
class _Readings:
    plan: Plan
    timetable: Timetable
    all: list[Reading] = field(default_factory=list)

    def cores(self) -> None:
        """Read where the run sheet asks for the probe; of what is reheated the code's limit stands beside it."""
        for line in day_lines(self.plan, self.timetable):
            if line.core is None or line.step is None:
                continue
            step = self.plan.steps[line.step]
            placed = self.timetable.at[line.step, line.load]
            limit, source = f"core {line.core} °C", _PLAN
            if effect_of(step) is Effect.REHEAT:
                limit, source = f"core {line.core} °C; reheating: 74 °C within 2 h", f"{_PLAN}; {_CODE}, 3-403.11"
            at = line.at if line.act in _ENDS else placed.end
            self._add(at, placed, done_as(step, placed.way), limit, source)

    def cooling(self, placed: Placed, step: Step) -> None:
        """Read at the start, after 2 h and after 6 h, however long the step itself is."""
        what, source = done_as(step, placed.way), f"{_CODE}, 3-501.14"
        self._add(placed.start, placed, f"start of cooling: {what}", "write down; the clock runs from 57 °C", source)
        self._add(placed.start + TO_21, placed, f"after 2 h: {what}", "21 °C or less", source)
        self._add(placed.start + TO_5, placed, f"after 6 h: {what}", "5 °C or less", source)

    def holding(self, start: int, end: int, placed: Placed) -> None:
        """Read at the start of a hold, every hour, and at its end."""
        for at in dict.fromkeys((*range(start, end, HOLD_EVERY), end)):
            self._add(at, placed, "held hot", "57 °C or more", f"{_CODE}, 3-501.16")

    def _add(self, at: int, placed: Placed, what: str, limit: str, source: str) -> None:
        dish = self.plan.dish_of[placed.step]
        loads = len(self.timetable.loads_of[placed.step])
        load = f" (load {placed.load + 1} of {loads})" if loads > 1 else ""
        name = shortened(dish.name, _DISH) or dish.id
        code, clock = shortened(dish.code, 8), clock_at(self.plan, at)
        said = shortened(what, _WHAT) + load
        self.all.append(Reading(at, clock, code, name, said, limit, source, placed.step, placed.load))


def _is_held(plan: Plan, placed: Placed) -> bool:
    return effect_of(plan.steps[placed.step]) is Effect.HOLD


def _hot_waits(plan: Plan, timetable: Timetable, placed: Placed) -> Iterable[tuple[int, int]]:
    """Yield the stretches for which a load's food waits hot for half an hour or longer."""
    for link, after in goes_on(plan, timetable, placed):
        if link.wait.how is Holding.HOT and after.start - placed.end >= _LONG_HOLD:
            yield placed.end, after.start
    keep, dish = meaning.keep_of(plan, plan.steps[placed.step]), plan.dish_of[placed.step]
    if keep is not None and dish.served and keep.wait.how is Holding.HOT and dish.course - placed.end >= _LONG_HOLD:
        yield placed.end, dish.course


def _cold_places(plan: Plan, timetable: Timetable, day: date) -> list[Reading]:
    """Return the first reading of a day for each cold place in which something stands on it."""
    midnight = offset_of(plan.plating, datetime.combine(day, datetime.min.time()))
    end = offset_of(plan.plating, datetime.combine(day + timedelta(days=1), datetime.min.time()))
    spans = [(each.start, each.end, each.spots) for each in timetable.placed]
    spans += [(each.start, each.end, each.spots) for each in timetable.stays]
    used = {spot.station for start, stop, spots in spans if start < end and stop > midnight for spot in spots}
    found = []
    for station in plan.kitchen.stations:
        if station.kind in COLD and station.id in used:
            freezer = station.kind is StationKind.FREEZER
            limit = "frozen hard, −18 °C" if freezer else "5 °C or less"
            source = "common practice" if freezer else f"{_CODE}, 3-501.16"
            what = "thermometer inside, before the work begins"
            found.append(Reading(midnight, "first", "", station_name(station), what, limit, source))
    return found


def log_table(days: tuple[LogDay, ...]) -> TableSheet:
    """Return the log as rows: when, what, limit, reading, time, what was done if missed, by whom."""
    columns = (
        Column("when", Look.TIME),
        Column("what", Look.THING, share=1.3),
        Column("limit", Look.THING, share=1.0),
        Column("reading, °C", Look.BLANK, wide=22),
        Column("at", Look.BLANK, wide=15),
        Column("done if missed", Look.BLANK, wide=30),
        Column("by", Look.BLANK, wide=12),
    )
    limits = (
        f"Food that cools: 57 to 21 °C within {show_minutes(TO_21)}, to 5 °C within {show_minutes(TO_5)} in all. "
        "In the UK hot food is held at 63 °C or more and cold food at 8 °C or less. Where a reading misses its limit, "
        "write down what was done; your own food code comes before this log."
    )
    night = "What falls into the night is read before it: what is cold enough by then need not be read again."
    notes = (limits, night, "A reading tells how the food stands against the limit named beside it, no more.")
    groups = tuple(Group(day.title, tuple(map(_row, day.readings)), day.about) for day in days)
    empty = "No step has a core temperature, cools, is reheated or is held hot, so there is nothing to measure."
    return TableSheet(columns, groups, notes=notes, empty=empty)


def _row(reading: Reading) -> Row:
    dish = f"{reading.code} {reading.dish}".strip()
    return Row((reading.clock, f"{dish}\n{reading.what}", f"{reading.limit}\n{reading.source}", "", "", "", ""))
