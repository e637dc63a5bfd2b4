"""Heat: one temperature at a time in a heated place, time to change it and to heat up from cold.

What has gone by is not judged: nor is the heat of what is inside already, only that of what comes to it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import NamedTuple

from core.measures.words import join_words
from core.plan.ids import StationId, StepId
from core.plan.kitchen import Heater, Station
from core.timetable import sentences_places as sentences
from core.timetable.book import Book, Thing
from core.timetable.clash import Clash, ClashKind
from core.timetable.fires import lights
from core.timetable.naming import thing_name
from core.timetable.sweep import Held, crowds
from core.timetable.timetable import Heating
from core.timetable.warming import change_minutes, heat_up_minutes


class Bake(NamedTuple):
    """A thing that wants a temperature, its name, and the setting that it has."""

    start: int
    end: int
    setting: int
    name: str
    thing: Thing


class Change(NamedTuple):
    """Two bakes too close together for the change of setting between them: [start, end) is missing."""

    start: int
    end: int
    settings: tuple[int, int]
    before: Bake
    after: Bake


def heat_clashes(book: Book, stations: Collection[StationId]) -> Iterator[Clash]:
    """Find wrong settings, settings that differ at once, and missing time to change or to heat up."""
    for station in book.facts.plan.kitchen.stations:
        if station.id not in stations or station.heater is None:
            continue
        bakes = []
        for thing in book.bakes(station.id):
            name = thing_name(book.facts, thing.step, thing.load, thing.waiting is not None)
            if thing.setting is None:
                if thing.end > book.facts.now:
                    sentence = sentences.no_setting(book.facts, name, station.id)
                    yield _temperature(sentence, (thing.start, thing.end), thing.steps, station, 0)
            else:
                bakes.append(Bake(thing.start, thing.end, thing.setting, name, thing))
        for bake in bakes:
            if bake.end > book.facts.now:
                yield from _settings(book, station, station.heater, bake)
        yield from _together(book, station, bakes)
        yield from _changes(book, station, station.heater, bakes)
        yield from _from_cold(book, station, station.heater, bakes)


def heatings_nowhere(book: Book) -> Iterator[Clash]:
    """Find heatings of stations that the kitchen does not have, and those years away."""
    for heating in book.timetable.heatings:
        if not book.heats_somewhere(heating):
            start, end = sorted((heating.start, heating.end))
            there = heating.station in book.facts.plan.kitchen.station
            sentence = sentences.heats_nowhere(book.facts, heating.station, (start, end), there)
            yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, stations=(heating.station,))


def sessions_of(heater: Heater, bakes: list[Bake]) -> list[list[Bake]]:
    """Return bakes, in order of time, in the groups between which the station is switched off."""
    found: list[list[Bake]] = []
    out = 0
    for bake in bakes:
        if not found or bake.start > out + heater.keep_on:
            found.append([])
            out = bake.end
        found[-1].append(bake)
        out = max(out, bake.end)
    return found


def _temperature(
    sentence: str, when: tuple[int, int], steps: tuple[StepId, ...], station: Station, by: int
) -> Clash:
    return Clash(ClashKind.OVEN_TEMPERATURE, sentence, *when, steps, (station.id,), by=by)


def _settings(book: Book, station: Station, heater: Heater, bake: Bake) -> Iterator[Clash]:
    """Judge that the setting is one that the food bears and the station can be set to."""
    heat, when, steps = bake.thing.use.heat, (bake.start, bake.end), bake.thing.steps
    if heat is not None and not heat.low <= bake.setting <= heat.high:
        sentence = sentences.beyond_food(book.facts, bake.name, station.id, bake.setting, heat)
        by = max(heat.low - bake.setting, bake.setting - heat.high)
        yield _temperature(sentence, when, steps, station, by)
    if not heater.lowest <= bake.setting <= heater.highest:
        sentence = sentences.beyond_heater(book.facts, bake.name, station.id, bake.setting, heater)
        by = max(heater.lowest - bake.setting, bake.setting - heater.highest)
        yield _temperature(sentence, when, steps, station, by)


def _together(book: Book, station: Station, bakes: list[Bake]) -> Iterator[Clash]:
    """Judge that what is inside at the same time has the same setting."""
    if len({bake.setting for bake in bakes}) < 2:
        return
    now = book.facts.now
    for crowd in crowds([Held(max(bake.start, now), bake.end, 1, bake) for bake in bakes], 1, _rank):
        settings = [bake.setting for bake in crowd.what]
        by = max(settings) - min(settings)
        if by:
            when = (crowd.start, crowd.end)
            wants = [(bake.name, bake.setting) for bake in crowd.what]
            sentence = sentences.temperatures(book.facts, station.id, when, wants)
            yield _temperature(sentence, when, _steps(list(crowd.what)), station, by)


def _rank(bake: Bake) -> tuple[tuple[StepId, ...], int]:
    return bake.thing.steps, bake.thing.load


def _changes(book: Book, station: Station, heater: Heater, bakes: list[Bake]) -> Iterator[Clash]:
    """Judge that between settings lies the time a change takes; what bears the change needs none."""
    grouped: dict[tuple[int, int], list[Change]] = {}
    for change in _too_close(heater, bakes):
        if change.start < book.facts.now:
            continue
        grouped.setdefault(change.settings, []).append(change)
    for settings, changes in grouped.items():
        needed = change_minutes(heater, *settings)
        for together in _joined(changes):
            worst = max(together, key=lambda change: change.end - change.start)
            by = worst.end - worst.start
            sentence = sentences.change_time(
                book.facts, station.id, settings, (needed, needed - by), (worst.before.name, worst.after.name)
            )
            start, end = min(each.start for each in together), max(each.end for each in together)
            steps = _steps([bake for each in together for bake in (each.before, each.after)])
            yield Clash(ClashKind.HEATING_MISSING, sentence, start, end, steps, (station.id,), by=by)


def _too_close(heater: Heater, bakes: list[Bake]) -> Iterator[Change]:
    settings = [bake.setting for bake in bakes]
    if len(set(settings)) < 2:
        return
    coldest, hottest = min(settings), max(settings)
    longest = max(change_minutes(heater, coldest, hottest), change_minutes(heater, hottest, coldest))
    recent: list[Bake] = []
    for bake in bakes:
        recent = [each for each in recent if each.end + longest > bake.start]
        heat = bake.thing.use.heat
        if bake.thing.waiting is not None or (heat is not None and heat.steady):
            for each in recent:
                if each.end <= bake.start and each.setting != bake.setting:
                    ready = each.end + change_minutes(heater, each.setting, bake.setting)
                    if ready > bake.start:
                        yield Change(bake.start, ready, (each.setting, bake.setting), each, bake)
        recent.append(bake)


def _joined(changes: list[Change]) -> list[list[Change]]:
    """Return changes in groups that overlap: one change of the same setting, several things at either side."""
    found: list[list[Change]] = []
    until = 0
    for change in sorted(changes, key=lambda each: (each.start, each.end)):
        if not found or change.start >= until:
            found.append([])
            until = change.end
        found[-1].append(change)
        until = max(until, change.end)
    return found


def _from_cold(book: Book, station: Station, heater: Heater, bakes: list[Bake]) -> Iterator[Clash]:
    """Judge that each session begins with a heating, long enough and after the session before."""
    if not heater.from_cold:
        return
    before: list[Bake] = []
    for session in sessions_of(heater, bakes):
        first = [bake for bake in session if bake.start == session[0].start]
        if first[0].start >= book.facts.now:
            yield from _heated(book, station, heater, first, before)
        out = max(bake.end for bake in session)
        before = [bake for bake in session if bake.end == out]


def _heated(
    book: Book, station: Station, heater: Heater, first: list[Bake], before: list[Bake]
) -> Iterator[Clash]:
    facts, start, setting = book.facts, first[0].start, first[0].setting
    needed = heat_up_minutes(heater, setting)
    if needed == 0:
        return
    out = before[0].end if before else None
    names, settings = join_words([bake.name for bake in first]), {bake.setting for bake in first}
    heatings = book.heatings_at.get(station.id, ())
    ending = [each for each in heatings if each.end == start and not lights(station, each)]
    fitting = [each for each in ending if each.setting in settings]
    if not fitting:
        if ending:
            given = min(each.setting for each in ending)
            sentence = sentences.heated_otherwise(facts, station.id, given, names, start, setting)
        else:
            sentence = sentences.not_heated(facts, station.id, setting, names, start, needed)
        yield _unheated(sentence, (start - needed, start), first, station)
        return
    best = min(fitting, key=lambda each: (_short(heater, each) + _under(each, out), each.start, each.setting))
    short, under = _short(heater, best), _under(best, out)
    if short:
        length = best.end - best.start
        sentence = sentences.heated_too_short(
            facts, station.id, best.setting, names, (length, length + short)
        )
        yield _unheated(sentence, (best.start - short, best.start), first, station)
    if under:
        inside = join_words([bake.name for bake in before])
        when = (best.start, best.start + under)
        sentence = sentences.heated_while_used(facts, station.id, (inside, names), when)
        yield _unheated(sentence, when, [*before, *first], station)


def _unheated(sentence: str, when: tuple[int, int], bakes: list[Bake], station: Station) -> Clash:
    by = when[1] - when[0]
    return Clash(ClashKind.HEATING_MISSING, sentence, *when, _steps(bakes), (station.id,), by=by)


def _short(heater: Heater, heating: Heating) -> int:
    return max(0, heat_up_minutes(heater, heating.setting) - (heating.end - heating.start))


def _under(heating: Heating, out: int | None) -> int:
    return max(0, out - heating.start) if out is not None else 0


def _steps(bakes: list[Bake]) -> tuple[StepId, ...]:
    return tuple(dict.fromkeys(step for bake in bakes for step in bake.thing.steps))
