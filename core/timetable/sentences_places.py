"""Clashes in words, second part: places, heat, and more wanted at once than there is."""

from __future__ import annotations

from collections.abc import Sequence

from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural_of
from core.plan.ids import StationId, StepId
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import Heat, Use
from core.timetable.facts import Facts
from core.timetable.naming import (
    at_place,
    beside,
    capital,
    clock,
    number,
    place,
    shelf_of,
    span,
    unit,
    units,
    wanted,
)
from core.timetable.timetable import Spot

Party = tuple[str, int]
"""Somebody's name in a crowd and how much it takes."""

# ---- places


def no_place(facts: Facts, name: str, use: Use) -> str:
    """Say that a thing has no place."""
    return f"{capital(name)} needs {wanted(facts, use)} and has no place on the timetable."


def not_needed(facts: Facts, name: str, spot: Spot) -> str:
    """Say that a thing has a place too many."""
    return f"{capital(name)} stands {at_place(facts, spot.station)}, which it does not need."


def no_station(facts: Facts, name: str, spot: Spot) -> str:
    """Say that a thing stands on a station that the kitchen does not have."""
    return f"{capital(name)} stands at {facts.words.station(spot.station)}, which is not in the kitchen."


def other_station(facts: Facts, name: str, use: Use, spot: Spot) -> str:
    """Say that a thing stands on a station of another kind, or not on the one named."""
    return f"{capital(name)} stands {at_place(facts, spot.station)} and needs {wanted(facts, use)}."


def wrong_units(name: str, use: Use, taken: int) -> str:
    """Say that a thing takes another share than it needs."""
    return f"{capital(name)} takes {units(use.kind, taken)} and needs {use.units}."


def no_shelf(facts: Facts, name: str, spot: Spot) -> str:
    """Say that a thing has no shelf, or one that is not there."""
    where = place(facts, spot.station)
    shelves = len(facts.plan.kitchen.station[spot.station].shelves)
    if spot.shelf is None:
        return f"{capital(name)} has no shelf in {where}."
    return f"{capital(name)} stands on shelf {spot.shelf + 1} of {where}, which has {shelves}."


def too_high(facts: Facts, name: str, use: Use, station: Station, index: int) -> str:
    """Say that a thing is higher than its shelf. cm."""
    return (
        f"{capital(name)} is {use.height} cm high, and {shelf_of(facts, station, index)} has"
        f" {station.shelves[index].height}."
    )


def raw_above(facts: Facts, name: str, station: Station, index: int) -> str:
    """Say that something raw does not stand lowest."""
    where = shelf_of(facts, station, index)
    return f"{capital(name)} is raw and stands on {where}; raw things go on the lowest."


def moved_load(name: str, places: tuple[str, str]) -> str:
    """Say that a load stands elsewhere than the first load. `places`: here, there."""
    here, there = places
    return f"{capital(name)} stands {here}, the first load {there}; all loads of a step stand in one place."


def closed(facts: Facts, name: str, station: StationId, when: tuple[int, int]) -> str:
    """Say that a thing stands on a station while that is not there."""
    return (
        f"{capital(name)} stands {at_place(facts, station)} from {span(facts, *when)}, when"
        f" {place(facts, station)} is not there."
    )


def heated_closed(facts: Facts, station: StationId, when: tuple[int, int], fire: bool) -> str:
    """Say that a station is heated or lit while it is not there."""
    does = "is to be lit" if fire else "is to heat up"
    return f"{_the(facts, station)} {does} from {span(facts, *when)}, when it is not there."


def no_stay(facts: Facts, name: str, use: Use, when: tuple[int, int]) -> str:
    """Say that food waits and has no place for it."""
    return (
        f"{capital(name)} waits from {span(facts, *when)}, needs {wanted(facts, use)} and has no place on the"
        " timetable."
    )


def stay_not_needed(facts: Facts, step: StepId, when: tuple[int, int], again: bool) -> str:
    """Say that a place is kept for food that does not wait there, or kept twice."""
    why = "which has one already" if again else "which does not wait there"
    return f"A place is kept from {span(facts, *when)} for what waits after {facts.words.step(step)}, {why}."


def stay_length(facts: Facts, step: StepId, given: tuple[int, int], true: tuple[int, int]) -> str:
    """Say that a place is kept for other minutes than the food waits."""
    kept = f"The place for what waits after {facts.words.step(step)} is kept from {span(facts, *given)}"
    if true[1] <= true[0]:
        return f"{kept}; nothing waits there."
    return f"{kept}; it waits from {span(facts, *true)}."


# ---- heat


def no_setting(facts: Facts, name: str, station: StationId) -> str:
    """Say that a bake has no setting."""
    return f"{capital(name)} has no setting {at_place(facts, station)}."


def beyond_food(facts: Facts, name: str, station: StationId, setting: int, heat: Heat) -> str:
    """Say that a setting lies outside what the food bears. °C."""
    bears = f"{heat.low} to {heat.high} °C" if heat.low != heat.high else f"{heat.low} °C only"
    return f"{capital(name)} stands at {setting} °C {at_place(facts, station)}; it bears {bears}."


