"""One copy for everybody, for one cook, or for one station."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.measures.refusal import Refusal, quoted
from core.measures.words import join_words, plural_of
from core.plan.calendar import stretch_of
from core.plan.ids import CookId, StationId
from core.plan.kitchen import Cook
from core.plan.plan import Plan
from core.sheets.lines import Act, Line
from core.sheets.places import NAME, station_name
from core.sheets.step_lines import NOBODY
from core.sheets.words import capital, shortened
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Whose:
    """A cook, or some stations; `name` as it stands on the sheet. The sheet of neither is everybody's."""

    name: str = ""
    cook: CookId | None = None
    stations: frozenset[StationId] = frozenset()


EVERYBODY = Whose()


def whose(plan: Plan, name: str) -> Whose:
    """Return the cook or station of a name or id, or all stations of a kind ("burner"); "" is everybody.

    Refuse a name that is nobody's, with those that there are.
    """
    wanted = " ".join(name.split()).casefold()
    if not wanted:
        return EVERYBODY
    for cook in plan.kitchen.cooks:
        if wanted in {cook.id.casefold(), " ".join(cook.name.split()).casefold()}:
            return Whose(shortened(cook.name, NAME) or cook.id, cook=cook.id)
    for station in plan.kitchen.stations:
        if wanted in {station.id.casefold(), " ".join(station.name.split()).casefold()}:
            return Whose(station_name(station), stations=frozenset({station.id}))
    for kind in dict.fromkeys(station.kind for station in plan.kitchen.stations):
        if wanted in {kind.value, plural_of(kind.value)}:
            alike = frozenset(each.id for each in plan.kitchen.of_kind(kind))
            return Whose(capital(plural_of(kind.value)), stations=alike)
    names = [each.name for each in plan.kitchen.cooks] + [each.name for each in plan.kitchen.stations]
    there = join_words([quoted(each) for each in names])
    raise Refusal(f"No cook or station is called {quoted(name)}. There are {there}.")


def one_cook(plan: Plan, names: Iterable[str]) -> bool:
    """Return whether a sheet with these names need not say who: there is one cook, and no hand that nobody gives."""
    return len(plan.kitchen.cooks) == 1 and not any(NOBODY in name for name in names)


def who_of(who: str, names: Sequence[str]) -> list[str]:
    """Return who does a line, name by name; `names` known ones, the longest first, since a name may hold a comma."""
    found, left = [], who
    while left:
        name = next((each for each in names if f"{left}, ".startswith(f"{each}, ")), left.split(", ", 1)[0])
        found.append(name)
        left = left[len(name) + 2 :]
    return found


def names_of(plan: Plan) -> list[str]:
    """Return the cooks' names as sheets print them, the longest first."""
    return sorted(filter(None, (shortened(cook.name, NAME) for cook in plan.kitchen.cooks)), key=len, reverse=True)


def copy_for(plan: Plan, lines: Sequence[Line], timetable: Timetable, of: Whose) -> list[Line]:
    """Return the lines that a copy shows: its own, what nobody in particular does, and every serving.

    What nobody in particular does is on the copies of the cooks who are there then, on all where nobody is.
    """
    return [line for line in lines if line.act is Act.SERVE or _is_own(plan, line, timetable, of)]


def _is_own(plan: Plan, line: Line, timetable: Timetable, of: Whose) -> bool:
    if of.cook is not None:
        names = who_of(line.who, names_of(plan))
        if of.name in names:
            return True
        there = [cook.id for cook in plan.kitchen.cooks if _there(plan, cook, line.at)]
        return (not line.who or NOBODY in names) and (of.cook in there or not there)
    if not of.stations:
        return True
    if line.station is not None:
        return line.station in of.stations
    placed = None if line.step is None else timetable.at.get((line.step, line.load))
    return placed is not None and any(spot.station in of.stations for spot in placed.spots)


def _there(plan: Plan, cook: Cook, at: int) -> bool:
    """Return whether a cook has come by then and not left, whatever the breaks and the nights between."""
    stretches = (stretch_of(plan, each) for each in cook.present)
    return not cook.present or any(start <= at <= end for start, end in stretches)
