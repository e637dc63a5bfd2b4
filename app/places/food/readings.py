"""Temperatures that were read of a food while it was made, kept while the plan is open."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from core.measures.number import read_number, show_decimal
from core.measures.refusal import Refusal, quoted
from core.plan.ids import DishId

LEAST, MOST = -40, 300
"""°C that a probe in food may show."""
Line = tuple[DishId, int]
"""A dish, and a line of its ingredients from 0."""


@dataclass(frozen=True, slots=True, order=True)
class Reading:
    """At a minute from plating the probe showed so many °C."""

    at: int
    celsius: Fraction


@dataclass
class Readings:
    """Readings by food, in order of time; one for each minute."""

    _by: dict[Line, tuple[Reading, ...]] = field(default_factory=dict)

    def of(self, line: Line) -> tuple[Reading, ...]:
        """Return the readings of a food."""
        return self._by.get(line, ())

    def put(self, line: Line, reading: Reading) -> None:
        """Add a reading; one of the same minute goes."""
        rest = (each for each in self.of(line) if each.at != reading.at)
        self._by[line] = tuple(sorted((*rest, reading)))

    def drop(self, line: Line, at: int) -> None:
        """Take the reading of a minute away."""
        self._by[line] = tuple(each for each in self.of(line) if each.at != at)


def read_celsius(text: str) -> Fraction:
    """Return °C from "62.5", "62,5 C" or "145 F"; refuse what no food has."""
    plain = text.strip().replace("°", "").casefold()
    fahrenheit = plain.endswith("f")
    number = plain.rstrip("cf ").replace(",", ".").replace("−", "-")
    value = read_number(number.removeprefix("-").strip())
    if value is None:
        raise Refusal(f"{quoted(text)} is no temperature; write °C such as 62.5, or 145 F.")
    value = -value if number.startswith("-") else value
    celsius = (value - 32) * Fraction(5, 9) if fahrenheit else value
    if not LEAST <= celsius <= MOST:
        raise Refusal(f"{quoted(text)} is no temperature of food; write °C from {LEAST} to {MOST}, or 145 F.")
    return celsius


def show_celsius(celsius: Fraction | float) -> str:
    """Return "62.5 °C"."""
    return f"{show_decimal(Fraction(celsius).limit_denominator(1000), 1)} °C"
