"""Where water boils: the air's pressure at a height, and the temperature at which water boils under it.

Pressure: the standard atmosphere (ISO 2533, ICAO Doc 7488). Boiling: IAPWS-IF97, equation 31, the saturation
temperature from the pressure. The weather moves it by about half a degree.
"""

from __future__ import annotations

from fractions import Fraction
from math import pow as power
from math import sqrt

from core.measures.refusal import Refusal

LOWEST_M, HIGHEST_M = -430, 5500
"""From the shore of the Dead Sea to above the highest towns."""

_SEA_LEVEL_PA, _SEA_LEVEL_K, _LAPSE_K_PER_M = 101_325.0, 288.15, 0.0065
_EXPONENT = 5.25588
_ZERO_C = 273.15
_N = (
    *(0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7),
    *(0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3),
)


def pressure_at(metres: int) -> float:
    """Return the pressure in Pa of the standard atmosphere at a height above the sea."""
    return _SEA_LEVEL_PA * power(1 - _LAPSE_K_PER_M * metres / _SEA_LEVEL_K, _EXPONENT)


def boils_under(pascals: float) -> float:
    """Return the K at which water boils under a pressure (IAPWS-IF97 equation 31; 611 Pa to 22 MPa)."""
    beta = power(pascals / 1e6, 0.25)
    e = beta**2 + _N[2] * beta + _N[5]
    f = _N[0] * beta**2 + _N[3] * beta + _N[6]
    g = _N[1] * beta**2 + _N[4] * beta + _N[7]
    d = 2 * g / (-f - sqrt(f**2 - 4 * e * g))
    total = _N[9] + d
    return (total - sqrt(total**2 - 4 * (_N[8] + _N[9] * d))) / 2


def boiling_point(metres: int) -> Fraction:
    """Return the °C at which water boils at a height in metres, to a tenth; refuse where nobody cooks."""
    if not LOWEST_M <= metres <= HIGHEST_M:
        raise Refusal(f"{metres} m is no height to cook at here; write {LOWEST_M} to {HIGHEST_M} m.")
    return Fraction(round((boils_under(pressure_at(metres)) - _ZERO_C) * 10), 10)
