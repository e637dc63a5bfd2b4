"""The lane of a cold place: a track for each shelf, the highest on top, its last row a gauge of its area."""

from __future__ import annotations

from dataclasses import replace

from app.look.words import KIND_ICON, word
from app.timeline.bars import Bar, Lane, LaneKind, Track
from app.timeline.making import Maker
from app.timeline.rows import Claim, in_order, packed
from core.plan.kitchen import Station
from core.timetable.load import shelf_curves

SHELF_ROW = 0.72
"""Height of a row on a shelf, as a share of the usual row."""


def shelved_lane(maker: Maker, station: Station) -> Lane:
    """Return the lane of a place with shelves, things packed on the shelf they stand on."""
    on_shelf: dict[int, list[Bar]] = {at: [] for at in range(len(station.shelves))}
    for bar, at in _things(maker, station):
        on_shelf[min(max(at, 0), len(station.shelves) - 1)].append(bar)
    fillings = shelf_curves(maker.plan, maker.timetable, station.id)
    bars: list[Bar] = []
    tracks: list[Track] = []
    row = 0
    for at, shelf in reversed(list(enumerate(station.shelves))):
        here = on_shelf[at]
        rows, count = packed([Claim(bar.start, bar.end) for bar in here])
        bars += [replace(bar, row=row + own) for bar, own in zip(here, rows, strict=True)]
        name = shelf.name or (word("lowest shelf") if at == 0 else f"{word('shelf')} {at + 1}")
        rows_taken = count + 1 if here else 1
        tracks.append(Track(name, row, rows_taken, shelf.area, fillings[at]))
        row += rows_taken
    return Lane(
        f"station:{station.id}",
        LaneKind.STATION,
        station.name,
        in_order(bars),
        max(1, row),
        row_share=SHELF_ROW,
        icon=KIND_ICON[station.kind],
        station=station,
        tracks=tuple(tracks),
    )


def _things(maker: Maker, station: Station) -> list[tuple[Bar, int]]:
    found: list[tuple[Bar, int]] = []
    for placed in maker.placed_on.get(station.id, ()):
        shelf = next((spot.shelf or 0 for spot in placed.spots if spot.station == station.id), None)
        if shelf is not None:
            found.append((maker.step_bar(placed, station.id), shelf))
    for stay in maker.stays_on.get(station.id, ()):
        shelf = next((spot.shelf or 0 for spot in stay.spots if spot.station == station.id), None)
        if shelf is not None and stay.end > stay.start:
            found.append((maker.stay_bar(stay, station.id), shelf))
    return found
