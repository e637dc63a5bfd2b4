"""Stations, vessels and cooks as typed, and back."""

from __future__ import annotations

import re
from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, Field, PlainValidator, WithJsonSchema

from core.intake.text.dishes import Words
from core.intake.text.entry import Entry, OneOrMore, listed
from core.intake.text.places import Celsius, KindText, Typed, celsius_in, celsius_out
from core.intake.text.scalars import Minutes, PerCent, is_whole, minutes_out, wrong
from core.intake.text.windows import NightText, WindowText, night_out, window_out
from core.measures.heat import parse_heat_range
from core.measures.minutes import parse_minutes, show_minutes
from core.measures.refusal import Refusal, quoted
from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import Cook, Heater, Shelf, Station, StationKind, Vessel

_SHELF = re.compile(
    r"(?:([\d,]+) ?(?:cm2|cm²)|(\d+) ?x ?(\d+) ?cm), *(\d+) ?cm(?: high)?(?:: *(.*))?", re.DOTALL
)
_INSIDE = re.compile(r"(\d{1,5}) ?[x×] ?(\d{1,5})(?: ?cm)?")
_POINT = re.compile(r"(.+?) in (.+)")
_RATE = re.compile(r"([\d.]+) ?°?c? (?:a|per) minute", re.IGNORECASE)


class ShelfText(Entry):
    """One shelf of a cold place."""

    short: ClassVar[str] = (
        'area, clear height and perhaps a name: "2000 cm2, 18 cm"; "50x40 cm, 26 cm: lowest"'
    )

    area: int
    """Area in cm2."""
    height: int
    """Clear height in cm."""
    name: str = ""
    """What it is called."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        met = _SHELF.fullmatch(text.strip())
        if met is None:
            raise Refusal(f'{quoted(text)}: write a shelf as "2000 cm2, 18 cm" or "50x40 cm, 26 cm: lowest".')
        area = int(met[1].replace(",", "")) if met[1] else int(met[2]) * int(met[3])
        return {"area": area, "height": int(met[4]), "name": (met[5] or "").strip()}


def shelf_out(shelf: Shelf) -> Any:
    """Return a shelf as typed."""
    text = f"{shelf.area} cm2, {shelf.height} cm" + (f": {shelf.name}" if shelf.name else "")
    table = {"area": shelf.area, "height": shelf.height, "name": shelf.name}
    try:
        return text if ShelfText.from_short(text) == table else table
    except Refusal:
        return table


def settings_in(value: object) -> tuple[int, int]:
    """Return lowest and highest setting in C from "50 to 250 C" or a list of two."""
    if isinstance(value, list) and len(value) == len(("lowest", "highest")):
        return celsius_in(value[0]), celsius_in(value[1])
    if not isinstance(value, str):
        raise wrong(value, 'a pair of temperatures; write "50 to 250 C"')
    low, _setting, high = parse_heat_range(value, tolerance=0)
    return low, high


def point_in(value: object) -> tuple[int, int]:
    """Return (degrees C, minutes) from "200 C in 18 min" or a list of two."""
    if isinstance(value, list) and len(value) == len(("degrees", "minutes")):
        return celsius_in(value[0]), parse_minutes(str(value[1]))
    met = _POINT.fullmatch(value) if isinstance(value, str) else None
    if met is None:
        raise wrong(value, 'a temperature and its minutes; write "200 C in 18 min"')
    return celsius_in(met[1]), parse_minutes(met[2])


def rate_in(value: object) -> float:
    """Return degrees C a minute from a number or "5 C a minute"."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value)
    met = _RATE.fullmatch(value.strip()) if isinstance(value, str) else None
    if met is None:
        raise wrong(value, "a number of degrees a minute; write 5")
    return float(met[1])


SettingsText = Annotated[
    tuple[int, int],
    PlainValidator(settings_in),
    WithJsonSchema({"type": ["string", "array"], "description": 'lowest and highest setting: "50 to 250 C"'}),
]
PointText = Annotated[
    tuple[int, int],
    PlainValidator(point_in),
    WithJsonSchema({"type": ["string", "array"], "description": 'minutes from cold: "200 C in 18 min"'}),
]
RateText = Annotated[
    float,
    PlainValidator(rate_in),
    WithJsonSchema({"type": ["number", "string"], "description": "degrees C a minute: 5"}),
]


