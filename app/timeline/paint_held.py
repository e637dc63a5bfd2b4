"""Paints a drag: where the bar may start, the bar with its times, who is pushed where, what would clash."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from app.look.words import clock_text
from app.timeline import marks, paint_bars
from app.timeline.bars import Bar, BarKind
from app.timeline.geometry import Box
from app.timeline.kit import Kit, pen
from app.timeline.scene import Held, Scene, concerns


def legal(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Shade the stretch in which the bar may lie without breaking a link, with rails at both ends."""
    held = scene.held
    if held is None or held.legal is None:
        return
    lane = scene.lane_box(held.to_lane)
    first, last = held.legal
    left, right = scene.x(first), scene.x(last + held.length)
    part = QRectF(left, lane.y, right - left, lane.h)
    seen = part.intersected(QRectF(scene.gutter, lane.y, scene.width - scene.gutter, lane.h))
    painter.fillRect(seen, kit.legal)
    for x in (left, right):
        painter.fillRect(QRectF(round(x) - 1, lane.y, 2, lane.h), kit.ink)


def held(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint ghosts of what is pushed, then the held bar itself with the clock at both ends."""
    now = scene.held
    if now is None:
        return
    _fade(painter, scene, kit, now)
    for at, bar, box in ghosts(scene, now):
        _ghost(painter, scene, kit, at, bar, QRectF(box.x, box.y, box.w, box.h))
    box = held_box(scene, now)
    where = QRectF(round(box.x), round(box.y), max(2, round(box.w)), round(box.h))
    painter.setOpacity(0.92)
    work = paint_bars.work_of(scene, now.bar, now.start - now.bar.start)
    paint_bars.strip(painter, kit, now.bar, where, work=work)
    painter.setOpacity(1.0)
    _held_text(painter, kit, now, where, work)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(kit.accent_pen)
    painter.drawRect(where.adjusted(-2, -2, 2, 2))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    wrong = [clash for clash in now.clashes if now.bar.step in clash.steps]
    if wrong:
        marks.hatch(painter, kit, QRectF(where.left(), where.bottom() - 7, where.width(), 7))
        marks.clash_disc(painter, kit, where.right() - 2, where.top() + 4)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    _times(painter, scene, kit, now, where)
    if wrong:
        _sentence(painter, scene, kit, wrong[0].sentence, where)


def ruler_marks(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Mark the held bar's stretch on the ruler."""
    now = scene.held
    if now is None:
        return
    left, right = max(scene.x(now.start), scene.gutter), min(scene.x(now.end), scene.width)
    if right > left:
        painter.fillRect(QRectF(left, scene.ruler - 4, right - left, 3), kit.accent)


def held_box(scene: Scene, now: Held) -> Box:
    """Return where the held bar lies now."""
    moved = Bar(now.bar.kind, now.start, now.end, row=_row_in(scene, now), rows=now.bar.rows)
    return scene.box(now.to_lane, moved)


def ghosts(scene: Scene, now: Held) -> list[tuple[int, Bar, Box]]:
    """Return the bars that are pushed, with the boxes they would take."""
    found = []
    pushed = {key: start for key, start in now.pushed.items() if key != now.bar.key}
    for at, lane in enumerate(scene.lanes):
        for bar in lane.bars:
            if bar.kind is BarKind.STEP and bar.key in pushed:
                start = pushed[bar.key]
                moved = Bar(bar.kind, start, start + bar.end - bar.start, row=bar.row, rows=bar.rows)
                found.append((at, bar, scene.box(at, moved)))
    return found


def held_area(scene: Scene) -> list[QRectF]:
    """Return all that a drag paints over, so that the next move repaints no more than it must."""
    now = scene.held
    if now is None:
        return []
    lane, box = scene.lane_box(now.to_lane), held_box(scene, now)
    areas = [
        QRectF(scene.gutter, lane.y - 6, scene.width - scene.gutter, lane.h + 12),
        QRectF(box.x - 90, box.y - 26, box.w + 180, box.h + 52),
        QRectF(min(box.x, scene.width - 600) - 10, box.y - 80, 620, box.h + 160),
        QRectF(scene.gutter, 0, scene.width - scene.gutter, scene.ruler),
    ]
    for at, bar in _moving(scene, now):
        old = scene.box(at, bar)
        areas.append(QRectF(old.x - 10, old.y - 10, old.w + 20, old.h + 20))
    for _at, _bar, ghost in ghosts(scene, now):
        areas.append(QRectF(ghost.x - 10, ghost.y - 10, ghost.w + 20, ghost.h + 20))
    return areas


def _moving(scene: Scene, now: Held) -> list[tuple[int, Bar]]:
    """Return the bars that stand elsewhere while the held one is moved, itself among them."""
    keys = {now.bar.key, *now.pushed}
    return [
        (at, bar)
        for at, lane in enumerate(scene.lanes)
        for bar in lane.bars
        if bar.kind is BarKind.STEP and bar.key in keys
    ]


def _row_in(scene: Scene, now: Held) -> int:
    if now.to_lane == now.lane:
        return now.bar.row
    return min(now.bar.row, max(0, scene.lanes[now.to_lane].rows - now.bar.rows))


def _fade(painter: QPainter, scene: Scene, kit: Kit, now: Held) -> None:
    """Fade the bar where it was, and those that are pushed."""
    veil = QColor(kit.lane)
    veil.setAlphaF(0.62)
    for at, bar in _moving(scene, now):
        box = scene.box(at, bar)
        painter.fillRect(QRectF(box.x, box.y, box.w + 1, box.h + 1), veil)


def _held_text(
    painter: QPainter, kit: Kit, now: Held, where: QRectF, work: list[tuple[float, float]]
) -> None:
    tab = paint_bars.tab_width(kit, now.bar, where.width())
    room = where.adjusted(tab + 6, 0, -6, 0)
    tone = kit.tone(now.bar.tone)
    for text in now.bar.says:
        if kit.width(text, kit.text_face) <= room.width():
            ink = (kit.text_face, tone.on_full if now.bar.full else tone.on_soft)
            paint_bars.write_on(painter, kit, now.bar, room, text, ink=ink, work=work)
            return


def _ghost(painter: QPainter, scene: Scene, kit: Kit, at: int, bar: Bar, box: QRectF) -> None:
    tone = kit.tone(bar.tone)
    soft = QColor(tone.soft)
    soft.setAlphaF(0.75)
    painter.fillRect(box, soft)
    painter.setPen(tone.waiting_pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box)
    if box.width() > kit.tab:
        where = box.adjusted(5, 0, 0, 0)
        kit.write(painter, where, bar.code, kit.small_bold, tone.on_soft)
    now = scene.held
    wrong = [] if now is None else [each for each in now.clashes if concerns(each, bar, scene.lanes[at])]
    if wrong:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        marks.clash_disc(painter, kit, box.right() - 2, box.top() + 4)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def _times(painter: QPainter, scene: Scene, kit: Kit, now: Held, where: QRectF) -> None:
    first = clock_text(scene.plan.wall(now.start))
    last = clock_text(scene.plan.wall(now.end))
    height = kit.metrics(kit.small_bold).height() + 2
    y = where.top() - height - 4
    if y < scene.ruler + 2:
        y = where.bottom() + 5
    left, right = kit.width(first, kit.small_bold) + 10, kit.width(last, kit.small_bold) + 10
    starts = where.left() - (left if where.width() < left + right + 4 else 0)
    ends = where.right() if where.width() < left + right + 4 else where.right() - right
    for x, width, text in ((starts, left, first), (ends, right, last)):
        _chip(painter, kit, QRectF(round(x), round(y), width, height), text)


def _chip(painter: QPainter, kit: Kit, where: QRectF, text: str) -> None:
    painter.fillRect(where, kit.ink)
    kit.write(painter, where, text, kit.small_bold, kit.lane, centre=True)


def _sentence(painter: QPainter, scene: Scene, kit: Kit, sentence: str, where: QRectF) -> None:
    text = kit.shortened(sentence, kit.small_face, 560) or sentence[:60]
    width = kit.width(text, kit.small_face) + 14
    height = kit.metrics(kit.small_face).height() + 6
    x = max(scene.gutter + 4, min(where.left(), scene.width - width - 4))
    y = where.bottom() + 24
    if y + height > scene.height:
        y = where.top() - height - 28
    box = QRectF(round(x), round(y), width, height)
    painter.fillRect(box, kit.lane)
    painter.setPen(pen(kit.clash, 1.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box)
    kit.write(painter, box.adjusted(7, 0, 0, 0), text, kit.small_face, kit.clash)
