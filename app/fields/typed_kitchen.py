"""Shelves, heating and company of a station as typed: "2000 cm2, 26 cm: lowest", "50 to 250 C", "200 C in 18 min".

Other stations are typed by name, with semicolons between them: a name may have commas.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from app.fields.short_form import each_read, each_shown, read_short, several
from app.fields.spec import Typed
from core.measures.refusal import Refusal, quoted
from core.plan.ids import StationId
from core.plan.kitchen import Kitchen, Shelf


def _read_shelf(text: str) -> Shelf:
    from core.intake.text.kitchen import ShelfText

    read = read_short(ShelfText, text)
    return Shelf(read.area, read.height, read.name)


def _show_shelf(shelf: Shelf) -> Any:
    from core.intake.text.kitchen import shelf_out

    return shelf_out(shelf)


def _read_settings(text: str) -> tuple[int, int]:
    from core.intake.text.kitchen import settings_in

    return settings_in(text)


def _show_settings(settings: tuple[int, int]) -> str:
    return f"{settings[0]} to {settings[1]} °C"


def _read_point(text: str) -> tuple[int, int]:
    from core.intake.text.kitchen import point_in

    return point_in(text)


def _show_point(point: tuple[int, int]) -> str:
    from core.measures.minutes import show_minutes

    return f"{point[0]} °C in {show_minutes(point[1])}"


def read_rate(text: str) -> float:
    """Return degrees C a minute."""
    plain = text.replace("°C", "").replace(",", ".").strip()
    try:
        return float(plain)
    except ValueError:
        raise Refusal(f"{quoted(text)} is not a number of degrees a minute; write one such as 5.") from None


def show_rate(rate: float) -> str:
    """Return degrees C a minute as typed."""
    return f"{rate:g}"


def _read_per_cent(text: str) -> int:
    from core.intake.text.scalars import per_cent_in

    return per_cent_in(text)


def show_per_cent(per_cent: int) -> str:
    """Return per cent as typed."""
    return f"{per_cent} %"


def read_stations(text: str, kitchen: Kitchen) -> tuple[StationId, ...]:
    """Return stations by name or id, each once; commas may part names that have none."""
    known = {each.name.casefold(): each.id for each in reversed(kitchen.stations)}
    known |= {str(each.id): each.id for each in kitchen.stations}
    found: list[StationId] = []
    for part in several(text):
        names = [part] if part.casefold() in known else [each.strip() for each in part.split(",")]
        for name in filter(None, names):
            if name.casefold() not in known:
                raise Refusal(_no_station(name, known))
            found.append(known[name.casefold()])
    return tuple(dict.fromkeys(found))


def _no_station(name: str, known: dict[str, StationId]) -> str:
    from core.intake.text.nearest import nearest

    meant = nearest(name.casefold(), known)
    mend = f'did you mean "{meant}"?' if meant else "write the name of another one, or add it first."
    return f"There is no station {quoted(name)} in the kitchen; {mend}"


def show_stations(stations: tuple[StationId, ...], kitchen: Kitchen) -> str:
    """Return stations as typed."""
    return "; ".join(_station_words(each, kitchen) for each in stations)


def _station_words(station: StationId, kitchen: Kitchen) -> str:
    found = kitchen.station.get(station)
    same = [each for each in kitchen.stations if found and each.name.casefold() == found.name.casefold()]
    return found.name if found is not None and len(same) == 1 and ";" not in found.name else station


def stations_of(kitchen: Callable[[], Kitchen], but: StationId) -> Typed:
    """Return how other stations than one are typed in the kitchen of the moment."""
    return Typed(
        lambda text: read_stations(text, kitchen()),
        lambda stations: show_stations(stations, kitchen()),
        lambda: [_station_words(each.id, kitchen()) for each in kitchen().stations if each.id != but],
        "; ",
        wraps=True,
    )


PER_CENT = Typed(_read_per_cent, show_per_cent)
SHELVES = Typed(each_read(_read_shelf), each_shown(_show_shelf), joins="; ", wraps=True)
SETTINGS = Typed(_read_settings, _show_settings)
POINTS = Typed(each_read(_read_point), each_shown(_show_point), joins="; ", wraps=True)
RATE = Typed(read_rate, show_rate)
