"""Checks of places: every share of a station that a step or waiting food asks for can be had."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from core.measures.refusal import quoted
from core.measures.words import plural
from core.plan.check_problem import MOST_COUNT, Family, Problem, Problems, out_of, problem
from core.plan.check_steps import in_way, ways_of
from core.plan.check_words import Words, a_kind, short, spoken, station_name, unit_word
from core.plan.fits import Barred, barred, without
from core.plan.kitchen import HEATED, Kitchen, Station, StationKind
from core.plan.plan import Plan
from core.plan.step import Heat, Step, Use

_COLDEST, _HOTTEST = -60, 600  # °C that a place can be set to: a deep freezer, a fierce fire
_NEVER_SPREAD = HEATED | {StationKind.MACHINE, StationKind.ROOM}


Troubles = Iterator[tuple[StationKind | None, Problem]]
"""Problems with the kind of station that is wanting (None: a vessel is)."""


def place_problems(plan: Plan) -> Problems:
    """Find shares of stations that the kitchen cannot give, at steps and for waiting food."""
    return (each for _kind, each in place_troubles(plan))


def place_troubles(plan: Plan) -> Troubles:
    """Find what place_problems finds, each with the kind of station that the kitchen cannot give."""
    words = Words(plan)
    kitchen = plan.kitchen
    for dish in plan.menu.dishes:
        if dish.keep.wait.use is not None:
            name = f"{short(dish.name) or dish.id}, waiting until it is served,"
            yield from _waiting(kitchen, dish.keep.wait.use, name, dish.id)
        for step in dish.steps:
            name = spoken(dish, step)
            for way, _length, uses in ways_of(step):
                yield from _uses_problems(kitchen, step, uses, in_way(name, way))
            if step.keeps is not None and step.keeps.wait.use is not None:
                yield from _waiting(kitchen, step.keeps.wait.use, f"{name}, waiting until it is served,", step.id)
            yield from ((None, each) for each in _vessels(kitchen, step, name, words))
    for link in plan.menu.links:
        if link.wait.use is not None:
            name = f"{words.step(link.before)}, waiting for {words.step(link.after)},"
            yield from _waiting(kitchen, link.wait.use, name, link.before, link.after)


def _waiting(kitchen: Kitchen, use: Use, name: str, *about: str) -> Troubles:
    return ((use.kind, each) for each in use_problems(kitchen, use, name, *about))


def _uses_problems(kitchen: Kitchen, step: Step, uses: tuple[Use, ...], name: str) -> Troubles:
    about = step.id
    outs = barred(kitchen, step, uses)
    found = [
        (use.kind, each)
        for use, out in zip(uses, outs, strict=True)
        for each in _use(kitchen, use, name, out, about)
    ]
    yield from found
    if found:
        return
    together: dict[StationKind, int] = defaultdict(int)
    for use in uses:
        together[use.kind] += use.units
    for kind, units in together.items():
        stations = kitchen.of_kind(kind)
        if kind is StationKind.ROOM or any(each.shelves for each in stations):
            continue
        there = sum(each.units for each in stations)
        if units > there:
            sentence = (
                f"{name} takes {plural(units, unit_word(kind))} at once, and the kitchen's {kind}s have"
                f" {there} in all; give it fewer, or add one under Kitchen."
            )
            yield kind, problem(Family.PLACES, sentence, about)


def may_spread(kind: StationKind, stations: tuple[Station, ...]) -> bool:
    """Tell whether one share may stand on several of these stations (two rings are two burners)."""
    if kind is StationKind.BURNER:
        return True
    return kind not in _NEVER_SPREAD and all(each.units == 1 and not each.shelves for each in stations)


def use_problems(kitchen: Kitchen, use: Use, name: str, *about: str) -> Problems:
    """Find why a share of a station cannot be had, whatever the vessel; `name` says whose share it is."""
    yield from _use(kitchen, use, name, Barred(frozenset()), *about)


def _use(kitchen: Kitchen, use: Use, name: str, out: Barred, *about: str) -> Problems:
    wrong = _values(use, name)
    if wrong:
        yield problem(Family.PLACES, wrong, *about)
        return
    stations = kitchen.of_kind(use.kind)
    if use.station is not None:
        named = next((each for each in kitchen.stations if each.id == use.station), None)
        if named is None or named.kind is not use.kind:
            yield problem(Family.PLACES, _wrong_station(use, named, name), *about)
            return
        stations = (named,)
    elif not stations:
        if use.kind is not StationKind.ROOM:
            sentence = (
                f"{name} needs {a_kind(use.kind)}, and the kitchen has none; add one under Kitchen,"
                " or choose another place."
            )
            yield problem(Family.PLACES, sentence, *about)
        return
    if stations and not (left := without(stations, out)):
        yield problem(Family.VESSELS, _fits_nowhere(use, stations, out, name), *about)
        return
    if stations:
        stations = left
    missing = _too_small(use, stations) or _too_hot(use, stations) or _no_shelf(use, stations)
    if missing:
        yield problem(Family.PLACES, f"{name} {missing}", *about)


def _values(use: Use, name: str) -> str:
    if out_of(use.units, 1, MOST_COUNT):
        return (
            f"{name} takes {use.units} of {a_kind(use.kind)}; give it 1 to {MOST_COUNT}, or no place at all."
        )
    if out_of(use.area, 0, MOST_COUNT) or out_of(use.height, 0, MOST_COUNT):
        return f"{name} takes {use.area} cm² {use.height} cm high; give 0 to {MOST_COUNT} for both."
    heat = use.heat
    if heat is None:
        return ""
    if not heat.low <= heat.setting <= heat.high:
        return (
            f"{name} wants {heat.setting} °C and bears {heat.low} to {heat.high} °C;"
            " the setting must lie between them."
        )
    if heat.low < _COLDEST or heat.high > _HOTTEST:
        return f"{name} bears {heat.low} to {heat.high} °C; keep within {_COLDEST} to {_HOTTEST} °C."
    return ""


def _wrong_station(use: Use, named: Station | None, name: str) -> str:
    if named is None:
        return (
            f"{name} is to stand at the station {quoted(str(use.station))}, which the kitchen has not;"
            " choose one of its stations, or any of the kind."
        )
    return (
        f"{name} needs {a_kind(use.kind)}, but {station_name(named)} is {a_kind(named.kind)};"
        " choose another station, or any of the kind."
    )


def _fits_nowhere(use: Use, stations: tuple[Station, ...], out: Barred, name: str) -> str:
    where = f"none of the kitchen's {use.kind}s" if len(stations) > 1 else station_name(stations[0])
    vessel = out.too_large
    if vessel is None:
        return (
            f"{name} uses vessels of which each fits another {use.kind}, and none fits them all; use others, or"
            " change what they fit under Kitchen."
        )
    size = f" ({short(vessel.size)})" if vessel.size else ""
    wont = f"fits {where}" if len(stations) > 1 else f"does not fit {where}"
    if len(stations) == 1 and not vessel.fits:
        wont += f" ({stations[0].wide}x{stations[0].deep} cm inside)"
    return (
        f"{name} uses {short(vessel.name) or vessel.id}{size}, which {wont}; use a smaller one or another place,"
        " or change what it fits under Kitchen."
    )


def _too_small(use: Use, stations: tuple[Station, ...]) -> str:
    if any(each.shelves for each in stations):
        return ""
    if use.kind is StationKind.ROOM and any(each.units == 0 for each in stations):
        return ""
    spread = may_spread(use.kind, stations)
    most = sum(each.units for each in stations) if spread else max(each.units for each in stations)
    if use.units <= most:
        return ""
    where = station_name(stations[0]) if len(stations) == 1 else f"{use.kind}s"
    has = f"the {where} together have" if spread and len(stations) > 1 else f"{where} has"
    if not spread and len(stations) > 1:
        has = f"the largest {use.kind} has"
    units = plural(use.units, unit_word(use.kind))
    return f"needs {units}, and {has} {most}; give it fewer, or split it into loads."


def _too_hot(use: Use, stations: tuple[Station, ...]) -> str:
    heat = use.heat
    if heat is None or use.kind not in HEATED:
        return ""
    roomy = [each for each in stations if each.units >= use.units]
    if any(_reaches(each, heat) for each in roomy):
        return ""
    ranges = " and ".join(
        f"{station_name(each)} goes from {each.heater.lowest} to {each.heater.highest} °C"
        for each in roomy
        if each.heater is not None
    )
    return f"wants {heat.setting} °C, but {ranges}; choose another setting or another place."


def _reaches(station: Station, heat: Heat) -> bool:
    return station.heater is None or station.heater.lowest <= heat.setting <= station.heater.highest


def _no_shelf(use: Use, stations: tuple[Station, ...]) -> str:
    if not any(each.shelves for each in stations):
        return ""
    for station in stations:
        usable = station.shelves[:1] if use.raw else station.shelves
        if any(use.area <= shelf.area and use.height <= shelf.height for shelf in usable):
            return ""
        if not station.shelves and use.units <= station.units:
            return ""
    height = f" and {use.height} cm of height" if use.height else ""
    shelf = "the lowest shelf, where raw things stand," if use.raw else "a shelf,"
    where = station_name(stations[0]) if len(stations) == 1 else f"no {use.kind}"
    has = "has none so large" if len(stations) == 1 else "has one so large"
    return (
        f"needs {use.area} cm²{height} on {shelf} and {where} {has};"
        " give it less room, or change the shelves under Kitchen."
    )


def _vessels(kitchen: Kitchen, step: Step, name: str, words: Words) -> Problems:
    seen: set[str] = set()
    for use in step.vessels:
        vessel = next((each for each in kitchen.vessels if each.id == use.vessel), None)
        if vessel is None:
            sentence = (
                f"{name} uses the vessel {quoted(use.vessel)}, which the kitchen has not;"
                " add it under Kitchen, or take it out of the step."
            )
        elif use.vessel in seen:
            sentence = f"{name} names {words.vessel(use.vessel)} twice; name it once, with how many."
        elif use.count < 1:
            sentence = f"{name} uses {use.count} of {words.vessel(use.vessel)}; give 1 or more."
        elif use.count > vessel.count:
            sentence = (
                f"{name} uses {use.count} of {words.vessel(use.vessel)}, and the kitchen has {vessel.count};"
                " use fewer, or add one under Kitchen."
            )
        else:
            seen.add(use.vessel)
            continue
        seen.add(use.vessel)
        yield problem(Family.VESSELS, sentence, step.id)
