"""The fields of a station, declared, which of them belong to which kind, and usual stations to begin from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QCoreApplication

from app.fields import Part, Picked, Spec, Ticked, attribute, by_key
from app.fields.typed_kitchen import PER_CENT, POINTS, RATE, SETTINGS, SHELVES, stations_of
from app.fields.typed_text import COUNT, SENTENCE, WORDS
from app.fields.typed_times import MINUTES, MINUTES_IF_ANY, WINDOWS
from app.look.words import kind_word
from app.places.kitchen.typed_sizes import INSIDE, OFFSET
from app.places.kitchen.typed_warmth import COLD_PLACE
from core.plan.edits import ChangeStation, Edit, Together
from core.plan.ids import StationId, fresh
from core.plan.kitchen import COLD, HEATED, Heater, Kitchen, Shelf, Station, StationKind

_FIRES = frozenset({StationKind.GRILL, StationKind.SMOKER})
_HEATER = ("settings", "offset", "from_cold", "up", "down", "keep_on", "full")
_UNHEATED = COLD | {StationKind.ROOM}  # kinds whose warmth a thermometer tells
_SIZED = HEATED | COLD | {StationKind.HOT_BOX}  # kinds that a vessel goes into
_RARE = ("inside", "keeps_at", "place", "hours", "up", "down", "keep_on", "full", "laying", "fires", "not_with")
_SHARED = HEATED | {StationKind.MACHINE}  # kinds of which two may be one appliance


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("StationFields", words)


def station_parts(kitchen: Callable[[], Kitchen], station: StationId) -> dict[str, Part]:
    """Return all fields of a station, which is to be found in the kitchen of the moment."""
    apart = tr("Stations that rest while this one is hot or in use: the grill in an oven's roof")
    hours = tr("day 0 is the day of plating: day -1 12:00 to day 1 00:00")
    tin = tr("What a tin has to go into: 46x38 cm")
    return by_key(
        [
            *_plain_parts(),
            *_shown_heat_parts(),
            *_shown_fire_parts(),
            _warmth_part(),
            Part(
                Spec("inside", tr("Inside, wide x deep"), INSIDE, tin, tr("not told")),
                lambda it: (it.wide, it.deep),
                lambda it, size: replace(it, wide=size[0], deep=size[1]),
            ),
            attribute(
                Spec("place", tr("Stands in"), WORDS, tr("Touches in another place cost the way there"))
            ),
            *_heat_parts(),
            *_fire_parts(),
            Part(
                Spec("not_with", tr("Not together with"), stations_of(kitchen, station), apart, tr("any")),
                lambda it: apart_from(it.id, kitchen()),
                lambda it, others: replace(it, not_with=others),
            ),
            attribute(Spec("hours", tr("There only"), WINDOWS, hours, tr("always"), grows=2)),
        ]
    )


def _warmth_part() -> Part:
    """Return the field of what the thermometer of a place without a heater shows."""
    shows = tr("On a shelf's middle, at its warmest hour: 4 C, 40 F; limits are judged by it")
    return attribute(Spec("keeps_at", tr("Its thermometer shows"), COLD_PLACE, shows, tr("not told")))


def _shown_fire_parts() -> list[Part]:
    """Return the fields of a fire that every cook knows of it."""
    ready = tr("Until the fire is ready; 0 for none")
    return [
        attribute(Spec("lighting", tr("Lighting takes"), MINUTES, ready)),
        attribute(
            Spec("burns", tr("Burns for"), MINUTES_IF_ANY, tr("From when it is ready"), tr("no limit"))
        ),
    ]


def _fire_parts() -> list[Part]:
    """Return the fields of a fire that seldom matter."""
    laying = tr("The first minutes: laying and lighting it")
    fires = tr("How many fires there are charcoal and time for")
    return [
        attribute(Spec("laying", tr("of which with a cook"), MINUTES, laying)),
        attribute(Spec("fires", tr("May be lit, times"), COUNT, fires)),
    ]


def _plain_parts() -> list[Part]:
    """Return the fields of what a station is and holds."""
    kinds = [(kind, kind_word(kind)) for kind in StationKind]
    shelves = tr("Area and height: 2000 cm2, 26 cm: lowest; 50x40 cm, 18 cm")
    return [
        attribute(Spec("name", tr("Name"), SENTENCE, grows=2)),
        attribute(Spec("kind", tr("What it is"), Picked(lambda: kinds))),
        attribute(Spec("units", tr("Places"), COUNT)),
        attribute(
            Spec(
                "shelves",
                tr("Shelves, the lowest first"),
                SHELVES,
                shelves,
                tr("none: counted by places"),
                grows=2,
            )
        ),
    ]


def _shown_heat_parts() -> list[Part]:
    """Return the fields of a heater that every cook knows of an oven."""
    cold = tr("Measured, one or several: 160 C in 10 min; 230 C in 25 min")
    off = tr(
        "By how much it is hotter or colder than its dial says: 10 C hot, 15 C cold; empty where the dial is true"
    )
    return [
        Part(Spec("heats", tr("keeps a set heat"), Ticked()), lambda it: it.heater is not None, _heats),
        attribute(Spec("fan", tr("has a fan"), Ticked())),
        Part(
            Spec("settings", tr("Goes from … to"), SETTINGS, "", "50 to 250 C"),
            lambda it: _range(it.heater),
            _with_range,
        ),
        _of_heater(
            Spec("offset", tr("Runs hot or cold by"), OFFSET, off, tr("true to its dial"), hint=dial_words)
        ),
        _of_heater(Spec("from_cold", tr("From cold"), POINTS, cold, "200 C in 18 min", grows=2)),
    ]


def dial_words(offset: int) -> str:
    """Return what the dial must say, by an example; '' where the dial is true."""
    wanted = 180
    return (
        tr("For {wanted} °C set the dial to {dial}").format(wanted=wanted, dial=wanted - offset)
        if offset
        else ""
    )


def _heat_parts() -> list[Part]:
    """Return the fields of how a heater goes up and down, and what it does when full."""
    full = tr("While all its places are taken, and not by one dish alone; usual are 10 to 15 %, 0 for never")
    return [
        _of_heater(Spec("up", tr("Warms, °C a minute"), RATE)),
        _of_heater(Spec("down", tr("Cools, °C a minute"), RATE)),
        _of_heater(Spec("keep_on", tr("Left on for pauses of"), MINUTES)),
        _of_heater(Spec("full", tr("Slower when full by"), PER_CENT, full)),
    ]


def apart_from(station: StationId, kitchen: Kitchen) -> tuple[StationId, ...]:
    """Return the stations never used at the same time as one: whichever of the two names the other."""
    own = kitchen.station[station].not_with if station in kitchen.station else ()
    naming = [each.id for each in kitchen.stations if station in each.not_with]
    return tuple(dict.fromkeys((*own, *naming)))


def kept_apart(station: StationId, others: tuple[StationId, ...], kitchen: Kitchen) -> Edit:
    """Return the edit by which a station is never used at the same time as these others, and as no more."""
    changed = [replace(kitchen.station[station], not_with=others)]
    for each in kitchen.stations:
        if each.id not in (station, *others) and station in each.not_with:
            rest = tuple(other for other in each.not_with if other != station)
            changed.append(replace(each, not_with=rest))
    edits = [ChangeStation(each.id, each) for each in changed]
    label = tr("Change {station}").format(station=changed[0].name)
    return edits[0] if len(edits) == 1 else Together(label, tuple(edits))


def keys_for(station: Station, kitchen: Kitchen) -> set[str]:
    """Return the keys of the fields that say something about this kind of station."""
    fire = station.kind in _FIRES or station.is_fire
    keys = {"name", "kind", "place", "hours"}
    keys |= {"units"} if not station.shelves else set()
    keys |= {"heats"} if station.kind in HEATED else set()
    keys |= set(_HEATER) if station.heater is not None else set()
    keys |= {"inside"} if station.kind in _SIZED or station.wide or station.deep else set()
    keys |= {"fan"} if station.kind is StationKind.OVEN else set()
    keys |= {"lighting", "burns"} if fire else set()
    keys |= {"laying"} if station.lighting else set()
    keys |= {"fires"} if station.is_fire else set()
    keys |= {"not_with"} if station.kind in _SHARED or apart_from(station.id, kitchen) else set()
    keys |= {"keeps_at"} if station.kind in _UNHEATED or station.keeps_at is not None else set()
    keys |= {"shelves"} if station.kind in COLD or station.shelves else set()
    return keys


def rare_keys(station: Station, kitchen: Kitchen) -> set[str]:
    """Return the keys of fields that seldom matter and say nothing unusual of this station."""
    plain = Station(station.id, station.name, station.kind)
    usual = {
        "inside": station.kind in COLD and (station.wide, station.deep) == (0, 0),
        "not_with": not apart_from(station.id, kitchen),
        "laying": station.laying == min(plain.laying, station.lighting or plain.laying),
        "place": station.place == plain.place,
        "keeps_at": station.kind is not StationKind.FRIDGE and station.keeps_at is None,
        "hours": not station.hours,
        "fires": station.fires == plain.fires,
    }
    heater, as_usual = station.heater or Heater(), Heater()
    for key in ("up", "down", "keep_on", "full"):
        usual[key] = getattr(heater, key) == getattr(as_usual, key)
    return {key for key in _RARE if usual[key]} & keys_for(station, kitchen)


def units_label(kind: StationKind) -> str:
    """Return what a station's units are called."""
    return {
        StationKind.OVEN: tr("Racks"),
        StationKind.BURNER: tr("Rings"),
        StationKind.GRILL: tr("Grate places"),
        StationKind.ROOM: tr("Places (0: as many as needed)"),
    }.get(kind, tr("Places"))