class HeaterText(Entry):
    """How a station heats."""

    settings: SettingsText = (Heater().lowest, Heater().highest)
    """Lowest and highest setting."""
    from_cold: list[PointText] = Field(default_factory=lambda: list(Heater().from_cold))
    """Minutes from cold to a setting, one or more, rising; [] for a place that needs no heating up."""
    up: RateText = Heater().up
    """Degrees C a minute it climbs while hot."""
    down: RateText = Heater().down
    """Degrees C a minute it falls."""
    keep_on: Minutes = Heater().keep_on
    """A pause up to so long is not worth switching off for."""
    cold: Celsius = Heater().cold
    """Its temperature when cold."""
    full: PerCent = Heater().full
    """Per cent that everything takes longer while it is full and not with one dish alone."""
    offset: int = Heater().offset
    """Degrees C that it is hotter than its dial says; -10: colder."""

    def heater(self) -> Heater:
        """Return the heater."""
        low, high = self.settings
        points = tuple(self.from_cold)
        return Heater(low, high, points, self.up, self.down, self.keep_on, self.cold, self.full, self.offset)


def heater_out(heater: Heater) -> Typed:
    """Return a heater as typed, in full."""
    settings: Any = f"{heater.lowest} to {heater.highest} C"
    try:
        fits = settings_in(settings) == (heater.lowest, heater.highest)
    except Refusal:
        fits = False
    return {
        "settings": settings if fits else [heater.lowest, heater.highest],
        "from_cold": [point_out(point) for point in heater.from_cold],
        "up": heater.up,
        "down": heater.down,
        "keep_on": minutes_out(heater.keep_on),
        "cold": celsius_out(heater.cold),
        "full": heater.full,
        **({"offset": heater.offset} if heater.offset else {}),
    }


def point_out(point: tuple[int, int]) -> Any:
    """Return a measured point as typed."""
    text = f"{celsius_out(point[0])} in {show_minutes(point[1])}"
    try:
        return text if point_in(text) == point else list(point)
    except Refusal:
        return list(point)


def inside_in(value: object) -> tuple[int, int]:
    """Return wide and deep in cm from "46x38 cm" or a list of two whole numbers; 0: not told."""
    if isinstance(value, list) and len(value) == len(("wide", "deep")) and all(map(is_whole, value)):
        return value[0], value[1]
    met = _INSIDE.fullmatch(value.strip()) if isinstance(value, str) else None
    if met is None:
        raise wrong(value, 'a width and a depth; write "46x38 cm"')
    return int(met[1]), int(met[2])


def inside_out(wide: int, deep: int) -> Any:
    """Return wide and deep as typed."""
    return [wide, deep] if wide < 0 or deep < 0 else f"{wide}x{deep} cm"


InsideText = Annotated[
    tuple[int, int],
    PlainValidator(inside_in),
    WithJsonSchema({"type": ["string", "array"], "description": 'wide and deep inside: "46x38 cm"'}),
]
_PLAIN = Station(StationId(""), "", StationKind.OVEN)
Windows = Annotated[list[WindowText], BeforeValidator(listed), OneOrMore()]


class StationText(Entry):
    """A place of the kitchen where something happens or food waits."""

    name: str
    """What it is called."""
    kind: KindText
    """What it is."""
    units: int = 1
    """Racks, rings, grate places or slots."""
    shelves: list[ShelfText] = Field(default_factory=list)
    """Shelves of a cold place, the lowest first."""
    heater: HeaterText | None = None
    """How it heats; left out: it has no temperature of its own."""
    fan: bool = False
    """A fan oven."""
    place: str = "kitchen"
    """The room or terrace it stands in."""
    hours: Windows = Field(default_factory=list)
    """When it is there; left out: always."""
    lighting: Minutes = 0
    """Minutes to light, for a fire."""
    burns: Minutes | None = None
    """Minutes that a fire lasts."""
    laying: Minutes = _PLAIN.laying
    """The first minutes of lighting, which take a cook."""
    fires: int = _PLAIN.fires
    """How often it may be lit."""
    not_with: Words = Field(default_factory=list)
    """Ids of stations that are never used while this one is: the grill of an oven."""
    inside: InsideText = (0, 0)
    """Its measures inside, wide and deep: "46x38 cm"; left out: not told."""
    keeps_at: Celsius | None = None
    """What a thermometer shows in a place that is not heated: "4 C"; left out: not told."""

    def station(self, station: StationId) -> Station:
        """Return the station."""
        return Station(
            id=station,
            name=self.name,
            kind=self.kind,
            units=self.units,
            shelves=tuple(Shelf(each.area, each.height, each.name) for each in self.shelves),
            heater=None if self.heater is None else self.heater.heater(),
            fan=self.fan,
            place=self.place,
            hours=tuple(self.hours),
            lighting=self.lighting,
            burns=self.burns,
            laying=self.laying,
            fires=self.fires,
            not_with=tuple(StationId(each) for each in self.not_with),
            wide=self.inside[0],
            deep=self.inside[1],
            keeps_at=self.keeps_at,
        )


