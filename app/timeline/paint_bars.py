"""Paints bars as strips of kitchen tape with a code tab, the waits behind them, their texts and marks."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter

from app.timeline import marks, paint_beside
from app.timeline.bars import Bar, BarKind
from app.timeline.geometry import Box
from app.timeline.kit import Kit, pen
from app.timeline.scene import Scene, concerns
from core.measures.heat import show_heat
from core.timetable.clash import Clash

_TINY = 5.0
_PLAIN = 14.0


def bars(
    painter: QPainter, scene: Scene, kit: Kit, at: int, area: QRectF, clashes: dict[str, list[Clash]]
) -> None:
    """Paint what one lane shows inside an area: waits first, then the bars on them."""
    low, high = scene.time(area.left() - 8), scene.time(area.right() + 8)
    shown = scene.layout.between(at, low, high)
    for bar in shown:
        if bar.tail is not None:
            tail(painter, scene, kit, at, bar)
    for bar in shown:
        box = _clipped(scene, at, bar)
        if bar.kind in paint_beside.KINDS:
            paint_beside.strip(painter, kit, bar, box)
        elif box.width() < _TINY:
            painter.fillRect(box, kit.tone(bar.tone).full if bar.full else kit.tone(bar.tone).edge)
        else:
            strip(painter, kit, bar, box, goes_on=box.right() > scene.width, work=work_of(scene, bar))
            _notches(painter, scene, kit, bar, box)
    for bar in shown:
        _text(painter, scene, kit, at, bar)
    for bar in shown:
        _signs(painter, scene, kit, at, bar, clashes)


def work_of(scene: Scene, bar: Bar, by: int = 0) -> list[tuple[float, float]]:
    """Return from where to where each piece of a bar lies across the widget, the bar moved `by` minutes."""
    return [(scene.x(each.start + by), scene.x(each.start + each.minutes + by)) for each in bar.pieces]


def strip(
    painter: QPainter,
    kit: Kit,
    bar: Bar,
    box: QRectF,
    *,
    goes_on: bool = False,
    work: Sequence[tuple[float, float]] = (),
) -> None:
    """Paint a strip of tape: full tone with hands on, light where it cooks by itself, dashed where it waits.

    `goes_on`: it ends out of sight and so has no cut edge. `work`: hands are on from there to there only.
    """
    tone = kit.tone(bar.tone)
    painter.setBrush(tone.full if bar.full else tone.soft)
    if bar.kind is BarKind.STAY:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.fillRect(box, tone.soft)
        painter.setPen(tone.waiting_pen)
        painter.drawRect(box)
    elif box.width() < _PLAIN or goes_on:
        painter.setPen(tone.edge_pen)
        painter.drawRect(box)
    else:
        painter.setPen(tone.edge_pen)
        painter.drawPolygon(marks.tape(box))
    for left, right in work:
        part = QRectF(left, box.top() + 1, right - left, box.height() - 1).intersected(box.adjusted(1, 1, -3, 0))
        painter.fillRect(part, tone.full)
    tab = tab_width(kit, bar, box.width())
    if tab:
        painter.fillRect(QRectF(box.left() + 1, box.top() + 1, tab - 1, box.height() - 1), tone.full)
        painter.fillRect(QRectF(box.left() + tab, box.top(), 1, box.height()), tone.edge)
        where = QRectF(box.left(), box.top(), tab, box.height())
        kit.write(painter, where, bar.code, kit.small_bold, tone.on_full, centre=True)


def tab_width(kit: Kit, bar: Bar, width: float) -> float:
    """Return the width of the code tab on a bar so wide; 0 where there is no room for one."""
    if not bar.code:
        return 0.0
    wanted = kit.tab if len(bar.code) < 3 else max(kit.tab, kit.width(bar.code, kit.small_bold) + 8)
    return wanted if width >= wanted + 3 else 0.0


def tail(painter: QPainter, scene: Scene, kit: Kit, at: int, bar: Bar) -> None:
    """Paint the wait behind a bar: a ribbon while the food may wait, broken and alarming beyond its limit."""
    wait = bar.tail
    if wait is None:
        return
    tone = kit.tone(bar.tone)
    box = scene.box(at, bar)
    y = round(box.bottom - 5)
    left, right = max(scene.x(wait.start), scene.gutter), min(scene.x(wait.end), scene.width)
    sound = max(left, min(right, scene.x(wait.sound_until)))
    if right <= left:
        return
    if sound > left:
        painter.fillRect(QRectF(left, y, sound - left, 4), tone.soft)
        painter.fillRect(QRectF(left, y, sound - left, 1), tone.edge)
        painter.fillRect(QRectF(left, y + 3, sound - left, 1), tone.edge)
        painter.fillRect(QRectF(right - 1, y - 2, 2, 8), tone.edge)
    x = sound
    while x < right:
        painter.fillRect(QRectF(x, y, min(6, right - x), 4), kit.clash)
        x += 10


def _clipped(scene: Scene, at: int, bar: Bar) -> QRectF:
    box = scene.box(at, bar)
    left, right = round(max(box.x, scene.gutter - 40)), round(min(box.right, scene.width + 40))
    return QRectF(left, round(box.y), max(1, right - left), round(box.h))


def _notches(painter: QPainter, scene: Scene, kit: Kit, bar: Bar, box: QRectF) -> None:
    tone = kit.tone(bar.tone)
    for notch in bar.notches:
        left = scene.x(notch.start)
        width = max(3.0, scene.x(notch.start + notch.minutes) - left)
        if left + width > box.left() and left < box.right():
            left = max(left, box.left() + 1)
            width = min(width, box.right() - left - 1)
            height = min(6.0, box.height() / 3)
            painter.fillRect(QRectF(left, box.bottom() - height, width, height), tone.edge)


def _text(painter: QPainter, scene: Scene, kit: Kit, at: int, bar: Bar) -> None:
    """Write inside the strip if it fits, else beside it, else shortened by whole words, else not at all."""
    box = scene.box(at, bar)
    left, right = max(box.x, scene.gutter), min(box.right, scene.width)
    if right < scene.gutter or left > scene.width or box.h < 12:
        return
    tab = tab_width(kit, bar, min(box.right, scene.width + 40) - max(box.x, scene.gutter - 40))
    start = max(left, box.x + tab) + (6 if bar.vessel is None else paint_beside.DROP + 6)
    inside = QRectF(start, box.y, max(right - start - 6, 0), box.h)
    tone = kit.tone(bar.tone)
    colour = kit.ink if bar.kind in paint_beside.KINDS else tone.on_full if bar.full else tone.on_soft
    face = kit.small_face if bar.crowned else kit.text_face
    says, work = _says(bar), work_of(scene, bar)
    for text in says:
        if kit.width(text, face) <= inside.width():
            write_on(painter, kit, bar, inside, text, ink=(face, colour), work=work)
            return
    if bar.crowned:
        return
    if box.right > scene.gutter and _beside(painter, scene, kit, bar, box, coded=bool(tab or not bar.code)):
        return
    for text in reversed(says):
        short = kit.shortened(text, kit.text_face, inside.width())
        if short:
            write_on(painter, kit, bar, inside, short, ink=(kit.text_face, colour), work=work)
            return


def write_on(
    painter: QPainter,
    kit: Kit,
    bar: Bar,
    where: QRectF,
    text: str,
    *,
    ink: tuple[QFont, QColor],
    work: Sequence[tuple[float, float]] = (),
) -> None:
    """Write on a strip; where its pieces lie in the colour that is read on the full tone."""
    kit.write(painter, where, text, *ink)
    if not work:
        return
    drawn, kit.drawn = kit.drawn, None  # the same text again, not another one
    for left, right in work:
        painter.save()
        painter.setClipRect(QRectF(left, where.top(), right - left, where.height()), Qt.ClipOperation.IntersectClip)
        painter.fillRect(where, kit.tone(bar.tone).full)
        kit.write(painter, where, text, ink[0], kit.tone(bar.tone).on_full)
        painter.restore()
    kit.drawn = drawn


def _beside(painter: QPainter, scene: Scene, kit: Kit, bar: Bar, box: Box, *, coded: bool) -> bool:
    """Write right of the strip where there is room up to the next one; tell whether there was."""
    left = box.right + 5
    for at, _word in scene.courses:
        line = scene.x(at)
        if left - 6 <= line < left + 4:
            left = line + 6
    end = scene.width if bar.until is None else min(scene.x(bar.until), scene.width)
    says = bar.says[-1] if bar.says else ""
    for text in [says] if coded else [f"{bar.code} {says}", bar.code]:
        width = kit.width(text, kit.small_face)
        if not text or left + width > end - 5:
            continue
        where = QRectF(left, box.y - 1, width, box.h - 3)
        if any(left < scene.x(at) + 3 and scene.x(at) < left + width for at, _word in scene.courses):
            line = kit.metrics(kit.small_face).height() - 2
            painter.fillRect(QRectF(left - 2, where.center().y() - line / 2, width + 4, line), kit.lane)
        kit.write(painter, where, text, kit.small_face, kit.ink)
        return True
    return False


def _says(bar: Bar) -> Sequence[str]:
    if bar.kind is BarKind.HEATING and bar.setting is not None:
        return (f"{bar.says[0]} {show_heat(bar.setting)}", *bar.says)
    return bar.says


def _signs(
    painter: QPainter, scene: Scene, kit: Kit, at: int, bar: Bar, clashes: dict[str, list[Clash]]
) -> None:
    near = scene.clashes if bar.step is None else clashes.get(bar.step, ())
    wrong = [clash for clash in near if concerns(clash, bar, scene.lanes[at])]
    if bar.pinned or wrong:
        box = scene.box(at, bar)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        if bar.pinned:
            marks.pin(painter, kit.ink, kit.lane, max(box.x, scene.gutter) + 4, box.y + 8)
        if wrong:
            _clashing(painter, scene, kit, QRectF(box.x, box.y, box.w, box.h), wrong)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    if bar is scene.focus or (bar.step is not None and bar.step == scene.selected):
        _ring(painter, scene, kit, at, bar)


def _clashing(painter: QPainter, scene: Scene, kit: Kit, box: QRectF, wrong: list[Clash]) -> None:
    if box.right() < scene.gutter or box.left() > scene.width:
        return
    start = max(min(clash.start for clash in wrong), scene.time(box.left()))
    end = min(max(clash.end for clash in wrong), scene.time(box.right()))
    first, last = max(scene.x(start), box.left()), min(max(scene.x(end), scene.x(start) + 8), box.right())
    marks.hatch(painter, kit, QRectF(first, box.bottom() - 7, max(last - first, 6), 7))
    painter.setPen(kit.clash_pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box)
    centre = min(max(box.right() - 2, scene.gutter + 10), scene.width - 10)
    marks.clash_disc(painter, kit, centre, box.top() + 4, 7.5 if box.width() > 16 else 5.0)


def _ring(painter: QPainter, scene: Scene, kit: Kit, at: int, bar: Bar) -> None:
    focused = bar is scene.focus and at == scene.focus_lane
    box = _clipped(scene, at, bar)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(kit.accent_pen)
    painter.drawRect(box.adjusted(-2, -2, 2, 2))
    if focused:
        painter.setPen(pen(kit.ink, 1))
        painter.drawRect(box.adjusted(-4, -4, 4, 4))


def links(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Draw lines from the chosen step to those before and after it, where both are on the picture."""
    if scene.selected is None or scene.selected not in scene.plan.steps:
        return
    spots: dict[str, QRectF] = {}
    for at, lane in enumerate(scene.lanes):
        for bar in lane.bars:
            if bar.kind is BarKind.STEP and bar.step is not None and (bar.step not in spots or bar.load):
                box = scene.box(at, bar)
                spots.setdefault(bar.step, QRectF(box.x, box.y, box.w, box.h))
    here = scene.selected
    pairs = [(link.before, here) for link in scene.plan.links_to[here]]
    pairs += [(here, link.after) for link in scene.plan.links_from[here]]
    painter.setPen(pen(kit.accent, 1.4))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    for before, after in pairs:
        one, other = spots.get(before), spots.get(after)
        if one is None or other is None:
            continue
        start, end = QPointF(one.right(), one.center().y()), QPointF(other.left(), other.center().y())
        middle = max(start.x() + 6, min(end.x() - 6, start.x() + 12))
        painter.drawLines(
            [
                QLineF(start, QPointF(middle, start.y())),
                QLineF(QPointF(middle, start.y()), QPointF(middle, end.y())),
                QLineF(QPointF(middle, end.y()), end),
            ]
        )
        painter.setBrush(kit.accent)
        painter.drawEllipse(end, 2.5, 2.5)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
