"""Where a step happens, in what, and how food waits, as typed: names of the kitchen instead of ids."""

from __future__ import annotations

import re
from collections.abc import Callable

from app.fields.short_form import read_short, several, shown
from app.fields.spec import Typed
from app.fields.typed_text import if_any, optional
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal, quoted
from core.plan.ids import StationId, VesselId
from core.plan.kitchen import HEATED, Kitchen, Station, StationKind, Vessel
from core.plan.menu import Link
from core.plan.step import Keep, Use, VesselUse, Wait

_KINDS = "|".join(kind.value for kind in StationKind)
_KIND_FIRST = re.compile(rf"((?:\d+ )?(?:{_KINDS})(?:e?s)?) (?=\S)(?!,)", re.IGNORECASE)
_AT = re.compile(r"(?<![^,\s]) ?\bat (?:the )?([^,;]+)", re.IGNORECASE)
_COUNTED = re.compile(r"(\d+) ?[x×]? ?(.+)")

At = Callable[[], Kitchen]


# ---------------------------------------------------------------- names and ids


def _plain(name: str) -> bool:
    return not any(sign in name for sign in ",;:")


def _station_words(station: Station, kitchen: Kitchen) -> str:
    same = [each for each in kitchen.stations if each.name.casefold() == station.name.casefold()]
    return station.name if _plain(station.name) and len(same) == 1 else station.id


def _with_ids(text: str, kitchen: Kitchen) -> str:
    """Return a text with the ids of stations where it names them after "at"."""
    ids = {each.name.casefold(): each.id for each in reversed(kitchen.stations)}

    def put(met: re.Match[str]) -> str:
        found = ids.get(met[1].strip().casefold())
        return met[0] if found is None else met[0].replace(met[1], found)

    return _AT.sub(put, text)


def _with_names(text: str, use: Use | None, kitchen: Kitchen) -> str:
    if use is None or use.station is None or use.station not in kitchen.station:
        return text
    return text.replace(f"at {use.station}", f"at {_station_words(kitchen.station[use.station], kitchen)}")


# ---------------------------------------------------------------- places of a step


def read_places(text: str, kitchen: Kitchen) -> tuple[Use, ...]:
    """Return the places of a step: "oven, 160 C +-15, 2 racks; fridge, 30x20 cm, 6 cm"; none from ""."""
    from core.intake.text.places import PlaceText

    lines = [_KIND_FIRST.sub(r"\1, ", _with_ids(part, kitchen), count=1) for part in several(text)]
    for line in lines:
        _known_first(line)
    return tuple(read_short(PlaceText, line).use() for line in lines)


def _known_first(line: str) -> None:
    """Refuse a line that begins with a word which is no kind of place."""
    from core.intake.text.nearest import nearest
    from core.intake.text.places import is_place_word, split_parts

    first = split_parts(line)[0]
    if any(sign.isdigit() for sign in first) or is_place_word(first.casefold()):
        return
    meant = nearest(first, [kind.value for kind in StationKind])
    mend = f'did you mean "{meant}"?' if meant else 'write one such as "oven, 180 C" or "burner".'
    raise Refusal(f"{quoted(first)} is no kind of place; {mend}")


def show_places(uses: tuple[Use, ...], kitchen: Kitchen) -> str:
    """Return the places of a step as typed."""
    from core.intake.text.places import use_out

    return "; ".join(_with_names(shown(use_out(use)), use, kitchen) for use in uses)


def place_offers(kitchen: Kitchen) -> list[str]:
    """Return a text for each kind of place that the kitchen has, and for each place of a kind with several."""
    found = []
    for kind in dict.fromkeys(each.kind for each in kitchen.stations):
        stations = kitchen.of_kind(kind)
        usual = f"{kind}, 180 ±15 °C" if kind in HEATED and stations[0].heater is not None else str(kind)
        if stations[0].shelves:
            usual = f"{kind}, 40x30 cm, 10 cm"
        found.append(usual)
        if len(stations) > 1:
            found += [f"{usual}, at {_station_words(each, kitchen)}" for each in stations]
    return found


def places_of(kitchen: At) -> Typed:
    """Return how the places of a step are typed in the kitchen of the moment."""
    return Typed(
        lambda text: read_places(text, kitchen()),
        lambda uses: show_places(uses, kitchen()),
        lambda: place_offers(kitchen()),
        "; ",
        wraps=True,
    )


# ---------------------------------------------------------------- vessels


def _vessel_words(vessel: Vessel, kitchen: Kitchen) -> str:
    same = [each for each in kitchen.vessels if each.name.casefold() == vessel.name.casefold()]
    return vessel.name if _plain(vessel.name) and len(same) == 1 else vessel.id


def read_vessels(text: str, kitchen: Kitchen) -> tuple[VesselUse, ...]:
    """Return vessels by name or id: "Roasting tin, 2 x Frying pan"; none from ""."""
    return tuple(_vessel(part.strip(), kitchen) for part in re.split("[,;]", text) if part.strip())


