"""Icons: own line drawings in resources/icons, coloured at the moment of drawing."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from resources import shipped

NAMES = (
    "arrange",
    "bin",
    "burner",
    "clash",
    "cold",
    "dish",
    "down",
    "drawer",
    "grill",
    "hand",
    "machine",
    "oven",
    "fridge",
    "pin",
    "plate",
    "plus",
    "pot",
    "print",
    "redo",
    "room",
    "save",
    "stop",
    "undo",
    "up",
    "worktop",
)


@lru_cache(maxsize=256)
def drawing(name: str, colour: str) -> QSvgRenderer:
    """Return the drawing of an icon in a colour (#RRGGBB)."""
    text = shipped("icons", f"{name}.svg").read_text(encoding="utf-8")
    return QSvgRenderer(QByteArray(text.replace("currentColor", colour).encode()))


def draw(painter: QPainter, name: str, colour: str, where: QRectF) -> None:
    """Draw an icon as lines, at any size."""
    drawing(name, colour).render(painter, where)


def pixmap(name: str, colour: str, size: int = 24, ratio: float = 1.0) -> QPixmap:
    """Return an icon as a picture of `size` by `size` points for a screen with this pixel ratio."""
    picture = QPixmap(round(size * ratio), round(size * ratio))
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    draw(painter, name, colour, QRectF(0, 0, picture.width(), picture.height()))
    painter.end()
    picture.setDevicePixelRatio(ratio)
    return picture


@lru_cache(maxsize=256)
def icon(name: str, colour: str) -> QIcon:
    """Return an icon for buttons and menus in a colour, at the usual sizes and pixel ratios. Draw nothing on it."""
    made = QIcon()
    for size in (16, 24, 32, 48, 64):
        made.addPixmap(pixmap(name, colour, size))
    return made
