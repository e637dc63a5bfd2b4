"""Paints what is held besides bars: the line of plating as it is drawn, an end of a link in the air, a band."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from app.look.words import clock_text, day_text
from app.timeline.drag_gesture import BandHeld, LinkHeld, PlatingHeld
from app.timeline.drag_link import END, box_of
from app.timeline.kit import Kit, pen
from app.timeline.paint_link import curve
from app.timeline.scene import Scene

_WIDEST = 560.0
"""Points of the widest line of a chip."""
_MOST_LINES = 4


def gesture(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint what is held."""
    held = scene.gesture
    if isinstance(held, PlatingHeld):
        _plating(painter, scene, kit, held)
    elif isinstance(held, LinkHeld):
        _link(painter, scene, kit, held)
    elif isinstance(held, BandHeld):
        _band(painter, kit, held)


def plating_area(scene: Scene, held: PlatingHeld) -> QRectF:
    """Return what a held line of plating paints over."""
    x = scene.x(held.by)
    return QRectF(x - 12, 0, 24, scene.height).united(
        QRectF(min(max(x - 330, scene.gutter), scene.width - 660), 0, 660, scene.ruler + 84)
    )


def link_area(scene: Scene, held: LinkHeld) -> QRectF:
    """Return what a held link paints over."""
    start, end = QPointF(*held.start), QPointF(*held.end)
    area = QRectF(start, end).normalized().adjusted(-100, -16, 100, 16)
    area = area.united(QRectF(min(max(end.x() - 300, scene.gutter), scene.width - 640), end.y() - 110, 640, 220))
    box = box_of(scene, held.over, last=False) if held.over is not None else None
    return area if box is None else area.united(QRectF(box.x - 6, box.y - 6, box.w + 12, box.h + 12))


def band_area(held: BandHeld) -> QRectF:
    """Return what a band paints over."""
    return _corners(held).adjusted(-3, -3, 90, 28)


def _plating(painter: QPainter, scene: Scene, kit: Kit, held: PlatingHeld) -> None:
    x = round(scene.x(held.by))
    foot = min(scene.height, scene.y(scene.layout.height) + 6)
    if scene.gutter <= x <= scene.width:
        painter.fillRect(QRectF(x - 5, scene.ruler, 5, foot - scene.ruler), kit.accent)
        painter.fillRect(QRectF(x + 2, scene.ruler, 2, foot - scene.ruler), kit.accent)
    old = scene.x(0)
    shade = QColor(kit.accent)
    shade.setAlphaF(0.12)
    between = QRectF(min(old, x), scene.ruler, abs(x - old), foot - scene.ruler)
    lanes = QRectF(scene.gutter, scene.ruler, scene.width - scene.gutter, scene.height)
    painter.fillRect(between.intersected(lanes), shade)
    at = scene.plan.wall(held.by)
    day = "" if at.date() == scene.plan.wall(0).date() else f"{day_text(at)} "
    _chips(painter, scene, kit, x, (f"{day}{clock_text(at)}", *held.says.split("\n")), wrong=held.wrong)


def _chips(
    painter: QPainter, scene: Scene, kit: Kit, x: float, texts: tuple[str, ...], *, wrong: bool
) -> None:
    """Write the new time large under the ruler and what comes of it below, all inside the lanes."""
    y = scene.ruler + 6
    for number, text in enumerate(text for text in texts if text):
        face = kit.bold_face if number == 0 else kit.small_face
        shown = kit.shortened(text, face, 620) or text[:80]
        width, height = kit.width(shown, face) + 14, kit.metrics(face).height() + 6
        left = min(max(x - width / 2, scene.gutter + 4), scene.width - width - 4)
        _chip(painter, kit, QRectF(round(left), round(y), width, height), shown, first=number == 0, wrong=wrong)
        y += height + 3


def _chip(painter: QPainter, kit: Kit, box: QRectF, text: str, *, first: bool, wrong: bool) -> None:
    painter.fillRect(box, kit.accent if first else kit.lane)
    ink = kit.on_accent if first else kit.clash if wrong else kit.ink
    if not first:
        painter.setPen(pen(kit.clash if wrong else kit.ink, 1.2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)
    kit.write(painter, box, text, kit.bold_face if first else kit.small_face, ink, centre=True)


def _link(painter: QPainter, scene: Scene, kit: Kit, held: LinkHeld) -> None:
    colour = kit.clash if held.wrong else kit.accent
    line = pen(colour, 2.0)
    if held.over is None:
        line.setDashPattern([4, 3])
    start, end = QPointF(*held.start), QPointF(*held.end)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(line)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(curve(start, end) if end.x() >= start.x() else curve(end, start))
    painter.setPen(pen(kit.lane, 1.5))
    painter.setBrush(colour)
    painter.drawEllipse(end, END + 1, END + 1)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    box = box_of(scene, held.over, last=False) if held.over is not None else None
    if box is not None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen(colour, 2))
        painter.drawRect(QRectF(box.x, box.y, box.w, box.h).adjusted(-3, -3, 3, 3))
    lines = wrapped(kit, held.says)
    line_height = kit.metrics(kit.small_face).height()
    width, height = max(kit.width(text, kit.small_face) for text in lines) + 14, len(lines) * line_height + 8
    left = min(max(end.x() - width / 2, scene.gutter + 4), scene.width - width - 4)
    top = end.y() + 22 if end.y() + 22 + height < scene.height else end.y() - 22 - height
    chip = QRectF(round(left), round(top), width, height)
    painter.fillRect(chip, kit.lane)
    painter.setPen(pen(kit.clash if held.wrong else kit.ink, 1.2))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(chip)
    for number, text in enumerate(lines):
        where = QRectF(chip.left() + 7, chip.top() + 4 + number * line_height, width - 14, line_height)
        kit.write(painter, where, text, kit.small_face, kit.clash if held.wrong else kit.ink)


def wrapped(kit: Kit, text: str) -> list[str]:
    """Return a text in lines that fit the widest chip; beyond the last line that is shown its words are left out."""
    lines = [""]
    for each in text.split():
        longer = f"{lines[-1]} {each}".strip()
        if kit.width(longer, kit.small_face) <= _WIDEST or not lines[-1]:
            lines[-1] = longer
        elif len(lines) == _MOST_LINES:
            lines[-1] += "…"
            break
        else:
            lines.append(each)
    return lines


def _band(painter: QPainter, kit: Kit, held: BandHeld) -> None:
    box = _corners(held)
    shade = QColor(kit.accent)
    shade.setAlphaF(0.14)
    painter.fillRect(box, shade)
    painter.setPen(pen(kit.accent, 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box)
    if held.count:
        where = QRectF(box.right() + 4, box.bottom() + 2, kit.width(str(held.count), kit.small_bold) + 10, 18)
        painter.fillRect(where, kit.accent)
        kit.write(painter, where, str(held.count), kit.small_bold, kit.on_accent, centre=True)


def _corners(held: BandHeld) -> QRectF:
    return QRectF(QPointF(*held.start), QPointF(*held.end)).normalized()
