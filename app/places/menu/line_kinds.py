"""How the kinds of phrases look: a few families, each with a sign and a colour of its own."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app.look import Palette, icons
from app.look.colours import Tone
from core.reading.line_value import Says


@dataclass(frozen=True, slots=True)
class Family:
    """A family of phrases: the sign on its chips, and which of the palette's tones it has."""

    sign: str
    tone: str


_TIME = Family("clock", "sky")
_HEAT = Family("warmth", "vermilion")
_PLACE = Family("oven", "yellow")
_VESSEL = Family("pot", "purple")
_HANDS = Family("hand", "blue")
_DONE = Family("tick", "green")
_WAIT = Family("arrow", "orange")

FAMILIES: dict[Says, Family] = {
    **dict.fromkeys((Says.LENGTH, Says.PIECE, Says.EARLIEST, Says.LATEST, Says.CLOCK, Says.LOADS, Says.BETWEEN), _TIME),
    **dict.fromkeys((Says.HEAT, Says.STEADY), _HEAT),
    **dict.fromkeys((Says.PLACE, Says.UNITS, Says.NO_PLACE, Says.AREA, Says.HEIGHT, Says.RAW), _PLACE),
    Says.VESSEL: _VESSEL,
    **dict.fromkeys(
        (Says.ATTENTION, Says.HANDS, Says.SKILL, Says.TOUCH, Says.PUT_IN, Says.TAKE_OUT), _HANDS
    ),
    **dict.fromkeys((Says.CUE, Says.CORE, Says.RESTED), _DONE),
    **dict.fromkeys((Says.WAIT, Says.KEEP, Says.FOLLOWS, Says.LABEL), _WAIT),
}


def tone_of(kind: Says, palette: Palette) -> Tone:
    """Return the colours of a kind in a theme."""
    name = FAMILIES[kind].tone
    return next(each for each in palette.tones if each.hue == name)


def draw_sign(painter: QPainter, kind: Says, colour: str, where: QRectF) -> None:
    """Draw the sign of a kind into a square, in a colour."""
    sign = FAMILIES[kind].sign
    if sign in icons.NAMES:
        icons.draw(painter, sign, colour, where)
        return
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    unit = where.width() / 16
    painter.translate(where.topLeft())
    painter.scale(unit, unit)
    pen = QPen(QColor(colour), 1.7, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _DRAWN[sign](painter)
    painter.restore()


def _clock(painter: QPainter) -> None:
    painter.drawEllipse(QRectF(1.5, 1.5, 13, 13))
    painter.drawPolyline([QPointF(8, 4.2), QPointF(8, 8.2), QPointF(11, 9.8)])


def _warmth(painter: QPainter) -> None:
    """Draw a thermometer: a bulb, its tube and the mercury in it."""
    painter.drawArc(QRectF(5.8, 1.2, 4.4, 4.4), 0, 180 * 16)
    painter.drawLine(QPointF(5.8, 3.4), QPointF(5.8, 9.4))
    painter.drawLine(QPointF(10.2, 3.4), QPointF(10.2, 9.4))
    painter.drawArc(QRectF(4.3, 8.4, 7.4, 6.6), 125 * 16, 290 * 16)
    painter.drawLine(QPointF(8, 5.5), QPointF(8, 11.5))


def _tick(painter: QPainter) -> None:
    painter.drawPolyline([QPointF(2.5, 8.6), QPointF(6.4, 12.6), QPointF(13.5, 3.6)])


def _arrow(painter: QPainter) -> None:
    painter.drawLine(QPointF(1.8, 8), QPointF(13.8, 8))
    painter.drawPolyline([QPointF(9.6, 3.8), QPointF(13.8, 8), QPointF(9.6, 12.2)])


_DRAWN = {"clock": _clock, "warmth": _warmth, "tick": _tick, "arrow": _arrow}
