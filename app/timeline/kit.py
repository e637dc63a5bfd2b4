"""Pens, brushes, faces and widths of texts, made once for a theme and a type size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from math import ceil

from PySide6.QtCore import QLineF, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter, QPen, QPixmap

from app.look import icons
from app.look.colours import Palette
from app.look.type import SMALL, face

_PAD = 2
"""Points around a text in its picture, for strokes that lean out."""
_HATCH = 7
"""Points from one line of a hatching to the next."""
_SPRITES = 1200
"""Pictures of texts kept at most."""
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


@dataclass(frozen=True)
class Written:
    """A text as it was written, the points it takes, and the text it stands for."""

    text: str
    box: QRectF
    whole: str


class Kit:
    """What painting needs of a theme: `row` is the height of a row that the text wants, `tab` the width of a tab.

    `drawn` collects every text written, while it is not None, and `written` where. `counts` counts what is painted.
    Where a painter's pixels are `ratio` to a point, a text is painted from a picture of it, made once; 0: as a text.
    """

    def __init__(self, palette: Palette, points: float | None = None) -> None:
        self.palette = palette
        self.drawn: list[str] | None = None
        self.written: list[Written] | None = None
        self.counts: Counter[str] = Counter()
        self.ratio = 0
        self._sprites: dict[tuple[int, str, int, int], QPixmap] = {}
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
        self.accent_pen = pen(self.accent, 2)
        self.marked_pen = pen(self.accent, 4)
        self.marked_pen.setDashPattern([1.5, 1])
        self.hatch_pen = pen(self.clash, 1.4)
        self.heat_pen = pen(self.heat, 1.6)
        self.tones = [_tone(each.full, each.on_full, each.soft, each.on_soft, each.edge) for each in palette.tones]
        self.text_face = face(0.93, points=points)
        self.small_face = face(SMALL, points=points)
        self.small_bold = face(SMALL, bold=True, points=points)
        self.bold_face = face(0.93, bold=True, points=points)
        self._metrics: dict[int, QFontMetricsF] = {}
        self._drops: dict[int, tuple[float, int]] = {}
        self._widths: dict[tuple[int, str], float] = {}

        self.row = max(26.0, round(self.metrics(self.text_face).height() + 9))
        self.tab = float(round(self.width("MM", self.small_bold) + 6))
        self._short: dict[tuple[int, str, int], str] = {}
        self._cut_from: dict[str, str] = {}

    def tone(self, index: int) -> ToneInk:
        """Return the colours of the dish at this place in the menu."""
        return self.tones[index % len(self.tones)]

    def metrics(self, font: QFont) -> QFontMetricsF:
        """Return the metrics of one of the kit's faces."""
        found = self._metrics.get(id(font))
        if found is None:
            found = self._metrics[id(font)] = QFontMetricsF(font)
        return found

    def _drop(self, font: QFont) -> tuple[float, int]:
        """Return a face's ascent less its descent, and the points of its pictures above the line."""
        metrics = self.metrics(font)
        self._drops[id(font)] = found = (metrics.ascent() - metrics.descent(), _above(metrics))
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
        drop, above = self._drops.get(id(font)) or self._drop(font)
        x = where.left()
        if right or centre:
            free = where.width() - self.width(text, font)
            x += free if right else free / 2
        y = where.top() + (where.height() + drop) / 2
        if self.written is not None:
            metrics = self.metrics(font)
            box = QRectF(round(x), round(y) - metrics.ascent(), self.width(text, font), metrics.height())
            self.written.append(Written(text, box, self._cut_from.get(text, text)))
        if self.ratio:
            painter.drawPixmap(round(x) - _PAD, round(y) - above, self._sprite(text, font, colour))
            return
        painter.setFont(font)
        painter.setPen(colour)
        painter.drawText(QPointF(round(x), round(y)), text)

    def icon(self, painter: QPainter, name: str, where: QRectF) -> None:
        """Draw an icon in the faint colour, from a picture of it where texts are."""
        if not self.ratio:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            icons.draw(painter, name, self.palette.faint, where)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
            return
        key = (0, name, round(where.width()), self.ratio)
        found = self._sprites.get(key)
        if found is None:
            found = self._blank(key[2], key[2])
            drawn = QPainter(found)
            drawn.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            icons.draw(drawn, name, self.palette.faint, QRectF(0, 0, key[2], key[2]))
            drawn.end()
            self._sprites[key] = found
        painter.drawPixmap(round(where.left()), round(where.top()), found)

    def disc(self, painter: QPainter, draw: Callable[..., None], x: float, y: float, radius: float) -> None:
        """Draw a round sign around a point by draw(painter, kit, x, y, radius), from a picture where texts are."""
        if not self.ratio:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            draw(painter, self, x, y, radius)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
            return
        half = ceil(radius) + 2
        key = (-1, draw.__name__, round(10 * radius), self.ratio)
        found = self._sprites.get(key)
        if found is None:
            found = self._blank(2 * half, 2 * half)
            drawn = QPainter(found)
            drawn.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            draw(drawn, self, half, half, radius)
            drawn.end()
            self._sprites[key] = found
        painter.drawPixmap(round(x) - half, round(y) - half, found)

    def hatch(self, painter: QPainter, where: QRectF) -> None:
        """Fill a box with slanting lines in the clash colour from a picture of one; they move with the box."""
        key = (-2, "hatch", 0, self.ratio)
        found = self._sprites.get(key)
        if found is None:
            found = self._blank(_HATCH, _HATCH)
            drawn = QPainter(found)
            drawn.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            drawn.setPen(self.hatch_pen)
            drawn.drawLines([QLineF(at, _HATCH + 2, at + _HATCH + 4, -2) for at in (-2 - _HATCH, -2, _HATCH - 2)])
            drawn.end()
            self._sprites[key] = found
        painter.drawTiledPixmap(where.toAlignedRect(), found, QPoint(0, _HATCH - round(where.height()) % _HATCH))

    def dashed(self, painter: QPainter, box: QRectF, colour: QColor, dash: int = 5, gap: int = 4) -> None:
        """Frame a box with a broken line of a point: Qt's own dashes take the longer the longer the line is."""
        if not self.ratio:
            broken = pen(colour, 1)
            broken.setDashPattern([dash, gap])
            painter.setPen(broken)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box)
            return
        x, y, width, height = round(box.left()), round(box.top()), round(box.width()), round(box.height())
        across, down = self._dashes(colour, dash, gap, 1), self._dashes(colour, dash, gap, 1, down=True)
        painter.drawTiledPixmap(x, y, width + 1, 1, across)
        painter.drawTiledPixmap(x, y + height, width + 1, 1, across)
        painter.drawTiledPixmap(x, y, 1, height + 1, down)
        painter.drawTiledPixmap(x + width, y, 1, height + 1, down)

    def dashes(self, painter: QPainter, where: QRectF, colour: QColor, dash: int = 6, gap: int = 4) -> None:
        """Fill a low box with a broken line as thick as it is high."""
        if not self.ratio:
            thick = pen(colour, where.height())
            thick.setDashPattern([dash / where.height(), gap / where.height()])
            painter.setPen(thick)
            middle = where.center().y()
            painter.drawLine(QLineF(where.left(), middle, where.right(), middle))
            return
        line = self._dashes(colour, dash, gap, round(where.height()))
        painter.drawTiledPixmap(where.toRect(), line)

    def _dashes(self, colour: QColor, dash: int, gap: int, thick: int, *, down: bool = False) -> QPixmap:
        key = (-4 if down else -3, f"{dash} {gap} {thick}", colour.rgba(), self.ratio)
        found = self._sprites.get(key)
        if found is None:
            many = 20  # of them in a picture: Qt lays tiles one by one
            found = self._blank(*((thick, many * (dash + gap)) if down else (many * (dash + gap), thick)))
            drawn = QPainter(found)
            for at in range(0, many * (dash + gap), dash + gap):
                drawn.fillRect(*((0, at, thick, dash) if down else (at, 0, dash, thick)), colour)
            drawn.end()
            self._sprites[key] = found
        return found

    def frame(self, painter: QPainter, box: QRectF, colour: QColor) -> None:
        """Frame a box with a line of two points, half of it outside."""
        if not self.ratio:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(pen(colour, 2))
            painter.drawRect(box)
            return
        x, y, width, height = round(box.left()) - 1, round(box.top()) - 1, round(box.width()), round(box.height())
        painter.fillRect(x, y, width + 2, 2, colour)
        painter.fillRect(x, y + height, width + 2, 2, colour)
        painter.fillRect(x, y, 2, height + 2, colour)
        painter.fillRect(x + width, y, 2, height + 2, colour)

    def _blank(self, width: int, height: int) -> QPixmap:
        made = QPixmap(width * self.ratio, height * self.ratio)
        made.setDevicePixelRatio(self.ratio)
        made.fill(Qt.GlobalColor.transparent)
        return made

    def _sprite(self, text: str, font: QFont, colour: QColor) -> QPixmap:
        key = (id(font), text, colour.rgba(), self.ratio)
        found = self._sprites.get(key)
        if found is None:
            if len(self._sprites) >= _SPRITES:
                self._sprites.clear()
            metrics, wide = self.metrics(font), ceil(self.width(text, font)) + 2 * _PAD
            found = self._blank(wide, _above(metrics) + ceil(metrics.descent()) + _PAD)
            painter = QPainter(found)
            painter.setFont(font)
            painter.setPen(colour)
            painter.drawText(QPointF(_PAD, _above(metrics)), text)
            painter.end()
            self._sprites[key] = found
        return found

    def shortened(self, text: str, font: QFont, width: float) -> str:
        """Return a text cut after a telling word to fit, with an ellipsis; '' when no word fits."""
        if self.width(text, font) <= width:
            return text
        key = (id(font), text, int(width))
        found = self._short.get(key)
        if found is None:
            found = self._short[key] = self._cut(text, font, int(width))
            self._cut_from[found] = text
        return found

    def _cut(self, text: str, font: QFont, width: int) -> str:
        words = text.split()
        for count in range(len(words) - 1, 0, -1):
            last = words[count - 1].strip(",:;(-")
            short = " ".join(words[:count]).rstrip(",:;(-") + "…"
            if len(last) > 2 and last.casefold() not in _LEADS_ON and self.width(short, font) <= width:
                return short
        return ""


def _above(metrics: QFontMetricsF) -> int:
    return ceil(metrics.ascent()) + _PAD


def pen(colour: QColor, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    """Return a pen with flat ends."""
    return QPen(QBrush(colour), width, style, Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.MiterJoin)


def _tone(full: str, on_full: str, soft: str, on_soft: str, edge: str) -> ToneInk:
    edge_colour = QColor(edge)
    return ToneInk(QColor(full), QColor(on_full), QColor(soft), QColor(on_soft), edge_colour, pen(edge_colour, 1))
