"""The lines of fires: lit when, ready when, good until when, and for what."""

from __future__ import annotations

from collections.abc import Iterator

from core.measures.minutes import show_minutes, show_tminus
from core.plan.kitchen import Station
from core.sheets.lines import Act, Line
from core.sheets.places import station_name
from core.sheets.step_lines import cook_names
from core.sheets.words import clock_at, lowered, shortened, when
from core.timetable.book import Book
from core.timetable.fires import burns_out, fires_at, hand_minutes, served_by
from core.timetable.timetable import Heating

_DISH = 40


def fire_lines(book: Book) -> Iterator[Line]:
    """Yield a line for each fire, station by station."""
    for station in book.facts.plan.kitchen.stations:
        fires = fires_at(book, station)
        for number, fire in enumerate(fires, 1):
            again = f", fire {number} of {len(fires)}" if len(fires) > 1 else ""
            yield _light(book, station, fire, again)


def _light(book: Book, station: Station, fire: Heating, again: str) -> Line:
    plan = book.facts.plan
    laying = hand_minutes(station, fire)
    ready = when(plan, fire.end, fire.start)
    details = [
        f"{show_minutes(laying)} to lay and light" if laying else "",
        f"ready at {ready}" if fire.end > fire.start else "ready at once",
        "" if station.burns is None else f"good until {when(plan, burns_out(station, fire), fire.start)}",
        _for(book, fire),
    ]
    return Line(
        fire.start,
        clock_at(plan, fire.start),
        show_tminus(fire.start),
        Act.LIGHT,
        f"Light the {lowered(station_name(station))}{again}",
        details=tuple(filter(None, details)),
        who=cook_names(plan, [fire.cook]) if laying or fire.cook is not None else "",
        minutes=laying,
        station=station.id,
    )


def _for(book: Book, fire: Heating) -> str:
    """Return the dishes that a fire burns for, "" for none."""
    dishes = dict.fromkeys(book.facts.plan.dish_of[step].id for step in served_by(book, fire))
    names = (shortened(book.facts.plan.dishes[dish].name, _DISH) or dish for dish in dishes)
    said = ", ".join(names)
    return f"for {said}" if said else ""