def _vessel(part: str, kitchen: Kitchen) -> VesselUse:
    known = {each.name.casefold(): each.id for each in reversed(kitchen.vessels)}
    known |= {str(each.id): each.id for each in kitchen.vessels}
    if part.casefold() in known:
        return VesselUse(VesselId(known[part.casefold()]))
    met = _COUNTED.fullmatch(part)
    if met is not None and met[2].casefold() in known:
        return VesselUse(VesselId(known[met[2].casefold()]), int(met[1]))
    from core.intake.text.nearest import nearest

    name = part if met is None else met[2]
    meant = nearest(name.casefold(), known)
    mend = f'did you mean "{meant}"? If not, add it under Kitchen.' if meant else "add it under Kitchen."
    raise Refusal(f"There is no vessel {quoted(name)} in the kitchen; {mend}")


def show_vessels(uses: tuple[VesselUse, ...], kitchen: Kitchen) -> str:
    """Return vessels as typed."""

    def words(use: VesselUse) -> str:
        vessel = kitchen.vessel.get(use.vessel)
        name = str(use.vessel) if vessel is None else _vessel_words(vessel, kitchen)
        return name if use.count == 1 else f"{use.count} x {name}"

    return ", ".join(words(use) for use in uses)


def vessels_of(kitchen: At) -> Typed:
    """Return how vessels are typed in the kitchen of the moment."""
    return Typed(
        lambda text: read_vessels(text, kitchen()),
        lambda uses: show_vessels(uses, kitchen()),
        lambda: [_vessel_words(each, kitchen()) for each in kitchen().vessels],
        ", ",
        wraps=True,
    )


# ---------------------------------------------------------------- waits


def read_keep(text: str, kitchen: Kitchen) -> Keep:
    """Return how long a finished thing may wait, and how: "up to 20 min, on the counter"; "" for any time."""
    from core.intake.text.waits import KeepText

    keep: Keep = read_short(KeepText, _with_ids(text.strip() or "any time", kitchen)).keep()
    return keep


def show_keep(keep: Keep, kitchen: Kitchen) -> str:
    """Return how long a finished thing may wait as typed."""
    from core.intake.text.waits import keep_out

    words = shown(keep_out(keep))
    if keep.wait == Wait():
        words = f"{words}, {keep.wait.how.value}"
    return _with_names(words, keep.wait.use, kitchen)


def keep_of(kitchen: At) -> Typed:
    """Return how it is typed how long a dish may wait."""
    return Typed(
        lambda text: read_keep(text, kitchen()),
        lambda keep: show_keep(keep, kitchen()),
        keep_offers,
        wraps=True,
    )


def keep_if_any_of(kitchen: At) -> Typed:
    """Return how it is typed how long a step's food may wait, where that differs from its dish."""
    how = keep_of(kitchen)
    return Typed(optional(how.read), if_any(how.show), keep_offers, wraps=True)


def keep_offers() -> list[str]:
    """Return usual ways in which a finished thing waits."""
    return [
        "at once, on the counter",
        "up to 10 min, on the counter",
        "up to 30 min, in its vessel",
        "up to 1 h, held hot",
        "any time, on the counter",
    ]


def read_how(text: str, kitchen: Kitchen) -> tuple[Wait, Quantity | None]:
    """Return how food waits between two steps, and what a by-product comes to; "" is on the counter."""
    from core.intake.text.waits import WaitText

    read = read_short(WaitText, _with_ids(text.strip() or "on the counter", kitchen))
    if read.least or read.most is not None:
        raise Refusal(f"{quoted(text)}: how long it waits belongs in the two fields before this one.")
    return read.wait(), read.brings


def show_how(how: tuple[Wait, Quantity | None], kitchen: Kitchen) -> str:
    """Return how food waits as typed."""
    from core.intake.text.waits import wait_words

    wait, brings = how
    words = wait_words(0, None, wait, brings)
    if wait == Wait():
        words = ", ".join(each for each in (wait.how.value, words) if each)
    return _with_names(words, wait.use, kitchen)


def how_of_link(link: Link) -> tuple[Wait, Quantity | None]:
    """Return how the food of a link waits."""
    return link.wait, link.brings


def how_of(kitchen: At) -> Typed:
    """Return how it is typed how food waits."""
    return Typed(
        lambda text: read_how(text, kitchen()),
        lambda how: show_how(how, kitchen()),
        lambda: ["on the counter", "in the fridge, 30x20 cm, 8 cm", "in its vessel", "held hot", "in the freezer"],
        wraps=True,
    )


def station_named(kitchen: Kitchen, station: StationId) -> str:
    """Return the words for a station."""
    found = kitchen.station.get(station)
    return str(station) if found is None else found.name
