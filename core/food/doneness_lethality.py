"""How far germs are brought down while food warms: log reductions added up along the middle's temperature.

L = integral of 10^((T - T_ref) / z) / D_ref dt, in factors of ten; wanted are so many of each germ (Baldwin, A
Practical Guide to Sous Vide Cooking, v0.4k). The middle is the coldest place. A model of a printed table: the readings
of a probe and the local food code decide, and what a log reduction needs of time it needs after the probe says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from core.food.heat_flow import Around, Piece, Thermal, Warming, warming
from core.measures.refusal import Refusal


@dataclass(frozen=True, slots=True)
class Germ:
    """What is to be brought down: by how many powers of ten, minutes for one of them at `at` °C, z in °C, source."""

    name: str
    wanted: float
    minutes: float
    at: float
    z: float
    source: str


_BALDWIN = "Baldwin, A Practical Guide to Sous Vide Cooking (v0.4k)"
MEAT_GERMS = (
    Germ("E. coli", 5, 19.35, 55, 4.87, _BALDWIN),
    Germ("Salmonella", 6.5, 13.18, 55, 7.58, _BALDWIN),
    Germ("Listeria", 6, 12.66, 55, 9.22, _BALDWIN),
)
"""Beef, pork and lamb."""
POULTRY_GERMS = (
    Germ("Salmonella", 7, 4.68, 60, 6.45, f"{_BALDWIN}, from memory"),
    Germ("Listeria", 6, 5.94, 60, 5.66, f"{_BALDWIN}, from memory"),
)
BATH_FILM = 95.0
"""W/m2K of a stirred bath on a bag: Baldwin, from memory."""
_CONDUCTIVITY = 0.48
_VOLUME_HEAT = 1000.0
"""kg/m3 that stand in for a density: of conductivity, density and heat only the diffusivity is printed."""
_SLAB_LIKE = 0.28


def _stuff(diffusivity: float) -> Thermal:
    heat = _CONDUCTIVITY / (diffusivity * _VOLUME_HEAT)
    source = f"{_BALDWIN}, diffusivity from memory; conductivity 0.48 W/mK our assumption"
    return Thermal(_CONDUCTIVITY, _VOLUME_HEAT, heat, source)


POULTRY = _stuff(1.08e-7)
MEAT = _stuff(1.11e-7)


def in_bag(kind: str, millimetres: float, start: float = 5.0) -> Piece:
    """Return a bagged piece of "meat" or "poultry"; shape as in the printed model (meat to 30 mm a slab)."""
    if kind not in {"meat", "poultry"}:
        raise Refusal(f"The bath's table knows meat and poultry, not “{kind}”; write one of them.")
    beta = _SLAB_LIKE if kind == "poultry" or millimetres >= 30 else 0.0
    return Piece(millimetres / 2000, beta, MEAT if kind == "meat" else POULTRY, start)


def reductions(curve: Warming, germ: Germ) -> tuple[float, ...]:
    """Return the factors of ten reached at each of the curve's minutes, trapezium by trapezium."""
    rates = [10 ** ((celsius - germ.at) / germ.z) / germ.minutes for celsius in curve.core]
    found = [0.0]
    for place in range(1, len(rates)):
        lasts = curve.minutes[place] - curve.minutes[place - 1]
        found.append(found[-1] + (rates[place] + rates[place - 1]) / 2 * lasts)
    return tuple(found)


def reached(curve: Warming, germ: Germ) -> float | None:
    """Return the minutes until a germ is as far down as wanted; None: not on this curve."""
    found = reductions(curve, germ)
    for place in range(1, len(found)):
        if found[place] >= germ.wanted:
            share = (germ.wanted - found[place - 1]) / (found[place] - found[place - 1])
            return curve.minutes[place - 1] + share * (curve.minutes[place] - curve.minutes[place - 1])
    return None


@dataclass(frozen=True, slots=True)
class Bathed:
    """What the model says of a bath: minutes in all, which germ takes longest, and a sentence."""

    minutes: float
    slowest: Germ
    said: str

    @property
    def printed(self) -> int:
        """Return the minutes as the table prints them: up to 1 below 20, up to 5 below 60, else up to 15."""
        return as_printed(self.minutes)


def as_printed(minutes: float) -> int:
    """Return minutes rounded up as the table does."""
    grain = 1 if minutes <= 20 else 5 if minutes <= 60 else 15
    return ceil(minutes / grain) * grain


COLDEST_BATH = {"meat": 55, "poultry": 57}
"""°C of the coldest column of each table: below it the model has nothing to stand on."""


def in_bath(kind: str, millimetres: float, bath: float, start: float = 5.0) -> Bathed:
    """Return how long "meat" or "poultry" of a thickness in mm takes in a bath in °C until all its germs are down.

    Refuse baths colder than the table's coldest and thicknesses outside it (5 to 70 mm).
    """
    piece = in_bag(kind, millimetres, start)
    if not COLDEST_BATH[kind] <= bath <= 95:
        raise Refusal(
            f"A bath at {bath:g} °C is outside the table for {kind}; "
            f"set it from {COLDEST_BATH[kind]} to 95 °C, or cook by a published core temperature."
        )
    if not 5 <= millimetres <= 70:
        raise Refusal(f"{millimetres:g} mm is outside the table; write a thickness from 5 to 70 mm.")
    germs = MEAT_GERMS if kind == "meat" else POULTRY_GERMS
    curve = warming(piece, (Around(bath, BATH_FILM, 24 * 60),))
    found = [(minutes, germ) for germ in germs if (minutes := reached(curve, germ)) is not None]
    if len(found) < len(germs):
        raise Refusal(f"In a day at {bath:g} °C the germs are not down; set the bath warmer.")
    minutes, slowest = max(found, key=lambda pair: pair[0])
    return Bathed(minutes, slowest, _said(kind, millimetres, bath, minutes, slowest))


def _said(kind: str, millimetres: float, bath: float, minutes: float, germ: Germ) -> str:
    return (
        f"{kind.capitalize()} {millimetres:g} mm thick from the fridge in a bath at {bath:g} °C:"
        f" the model has {germ.name} down by 10^{germ.wanted:g} after {ceil(minutes)} min ({germ.source})."
        " An estimate of when to look: measure bath and middle with a probe; for the pregnant, the very young, the old"
        " and the ill keep to the published core temperatures and your local food code."
    )
