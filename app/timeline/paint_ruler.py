"""Paints the ruler with its two scales above the lanes, and the names of the lanes beside them."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter

from app.look import icons
from app.look.words import clock_text, day_text, word
from app.timeline import marks
from app.timeline.bars import Lane
from app.timeline.kit import Kit
from app.timeline.scale import (
    Label,
    clock_marks,
    clock_ticks,
    day_labels,
    days,
    finer_step,
    plating_ticks,
    ruler_step,
    spread,
)
from app.timeline.scene import Scene


def ruler(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint dates, clock time and time to plating, and a plate on each serving line."""
    row = scene.ruler / 3
    painter.fillRect(QRectF(0, 0, scene.width, scene.ruler), kit.panel)
    painter.setClipRect(QRectF(scene.gutter, 0, scene.width - scene.gutter, scene.ruler))
    low, high = scene.seen
    first, last = int(max(low, scene.axis.low)) - 1, int(min(high, scene.axis.high)) + 1
    widest = max(kit.width(clock_text(scene.plan.wall(at)), kit.small_face) for at in (0, 10 * 60, 20 * 60 + 8))
    step = ruler_step(scene.axis.ppm, max(64.0, widest + 16))
    _ticks(painter, scene, kit, first, last, step)
    flags = _flags(painter, scene, kit, row)
    _dates(painter, scene, kit, first, last, flags)
    _row(painter, scene, kit, row, clock_ticks_labels(scene, kit, first, last, step), kit.ink)
    ticks = plating_ticks(first, last, step)
    labels = spread(ticks, scene.axis, lambda text: kit.width(text, kit.small_face))
    _row(painter, scene, kit, 2 * row, labels, kit.faint)
    _fold_words(painter, scene, kit, row)
    painter.setClipping(False)
    painter.fillRect(QRectF(0, scene.ruler - 1, scene.width, 1), kit.rail)


def clock_ticks_labels(scene: Scene, kit: Kit, first: int, last: int, step: int) -> list[Label]:
    """Return the labels of the clock scale in their places."""
    ticks = clock_ticks(scene.plan, first, last, step, clock_text)
    return spread(ticks, scene.axis, lambda text: kit.width(text, kit.small_face))


