"""Checks of the kitchen by itself: stations, shelves, heaters, vessels, cooks and their hours."""

from __future__ import annotations

from itertools import pairwise
from math import isfinite

from core.measures.minutes import show_minutes
from core.measures.refusal import quoted
from core.plan.check_menu import bad_id, repeated
from core.plan.check_problem import (
    LONGEST,
    MOST_COUNT,
    Family,
    Problems,
    name_trouble,
    out_of,
    problem,
    texts_trouble,
)
from core.plan.check_words import short, station_name
from core.plan.ids import WORD
from core.plan.kitchen import Cook, Heater, Kitchen, Station, StationKind, Vessel, Window

_DAY = 24 * 60
_COLDEST, _HOTTEST = -60, 600
_WARMEST = 60
_MOST_SPAN = 14 * _DAY
_MOST_WALK = 60  # minutes
_MOST_FIRES = 9
_MOST_OFFSET = 60  # °C
_MOST_SIDE = 1000  # cm
_MOST_LONGER = 100  # per cent
_USUAL_LAYING = 5  # what a station has of which nothing is said; never wrong


def kitchen_problems(kitchen: Kitchen) -> Problems:
    """Find what is wrong with the kitchen, whatever the menu asks of it."""
    if trouble := name_trouble(kitchen.name):
        yield problem(Family.TEXTS, f"The kitchen's name {trouble}.", "the kitchen's name")
    if out_of(kitchen.walk, 0, _MOST_WALK):
        yield problem(
            Family.NUMBERS,
            f"The way from one place of the kitchen to another takes {show_minutes(kitchen.walk)};"
            f" give 0 to {_MOST_WALK} min.",
            "the kitchen's ways",
        )
    if out_of(kitchen.room, _COLDEST, _WARMEST):
        yield problem(
            Family.NUMBERS,
            f"The kitchen is at {kitchen.room} °C; give {_COLDEST} to {_WARMEST}, or leave it untold.",
            "the kitchen's warmth",
        )
    for what, things in (("station", kitchen.stations), ("vessel", kitchen.vessels), ("cook", kitchen.cooks)):
        for each in things:
            if not WORD.match(each.id):
                yield problem(Family.IDS, bad_id(f"The {what} {short(each.name)}", each.id), each.id)
            if trouble := name_trouble(each.name):
                yield problem(Family.TEXTS, f"The name of the {what} {each.id} {trouble}.", each.id)
        for twice in repeated(each.id for each in things):
            names = " and ".join(short(each.name) for each in things if each.id == twice)
            yield problem(
                Family.IDS, f"The {what}s {names} bear the same id {twice}; give one of them another.", twice
            )
    for station in kitchen.stations:
        yield from _station(station)
        yield from _not_with(station, kitchen)
    for vessel in kitchen.vessels:
        yield from _vessel(vessel)
        yield from _fits(vessel, kitchen)
    for cook in kitchen.cooks:
        yield from _cook(cook)


def _station(station: Station) -> Problems:
    name = station_name(station)
    if trouble := texts_trouble(station.place, *(each.name for each in station.shelves)):
        yield problem(Family.TEXTS, f"A text of {name} {trouble}.", station.id)
    least = 0 if station.kind is StationKind.ROOM or station.shelves else 1
    if out_of(station.units, least, MOST_COUNT):
        yield problem(
            Family.NUMBERS,
            f"{name} has {station.units} places; give it {least} to {MOST_COUNT}, or take it out.",
            station.id,
        )
    for number, shelf in enumerate(station.shelves, 1):
        if out_of(shelf.area, 1, MOST_COUNT) or out_of(shelf.height, 1, MOST_COUNT):
            yield problem(
                Family.NUMBERS,
                f"Shelf {number} of {name}, counted from below, has {shelf.area} cm² and {shelf.height} cm"
                f" of height; give it 1 to {MOST_COUNT} of both, or take the shelf out.",
                station.id,
            )
    if out_of(station.wide, 0, _MOST_SIDE) or out_of(station.deep, 0, _MOST_SIDE):
        yield problem(
            Family.NUMBERS,
            f"{name} is {station.wide} cm wide and {station.deep} cm deep inside; give 0 (not told) to"
            f" {_MOST_SIDE} cm for both.",
            station.id,
        )
    if out_of(station.keeps_at, _COLDEST, _WARMEST):
        yield problem(
            Family.NUMBERS,
            f"{name} is at {station.keeps_at} °C; give {_COLDEST} to {_WARMEST}, or leave it untold.",
            station.id,
        )
    yield from _fire(station, name)
    if station.heater is not None and (trouble := _heater_trouble(station.heater)):
        yield problem(Family.NUMBERS, f"{name} {trouble}.", station.id)
    yield from _windows(station.hours, f"{name} is there", station.id)


def _fire(station: Station, name: str) -> Problems:
    burns = 1 if station.burns is None else station.burns
    if out_of(station.lighting, 0, LONGEST) or out_of(burns, 1, LONGEST):
        yield problem(
            Family.NUMBERS,
            f"{name} takes {show_minutes(station.lighting)} to light and burns for {show_minutes(burns)};"
            " lighting takes 0 or more, burning 1 or more.",
            station.id,
        )
    elif out_of(station.laying, 0, max(station.lighting, _USUAL_LAYING) if station.lighting else LONGEST):
        yield problem(
            Family.NUMBERS,
            f"A cook lays and lights the fire of {name} for {show_minutes(station.laying)}, and it is ready after"
            f" {show_minutes(station.lighting)}; give the cook 0 to {show_minutes(station.lighting)}.",
            station.id,
        )
    if out_of(station.fires, 1, _MOST_FIRES):
        yield problem(
            Family.NUMBERS,
            f"{name} may be lit {station.fires} times; give 1 to {_MOST_FIRES}, or take it out.",
            station.id,
        )


