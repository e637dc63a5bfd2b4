"""The temperature log: what is measured when, its limit, and boxes for the reading, what was done if missed, by whom.

Core temperatures are those of the plan. Limits of cooling, holding and reheating are rows of the set of food rules
that the plan holds to, each with its source; what such a set has no row for is not read. What cools, is reheated or
held hot is told by the plan's food care, else by a step's first word or its place.
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
from core.sheets.limits import Limit, Limits, limits_of
from core.sheets.lines import Act
from core.sheets.names import brief_names
from core.sheets.places import kinds_of, station_name
from core.sheets.run_sheet import day_lines
from core.sheets.step_words import done_as
from core.sheets.table import Column, Group, Look, Row, TableSheet
from core.sheets.words import clock_at, day_about, day_name, plain, shortened
from core.timetable.timetable import Placed, Timetable

HOLD_EVERY = 60
"""Minutes between two readings of food held hot; every 30 to 60 is common practice."""
_LONG_HOLD = 30
_PLAN = "plan"
_PRACTICE = "common practice"
_WORDS = {
    **dict.fromkeys(("cool", "chill", "shock", "ice"), Effect.COOL),
    **dict.fromkeys(("reheat", "re-heat", "rewarm"), Effect.REHEAT),
}
_FROZEN = Limit("frozen hard, −18 °C", _PRACTICE, _PRACTICE)
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


def temperature_log(plan: Plan, timetable: Timetable, limits: Limits | None = None) -> tuple[LogDay, ...]:
    """Return all readings by day; `limits` None: those of the plan's set of food rules."""
    found = _Readings(plan, timetable, limits or limits_of(plan))
    found.cores()
    known = [each for each in timetable.placed if each.step in plan.steps]
    for placed in known:
        step = plan.steps[placed.step]
        if _cools(plan, timetable, placed):
            found.cooling(placed, step)
        if _is_held(plan, placed):
            found.holding(placed.start, placed.end, placed)
    for placed in known:
        for start, end in _hot_waits(plan, timetable, placed):
            found.holding(start, end, placed)
    days: dict[date, list[Reading]] = {}
    for reading in sorted(found.all, key=lambda each: (each.at, each.limit)):
        days.setdefault(plan.wall(reading.at).date(), []).append(reading)
    for day, readings in days.items():
        readings[:0] = _cold_places(plan, timetable, day, found.limits)
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


def _gone(plan: Plan, timetable: Timetable, placed: Placed) -> int | None:
    """Return when the last of a load's food is used warm, in another dish, or served; None where that is not told."""
    found: list[int] = []
    waiting, seen = [placed], {(placed.step, placed.load)}
    while waiting:
        load = waiting.pop()
        dish = plan.dish_of[load.step]
        onward = goes_on(plan, timetable, load)
        if not onward:
            if not dish.served:
                return None
            found.append(max(dish.course, load.end))
        for _link, after in onward:
            if kinds_of(plan, after) & _HOT or plan.dish_of[after.step] is not dish:
                found.append(after.start)
            elif (after.step, after.load) not in seen:
                seen.add((after.step, after.load))
                waiting.append(after)
    return max(found, default=None)


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
    limits: Limits
    all: list[Reading] = field(default_factory=list)

    def cores(self) -> None:
        """Read where the run sheet asks for the probe; of what is reheated the set's limit stands beside it."""
        for line in day_lines(self.plan, self.timetable):
            if line.core is None or line.step is None:
                continue
            step = self.plan.steps[line.step]
            placed = self.timetable.at[line.step, line.load]
            limit, source = f"core {line.core} °C", _PLAN
            again = self.limits.reheating if effect_of(step) is Effect.REHEAT else None
            if again is not None:
                limit, source = f"{limit}; reheating: {again.said}", again.source
            at = line.at if line.act in _ENDS else placed.end
            self._add(at, placed, done_as(step, placed.way), limit, source)

    def cooling(self, placed: Placed, step: Step) -> None:
        """Read at the start and at each stage of the set, however long the step itself is, while the food is there."""
        what, begins = done_as(step, placed.way), self.limits.cooling_begins
        if begins is not None:
            self._add(placed.start, placed, f"start of cooling: {what}", begins.said, begins.source)
        gone = _gone(self.plan, self.timetable, placed)
        for minutes, limit in self.limits.cooling:
            if gone is not None and placed.start + minutes > gone:
                break
            later = f"after {show_minutes(minutes)}: {what}"
            self._add(placed.start + minutes, placed, later, limit.said, limit.source)

    def holding(self, start: int, end: int, placed: Placed) -> None:
        """Read at the start of a hold, every hour, and at its end; say what is held where the dish ends in several."""
        limit, step = self.limits.hot, self.plan.steps[placed.step]
        ends = [each for each in self.plan.dish_of[step.id].steps if not self.plan.links_from[each.id]]
        what = "held hot" if len(ends) < 2 else f"held hot: {done_as(step, placed.way)}"
        for at in dict.fromkeys((*range(start, end, HOLD_EVERY), end)):
            if limit is not None:
                self._add(at, placed, what, limit.said, limit.source)

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


