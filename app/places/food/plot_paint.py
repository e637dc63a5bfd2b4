"""Paints one food's days in the look of the timeline: scales, band, limits with names, places, readings."""

from __future__ import annotations

from dataclasses import dataclass, field

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from app.look.words import clock_text, day_text
from app.places.food.readings import show_celsius
from app.places.food.view import FoodView, LimitLine, merged
from app.places.food.words import is_over, place_words, said, warmth_words
from app.timeline import marks
from app.timeline.food_colours import food_colour
from app.timeline.geometry import Axis
from app.timeline.kit import Kit, pen
from app.timeline.paint_food import caution_tile, over_tile
from app.timeline.scale import clock_ticks, day_labels, days, ruler_step, spread
from app.timeline.staging import shared_nights

GUTTER = 58.0
_TICKS = (5, 10, 20, 25, 50)


@dataclass
class Sheet:
    """Where a view is drawn: the axis of its minutes, how far it is scrolled, its size; `cursor` in minutes or None."""

    view: FoodView
    axis: Axis
    kit: Kit
    left: float
    width: float
    height: float
    cursor: int | None = None
    names: list[QRectF] = field(default_factory=list)
    """Where the names of limits stand."""

    @property
    def ruler(self) -> float:
        """Return the height of the scales on top."""
        return round(self.kit.row * 1.7)

    @property
    def foot(self) -> float:
        """Return the top of the row of places."""
        return self.height - self.kit.row - 10

    def x(self, minute: float) -> float:
        """Return the points across of a minute."""
        return self.axis.x(minute) - self.left + GUTTER

    def time(self, x: float) -> float:
        """Return the minute at a point."""
        return self.axis.time(x + self.left - GUTTER)

    def y(self, celsius: float) -> float:
        """Return the points down of a temperature."""
        low, high = self.view.celsius
        top, bottom = self.ruler + 6, self.foot - 8
        return bottom - (celsius - low) / (high - low) * (bottom - top)


def paint(painter: QPainter, sheet: Sheet) -> None:
    """Paint all of it."""
    kit = sheet.kit
    field_ = QRectF(GUTTER, sheet.ruler, sheet.width - GUTTER, sheet.height - sheet.ruler)
    painter.fillRect(QRectF(0, 0, sheet.width, sheet.height), kit.panel)
    painter.fillRect(field_, kit.lane)
    painter.setClipRect(field_)
    _nights(painter, sheet)
    _grid(painter, sheet)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    _band(painter, sheet)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    beside = sheet.width - names_room(sheet.view, kit)
    painter.fillRect(QRectF(beside, sheet.ruler, sheet.width - beside, sheet.height - sheet.ruler), kit.panel)
    _limits(painter, sheet)
    painter.setClipRect(QRectF(GUTTER, sheet.ruler, beside - GUTTER, sheet.height - sheet.ruler))
    _places(painter, sheet)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    _findings(painter, sheet)
    _readings(painter, sheet)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    _cursor(painter, sheet)
    painter.setClipping(False)
    _ruler(painter, sheet)
    _degrees(painter, sheet)


def _seen(sheet: Sheet) -> tuple[int, int]:
    return int(sheet.time(GUTTER)) - 1, int(sheet.time(sheet.width)) + 1


def _nights(painter: QPainter, sheet: Sheet) -> None:
    for shade in shared_nights(sheet.view.plan, *_seen(sheet)):
        left, right = sheet.x(shade.start), sheet.x(shade.end)
        painter.fillRect(QRectF(left, sheet.ruler, right - left, sheet.foot - sheet.ruler - 4), sheet.kit.night)


def _grid(painter: QPainter, sheet: Sheet) -> None:
    for value in _celsius_marks(sheet):
        painter.fillRect(QRectF(GUTTER, round(sheet.y(value)), sheet.width - GUTTER, 1), sheet.kit.line)
    for day in days(sheet.view.plan, *_seen(sheet)):
        painter.fillRect(QRectF(round(sheet.x(day.start)), sheet.ruler, 1, sheet.height), sheet.kit.rail)
    plating = round(sheet.x(0))
    painter.fillRect(QRectF(plating - 1, sheet.ruler, 2, sheet.foot - sheet.ruler - 4), sheet.kit.accent)


