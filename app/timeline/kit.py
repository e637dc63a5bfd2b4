"""Pens, brushes, faces and widths of texts, made once for a theme and a type size."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter, QPen

from app.look.colours import Palette
from app.look.type import SMALL, face

_LEADS_ON = frozenset({"the", "and", "with", "for", "from", "into", "not", "off", "then", "than", "over", "on"})
"""Words after which a shortened text would say nothing."""


@dataclass(frozen=True)
class ToneInk:
    """The Qt colours of one dish."""

    full: QColor
    on_full: QColor
    soft: QColor
    on_soft: QColor
    edge: QColor
    edge_pen: QPen
    waiting_pen: QPen


class Kit:
    """What painting needs of a theme: `row` is the height of a row that the text wants, `tab` the width of a tab.

    `drawn` collects every text written, while it is not None.
    """

    def __init__(self, palette: Palette, points: float | None = None) -> None:
        self.palette = palette
        self.drawn: list[str] | None = None
        self.ground = QColor(palette.ground)
        self.lane = QColor(palette.lane)
        self.panel = QColor(palette.panel)
        self.night = QColor(palette.night)
        self.ink = QColor(palette.ink)
        self.faint = QColor(palette.faint)
        self.line = QColor(palette.line)
        self.rail = QColor(palette.rail)
        self.accent = QColor(palette.accent)
        self.on_accent = QColor(palette.on_accent)
        self.clash = QColor(palette.clash)
        self.on_clash = QColor(palette.on_clash)
        self.legal = QColor(palette.legal)
        self.heat = QColor(palette.heat)
        self.heat_fill = QColor(palette.heat_fill)
        self.hair = pen(self.line, 1)
        self.rail_pen = pen(self.rail, 1)
        self.accent_pen = pen(self.accent, 2)
        self.clash_pen = pen(self.clash, 2)
        self.hatch_pen = pen(self.clash, 1.4)
        self.heat_pen = pen(self.heat, 1.6)
        self.tones = [_tone(each.full, each.on_full, each.soft, each.on_soft, each.edge) for each in palette.tones]
        self.text_face = face(0.93, points=points)
        self.small_face = face(SMALL, points=points)
        self.small_bold = face(SMALL, bold=True, points=points)
        self.bold_face = face(0.93, bold=True, points=points)
        self._metrics: dict[int, QFontMetricsF] = {}
        self._widths: dict[tuple[int, str], float] = {}

        self.row = max(26.0, round(self.metrics(self.text_face).height() + 9))
        self.tab = float(round(self.width("MM", self.small_bold) + 6))
        self._short: dict[tuple[int, str, int], str] = {}

    def tone(self, index: int) -> ToneInk:
        """Return the colours of the dish at this place in the menu."""
        return self.tones[index % len(self.tones)]

    def metrics(self, font: QFont) -> QFontMetricsF:
        """Return the metrics of one of the kit's faces."""
        found = self._metrics.get(id(font))
        if found is None:
            found = self._metrics[id(font)] = QFontMetricsF(font)
        return found

    def width(self, text: str, font: QFont) -> float:
        """Return the points that a text takes."""
        key = (id(font), text)
        found = self._widths.get(key)
        if found is None:
            found = self._widths[key] = self.metrics(font).horizontalAdvance(text)
        return found

    def write(
        self,
        painter: QPainter,
        where: QRectF,
        text: str,
        font: QFont,
        colour: QColor,
        *,
        right: bool = False,
        centre: bool = False,
    ) -> None:
        """Write a text in the middle of a box's height, from its left edge unless told otherwise."""
        if self.drawn is not None:
            self.drawn.append(text)
        metrics = self.metrics(font)
        x = where.left()
        if right or centre:
            free = where.width() - self.width(text, font)
            x += free if right else free / 2
        y = where.top() + (where.height() + metrics.ascent() - metrics.descent()) / 2
        painter.setFont(font)
        painter.setPen(colour)
        painter.drawText(QPointF(round(x), round(y)), text)

    def shortened(self, text: str, font: QFont, width: float) -> str:
        """Return a text cut after a telling word to fit, with an ellipsis; '' when no word fits."""
        if self.width(text, font) <= width:
            return text
        key = (id(font), text, int(width))
        found = self._short.get(key)
        if found is None:
            found = self._short[key] = self._cut(text, font, int(width))
        return found

    def _cut(self, text: str, font: QFont, width: int) -> str:
        words = text.split()
        for count in range(len(words) - 1, 0, -1):
            last = words[count - 1].strip(",:;(-")
            short = " ".join(words[:count]).rstrip(",:;(-") + "…"
            if len(last) > 2 and last.casefold() not in _LEADS_ON and self.width(short, font) <= width:
                return short
        return ""


def pen(colour: QColor, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    """Return a pen with flat ends."""
    return QPen(QBrush(colour), width, style, Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.MiterJoin)


def _tone(full: str, on_full: str, soft: str, on_soft: str, edge: str) -> ToneInk:
    edge_colour = QColor(edge)
    waiting = pen(edge_colour, 1.2)
    waiting.setDashPattern([4, 3])
    return ToneInk(
        QColor(full), QColor(on_full), QColor(soft), QColor(on_soft), edge_colour, pen(edge_colour, 1), waiting
    )
