"""Paints the ruler with its two scales above the lanes, and the names of the lanes beside them."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter

from app.look.words import clock_text, day_text, word
from app.timeline import lane_paint, marks, paint_now
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
    chip = paint_now.chip_box(scene, kit)
    clear = None if chip is None else (chip.left() - 4, chip.right() + 4)
    _row(painter, scene, kit, row, clock_ticks_labels(scene, kit, first, last, step), colour=kit.ink, clear=clear)
    ticks = plating_ticks(first, last, step)
    labels = spread(ticks, scene.axis, lambda text: kit.width(text, kit.small_face))
    stem = None if chip is None or scene.now is None else paint_now.across(scene, scene.now)
    _row(painter, scene, kit, 2 * row, labels, colour=kit.faint, clear=stem)
    _fold_words(painter, scene, kit, row)
    paint_now.chip(painter, scene, kit)
    painter.setClipping(False)
    painter.fillRect(QRectF(0, scene.ruler - 1, scene.width, 1), kit.rail)


def clock_ticks_labels(scene: Scene, kit: Kit, first: int, last: int, step: int) -> list[Label]:
    """Return the labels of the clock scale in their places."""
    ticks = clock_ticks(scene.plan, first, last, step, clock_text)
    return spread(ticks, scene.axis, lambda text: kit.width(text, kit.small_face))


def gutter(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint the names of the lanes that an area shows."""
    inside = area.intersected(QRectF(0, scene.ruler, scene.gutter, scene.height - scene.ruler))
    if inside.isEmpty():
        return
    painter.setClipRect(inside)
    painter.fillRect(inside, kit.panel)
    for at in scene.lanes_between(inside.top() - 4, inside.bottom() + 4):
        lane, top, height = scene.lanes[at], scene.y(scene.layout.tops[at]), scene.layout.heights[at]
        if not lane.joined:
            painter.fillRect(QRectF(0, round(top) - 4, scene.gutter, 1), kit.line)
        lane_paint.chevron(painter, scene, kit, at)
        if lane.line:
            lane_paint.title(painter, scene, kit, at)
            continue
        _name(painter, scene, kit, lane, QRectF(0, top, scene.gutter, height))
        for track in lane.tracks if len(lane.tracks) > 1 else ():
            y = scene.y(scene.layout.row_top(at, track.row))
            rows = track.rows * scene.layout.row_height(at)
            where = QRectF(scene.gutter * 0.45, y, scene.gutter * 0.55 - 8, min(rows, scene.layout.row))
            short = kit.shortened(track.name, kit.small_face, where.width())
            kit.write(painter, where, short, kit.small_face, kit.faint, right=True)
    painter.fillRect(QRectF(scene.gutter - 1, inside.top(), 1, inside.height()), kit.rail)
    painter.setClipping(False)


def corner(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint the corner above the names: how the plan is read, and what the two scales are."""
    row = scene.ruler / 3
    painter.fillRect(QRectF(0, 0, scene.gutter - 1, scene.ruler - 1), kit.panel)
    painter.fillRect(QRectF(scene.gutter - 1, 0, 1, scene.ruler), kit.rail)
    width = scene.gutter - 16
    reading = word(f"by {scene.reading}")
    kit.write(painter, QRectF(10, 0, width, row + 2), reading, kit.small_bold, kit.ink)
    kit.write(painter, QRectF(8, row, width, row), word("clock"), kit.small_face, kit.ink, right=True)
    kit.write(painter, QRectF(8, 2 * row, width, row - 2), word("to plating"), kit.small_face, kit.faint, right=True)


def _ticks(painter: QPainter, scene: Scene, kit: Kit, first: int, last: int, step: int) -> None:
    fine = finer_step(step)
    if fine * scene.axis.ppm < 5:
        return
    top = round(scene.ruler) - 4
    for minute in clock_marks(scene.plan, first, last, fine):
        if not scene.axis.folded(minute):
            painter.fillRect(round(scene.x(minute)), top, 1, 4, kit.rail)


def _row(
    painter: QPainter,
    scene: Scene,
    kit: Kit,
    top: float,
    labels: list[Label],
    *,
    colour: QColor,
    clear: tuple[float, float] | None = None,
) -> None:
    """Write the labels of a scale that are whole in sight; none within what is to be kept clear."""
    shift = scene.gutter - scene.left
    for label in labels:
        left, right = label.x + shift, label.x + shift + label.width
        if left < scene.gutter - 1 or right > scene.width or (clear and left < clear[1] and right > clear[0]):
            continue
        kit.write(painter, QRectF(left, top, label.width, scene.ruler / 3 - 1), label.text, kit.small_face, colour)


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
            if scene.gutter + 4 <= left <= scene.width - width - 2 and _clear(taken, *span):
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
    x = lane_paint.NAME
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
        size = min(max(18.0, kit.metrics(kit.text_face).height()), top.height() - 4)
        where = QRectF(x, top.center().y() - size / 2, size, size)
        kit.icon(painter, lane.icon, where)
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
