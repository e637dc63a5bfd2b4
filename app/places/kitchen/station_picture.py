"""A small picture of a station with what it holds: racks, rings, grate places, shelves as high as they are."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QFont, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.look.colours import palette_under
from app.places.kitchen.draw_boxes import draw_box, draw_machine, draw_table
from app.places.kitchen.draw_cold import draw_shelves
from app.places.kitchen.draw_hot import draw_grate, draw_oven, draw_rings, draw_smoker
from app.places.kitchen.pencil import Pencil
from app.places.kitchen.station_words import holds_words
from core.plan.kitchen import COLD, Station, StationKind

_SIZE = QSize(168, 132)
_DRAWN = {
    StationKind.OVEN: draw_oven,
    StationKind.BURNER: draw_rings,
    StationKind.GRILL: draw_grate,
    StationKind.SMOKER: draw_smoker,
    StationKind.WARM_DRAWER: draw_box,
    StationKind.HOT_BOX: draw_box,
    StationKind.ROOM: draw_table,
    StationKind.MACHINE: draw_machine,
}


class StationPicture(QWidget):
    """Draws a station; what is drawn is also its name for assistive technology and its tip."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._station: Station | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Ask for a small picture."""
        return _SIZE

    def show_station(self, station: Station) -> None:
        """Draw another station."""
        if station != self._station:
            self._station = station
            words = holds_words(station)
            self.setAccessibleName(words)
            self.setToolTip(words)
            self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw what kind of place it is and how much of it there is."""
        if self._station is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = QFont(self.font())
        font.setPointSizeF(max(7.5, font.pointSizeF() * 0.85))
        painter.setFont(font)
        pencil = Pencil(painter, palette_under(self.palette()))
        box = QRectF(self.rect()).adjusted(3, 3, -3, -3)
        station = self._station
        draw = draw_shelves if station.shelves or station.kind in COLD else _DRAWN[station.kind]
        draw(pencil, box, station)
