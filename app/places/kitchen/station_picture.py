"""A small picture of a station: racks, rings, grate places, shelves as high as they are."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.look import icons
from app.look.colours import Palette, palette_under
from app.look.words import KIND_ICON, figure
from core.plan.kitchen import Station, StationKind

_SIZE = QSize(128, 112)
_MOST_DRAWN = 12  # places that can still be told apart


class StationPicture(QWidget):
    """Draws a station."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._station: Station | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Ask for a small square."""
        return _SIZE

    def show_station(self, station: Station) -> None:
        """Draw another station."""
        self._station = station
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw what kind of place it is and how much of it there is."""
        station = self._station
        if station is None:
            return
        colours = palette_under(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = QFont(self.font())
        font.setPointSizeF(max(7.5, font.pointSizeF() * 0.82))
        painter.setFont(font)
        box = QRectF(self.rect()).adjusted(4, 4, -4, -4)
        if station.shelves:
            _shelves(painter, colours, box, station)
        elif station.kind is StationKind.OVEN:
            _oven(painter, colours, box, station)
        elif station.kind is StationKind.BURNER:
            _rings(painter, colours, box, station)
        elif station.kind in (StationKind.GRILL, StationKind.SMOKER):
            _grate(painter, colours, box, station)
        else:
            _other(painter, colours, box, station)


def _pen(colour: str, width: float = 1.5) -> QPen:
    return QPen(QColor(colour), width)


def _oven(painter: QPainter, colours: Palette, box: QRectF, station: Station) -> None:
    """Draw a body with a panel of knobs and, behind the window, the racks."""
    painter.setPen(_pen(colours.rail))
    painter.setBrush(QColor(colours.panel))
    painter.drawRoundedRect(box, 5, 5)
    for at in (0.25, 0.5, 0.75):
        painter.drawEllipse(QPointF(box.left() + at * box.width(), box.top() + 10), 3.5, 3.5)
    window = box.adjusted(9, 21, -9, -9)
    painter.setBrush(QColor(colours.heat_fill if station.heater is not None else colours.lane))
    painter.drawRect(window)
    racks = max(1, station.units)
    painter.setPen(_pen(colours.heat, 2))
    for rack in range(1, min(racks, _MOST_DRAWN) + 1):
        y = window.top() + window.height() * rack / (min(racks, _MOST_DRAWN) + 1)
        painter.drawLine(QPointF(window.left() + 5, y), QPointF(window.right() - 5, y))
    if station.fan:
        middle = window.center()
        painter.setPen(_pen(colours.ink, 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(middle, 9, 9)
        for dx, dy in ((6, 6), (6, -6)):
            painter.drawLine(middle + QPointF(-dx, -dy), middle + QPointF(dx, dy))


def _rings(painter: QPainter, colours: Palette, box: QRectF, station: Station) -> None:
    """Draw a plate with a ring for each unit."""
    painter.setPen(_pen(colours.rail))
    painter.setBrush(QColor(colours.panel))
    painter.drawRoundedRect(box, 5, 5)
    rings = max(1, min(station.units, _MOST_DRAWN))
    across = 1 if rings == 1 else 2 if rings <= 4 else 4
    down = -(-rings // across)
    wide, high = box.width() / across, box.height() / down
    radius = min(wide, high) / 2 - 7
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for ring in range(rings):
        middle = QPointF(
            box.left() + wide * (ring % across + 0.5), box.top() + high * (ring // across + 0.5)
        )
        for share, colour in ((1.0, colours.rail), (0.68, colours.heat), (0.34, colours.rail)):
            painter.setPen(_pen(colour, 2))
            painter.drawEllipse(middle, radius * share, radius * share)


def _grate(painter: QPainter, colours: Palette, box: QRectF, station: Station) -> None:
    """Draw a round bowl with bars, and a mark for each place on them."""
    side = min(box.width(), box.height())
    bowl = QRectF(0, 0, side, side)
    bowl.moveCenter(box.center())
    painter.setPen(_pen(colours.rail, 2))
    painter.setBrush(QColor(colours.heat_fill))
    painter.drawEllipse(bowl)
    painter.setPen(_pen(colours.rail, 1))
    for bar in range(1, 9):
        x = bowl.left() + side * bar / 9
        half = ((side / 2) ** 2 - (x - bowl.center().x()) ** 2) ** 0.5
        painter.drawLine(QPointF(x, bowl.center().y() - half), QPointF(x, bowl.center().y() + half))
    places = max(1, station.units)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.heat))
    drawn = min(places, _MOST_DRAWN)
    across = min(drawn, 4)
    down = -(-drawn // across)
    for at in range(drawn):
        middle = QPointF(
            bowl.center().x() + (at % across - (across - 1) / 2) * side * 0.16,
            bowl.center().y() + (at // across - (down - 1) / 2) * side * 0.18,
        )
        painter.drawRoundedRect(QRectF(middle.x() - 5, middle.y() - 4, 10, 8), 3, 3)


def _shelves(painter: QPainter, colours: Palette, box: QRectF, station: Station) -> None:
    """Draw a cabinet with its shelves, the lowest at the bottom, each as high as it is, with its area."""
    painter.setPen(_pen(colours.rail))
    painter.setBrush(QColor(colours.lane))
    painter.drawRoundedRect(box, 5, 5)
    inside = box.adjusted(5, 5, -5, -4)
    whole = sum(max(1, shelf.height) for shelf in station.shelves)
    y = inside.bottom()
    for shelf in station.shelves:
        high = inside.height() * max(1, shelf.height) / whole
        room = QRectF(inside.left(), y - high, inside.width(), high)
        painter.setPen(_pen(colours.accent, 2))
        painter.drawLine(room.bottomLeft(), room.bottomRight())
        words = f"{figure(shelf.area)} cm², {shelf.height} cm"
        if high >= painter.fontMetrics().height() - 3:
            painter.setPen(QColor(colours.ink))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, words)
        y -= high


def _other(painter: QPainter, colours: Palette, box: QRectF, station: Station) -> None:
    """Draw the sign of the kind, and how many places there are."""
    side = min(box.width(), box.height()) - 30
    where = QRectF(0, 0, side, side)
    where.moveCenter(box.center() - QPointF(0, 9))
    icons.draw(painter, KIND_ICON[station.kind], colours.ink, where)
    if station.units > 1:
        painter.setPen(QColor(colours.faint))
        painter.drawText(
            box, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom, f"× {figure(station.units)}"
        )
