"""Reads one temperature as people type it, before its scale is settled. The public door is heat.py."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from core.measures.gas_mark import celsius_of_gas, is_mark
from core.measures.number import NUMBER, number_value, round_half_up, show_decimal
from core.measures.refusal import Refusal, quoted

FAN_LESS_C, FAN_LESS_F = 20, 25
"""How much lower a fan oven is set, in degrees C and F: common practice, no standard found."""

COLDEST, HOTTEST = -80, 800
"""What a kitchen meets, from dry ice to a bed of coals, in degrees C."""

_HOTTEST_BARE_C = 275  # home dials marked in C end about here; a bare 350 is nearly always Fahrenheit
_GAS = re.compile(rf"(?:gas ?mark|gas|mark|gm) ?(?P<number>{NUMBER})")
_DEGREES = re.compile(
    rf"(?P<fan>fan|convection)? ?(?P<number>-?{NUMBER}) ?(?:°|º|deg(?:rees?)?\.?)? ?"
    r"(?P<scale>c|f|celsius|centigrade|fahrenheit)?\.? ?(?P<fan_after>fan|convection)?"
)


@dataclass(frozen=True)
class Reading:
    """Hold a number, the scale named beside it ("c", "f", "gas" or "") and whether a fan was named."""

    number: Fraction
    scale: str
    fan: bool = False


def read_heat(text: str, plain: str) -> Reading:
    """Return what plain (tidy, casefolded) says; text is what a Refusal quotes."""
    if not plain:
        raise Refusal("No temperature is written; write one such as 190C, 375F or gas 5.")
    if met := _GAS.fullmatch(plain):
        return Reading(number_value(met["number"]), "gas")
    met = _DEGREES.fullmatch(plain)
    if met is None:
        raise Refusal(f"{quoted(text)} is not a temperature; write it as 190C, 375F, gas 5 or fan 170.")
    token = met["number"]
    number = -number_value(token[1:]) if token[0] == "-" else number_value(token)
    return Reading(number, (met["scale"] or "")[:1], bool(met["fan"] or met["fan_after"]))


def share_scale(readings: Sequence[Reading]) -> list[Reading]:
    """Give readings without a scale the one a later, else an earlier, reading names; likewise the fan."""
    named = [reading.scale for reading in reversed(readings) if reading.scale]
    fan = any(reading.fan for reading in readings)
    common = named[0] if named else ""
    return [replace(reading, scale=reading.scale or common, fan=fan) for reading in readings]


def settle(text: str, reading: Reading, bare: str) -> Fraction:
    """Return degrees C, exact, of a conventional oven; a number without a scale is in bare."""
    if reading.scale == "gas":
        if not is_mark(reading.number):
            raise Refusal(
                f"{quoted(text)}: gas marks are 1/4, 1/2 and 1 to 10; write gas 4, or degrees, 180C."
            )
        return celsius_of_gas(reading.number)
    if not reading.scale and bare == "celsius" and reading.number > _HOTTEST_BARE_C:
        number = show_decimal(reading.number)
        raise Refusal(f"{quoted(text)} could be Celsius or Fahrenheit; write {number}C or {number}F.")
    if (reading.scale or bare[0]) == "f":
        return (reading.number + (FAN_LESS_F if reading.fan else 0) - 32) * 5 / 9
    return reading.number + (FAN_LESS_C if reading.fan else 0)


def whole_degrees(text: str, celsius: Fraction) -> int:
    """Return the nearest whole degree C; refuse what no kitchen meets."""
    if not COLDEST <= celsius <= HOTTEST:
        raise Refusal(
            f"{quoted(text)} is no kitchen temperature; write one from {COLDEST} to {HOTTEST} °C, "
            "with C or F after it."
        )
    return int(round_half_up(celsius))