def _band(painter: QPainter, sheet: Sheet) -> None:
    points = sheet.view.band
    if not points:
        return
    kit = sheet.kit
    tone = kit.tone(1)
    high = [QPointF(sheet.x(each.at), sheet.y(each.high)) for each in points]
    low = [QPointF(sheet.x(each.at), sheet.y(each.low)) for each in points]
    shade = QColor(tone.soft)
    shade.setAlphaF(0.85)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(shade)
    painter.drawPolygon(QPolygonF([*high, *reversed(low)]))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(tone.edge, 1.8))
    painter.drawPolyline(QPolygonF(high))
    painter.drawPolyline(QPolygonF(low))


def _limits(painter: QPainter, sheet: Sheet) -> None:
    """Paint each limit as a broken line with its name at the right, moved where another name stands."""
    kit, colour = sheet.kit, QColor(food_colour(sheet.kit.palette))
    line_height = kit.metrics(kit.small_bold).height() + 2
    sheet.names, last = [], sheet.ruler - line_height
    for limit in merged(sheet.view.limits):
        y = sheet.y(limit.celsius)
        right = sheet.width - names_room(sheet.view, kit) + 4
        kit.dashes(painter, QRectF(GUTTER, round(y) - 1, right - GUTTER, 2), colour)
        text = _named(limit)
        top = max(y - line_height / 2, last + line_height)
        width = kit.width(text, kit.small_bold)
        where = QRectF(sheet.width - names_room(sheet.view, kit) + 10, round(top), width, line_height)
        kit.write(painter, where, text, kit.small_bold, colour)
        sheet.names.append(where)
        last = top


def names_room(view: FoodView, kit: Kit) -> float:
    """Return the points at the right that the names of the limits take."""
    widths = [kit.width(_named(limit), kit.small_bold) for limit in merged(view.limits)]
    return max(widths, default=0.0) + 18 if widths else 0.0


def _named(limit: LimitLine) -> str:
    return f"{show_celsius(limit.celsius)} {limit.name}"


