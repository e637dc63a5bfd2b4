"""What a cook's line says: chips, faults, and the values of the step that it speaks of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from core.measures.refusal import Refusal
from core.plan.ids import StationId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import Link, LinkKind
from core.plan.step import Span, Step, Wait


class Says(StrEnum):
    """What a phrase of a line speaks of."""

    LABEL = "short name"
    LENGTH = "length"
    HEAT = "temperature"
    STEADY = "heat that changes"
    PLACE = "place"
    UNITS = "racks or rings"
    NO_PLACE = "no place"
    AREA = "area"
    HEIGHT = "height"
    RAW = "raw food"
    VESSEL = "vessel"
    ATTENTION = "attention"
    HANDS = "cooks"
    SKILL = "skill"
    TOUCH = "touch"
    LOADS = "loads"
    BETWEEN = "between loads"
    PUT_IN = "putting in"
    TAKE_OUT = "taking out"
    PIECE = "pieces"
    EARLIEST = "not before"
    LATEST = "done by"
    CLOCK = "clock"
    CUE = "done when"
    CORE = "core"
    RESTED = "rest after cooking"
    KEEP = "serving"
    WAIT = "wait"
    FOLLOWS = "what it follows"


@dataclass(frozen=True, slots=True)
class Chip:
    """One phrase that was understood: in plain words, with its place in the line (end not included).

    `implied`: nothing of the line says it; it follows from the verb, which is where start and end point.
    """

    kind: Says
    words: str
    start: int
    end: int
    value: Any
    implied: bool = False


@dataclass(frozen=True, slots=True)
class Fault:
    """A word that looks like a value but is none: where it stands, what to do, and what to write there instead."""

    start: int
    end: int
    sentence: str
    instead: str = ""


@dataclass(frozen=True, slots=True)
class LineWait:
    """How food waits for the step below: minutes at least and at most (None: no limit), and where."""

    least: int = 0
    most: int | None = None
    wait: Wait = Wait()

    def link(self, before: StepId, after: StepId, kind: LinkKind = LinkKind.END_TO_START) -> Link:
        """Return the link between two steps that waits so."""
        return Link(before, after, self.least, self.most, kind, self.wait)


@dataclass(frozen=True, slots=True)
class Follow:
    """What a step follows instead of the line above (`also`: besides it); `step` None: nothing.

    `wait` None: the line does not say, so the earlier step's own wait holds.
    """

    step: StepId | None
    kind: LinkKind = LinkKind.END_TO_START
    also: bool = False
    wait: LineWait | None = None


@dataclass(frozen=True, slots=True)
class PlaceSaid:
    """A place as a phrase names it: its kind, perhaps one station, perhaps how many units."""

    kind: StationKind
    units: int | None = None
    station: StationId | None = None


@dataclass(frozen=True, slots=True)
class LoadsSaid:
    """Pieces in all and pieces to a load."""

    pieces: int
    per_load: int


@dataclass(frozen=True)
class Line:
    """A line as it was read. Nothing of `text` is lost: what is no phrase stands in the words of the step.

    `step_values` has the fields of `core.plan.step.Step` that the line sets, by their names, also those that
    follow from the verb (`implied`). `doneness` has the parts of the doneness that it speaks of.
    """

    text: str
    chips: tuple[Chip, ...] = ()
    faults: tuple[Fault, ...] = ()
    step_values: Mapping[str, Any] = field(default_factory=dict)
    implied: frozenset[str] = frozenset()
    doneness: Mapping[str, Any] = field(default_factory=dict)
    wait: LineWait | None = None
    follows: tuple[Follow, ...] = ()
    label: str = ""

    @property
    def spoken(self) -> frozenset[str]:
        """Return the fields that the words of the line set."""
        return frozenset(self.step_values) - self.implied

    def step(self, step: StepId) -> Step:
        """Return a new step of what the line says; raise Refusal where it does not say what, or how long."""
        if not self.step_values.get("does"):
            raise Refusal('This line does not say what is done; begin it with a verb, such as "bake 40 min".')
        length = self.step_values.get("length")
        if not isinstance(length, Span):
            raise Refusal(
                'This line does not say how long it takes; add the length, such as "40 min" or "30-40 min".'
            )
        return Step(id=step, **self.step_values)
