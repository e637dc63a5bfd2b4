"""Pictures of cold places: a cabinet with its shelves, each as high as it is, with its area."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt

from app.look.words import figure
from app.places.kitchen.pencil import MOST_DRAWN, Pencil, count_words
from core.plan.kitchen import Station, StationKind

_LEAST = 4.0  # px that the flattest shelf is drawn high


def draw_shelves(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw a cabinet with a door, its shelves from the lowest up; counted places where there are no shelves."""
    colours = pencil.colours
    pencil.body(box)
    inside = box.adjusted(6, 6, -18, -6)
    pencil.body(inside, colours.lane, 2)
    pencil.pen(colours.ink, 3)
    pencil.line(box.right() - 9, box.top() + 18, box.right() - 9, box.top() + 46)
    if station.kind is StationKind.FREEZER:
        _frost(pencil, box.right() - 9, box.bottom() - 18)
    heights = [shelf.height for shelf in station.shelves] or [1] * min(max(1, station.units), MOST_DRAWN)
    words = [f"{figure(shelf.area)} cm² · {shelf.height} cm" for shelf in station.shelves]
    y = inside.bottom()
    for number, high in enumerate(_drawn_heights(heights, inside.height())):
        room = QRectF(inside.left() + 3, y - high, inside.width() - 6, high)
        pencil.pen(colours.accent, 3)
        pencil.line(room.left(), room.bottom() - 1.5, room.right(), room.bottom() - 1.5)
        if words and high >= pencil.line_height + 1:
            pencil.words(room.adjusted(0, 0, 0, -3), words[number], Qt.AlignmentFlag.AlignCenter)
        y -= high
    if not words and (counted := count_words(station.units)):
        pencil.label(inside, counted)


def _drawn_heights(heights: list[int], room: float) -> list[float]:
    """Return the heights in pixels, as one to another where none gets too flat to be seen."""
    whole = sum(max(1, each) for each in heights)
    drawn = [max(_LEAST, room * max(1, each) / whole) for each in heights]
    return [each * room / sum(drawn) for each in drawn]


def _frost(pencil: Pencil, x: float, y: float) -> None:
    """Draw the sign for frost."""
    painter = pencil.painter
    pencil.pen(pencil.colours.accent, 1.8)
    for turn in (0, 60, 120):
        painter.save()
        painter.translate(x, y)
        painter.rotate(turn)
        pencil.line(0, -6, 0, 6)
        painter.restore()