def usual_station(kind: StationKind, kitchen: Kitchen) -> Station:
    """Return a station of a kind as it is met in homes (common practice), to be adapted."""
    name = kind_word(kind)
    number = len(kitchen.of_kind(kind)) + 1
    name = name[:1].upper() + name[1:] + (f" {number}" if number > 1 else "")
    station = Station(StationId(fresh(name, kitchen.station)), name, kind)
    more: dict[StationKind, dict[str, Any]] = {
        StationKind.OVEN: {"units": 2, "heater": Heater(from_cold=((180, 14), (230, 24)))},
        StationKind.GRILL: {"units": 8, "lighting": 25, "burns": 60},
        StationKind.SMOKER: {"units": 2, "lighting": 30},
        StationKind.WARM_DRAWER: {"units": 2, "heater": Heater(30, 90, ((60, 15),), 2.0, 1.0)},
        StationKind.FRIDGE: {"shelves": (Shelf(1750, 20), Shelf(1750, 18), Shelf(1750, 18))},
        StationKind.FREEZER: {"shelves": (Shelf(1200, 16),)},
        StationKind.COLD_COUNTER: {"units": 4},
        StationKind.ROOM: {"units": 0},
    }
    return replace(station, **more.get(kind, {}))


def copied_station(station: Station, kitchen: Kitchen) -> Station:
    """Return a copy with a name and an id of its own: another appliance, which keeps apart from none."""
    taken = {each.name for each in kitchen.stations}
    stem = station.name.rstrip("0123456789").rstrip()
    number = 2
    while f"{stem} {number}" in taken:
        number += 1
    name = f"{stem} {number}"
    return replace(station, id=StationId(fresh(name, kitchen.station)), name=name, not_with=())


def _of_heater(spec: Spec) -> Part:
    def put(station: Station, value: Any) -> Station:
        return replace(station, heater=replace(station.heater or Heater(), **{spec.key: value}))

    return Part(spec, lambda station: getattr(station.heater or Heater(), spec.key), put)


def _heats(station: Station, heats: bool) -> Station:
    return replace(station, heater=Heater() if heats else None)


def _range(heater: Heater | None) -> tuple[int, int]:
    heater = heater or Heater()
    return heater.lowest, heater.highest


def _with_range(station: Station, settings: tuple[int, int]) -> Station:
    heater = station.heater or Heater()
    return replace(station, heater=replace(heater, lowest=settings[0], highest=settings[1]))