def _cold_places(plan: Plan, timetable: Timetable, day: date, limits: Limits) -> list[Reading]:
    """Return the first reading of a day for each cold place in which something stands on it."""
    midnight = offset_of(plan.plating, datetime.combine(day, datetime.min.time()))
    end = offset_of(plan.plating, datetime.combine(day + timedelta(days=1), datetime.min.time()))
    spans = [(each.start, each.end, each.spots) for each in timetable.placed]
    spans += [(each.start, each.end, each.spots) for each in timetable.stays]
    used = {spot.station for start, stop, spots in spans if start < end and stop > midnight for spot in spots}
    found = []
    for station in plan.kitchen.stations:
        if station.kind in COLD and station.id in used:
            limit = _FROZEN if station.kind is StationKind.FREEZER else limits.cold
            if limit is None:
                continue
            what = "before the work begins"
            found.append(Reading(midnight, "first", "", station_name(station), what, limit.said, limit.source))
    return found


def log_table(days: tuple[LogDay, ...], limits: Limits) -> TableSheet:
    """Return the log as rows: when, what, limit, reading, time, by whom, corrective action; sources by number below."""
    columns = (
        Column("when", Look.TIME),
        Column("what", Look.THING, share=1.6),
        Column("limit", Look.STRONG, share=1.0),
        Column("reading, °C", Look.BLANK, wide=19.5),
        Column("at", Look.BLANK, wide=14),
        Column("by", Look.BLANK, wide=11),
        Column("corrective action", Look.BLANK, wide=28),
    )
    found = dict.fromkeys(each.source for day in days for each in day.readings)
    sources = [each for each in found if each not in (_PLAN, _PRACTICE)]
    names = brief_names(f"{each.dish}" for day in days for each in day.readings)
    groups = tuple(
        Group(day.title, tuple(_row(each, names[each.dish], sources) for each in day.readings), day.about)
        for day in days
    )
    empty = "No step has a core temperature, cools, is reheated or is held hot, so there is nothing to measure."
    return TableSheet(columns, groups, notes=_notes(sources, limits), empty=empty)


def _notes(sources: list[str], limits: Limits) -> tuple[str, ...]:
    named = "; ".join(f"[{number}] {each}" for number, each in enumerate(sources, 1))
    missing = f" {limits.missing}" if limits.missing else ""
    chosen = f"Numbered limits are rows of the set “{limits.title}”: {named}. {plain(limits.rules.note)}{missing}"
    own = (
        "A core temperature without a number is the plan's own. Where a reading misses its limit, write down what was "
        "done; your own food code comes before this log."
    )
    night = "What falls into the night is read before it: what is cold enough by then need not be read again."
    more = "What is served or heated before a reading has none; what is left over cools anew, with lines of its own. "
    more += "A reading tells how the food stands against its limit, no more."
    return (*([chosen] if sources else []), own, f"{night} {more}")


def _row(reading: Reading, name: str, sources: list[str]) -> Row:
    number = f" [{sources.index(reading.source) + 1}]" if reading.source in sources else ""
    practice = f", {_PRACTICE}" if reading.source == _PRACTICE else ""
    what = f"{f'{reading.code} {name}'.strip()}\n{reading.what}"
    return Row((reading.clock, what, f"{reading.limit}{number}{practice}", "", "", "", ""))
