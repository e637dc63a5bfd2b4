"""How sentences about a timetable name times, steps and places."""

from __future__ import annotations

from datetime import datetime

from core.measures.clock import show_clock
from core.measures.minutes import show_minutes
from core.measures.words import plural
from core.plan.check_words import a_kind, short, unit_word
from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station, StationKind
from core.plan.step import Use
from core.timetable.facts import Facts

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven")
_ON = frozenset({StationKind.GRILL, StationKind.BURNER, StationKind.COLD_COUNTER})
_NAMED = frozenset({StationKind.ROOM, StationKind.MACHINE})


def clock(facts: Facts, offset: int) -> str:
    """Return "18:50"; "Fri 18:50" on another day than plating's, "Fri 4 Sep 18:50" a week off and more."""
    try:
        at = facts.plan.wall(offset)
    except OverflowError:
        side = "before" if offset < 0 else "after"
        return f"{show_minutes(abs(offset))} {side} plating"
    days = abs((at.date() - facts.plan.plating.local.date()).days)
    if days == 0:
        return show_clock(at)
    date = f" {_date(at)}" if days > 6 else ""
    return f"{_DAYS[at.weekday()]}{date} {show_clock(at)}"


def _date(at: datetime) -> str:
    return f"{at.day} {_MONTHS[at.month - 1]}"


def span(facts: Facts, start: int, end: int) -> str:
    """Return "18:10 to 18:28"."""
    return f"{clock(facts, start)} to {clock(facts, end)}"


def beside(minutes: int, other: int) -> str:
    """Return a length that stands beside another one: the bare number where both are below an hour."""
    return str(minutes) if 0 <= minutes < 60 and 0 <= other < 60 else show_minutes(minutes)


def number(count: int) -> str:
    """Return a small number as a word."""
    return _NUMBERS[count] if 0 <= count < len(_NUMBERS) else f"{count:,}"


def load(facts: Facts, step: StepId, which: int) -> str:
    """Return "Skewers: grill", or "load 2 of Skewers: grill" where it is done in loads."""
    name = facts.words.step(step)
    many = step in facts.plan.steps and facts.loads(step) > 1
    return f"load {which + 1} of {name}" if many or which else name


def thing_name(facts: Facts, step: StepId, which: int, waits: bool) -> str:
    """Return the name of a load, or of what waits after it."""
    name = load(facts, step, which)
    return f"what waits after {name}" if waits else name


def first_load(facts: Facts, step: StepId) -> str:
    """Return the step's name; that of its first load where it has several."""
    return _of_loads(facts, step, "first")


def last_load(facts: Facts, step: StepId) -> str:
    """Return the step's name; that of its last load where it has several."""
    return _of_loads(facts, step, "last")


def _of_loads(facts: Facts, step: StepId, which: str) -> str:
    name = facts.words.step(step)
    return f"the {which} load of {name}" if facts.loads(step) > 1 else name


def place(facts: Facts, station: StationId) -> str:
    """Return "the oven" where there is but one, else the station's name."""
    found = facts.plan.kitchen.station.get(station)
    if found is None or found.kind in _NAMED or len(facts.plan.kitchen.of_kind(found.kind)) > 1:
        return facts.words.station(station)
    return f"the {found.kind}"


def at_place(facts: Facts, station: StationId) -> str:
    """Return "in the oven", "on Burner 2", "at Worktop"."""
    found = facts.plan.kitchen.station.get(station)
    word = "at" if found is None or found.kind in _NAMED else "on" if found.kind in _ON else "in"
    return f"{word} {place(facts, station)}"


def shelf_of(facts: Facts, station: Station, index: int) -> str:
    """Return "the lowest shelf of the fridge", "shelf 2 of the fridge" or the shelf's own name."""
    name = short(station.shelves[index].name)
    words = f"“{name}”" if name else "the lowest shelf" if index == 0 else f"shelf {index + 1}"
    return f"{words} of {place(facts, station.id)}"


def units(kind: StationKind, count: int) -> str:
    """Return "2 racks", "1 burner"."""
    return plural(count, unit(kind))


def unit(kind: StationKind) -> str:
    """Return what a station's units are called: "rack", "burner"."""
    return "burner" if kind is StationKind.BURNER else unit_word(kind)


def wanted(facts: Facts, use: Use) -> str:
    """Return what a use asks for: "an oven", "2 burners", "Oven 2"."""
    if use.station is not None:
        return place(facts, use.station)
    many = use.kind is StationKind.BURNER and use.units > 1
    return units(use.kind, use.units) if many else a_kind(use.kind)


def way_words(facts: Facts, step: StepId, way: int) -> str:
    """Return "as written", or "the way “at 160 °C”"."""
    if way == 0:
        return "as written"
    name = short(facts.plan.steps[step].alternatives[way - 1].name)
    return f"the way “{name}”" if name else f"the other way, number {way}"


def capital(sentence: str) -> str:
    """Return a sentence that begins with a capital."""
    return sentence[:1].upper() + sentence[1:]