def beyond_heater(facts: Facts, name: str, station: StationId, setting: int, heater: Heater) -> str:
    """Say that a station cannot be set to a temperature. °C."""
    return (
        f"{capital(name)} wants {setting} °C; {place(facts, station)} goes from {heater.lowest} to"
        f" {heater.highest} °C."
    )


def temperatures(facts: Facts, station: StationId, when: tuple[int, int], wants: Sequence[Party]) -> str:
    """Say that things want different temperatures of one station at once. `wants`: names with °C."""
    names = [name for name, _setting in wants]
    where = at_place(facts, station)
    if len(wants) == 2:
        asked = f"want {wants[0][1]} °C and {wants[1][1]} °C"
        return f"{capital(join_words(names))} {asked} {where} at once, {span(facts, *when)}."
    each = join_words([f"{name} ({setting} °C)" for name, setting in wants])
    return f"{capital(each)} want different temperatures {where} at once, {span(facts, *when)}."


def change_time(
    facts: Facts,
    station: StationId,
    settings: tuple[int, int],
    minutes: tuple[int, int],
    names: tuple[str, str],
) -> str:
    """Say that the time between two settings is too short. `minutes`: needed, there."""
    needed, there = minutes
    change = f"from {settings[0]} to {settings[1]} °C"
    return (
        f"{_the(facts, station)} takes {show_minutes(needed)} {change}"
        f" and has {beside(there, needed)} between {names[0]} and {names[1]}."
    )


def not_heated(facts: Facts, station: StationId, setting: int, names: str, at: int, needed: int) -> str:
    """Say that a station is not heated up in time."""
    return (
        f"{_the(facts, station)} is not heated up to {setting} °C for {names} at {clock(facts, at)};"
        f" that takes {show_minutes(needed)}."
    )


def heated_otherwise(facts: Facts, station: StationId, given: int, names: str, at: int, setting: int) -> str:
    """Say that a station is heated up to another setting than is wanted."""
    return (
        f"{_the(facts, station)} is heated up to {given} °C for {names} at {clock(facts, at)}, which"
        f" wants {setting} °C."
    )


def heated_too_short(
    facts: Facts, station: StationId, setting: int, names: str, minutes: tuple[int, int]
) -> str:
    """Say that heating up is given too few minutes. `minutes`: given, needed."""
    given, needed = minutes
    return (
        f"{_the(facts, station)} is heated up to {setting} °C for {show_minutes(given)} before {names};"
        f" that takes {beside(needed, given)}."
    )


def heated_while_used(facts: Facts, station: StationId, names: tuple[str, str], when: tuple[int, int]) -> str:
    """Say that heating up begins while the station is still in use. `names`: inside, next."""
    inside, after = names
    return (
        f"{_the(facts, station)} is to heat up for {after} from {clock(facts, when[0])}, while {inside}"
        f" is in it until {clock(facts, when[1])}."
    )


def heats_nowhere(facts: Facts, station: StationId, when: tuple[int, int], there: bool) -> str:
    """Say that a heating belongs to no station of the kitchen, or not to these years."""
    why = "which is more than ten years from plating" if there else "and is not in the kitchen"
    return f"{facts.words.station(station)} is to heat up from {span(facts, *when)}, {why}."


# ---- too much wanted at once


def over_full(facts: Facts, station: Station, when: tuple[int, int], parties: Sequence[Party]) -> str:
    """Say that more units of a station are wanted than it has."""
    names = [name for name, _amount in parties]
    times = f"From {span(facts, *when)}"
    things = f"{number(len(parties))} {'thing' if len(parties) == 1 else 'things'}"
    if len(parties) > 1 and all(amount == 1 for _name, amount in parties):
        return f"{times} {things} want {_all_of(facts, station)}: {join_words(names)}."
    together = sum(amount for _name, amount in parties)
    asked = f"{units(station.kind, together)} {at_place(facts, station.id)}, which has {station.units}"
    if len(parties) == 1:
        return f"{times} {names[0]} wants {asked}."
    return f"{times} {things} want {asked}: {_with_amounts(parties)}."


def _all_of(facts: Facts, station: Station) -> str:
    where = place(facts, station.id)
    if station.units == 1:
        return f"{where} at once"
    counted = f"the {number(station.units)} {plural_of(unit(station.kind))}"
    alone = station.kind is StationKind.BURNER and len(facts.plan.kitchen.of_kind(station.kind)) == 1
    return counted if alone else f"{counted} {at_place(facts, station.id)}"


def _with_amounts(parties: Sequence[Party]) -> str:
    return join_words([f"{name} ({amount:,})" for name, amount in parties])


def shelf_full(facts: Facts, shelf: str, area: int, when: tuple[int, int], parties: Sequence[Party]) -> str:
    """Say by how much a shelf, or all shelves of a place together, are too small. cm2."""
    together = sum(amount for _name, amount in parties)
    verb = "wants" if len(parties) == 1 else "want"
    return (
        f"From {span(facts, *when)} {shelf} is over-full by {together - area:,} cm²: it has {area:,}, and"
        f" {_with_amounts(parties)} {verb} {together:,}."
    )


def _the(facts: Facts, station: StationId) -> str:
    return capital(place(facts, station))
