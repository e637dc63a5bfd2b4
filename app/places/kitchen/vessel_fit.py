"""Whether a vessel goes into a station by its size, in words a cook can check with a tape."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from core.plan.fits import ANY_VESSEL, fits
from core.plan.ids import StationId
from core.plan.kitchen import Kitchen, Station, Vessel
from core.plan.outline import goes_in, outline


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("VesselFit", words)


def that_matter(kitchen: Kitchen) -> tuple[Station, ...]:
    """Return the stations a vessel may be too large for; the others bear any vessel."""
    return tuple(each for each in kitchen.stations if each.kind not in ANY_VESSEL)


def goes_by_size(vessel: Vessel, station: Station) -> bool | None:
    """Tell whether a vessel's size lets it into a station; None where one of the two sizes is not told."""
    sides = outline(vessel.size)
    if sides is None or station.wide <= 0 or station.deep <= 0:
        return None
    return goes_in(sides, station.wide, station.deep)


def stations_now(vessel: Vessel, kitchen: Kitchen) -> tuple[StationId, ...]:
    """Return where a vessel goes as things stand: the stations chosen, else all that its size does not rule out."""
    return tuple(each.id for each in that_matter(kitchen) if fits(vessel, each))


def size_sentence(vessel: Vessel, kitchen: Kitchen) -> str:
    """Return what the sizes say: where it goes in, where not, and that nothing is told of the others."""
    stations = that_matter(kitchen)
    inside = {each.id: goes_by_size(vessel, each) for each in stations}
    large_enough = [_with_size(each) for each in stations if inside[each.id] is True]
    too_small = [_with_size(each) for each in stations if inside[each.id] is False]
    if outline(vessel.size) is None:
        return tr(
            "No width and depth are told of it, so it may go anywhere; write its size such as 40x30 cm."
        )
    if not large_enough and not too_small:
        words = tr("No station tells what it measures inside, so {size} may go anywhere.")
        return words.format(size=vessel.size)
    parts = []
    if large_enough:
        parts.append(tr("goes into {stations}").format(stations=_and(large_enough)))
    if too_small:
        parts.append(tr("is too large for {stations}").format(stations=_and(too_small)))
    if None in inside.values():
        parts.append(tr("the inside of the others is not told, so it may go there"))
    return tr("{size}: {what}.").format(size=vessel.size, what="; ".join(parts))


def fit_words(vessel: Vessel, kitchen: Kitchen) -> str:
    """Return in a word or two where a vessel goes."""
    if vessel.fits:
        first = kitchen.station.get(vessel.fits[0])
        if len(vessel.fits) == 1 and first is not None:
            return tr("goes in {station}").format(station=first.name)
        return tr("goes in {count} stations").format(count=len(vessel.fits))
    told = any(goes_by_size(vessel, each) is not None for each in that_matter(kitchen))
    return tr("goes by size") if told else tr("goes anywhere")


def _with_size(station: Station) -> str:
    return f"{station.name} ({station.wide}x{station.deep} cm)"


def _and(names: list[str]) -> str:
    *first, last = names
    return tr("{several} and {last}").format(several=", ".join(first), last=last) if first else last
