"""A set of food rules as a value: published limits, each row with its source. Data: nothing here judges."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

from core.measures.number import show_decimal
from core.plan.food import FoodKind


class Family(StrEnum):
    """What rules are about."""

    BETWEEN = "between"
    MARINATING = "marinating"
    THAWING = "thawing"
    COOLING = "cooling"
    REHEATING = "reheating"
    HOLDING = "holding"
    STORAGE = "storage"
    RAW_FIRST = "raw first"
    DONENESS = "doneness"
    FRIDGE = "fridge"
    GUESTS = "guests"


class Measure(StrEnum):
    """How a rule is held against a story; each asks for values of its own (`rules_reading`)."""

    OUT = "out"
    OUT_HOT = "out-hot"
    TIME_CONTROL = "time-control"
    MARINATE_COLD = "marinate-cold"
    MARINATE = "marinate"
    THAW_COLD = "thaw-cold"
    THAW_FRIDGE = "thaw-fridge"
    THAW_WATER = "thaw-water"
    COOL = "cool"
    HOT_HOLD = "hot-hold"
    COLD_HOLD = "cold-hold"
    REHEAT = "reheat"
    KEEP_RAW = "keep-raw"
    KEEP_COOKED = "keep-cooked"
    DATE_MARK = "date-mark"
    RAW_BELOW = "raw-below"
    RAW_WASH = "raw-wash"
    CORE = "core"
    FRIDGE_LOAD = "fridge-load"
    AT_RISK = "at-risk"


class Tag(StrEnum):
    """How a value became known."""

    READ = "read"
    SECOND_HAND = "second-hand"
    MEMORY = "memory"
    PRACTICE = "practice"


PERISHABLE, COOKED, RAW_ANIMAL = "perishable", "cooked", "raw animal"
GROUPS = (PERISHABLE, COOKED, RAW_ANIMAL)
"""What a row may say instead of kinds: food that spoils, food that was cooked, raw meat, fish, shellfish and eggs."""


@dataclass(frozen=True, slots=True)
class Degrees:
    """A published temperature in both scales, never converted here."""

    celsius: Fraction
    fahrenheit: Fraction

    def __str__(self) -> str:
        """Return "21 °C (70 °F)"."""
        return f"{show_decimal(self.celsius, 1)} °C ({show_decimal(self.fahrenheit, 1)} °F)"


@dataclass(frozen=True, slots=True)
class Stage:
    """At the latest so many minutes after it began, at or below this."""

    minutes: int
    limit: Degrees


@dataclass(frozen=True, slots=True)
class Hold:
    """At this temperature at least so many seconds."""

    at: Degrees
    seconds: int


@dataclass(frozen=True, slots=True)
class Values:
    """The numbers of a row; None and () where it has none of that sort. Minutes, days, °C, W."""

    minutes: int | None = None
    days: int | None = None
    least: Degrees | None = None
    most: Degrees | None = None
    peak: Degrees | None = None
    room_above: Degrees | None = None
    rest: int | None = None
    rest_below: Degrees | None = None
    watts: int | None = None
    begins: Degrees | None = None
    stages: tuple[Stage, ...] = ()
    holds: tuple[Hold, ...] = ()


@dataclass(frozen=True, slots=True)
class Source:
    """Where a row is from; `read`: the day on which it was read (None: from memory or practice)."""

    publisher: str
    document: str
    section: str
    read: date | None
    tag: Tag

    def __str__(self) -> str:
        """Return "USDA FSIS, The Big Thaw, never on the counter (read second-hand)"."""
        told = {
            Tag.READ: "",
            Tag.SECOND_HAND: "read second-hand",
            Tag.MEMORY: "from memory",
            Tag.PRACTICE: "",
        }
        said = told[self.tag]
        parts = [self.publisher, self.document, self.section]
        return ", ".join(each for each in parts if each) + (f" ({said})" if said else "")


@dataclass(frozen=True, slots=True)
class Rule:
    """One row. `foods`: kinds and groups. `advice`: no limit. `own_target`: a cook may choose less for themselves."""

    id: str
    family: Family
    measure: Measure
    foods: tuple[str, ...]
    values: Values
    source: Source
    advice: bool = False
    own_target: bool = False

    def names(self, kind: FoodKind) -> bool:
        """Tell whether the row names this kind itself."""
        return kind.value in self.foods


@dataclass(frozen=True)
class RuleSet:
    """One publisher's rules for one sort of kitchen."""

    id: str
    name: str
    note: str
    rules: tuple[Rule, ...]

    @cached_property
    def by_measure(self) -> dict[Measure, tuple[Rule, ...]]:
        """Rows by how they are measured, in the set's order."""
        return {each: tuple(rule for rule in self.rules if rule.measure is each) for each in Measure}

    def rule(self, row: str) -> Rule:
        """Return a row by its id; KeyError where there is none."""
        for each in self.rules:
            if each.id == row:
                return each
        raise KeyError(row)
