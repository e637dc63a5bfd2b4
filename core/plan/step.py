"""A step of a dish: what is done, how long, who, where, in what. Minutes, whole °C, cm and cm2 throughout."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.measures.quantity import Quantity
from core.plan.food import FoodCare
from core.plan.ids import StationId, StepId, VesselId
from core.plan.kitchen import StationKind


class Attention(StrEnum):
    """How much of a cook a step takes."""

    HANDS_ON = "hands-on"
    TENDED = "tended"
    HANDS_OFF = "hands-off"


class Manner(StrEnum):
    """Which of a step's three lengths the timetable reserves."""

    LIKELY = "likely"
    SAFE = "safe where it can wait"
    HIGH = "high"


class Holding(StrEnum):
    """How food waits."""

    COUNTER = "on the counter"
    FRIDGE = "in the fridge"
    FREEZER = "in the freezer"
    HOT = "held hot"
    VESSEL = "in its vessel"


@dataclass(frozen=True, slots=True)
class Span:
    """A length in minutes: quick, likely and slow."""

    low: int
    likely: int
    high: int

    @classmethod
    def of(cls, minutes: int) -> Span:
        """Return a span with no spread."""
        return cls(minutes, minutes, minutes)


@dataclass(frozen=True, slots=True)
class Touch:
    """A cook's visit to a step that otherwise cooks by itself.

    `at` counts minutes from the step's start, or, `from_end`, from the touch's end to the step's end.
    """

    at: int
    minutes: int = 1
    does: str = ""
    from_end: bool = False
    skill: str = ""


@dataclass(frozen=True, slots=True)
class Heat:
    """The temperature a step wants: the recipe's setting and the range it bears, in whole °C.

    `steady` False: the food may be inside while the place still changes to this setting
    (a roast that is turned down), so no change time is needed before it.
    """

    setting: int
    low: int
    high: int
    steady: bool = True


@dataclass(frozen=True, slots=True)
class Use:
    """A share of a station while a step runs or food waits.

    `units` are racks, rings, grate places or slots; in a place with shelves `area` (cm2) and `height` (cm)
    say what one shelf must give. `station` narrows the kind to one named station.
    """

    kind: StationKind
    units: int = 1
    station: StationId | None = None
    area: int = 0
    height: int = 0
    raw: bool = False
    heat: Heat | None = None


@dataclass(frozen=True, slots=True)
class VesselUse:
    """So many vessels of a kind."""

    vessel: VesselId
    count: int = 1


@dataclass(frozen=True, slots=True)
class Wait:
    """How and where food waits; `use` None: the place is not scarce."""

    how: Holding = Holding.COUNTER
    use: Use | None = None


@dataclass(frozen=True, slots=True)
class Keep:
    """How long a finished thing may wait until it is served (None: no limit in minutes), and how."""

    most: int | None = None
    wait: Wait = Wait()


@dataclass(frozen=True, slots=True)
class Loads:
    """A step done load by load: pieces for the servings written, pieces a load holds, minutes between loads."""

    pieces: int
    per_load: int
    change_over: int = 0


@dataclass(frozen=True, slots=True)
class Doneness:
    """When it is done: a cue in words, a core temperature in °C, minutes of rest that belong to it."""

    cue: str = ""
    core: int | None = None
    rest: int | None = None


@dataclass(frozen=True, slots=True)
class ClockTime:
    """A wall-clock time the world sets: calendar days before plating's day, minute of that day."""

    days_before: int
    minute: int


@dataclass(frozen=True, slots=True)
class Yield:
    """A by-product that other dishes use: what, and how much of it for the servings written."""

    item: str
    quantity: Quantity


@dataclass(frozen=True, slots=True)
class Alternative:
    """Another way to do a step: its own length and places."""

    name: str
    length: Span
    uses: tuple[Use, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a dish. `length` is that of one load when the step has loads.

    `put_in` and `take_out` are minutes of a cook at either end (None: the plan's transfer time, where it applies);
    `earliest` is an offset from plating that the start may not precede, `latest` one that the end may not pass;
    `keeps` overrides the dish's waiting limit where this step is one of its last. `least_piece`: a hands-on step
    for one cook may be done in pieces of at least so many minutes. `yields`: what links may bring elsewhere.
    `food`: what it does to its food, where place, heat and words do not tell.
    """

    id: StepId
    does: str
    length: Span
    attention: Attention = Attention.HANDS_ON
    hands: int = 1
    skill: str = ""
    touches: tuple[Touch, ...] = ()
    put_in: int | None = None
    take_out: int | None = None
    uses: tuple[Use, ...] = ()
    vessels: tuple[VesselUse, ...] = ()
    loads: Loads | None = None
    least_piece: int | None = None
    doneness: Doneness | None = None
    earliest: int | None = None
    latest: int | None = None
    clock: ClockTime | None = None
    keeps: Keep | None = None
    alternatives: tuple[Alternative, ...] = ()
    note: str = ""
    yields: Yield | None = None
    food: FoodCare | None = None
