"""What a run sheet is made of: a line for each thing to do, the lines of a day, the days of a plan."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from core.plan.ids import StationId, StepId, VesselId

if TYPE_CHECKING:
    from core.sheets.strip import Strip


class Act(StrEnum):
    """What a line asks of the cook. DO, TOUCH, LIGHT and WASH are told by the line's own verb, others by this word.

    MORE goes on with a step that is done in parts.
    """

    DO = "DO"
    MORE = "GO ON"
    IN = "IN"
    OUT = "OUT"
    ON = "ON"
    OFF = "OFF"
    SET = "SET"
    START = "START"
    READY = "READY"
    TOUCH = "TOUCH"
    LIGHT = "LIGHT"
    WASH = "WASH"
    SERVE = "SERVE"


BEGINS = frozenset({Act.DO, Act.IN, Act.ON, Act.START})
"""Acts with which a load of a step begins: each load has exactly one line with one of them."""


@dataclass(frozen=True, slots=True)
class Served:
    """A dish to tick off at the pass: code, name, how it is plated, allergens noted, guests that it is not for."""

    code: str
    dish: str
    plating: str = ""
    allergens: tuple[str, ...] = ()
    not_for: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to do: when (offset from plating, clock, T-minus), what, of which dish, who.

    `details` are the short facts in the order they are read: place, length, when it is done, what waits until when.
    `minutes` is how long the cook is held (0: a moment, or nobody). `step` and `load` tell what it is of;
    `station` what is heated or lit, `vessel` what is washed. A SERVE line has `served` instead. `core` is the
    °C that the probe is to show now; `heat` are marks of the dishes that cook by themselves from this line on, lane
    by lane.
    """

    at: int
    clock: str
    tminus: str
    act: Act
    does: str
    code: str = ""
    dish: str = ""
    details: tuple[str, ...] = ()
    who: str = ""
    minutes: int = 0
    step: StepId | None = None
    load: int = 0
    station: StationId | None = None
    vessel: VesselId | None = None
    served: tuple[Served, ...] = ()
    core: int | None = None
    heat: tuple[str, ...] = ()

    @property
    def begins(self) -> bool:
        """Return whether a load of a step begins with this line."""
        return self.step is not None and self.act in BEGINS


@dataclass(frozen=True, slots=True)
class SheetDay:
    """The lines of one calendar day: its title, where it stands to the day of plating, what is odd about it."""

    day: date
    title: str
    about: str
    lines: tuple[Line, ...]
    note: str = ""
    strip: Strip | None = None


@dataclass(frozen=True, slots=True)
class RunSheet:
    """All days of a plan, with its name and serving times, the clashes that remain and the usual cautions.

    `whose` copy it is: a cook's or a station's name; "" everybody's. `alone`: one cook does it all, so no line need
    say who.
    """

    name: str
    serving: str
    days: tuple[SheetDay, ...]
    courses: str = ""
    clashes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    whose: str = ""
    alone: bool = False
