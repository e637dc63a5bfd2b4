"""Temperatures as whole degrees Celsius, read as typed and shown as an oven dial has them.

The round numbers cooks type ("375F", "gas 5") become whole degrees C at the door. A food-safety limit
is never rounded here: core.food keeps those as published.
"""

import re
from dataclasses import replace
from fractions import Fraction

from core.measures.gas_mark import gas_near
from core.measures.number import NUMBER, round_half_up, tidy
from core.measures.refusal import Refusal, quoted
from core.measures.typed_heat import Reading, read_heat, settle, share_scale, whole_degrees

TOLERANCE = 15
"""Degrees C either side of a setting within which dishes share an oven: common practice."""

SYSTEMS = ("celsius", "fahrenheit", "gas")

_PLUS_MINUS = re.compile(r"(?P<setting>.+?) ?(?:±|\+/-|\+-) ?(?P<spread>.+)")
_FROM_TO = re.compile(rf"(?P<low>.*[0-9].*?)(?: ?-|\.\.+| to ) ?(?P<high>[a-z ]*-?{NUMBER}[^0-9]*)")
_LOW_SET_HIGH = re.compile(r"([^/]+)/([^/]+)/([^/]+)")


def celsius_of(fahrenheit: Fraction | int) -> Fraction:
    """Return degrees C of degrees F, exact."""
    return (Fraction(fahrenheit) - 32) * 5 / 9


def fahrenheit_of(celsius: Fraction | int) -> Fraction:
    """Return degrees F of degrees C, exact."""
    return Fraction(celsius) * 9 / 5 + 32


def parse_heat(text: str, bare: str = "celsius") -> int:
    """Return whole degrees C from "190", "190 °C", "375F", "gas 5" or "fan 170".

    A number alone is in the scale named by bare. A fan setting becomes the conventional one. Raise
    Refusal for what is no temperature, and for a bare number that is Celsius on no home dial.
    """
    return whole_degrees(text, settle(text, read_heat(text, tidy(text).casefold()), bare))


def parse_heat_range(text: str, bare: str = "celsius", tolerance: int = TOLERANCE) -> tuple[int, int, int]:
    """Return (low, setting, high) in C from "190C", "190 ±10", "230 C +/-10", "180-200C", "150/160/175C".

    One temperature gets the tolerance either side; of two the setting is the middle. A scale named once
    holds for all, spread included: "375F ±25" spreads 25 degrees F. Raise Refusal as parse_heat does.
    """
    plain = tidy(text).casefold()
    if met := _PLUS_MINUS.fullmatch(plain):
        return _spread(text, read_heat(text, met["setting"]), met["spread"], bare)
    parts = _parts(plain)
    readings = share_scale([read_heat(text, part.strip()) for part in parts])
    degrees = [whole_degrees(text, settle(text, reading, bare)) for reading in readings]
    if degrees != sorted(degrees):
        raise Refusal(f"{quoted(text)}: write the lower temperature first, such as 180-200C.")
    low, high = degrees[0], degrees[-1]
    if len(degrees) == 1:
        return low - tolerance, low, low + tolerance
    return low, degrees[1] if len(degrees) == 3 else int(round_half_up(Fraction(low + high, 2))), high


def _parts(plain: str) -> list[str]:
    if "gas" not in plain and "mark" not in plain and (three := _LOW_SET_HIGH.fullmatch(plain)):
        return list(three.groups())
    if two := _FROM_TO.fullmatch(plain):
        return [two["low"], two["high"]]
    return [plain]


def _spread(text: str, setting: Reading, spread_text: str, bare: str) -> tuple[int, int, int]:
    by = read_heat(text, re.sub(r" ?marks?$", "", spread_text))
    if by.fan or by.number < 0 or (by.scale == "gas" != setting.scale):
        raise Refusal(f"{quoted(text)}: write the spread as degrees, such as 190C ±10.")
    setting, by = (replace(each, fan=setting.fan) for each in share_scale([setting, by]))
    middle = settle(text, setting, bare)
    if by.scale == "gas":
        marks = [replace(setting, number=setting.number + sign * by.number) for sign in (-1, 1)]
        ends = [settle(text, mark, bare) for mark in marks]
    else:
        wide = celsius_of(32 + by.number) if (by.scale or bare[0]) == "f" else by.number
        ends = [middle - wide, middle + wide]
    return whole_degrees(text, ends[0]), whole_degrees(text, middle), whole_degrees(text, ends[1])


def show_heat(celsius: int, system: str = "celsius", dial: bool = False) -> str:
    """Return "190 °C", "375 °F" or "gas 5"; with dial on, to the nearest 5 degrees an oven dial has.

    Gas is the nearest mark; outside the marks degrees C are shown.
    """
    if system not in SYSTEMS:
        raise ValueError(f"unknown system of heat: {system}")
    if system == "gas" and (mark := gas_near(celsius)):
        return mark
    fahrenheit = system == "fahrenheit"
    degrees = int(round_half_up(fahrenheit_of(celsius) if fahrenheit else celsius, 5 if dial else 1))
    return f"{_signed(degrees)} °{'F' if fahrenheit else 'C'}"


def show_heat_range(low: int, setting: int, high: int) -> str:
    """Return degrees C as "190 ±15 °C", or "150 / 160 / 175 °C" when lopsided; parse_heat_range reads it."""
    if setting - low == high - setting:
        return f"{_signed(setting)} ±{high - setting} °C"
    return f"{_signed(low)} / {_signed(setting)} / {_signed(high)} °C"


def _signed(degrees: int) -> str:
    return f"{'−' if degrees < 0 else ''}{abs(degrees)}"