def station_out(station: Station) -> Typed:
    """Return a station as typed."""
    found: Typed = {"name": station.name, "kind": station.kind.value}
    found |= _unusual(station, ("units", "fan", "place"))
    if station.shelves:
        found["shelves"] = [shelf_out(each) for each in station.shelves]
    if station.heater is not None:
        found["heater"] = heater_out(station.heater)
    if station.hours:
        found["hours"] = [window_out(each) for each in station.hours]
    if station.lighting:
        found["lighting"] = minutes_out(station.lighting)
    if station.burns is not None:
        found["burns"] = minutes_out(station.burns)
    if station.laying != _PLAIN.laying:
        found["laying"] = minutes_out(station.laying)
    found |= _unusual(station, ("fires",))
    if station.not_with:
        found["not_with"] = [str(each) for each in station.not_with]
    if station.wide or station.deep:
        found["inside"] = inside_out(station.wide, station.deep)
    if station.keeps_at is not None:
        found["keeps_at"] = celsius_out(station.keeps_at)
    return found


def _unusual(station: Station, keys: tuple[str, ...]) -> Typed:
    return {key: value for key in keys if (value := getattr(station, key)) != getattr(_PLAIN, key)}


class VesselText(Entry):
    """A kind of vessel or tool."""

    short: ClassVar[str] = "the name of a vessel of which there is one"

    name: str
    """What it is called."""
    count: int = 1
    """How many there are."""
    size: str = ""
    """Its size in words."""
    washing: Minutes = 5
    """Minutes to wash it between two uses; 0: none."""
    by_hand: bool = True
    """False: a machine washes it, which takes no cook."""
    fits: Words = Field(default_factory=list)
    """Ids of the stations it goes on or into; left out: by its size, where both sizes are told, else anywhere."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        return {"name": text}

    def vessel(self, vessel: VesselId) -> Vessel:
        """Return the vessel."""
        fits = tuple(StationId(each) for each in self.fits)
        return Vessel(vessel, self.name, self.count, self.size, self.washing, self.by_hand, fits)


def vessel_out(vessel: Vessel) -> Typed:
    """Return a vessel as typed."""
    found: Typed = {"name": vessel.name}
    if vessel.count != 1:
        found["count"] = vessel.count
    if vessel.size:
        found["size"] = vessel.size
    if vessel.washing != Vessel(vessel.id, "").washing:
        found["washing"] = minutes_out(vessel.washing)
    if not vessel.by_hand:
        found["by_hand"] = False
    if vessel.fits:
        found["fits"] = [str(each) for each in vessel.fits]
    return found


class CookText(Entry):
    """Somebody who works."""

    name: str
    """What they are called."""
    skills: Words = Field(default_factory=list)
    """What they can do, in words that steps ask for."""
    present: Windows = Field(default_factory=list)
    """When they are there; left out: every day."""
    breaks: Windows = Field(default_factory=list)
    """When they are not."""
    night: NightText = (23 * 60, 7 * 60)
    """When they sleep: "23:00-07:00"; "none" for no night."""

    def cook(self, cook: CookId) -> Cook:
        """Return the cook."""
        return Cook(cook, self.name, tuple(self.skills), tuple(self.present), tuple(self.breaks), self.night)


def cook_out(cook: Cook) -> Typed:
    """Return a cook as typed."""
    found: Typed = {"name": cook.name}
    if cook.skills:
        found["skills"] = list(cook.skills)
    if cook.present:
        found["present"] = [window_out(each) for each in cook.present]
    if cook.breaks:
        found["breaks"] = [window_out(each) for each in cook.breaks]
    if cook.night != Cook(cook.id, "").night:
        found["night"] = night_out(cook.night)
    return found
