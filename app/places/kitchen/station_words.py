"""What a station holds, in words: for assistive technology, tips and lists."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.look.words import figure, kind_word
from core.plan.kitchen import Station, StationKind


def tr(words: str, number: int = -1) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("StationWords", words, "", number)


def units_words(kind: StationKind, units: int) -> str:
    """Return how many places a station has, called as they are called: '2 racks', '1 ring'."""
    one = units == 1
    words = {
        StationKind.OVEN: tr("rack") if one else tr("racks"),
        StationKind.SMOKER: tr("rack") if one else tr("racks"),
        StationKind.BURNER: tr("ring") if one else tr("rings"),
        StationKind.GRILL: tr("grate place") if one else tr("grate places"),
    }.get(kind, tr("place") if one else tr("places"))
    if kind is StationKind.ROOM and units == 0:
        return tr("as many places as needed")
    return f"{figure(units)} {words}"


def inside_words(station: Station) -> str:
    """Return the inside size, '' where it is not told."""
    if station.wide and station.deep:
        return tr("{wide}x{deep} cm inside").format(wide=station.wide, deep=station.deep)
    return ""


def holds_words(station: Station) -> str:
    """Return what a station holds: 'oven, 2 racks, 46x38 cm inside, with a fan'."""
    parts = [kind_word(station.kind)]
    if station.shelves:
        shelves = tr("1 shelf") if len(station.shelves) == 1 else tr("{count} shelves")
        parts.append(shelves.format(count=figure(len(station.shelves))))
        parts.append(
            tr("{area} cm² in all").format(area=figure(sum(shelf.area for shelf in station.shelves)))
        )
    else:
        parts.append(units_words(station.kind, station.units))
    if size := inside_words(station):
        parts.append(size)
    if station.fan:
        parts.append(tr("with a fan"))
    return ", ".join(parts)