def _places(painter: QPainter, sheet: Sheet) -> None:
    """Paint where the food is, stretch by stretch, as strips of tape; a broken one waits."""
    view, kit = sheet.view, sheet.kit
    painter.fillRect(QRectF(GUTTER, sheet.foot - 4, sheet.width, sheet.height), kit.panel)
    if view.story is None:
        return
    for stretch in view.story.stretches:
        left, right = max(sheet.x(stretch.start), GUTTER - 4), min(sheet.x(stretch.end), sheet.width + 4)
        if right <= GUTTER or left >= sheet.width:
            continue
        box = QRectF(round(left), sheet.foot + 2, max(2.0, round(right - left)), kit.row)
        tone = kit.tone(_TONES.get(stretch.warmth.name, 6))
        painter.fillRect(box, tone.soft if stretch.waits else tone.full)
        painter.setPen(tone.edge_pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolygon(marks.tape(box)) if box.width() > 14 else painter.drawRect(box)
        room = QRectF(box.left() + 6, box.top(), box.width() - 14, box.height())
        text = f"{place_words(view.plan, stretch)}, {warmth_words(stretch)}"
        for each in (text, place_words(view.plan, stretch)):
            short = each if kit.width(each, kit.small_face) <= room.width() else ""
            if short:
                kit.write(painter, room, short, kit.small_face, tone.on_soft if stretch.waits else tone.on_full)
                break


def _findings(painter: QPainter, sheet: Sheet) -> None:
    """Paint from when to when a limit is missed, on top: a bar with the sign of its level at its beginning."""
    kit = sheet.kit
    colour = QColor(food_colour(kit.palette))
    for row, finding in enumerate(sheet.view.findings):
        left, right = sheet.x(finding.start), max(sheet.x(finding.end), sheet.x(finding.start) + 4)
        y = sheet.ruler + 10 + 18 * row
        painter.setPen(pen(colour, 3))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        inside = min(max(left, GUTTER + 9), sheet.width - 9)
        if right > GUTTER and left < sheet.width:
            (over_tile if is_over(finding) else caution_tile)(painter, kit, inside, y, 7.5)


def _readings(painter: QPainter, sheet: Sheet) -> None:
    kit = sheet.kit
    for each in sheet.view.readings:
        x, y = sheet.x(each.at), sheet.y(float(each.celsius))
        painter.setPen(pen(kit.lane, 4))
        painter.drawLine(QPointF(x - 6, y - 6), QPointF(x + 6, y + 6))
        painter.drawLine(QPointF(x - 6, y + 6), QPointF(x + 6, y - 6))
        painter.setPen(pen(kit.ink, 2.2))
        painter.drawLine(QPointF(x - 5, y - 5), QPointF(x + 5, y + 5))
        painter.drawLine(QPointF(x - 5, y + 5), QPointF(x + 5, y - 5))
        kit.write(painter, QRectF(x + 8, y - 9, 70, 18), show_celsius(each.celsius), kit.small_bold, kit.ink)


def _cursor(painter: QPainter, sheet: Sheet) -> None:
    if sheet.cursor is None:
        return
    x = round(sheet.x(sheet.cursor))
    painter.fillRect(QRectF(x, sheet.ruler, 1, sheet.height - sheet.ruler), sheet.kit.ink)
    there = sheet.view.near(sheet.cursor)
    for value in there or ():
        painter.fillRect(QRectF(x - 3, round(sheet.y(value)) - 3, 7, 7), sheet.kit.ink)


def _ruler(painter: QPainter, sheet: Sheet) -> None:
    kit, plan = sheet.kit, sheet.view.plan
    low, high = _seen(sheet)
    half, shift = sheet.ruler / 2, GUTTER - sheet.left
    room = sheet.width - GUTTER - names_room(sheet.view, kit)
    painter.setClipRect(QRectF(GUTTER, 0, room, sheet.ruler))
    labels = day_labels(
        days(plan, low, high),
        sheet.axis,
        sheet.left,
        sheet.left + room,
        day_text,
        lambda text: kit.width(text, kit.small_bold),
    )
    for label in labels:
        where = QRectF(label.x + shift, 0, label.width, half)
        kit.write(painter, where, label.text, kit.small_bold, kit.ink)
    ticks = clock_ticks(plan, low, high, ruler_step(sheet.axis.ppm), clock_text)
    for label in spread(ticks, sheet.axis, lambda text: kit.width(text, kit.small_face)):
        where = QRectF(label.x + shift, half, label.width, half - 2)
        if where.left() >= GUTTER and where.right() <= GUTTER + room:
            kit.write(painter, where, label.text, kit.small_face, kit.ink)
    painter.setClipping(False)
    painter.fillRect(QRectF(0, sheet.ruler - 1, sheet.width, 1), kit.rail)


def _degrees(painter: QPainter, sheet: Sheet) -> None:
    kit = sheet.kit
    painter.fillRect(QRectF(GUTTER - 1, 0, 1, sheet.height), kit.rail)
    for value in _celsius_marks(sheet):
        where = QRectF(0, sheet.y(value) - 10, GUTTER - 8, 20)
        kit.write(painter, where, f"{value}", kit.small_face, kit.faint, right=True)
    kit.write(painter, QRectF(0, 0, GUTTER - 8, sheet.ruler), "°C", kit.small_bold, kit.ink, right=True)
    where = QRectF(0, sheet.foot, GUTTER - 8, kit.row)
    kit.write(painter, where, said("place"), kit.small_face, kit.faint, right=True)


def _celsius_marks(sheet: Sheet) -> list[int]:
    low, high = sheet.view.celsius
    room = abs(sheet.y(low) - sheet.y(high))
    step = next((each for each in _TICKS if room * each / (high - low) >= 30), 50)
    first = -int(-low // step) * step
    return [value for value in range(first, int(high) + 1, step) if low + 1 < value < high - 1]


_TONES = {
    "COLD": 4,
    "FROZEN": 1,
    "BETWEEN": 6,
    "COOKING": 5,
    "HOT": 0,
    "COOLING": 2,
    "THAWING": 3,
    "FERMENTING": 6,
}
"""Which of the dishes' tones a strip of place wears."""