def gutter(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint the names of the lanes."""
    painter.fillRect(QRectF(0, scene.ruler, scene.gutter, scene.height - scene.ruler), kit.panel)
    painter.setClipRect(QRectF(0, scene.ruler, scene.gutter, scene.height - scene.ruler))
    for at, lane in enumerate(scene.lanes):
        top, height = scene.y(scene.layout.tops[at]), scene.layout.heights[at]
        if top + height < scene.ruler or top > scene.height:
            continue
        if not lane.joined:
            painter.fillRect(QRectF(0, round(top) - 4, scene.gutter, 1), kit.line)
        _name(painter, scene, kit, lane, QRectF(0, top, scene.gutter, height))
        for track in lane.tracks if len(lane.tracks) > 1 else ():
            y = scene.y(scene.layout.row_top(at, track.row))
            rows = track.rows * scene.layout.row_height(at)
            where = QRectF(scene.gutter * 0.45, y, scene.gutter * 0.55 - 8, min(rows, scene.layout.row))
            short = kit.shortened(track.name, kit.small_face, where.width())
            kit.write(painter, where, short, kit.small_face, kit.faint, right=True)
    painter.setClipping(False)
    painter.fillRect(QRectF(scene.gutter - 1, 0, 1, scene.height), kit.rail)


def corner(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint the corner above the names: how the plan is read, and what the two scales are."""
    row = scene.ruler / 3
    painter.fillRect(QRectF(0, 0, scene.gutter - 1, scene.ruler - 1), kit.panel)
    width = scene.gutter - 16
    reading = word("by dish" if scene.reading == "dish" else "by station")
    kit.write(painter, QRectF(10, 0, width, row + 2), reading, kit.small_bold, kit.ink)
    kit.write(painter, QRectF(8, row, width, row), word("clock"), kit.small_face, kit.ink, right=True)
    kit.write(painter, QRectF(8, 2 * row, width, row - 2), word("to plating"), kit.small_face, kit.faint, right=True)


def _ticks(painter: QPainter, scene: Scene, kit: Kit, first: int, last: int, step: int) -> None:
    fine = finer_step(step)
    for minute in clock_marks(scene.plan, first, last, fine):
        if fine * scene.axis.ppm >= 5 and not scene.axis.folded(minute):
            painter.fillRect(QRectF(round(scene.x(minute)), scene.ruler - 4, 1, 3), kit.rail)


def _row(painter: QPainter, scene: Scene, kit: Kit, top: float, labels: list[Label], colour: QColor) -> None:
    shift = scene.gutter - scene.left
    for label in labels:
        if label.x + shift >= scene.gutter - 1:
            where = QRectF(label.x + shift, top, label.width, scene.ruler / 3 - 1)
            kit.write(painter, where, label.text, kit.small_face, colour)


def _dates(
    painter: QPainter, scene: Scene, kit: Kit, first: int, last: int, flags: list[tuple[float, float]]
) -> None:
    row = scene.ruler / 3
    placed = day_labels(
        days(scene.plan, first, last),
        scene.axis,
        scene.left,
        scene.left + scene.width - scene.gutter,
        day_text,
        lambda text: kit.width(text, kit.small_bold),
    )
    shift = scene.gutter - scene.left
    for label in placed:
        left, right = label.x + shift, label.x + shift + label.width
        if all(right + 8 < start or left - 8 > end for start, end in flags):
            kit.write(painter, QRectF(left, 0, label.width, row + 2), label.text, kit.small_bold, kit.ink)


def _flags(painter: QPainter, scene: Scene, kit: Kit, row: float) -> list[tuple[float, float]]:
    """Draw a plate on each serving line with its words beside; return the stretches taken. Plating comes first."""
    taken: list[tuple[float, float]] = []
    painter.setRenderHint(painter.RenderHint.Antialiasing, True)
    for minute, says in sorted(scene.courses, key=lambda course: (course[0] != 0, course[0])):
        x = round(scene.x(minute))
        if x < scene.gutter - 4 or x > scene.width + 90:
            continue
        main = minute == 0
        painter.fillRect(QRectF(x - (3 if main else 1), row, 3 if main else 1, 2 * row), kit.accent)
        if not _clear(taken, x - 9, x + 9):
            continue
        font = kit.small_bold if main else kit.small_face
        text = f"{says} {clock_text(scene.plan.wall(minute))}"
        width = kit.width(text, font)
        for left in (x - 14 - width, x + 14):
            span = (min(left, x - 9), max(left + width, x + 9))
            if left >= scene.gutter + 4 and _clear(taken, *span):
                kit.write(painter, QRectF(left, 0, width, row + 2), text, font, kit.accent)
                break
        else:
            span = (x - 9, x + 9)
        taken.append(span)
        marks.plate(painter, kit, x, row / 2 + 2, 8.0 if main else 6.0)
    painter.setRenderHint(painter.RenderHint.Antialiasing, False)
    return taken


def _clear(taken: list[tuple[float, float]], left: float, right: float) -> bool:
    return all(right + 4 <= start or left - 4 >= end for start, end in taken)


def _fold_words(painter: QPainter, scene: Scene, kit: Kit, row: float) -> None:
    for start, end in scene.axis.folds:
        left, right = scene.x(start), scene.x(end)
        if right < scene.gutter or left > scene.width:
            continue
        painter.fillRect(QRectF(left, row, right - left, 2 * row - 1), kit.night)
        says = f"{round((end - start) / 60)} h"
        if right - left > kit.width(says, kit.small_face) + 6:
            where = QRectF(left, row, right - left, 2 * row - 2)
            kit.write(painter, where, says, kit.small_face, kit.faint, centre=True)


def _name(painter: QPainter, scene: Scene, kit: Kit, lane: Lane, box: QRectF) -> None:
    top = QRectF(box.left(), box.top() + 2, box.width(), min(box.height() - 2, scene.layout.row + 2))
    x = 10.0
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if lane.code:
        tone = kit.tone(lane.tone)
        height = kit.metrics(kit.text_face).height()
        width = max(kit.tab, kit.width(lane.code, kit.small_bold) + 8)
        tab = QRectF(x, round(top.center().y() - height / 2), width, round(height))
        painter.fillRect(tab, tone.full)
        painter.setPen(tone.edge_pen)
        painter.drawRect(tab)
        kit.write(painter, tab, lane.code, kit.small_bold, tone.on_full, centre=True)
        x = tab.right() + 8
    elif lane.icon:
        size = min(18.0, top.height() - 4)
        where = QRectF(x, top.center().y() - size / 2, size, size)
        painter.setRenderHint(painter.RenderHint.Antialiasing, True)
        icons.draw(painter, lane.icon, kit.palette.faint, where)
        painter.setRenderHint(painter.RenderHint.Antialiasing, False)
        x = where.right() + 8
    _lines(painter, kit, lane.name, QRectF(x, box.top(), box.width() - x - 6, box.height()), top)


def _lines(painter: QPainter, kit: Kit, name: str, room: QRectF, first: QRectF) -> None:
    """Write a name in one line at the usual size, or wrapped, smaller where the lane is low."""
    font = kit.text_face
    if kit.width(name, font) > room.width() and room.height() < 2.3 * kit.metrics(font).height():
        font = kit.small_face
    line = kit.metrics(font).height() - (3 if font is kit.small_face else 0)
    lines = wrapped(kit, name, room.width(), max(1, int(room.height() / line)), font)
    y = first.center().y() - line / 2
    if len(lines) > 1:
        y = min(y, room.center().y() - line * len(lines) / 2) if room.height() < 2.5 * line else room.top() + 3
    for number, text in enumerate(lines):
        kit.write(painter, QRectF(room.left(), y + number * line, room.width(), line), text, font, kit.ink)


def wrapped(kit: Kit, text: str, width: float, most: int, font: QFont) -> list[str]:
    """Return a name broken between words into at most so many lines; what does not fit is cut at a word."""
    lines: list[str] = []
    left = text.split()
    while left and len(lines) < min(most, 3):
        count = len(left)
        while count > 1 and kit.width(" ".join(left[:count]), font) > width:
            count -= 1
        if len(lines) == min(most, 3) - 1 and count < len(left):
            lines.append(kit.shortened(" ".join(left), font, width) or " ".join(left[:count]))
            break
        lines.append(" ".join(left[:count]))
        left = left[count:]
    return lines
