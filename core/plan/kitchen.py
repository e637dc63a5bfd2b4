"""The kitchen: stations, vessels, cooks. Minutes, whole °C, cm and cm2."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from itertools import combinations

from core.plan.ids import CookId, StationId, VesselId


class StationKind(StrEnum):
    """Kinds of places where a step happens or food waits."""

    OVEN = "oven"
    GRILL = "grill"
    BURNER = "burner"
    SMOKER = "smoker"
    FRIDGE = "fridge"
    FREEZER = "freezer"
    COLD_COUNTER = "cold counter"
    WARM_DRAWER = "warm drawer"
    HOT_BOX = "hot box"
    ROOM = "room"
    MACHINE = "machine"


HEATED = frozenset({StationKind.OVEN, StationKind.GRILL, StationKind.SMOKER, StationKind.WARM_DRAWER})
"""Kinds whose stations have one temperature at a time."""
COLD = frozenset({StationKind.FRIDGE, StationKind.FREEZER, StationKind.COLD_COUNTER})


@dataclass(frozen=True, slots=True)
class Shelf:
    """One shelf of a cold place, area in cm2 and clear height in cm. The first of a place is the lowest."""

    area: int
    height: int
    name: str = ""


@dataclass(frozen=True, slots=True)
class Heater:
    """How a station heats: settings in °C, minutes from cold as measured points, rates in °C a minute.

    `keep_on`: a pause of at most so many minutes is not worth switching off for. `full`: per cent that a step
    takes longer when all units are taken at some minute of it and another dish is inside too. `offset`: °C that
    it is hotter than its dial says; to have 190 in one that runs 10 hot, the dial is set to 180.
    """

    lowest: int = 50
    highest: int = 250
    from_cold: tuple[tuple[int, int], ...] = ((200, 18),)
    up: float = 5.0
    down: float = 5.0
    keep_on: int = 30
    cold: int = 20
    full: int = 0
    offset: int = 0


@dataclass(frozen=True, slots=True)
class Window:
    """A span of wall-clock time: calendar days before plating's day, from minute to minute of that day.

    `to_minute` may pass 1440: the span runs into the next day.
    """

    days_before: int
    from_minute: int
    to_minute: int


@dataclass(frozen=True, slots=True)
class Station:
    """A place of the kitchen. `hours` empty: always there (a cool box is cold for some hours only).

    `place` tells rooms apart (kitchen, terrace). A fire has `lighting` minutes until it is ready, of which the
    first `laying` take a cook, and `burns` for so many minutes from then (None: as long as one likes); it may be
    lit `fires` times. `not_with` names stations of the same appliance: oven or grill, but not both at once.
    `wide` and `deep` are its measures inside in cm (0: not told). `keeps_at`: °C that a thermometer shows in a
    place that is not heated (a fridge, a terrace); None: not told.
    """

    id: StationId
    name: str
    kind: StationKind
    units: int = 1
    shelves: tuple[Shelf, ...] = ()
    heater: Heater | None = None
    fan: bool = False
    place: str = "kitchen"
    hours: tuple[Window, ...] = ()
    lighting: int = 0
    burns: int | None = None
    laying: int = 5
    fires: int = 1
    not_with: tuple[StationId, ...] = ()
    wide: int = 0
    deep: int = 0
    keeps_at: int | None = None

    @property
    def is_fire(self) -> bool:
        """Tell whether it must be lit, or burns out."""
        return self.lighting > 0 or self.burns is not None


@dataclass(frozen=True, slots=True)
class Vessel:
    """A kind of vessel or tool: how many there are, its size in words, minutes to wash between uses (0: none).

    `by_hand`: washing takes a cook; else it takes its minutes only. `fits`: the stations it goes on or into
    (empty: by its size where both sizes are told, else anywhere).
    """

    id: VesselId
    name: str
    count: int = 1
    size: str = ""
    washing: int = 5
    by_hand: bool = True
    fits: tuple[StationId, ...] = ()


@dataclass(frozen=True, slots=True)
class Cook:
    """Somebody who works. `present` empty: every day. Nights are absences: (from, to) minutes of the clock, or None."""

    id: CookId
    name: str
    skills: tuple[str, ...] = ()
    present: tuple[Window, ...] = ()
    breaks: tuple[Window, ...] = ()
    night: tuple[int, int] | None = (23 * 60, 7 * 60)


@dataclass(frozen=True)
class Kitchen:
    """Stations, vessels and cooks of one household; `walk` minutes lie between stations in different places.

    `room`: °C of its rooms while the food is made; None: not told.
    """

    name: str = "Home kitchen"
    stations: tuple[Station, ...] = ()
    vessels: tuple[Vessel, ...] = ()
    cooks: tuple[Cook, ...] = ()
    walk: int = 1
    room: int | None = None

    @cached_property
    def apart(self) -> tuple[tuple[Station, Station], ...]:
        """Pairs of stations that are never used at once, whichever of them says so, in the kitchen's order."""
        return tuple(
            (one, other)
            for one, other in combinations(self.stations, 2)
            if one.id in other.not_with or other.id in one.not_with
        )

    @cached_property
    def station(self) -> dict[StationId, Station]:
        """Stations by id."""
        return {each.id: each for each in self.stations}

    @cached_property
    def vessel(self) -> dict[VesselId, Vessel]:
        """Vessels by id."""
        return {each.id: each for each in self.vessels}

    @cached_property
    def cook(self) -> dict[CookId, Cook]:
        """Cooks by id."""
        return {each.id: each for each in self.cooks}

    def of_kind(self, kind: StationKind) -> tuple[Station, ...]:
        """Return the stations of one kind, in the kitchen's order."""
        return tuple(each for each in self.stations if each.kind is kind)
