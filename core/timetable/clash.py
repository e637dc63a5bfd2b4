"""A clash: a fact about a timetable, with minutes and a sentence."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.plan.ids import CookId, StationId, StepId, VesselId


class ClashKind(StrEnum):
    """What a timetable can have wrong."""

    MISSING = "missing from the timetable"
    NOT_AS_IT_WAS = "not as it happened"
    BEFORE_NOW = "before now"
    LENGTH = "wrong length"
    WRONG_PLACE = "wrong place"
    OVEN_TEMPERATURE = "oven temperature"
    HEATING_MISSING = "heating time missing"
    NO_FIRE = "no fire"
    TOO_MANY_FIRES = "too many fires"
    OVER_FULL = "station over-full"
    NOT_BOTH = "not both at once"
    VESSEL_SHORT = "vessel short"
    HANDS_SHORT = "hands short"
    COOK_ABSENT = "cook absent"
    NO_WALK = "no time to walk"
    WAITED_TOO_LONG = "waited too long"
    WAIT_TOO_SHORT = "not waited long enough"
    OUT_OF_ORDER = "out of order"
    TOO_EARLY = "too early"
    LATE = "late at the table"
    PIN_MOVED = "not where it was pinned"
    FOOD_SAFETY = "food-safety limit"


@dataclass(frozen=True, slots=True)
class Clash:
    """One clash: kind, what is involved, the minutes it covers (offsets, end may equal start), by how much, in words.

    `by` is in the unit of its kind: minutes, units of a station, cm2 of shelf, vessels, cooks, fires or °C.
    """

    kind: ClashKind
    sentence: str
    start: int
    end: int
    steps: tuple[StepId, ...] = ()
    stations: tuple[StationId, ...] = ()
    vessels: tuple[VesselId, ...] = ()
    cooks: tuple[CookId, ...] = ()
    by: int = 0