def _not_with(station: Station, kitchen: Kitchen) -> Problems:
    name = station_name(station)
    there = {each.id: station_name(each) for each in kitchen.stations}
    for other in dict.fromkeys(station.not_with):
        if other == station.id:
            sentence = f"{name} is never to be used at the same time as itself; name another station."
        elif other not in there:
            sentence = (
                f"{name} is never to be used at the same time as {quoted(other)}, which the kitchen has not;"
                " name one of its stations."
            )
        elif station.not_with.count(other) > 1:
            sentence = f"{name} names {there[other]} twice, as never used at the same time; once is enough."
        else:
            continue
        yield problem(Family.PLACES, sentence, station.id)


def _heater_trouble(heater: Heater) -> str:
    if not _COLDEST <= heater.lowest <= heater.highest <= _HOTTEST:
        return (
            f"heats from {heater.lowest} to {heater.highest} °C; give the lower setting first,"
            f" both between {_COLDEST} and {_HOTTEST}"
        )
    if not all(isfinite(rate) and 0 < rate <= MOST_COUNT for rate in (heater.up, heater.down)):
        return f"warms by {heater.up} and cools by {heater.down} °C a minute; both must be more than 0"
    if out_of(heater.keep_on, 0, LONGEST):
        return f"is kept on through pauses of {show_minutes(heater.keep_on)}; give 0 or more"
    if out_of(heater.cold, _COLDEST, _HOTTEST):
        return f"is {heater.cold} °C when cold; give the temperature of its room"
    if out_of(heater.full, 0, _MOST_LONGER):
        return f"takes {heater.full} % longer when it is full; give 0 to {_MOST_LONGER}"
    if out_of(heater.offset, -_MOST_OFFSET, _MOST_OFFSET):
        return f"is {heater.offset} °C hotter than its dial says; give -{_MOST_OFFSET} to {_MOST_OFFSET}"
    points = ((heater.cold, 0), *heater.from_cold)
    for (cooler, sooner), (hotter, later) in pairwise(points):
        if hotter <= cooler or later < sooner or later > LONGEST:
            return (
                f"reaches {hotter} °C in {show_minutes(later)} from cold, and {cooler} °C in"
                f" {show_minutes(sooner)}; let temperature and minutes rise from point to point"
            )
    return ""


def _vessel(vessel: Vessel) -> Problems:
    name = short(vessel.name) or vessel.id
    if trouble := texts_trouble(vessel.size):
        yield problem(Family.TEXTS, f"The size of {name} {trouble}.", vessel.id)
    if out_of(vessel.count, 1, MOST_COUNT):
        yield problem(
            Family.NUMBERS,
            f"There are {vessel.count} of {name}; give 1 to {MOST_COUNT}, or take it out.",
            vessel.id,
        )
    if out_of(vessel.washing, 0, LONGEST):
        yield problem(
            Family.NUMBERS,
            f"Washing {name} takes {show_minutes(vessel.washing)}; give 0 (none) or more.",
            vessel.id,
        )


def _fits(vessel: Vessel, kitchen: Kitchen) -> Problems:
    name = short(vessel.name) or vessel.id
    there = {each.id: station_name(each) for each in kitchen.stations}
    for station in dict.fromkeys(vessel.fits):
        if station not in there:
            sentence = (
                f"{name} is said to fit {quoted(station)}, which the kitchen has not; name one of its stations,"
                " or none."
            )
        elif vessel.fits.count(station) > 1:
            sentence = f"{name} is said twice to fit {there[station]}; once is enough."
        else:
            continue
        yield problem(Family.PLACES, sentence, vessel.id)


def _cook(cook: Cook) -> Problems:
    name = short(cook.name) or cook.id
    if any(name_trouble(skill) for skill in cook.skills):
        yield problem(
            Family.TEXTS,
            f"A skill of {name} is empty or cannot be shown; write it again, or take it out.",
            cook.id,
        )
    if cook.night is not None:
        begins, ends = cook.night
        if out_of(begins, 0, _DAY - 1) or out_of(ends, 0, _DAY - 1) or begins == ends:
            yield problem(
                Family.TIMES,
                f"The night of {name} goes from minute {begins} to minute {ends} of the day; give two"
                " different times of day, or no night.",
                cook.id,
            )
    yield from _windows(cook.present, f"{name} is there", cook.id)
    yield from _windows(cook.breaks, f"{name} has a break", cook.id)


def _windows(windows: tuple[Window, ...], words: str, about: str) -> Problems:
    for each in windows:
        if out_of(each.from_minute, 0, _DAY - 1):
            trouble = f"from minute {each.from_minute} of a day; give a time of day, 00:00 to 23:59"
        elif each.to_minute <= each.from_minute:
            trouble = (
                f"from {_clock(each.from_minute)} to an end that is not later; let it end after it begins"
            )
        elif each.to_minute - each.from_minute > _MOST_SPAN:
            trouble = f"from {_clock(each.from_minute)} for more than 14 days; write several spans instead"
        elif out_of(each.days_before, -LONGEST // _DAY, LONGEST // _DAY):
            trouble = "more than a year from plating; give a nearer day"
        else:
            continue
        yield problem(Family.TIMES, f"{words} {trouble}.", about)


def _clock(minute: int) -> str:
    return f"{minute // 60:02}:{minute % 60:02}"
