"""What the timeline shows, in minutes and rows: bars, tails, shades and lanes. No pixels, no Qt."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from core.plan.ids import CookId, DishId, StationId, StepId, VesselId
from core.plan.kitchen import Station
from core.timetable.load import Level

Key = tuple[StepId, int]
"""A step and its load."""


class BarKind(StrEnum):
    """What a bar stands for."""

    STEP = "step"
    HAND = "hand"
    STAY = "stay"
    HEATING = "heating"
    LIGHTING = "lighting"
    FIRE = "fire"
    CHORE = "chore"
    WALK = "walk"
    VESSEL = "vessel"
    UNWASHED = "unwashed"


class LaneKind(StrEnum):
    """What a lane stands for."""

    STATION = "station"
    WORKTOP = "worktop"
    COOK = "cook"
    DISH = "dish"
    VESSEL = "vessel"


@dataclass(frozen=True, slots=True)
class Tail:
    """Food that waits from start to end; after `limit` it no longer should (None: it may all the time)."""

    start: int
    end: int
    limit: int | None = None

    @property
    def sound_until(self) -> int:
        """Return the minute up to which the wait is as it should be."""
        return self.end if self.limit is None else max(self.start, min(self.end, self.limit))


@dataclass(frozen=True, slots=True)
class Notch:
    """A touch: minutes from plating and what is done."""

    start: int
    minutes: int
    does: str = ""


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar of a lane, half-open in minutes from plating, over `rows` rows from `row` down; below 0 in the crown.

    `full`: hands are on all the time; `pieces`: only then, with pauses between. `says` are the texts to try, longest
    first. `setting` in °C where it stands in a heated place; `vessel`: what is in use or washed; `until`: the next bar
    in its rows begins.
    """

    kind: BarKind
    start: int
    end: int
    step: StepId | None = None
    load: int = 0
    row: int = 0
    rows: int = 1
    full: bool = False
    tone: int = 0
    code: str = ""
    says: tuple[str, ...] = ()
    notches: tuple[Notch, ...] = ()
    pieces: tuple[Notch, ...] = ()
    tail: Tail | None = None
    pinned: bool = False
    station: StationId | None = None
    cook: CookId | None = None
    setting: int | None = None
    vessel: VesselId | None = None
    until: int | None = None

    @property
    def key(self) -> Key | None:
        """Return step and load, or None for heating up, fires and chores."""
        return None if self.step is None else (self.step, self.load)

    @property
    def crowned(self) -> bool:
        """Tell whether it stands in its lane's crown."""
        return self.row < 0

    @property
    def told(self) -> bool:
        """Tell whether keys stop at it and readers hear of it."""
        return self.step is not None or self.kind in _TOLD

    @property
    def reach(self) -> int:
        """Return where the bar and its tail end."""
        return self.end if self.tail is None else max(self.end, self.tail.end)

    @property
    def moves(self) -> bool:
        """Tell whether the cook may drag it."""
        return self.step is not None and self.kind in (BarKind.STEP, BarKind.HAND)


_TOLD = frozenset({BarKind.LIGHTING, BarKind.FIRE, BarKind.CHORE, BarKind.VESSEL})


@dataclass(frozen=True, slots=True)
class Shade:
    """A stretch of a lane (or of all lanes) when somebody or something is not there, with a word for it."""

    start: int
    end: int
    says: str


@dataclass(frozen=True, slots=True)
class Track:
    """A shelf inside a lane: its rows (the last is its gauge), its area in cm2, how full it is from when on."""

    name: str
    row: int
    rows: int
    area: int
    filling: tuple[Level, ...] = ()


@dataclass(frozen=True)
class Lane:
    """One lane. `rows` are drawn, the first `room` of them exist (racks, rings), the rest is over-full.

    `row_share` scales the height of its rows; `joined` lanes follow the one above without a gap; a `crown` is
    so many rows of room above, for figures and fires. A `line` is folded: its rows are strokes in a few points. The
    last `words` of its rows are for texts that hang below its bars.
    """

    id: str
    kind: LaneKind
    name: str
    bars: tuple[Bar, ...] = ()
    rows: int = 1
    room: int | None = None
    row_share: float = 1.0
    icon: str = ""
    code: str = ""
    tone: int = 0
    dish: DishId | None = None
    station: Station | None = None
    cook: CookId | None = None
    tracks: tuple[Track, ...] = ()
    shades: tuple[Shade, ...] = ()
    joined: bool = False
    crown: int = 0
    line: bool = False
    words: int = 0

    @cached_property
    def starts(self) -> tuple[int, ...]:
        """Starts of the bars, which are sorted by them."""
        return tuple(bar.start for bar in self.bars)

    @cached_property
    def longest(self) -> int:
        """Length of the longest bar with its tail."""
        return max((bar.reach - bar.start for bar in self.bars), default=0)
