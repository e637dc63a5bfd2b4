"""What to set on the dial of a place that is hotter or colder than its dial says."""

from __future__ import annotations

from core.measures.heat import show_heat
from core.plan.kitchen import Station


def dial_of(station: Station, setting: int) -> int | None:
    """Return the °C to set on the dial for a temperature wanted; None where the dial tells the truth, or for a fire."""
    heater = station.heater
    if heater is None or not heater.offset or station.is_fire or setting == 0:
        return None
    return setting - heater.offset


def dial_words(station: Station, setting: int) -> str:
    """Return "set 180 °C on the dial, it runs 10 °C hot"; "" where the dial tells the truth."""
    dial = dial_of(station, setting)
    if dial is None or station.heater is None:
        return ""
    offset = station.heater.offset
    return f"set {show_heat(dial)} on the dial, it runs {abs(offset)} °C {'hot' if offset > 0 else 'cold'}"


def with_dial(station: Station, setting: int) -> str:
    """Return "190 °C (dial 180 °C)", or the temperature alone."""
    dial = dial_of(station, setting)
    return show_heat(setting) if dial is None else f"{show_heat(setting)} (dial {show_heat(dial)})"
