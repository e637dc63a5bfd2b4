"""Paints bars as strips of kitchen tape with a code tab, the waits behind them, their texts and marks."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter

from app.timeline import (
    bar_signs,
    lane_paint,
    lane_words,
    marks,
    paint_beside,
    paint_density,
    paint_food,
    paint_now,
)
from app.timeline.bars import Bar, BarKind
from app.timeline.geometry import Box
from app.timeline.heat import heat_text
from app.timeline.kit import Kit, pen
from app.timeline.scene import Scene

_TINY = 5.0
_PLAIN = 14.0
_WORDLESS = 14.0
"""Points in which no word nor code has room."""
_LOW = 12.0
"""Points of height that a text wants."""
_PEEP = 2.0
"""Points that a bar is painted beyond the sides of the lanes; its code stays in sight while the bar goes on."""

Shown = tuple[Bar, Box, QRectF]
"""A bar in sight, its whole box, and as much of it as is painted."""


def bars(painter: QPainter, scene: Scene, kit: Kit, at: int, area: QRectF) -> None:
    """Paint what one lane shows inside an area: waits first, then the bars on them; too many are a profile."""
    if scene.lanes[at].line:
        lane_paint.line(painter, scene, kit, at, area)
        return
    if paint_density.thinned(scene, at):
        paint_density.lane(painter, scene, kit, at, area)
        paint_food.ticks(painter, scene, kit, at, area)
        if scene.focus is not None and scene.focus_lane == at:
            _ring(painter, scene, kit, at, scene.focus)
        return
    shown = _in_sight(painter, scene, kit, at, area)
    kit.counts["bars"] += len(shown)
    below = lane_words.hung(scene, kit, at) if scene.lanes[at].words else []
    lane_words.hang(painter, scene, kit, at, below, area)
    _strips(painter, scene, kit, shown)
    hanging = {id(each.bar) for each in below}
    for bar, box, where in shown:
        if id(bar) not in hanging and box.h >= _LOW:
            _text(painter, scene, kit, bar, box, tab_width(kit, bar, where.width()))
    _marks(painter, scene, kit, at, shown)


def _strips(painter: QPainter, scene: Scene, kit: Kit, shown: Sequence[Shown]) -> None:
    for bar, box, where in shown:
        if bar.kind in paint_beside.KINDS:
            paint_beside.strip(painter, kit, bar, where)
        elif box.w < _TINY:
            painter.fillRect(where, kit.tone(bar.tone).full if bar.full else kit.tone(bar.tone).edge)
        else:
            work = work_of(scene, bar) if bar.pieces else ()
            strip(painter, kit, bar, where, goes_on=where.right() > scene.width, work=work)
            if bar.notches:
                _notches(painter, scene, kit, bar, where)


def _marks(painter: QPainter, scene: Scene, kit: Kit, at: int, shown: Sequence[Shown]) -> None:
    """Paint on the bars of a lane what is chosen, decided and clashing."""
    signed = scene.signed
    for bar, box, where in shown:
        if _ringed(scene, bar):
            _ring(painter, scene, kit, at, bar)
        if bar.step in signed:
            bar_signs.paint_signs(painter, scene, kit, bar, box, tab_width(kit, bar, where.width()))
        alarm = scene.alarm(at, bar) if scene.clashes else None
        if alarm is not None:
            _clashing(painter, scene, kit, box, alarm)
        if scene.food.all:
            paint_food.sign(painter, scene, kit, bar, box, alarm is not None)


def _in_sight(painter: QPainter, scene: Scene, kit: Kit, at: int, area: QRectF) -> list[Shown]:
    """Paint the waits of a lane inside an area; return its bars there with their boxes, whole and as painted."""
    shown = []
    back = 8.0
    if area.left() > scene.gutter:  # what is written beside a bar further left may reach into the area
        back += paint_density.heaps(scene, at).text_beside(kit, scene.lanes[at].bars)
    for bar in scene.layout.between(at, scene.time(area.left() - back), scene.time(area.right() + 8)):
        box = scene.box(at, bar)
        if bar.tail is not None:
            tail(painter, scene, kit, bar, box)
        if box.right >= scene.gutter - 8:
            shown.append((bar, box, _clipped(scene, box)))
    return shown


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
        kit.dashed(painter, box, tone.edge)
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


def tail(painter: QPainter, scene: Scene, kit: Kit, bar: Bar, box: Box) -> None:
    """Paint the wait behind a bar: a ribbon while the food may wait, broken and alarming beyond its limit."""
    wait = bar.tail
    if wait is None:
        return
    tone = kit.tone(bar.tone)
    y = round(box.bottom - 5)
    left, right = max(scene.x(wait.start), scene.gutter), min(scene.x(wait.end), scene.width)
    sound = max(left, min(right, scene.x(wait.sound_until)))
    if right <= left:
        return
    if sound > left:
        first, wide = round(left), round(sound) - round(left)
        painter.fillRect(first, y, wide, 4, tone.edge)
        painter.fillRect(first, y + 1, wide, 2, tone.soft)
        painter.fillRect(round(right) - 1, y - 2, 2, 8, tone.edge)
    if sound < right:
        kit.dashes(painter, QRectF(sound, y, right - sound, 4), kit.clash)


def _clipped(scene: Scene, box: Box) -> QRectF:
    left, right = round(max(box.x, scene.gutter - _PEEP)), round(min(box.right, scene.width + _PEEP))
    return QRectF(left, round(box.y), max(1, right - left), round(box.h))


def _notches(painter: QPainter, scene: Scene, kit: Kit, bar: Bar, box: QRectF) -> None:
    edge, first, last = kit.tone(bar.tone).edge, box.left(), box.right()
    height = min(6.0, box.height() / 3)
    top, beyond = box.bottom() - height, 0.0
    for notch in bar.notches:
        left = scene.x(notch.start)
        right = max(left + 3.0, scene.x(notch.start + notch.minutes))
        if left >= last:
            break
        if right > max(first, beyond):  # what lies within the one before is seen already
            left = max(left, first + 1)
            painter.fillRect(QRectF(left, top, min(right - left, last - left - 1), height), edge)
            beyond = right


def _text(painter: QPainter, scene: Scene, kit: Kit, bar: Bar, box: Box, tab: float) -> None:
    """Write inside the strip if it fits, else beside it, else shortened by whole words, else not at all."""
    left, right = max(box.x, scene.gutter), min(box.right, scene.width)
    if right < scene.gutter or left > scene.width:
        return
    if box.w < _WORDLESS and bar.until is not None and scene.x(bar.until) - box.right < _WORDLESS:
        return
    start = max(left, max(box.x, scene.gutter - _PEEP) + tab) + 6
    start += paint_beside.DROP if bar.vessel and bar.kind is BarKind.CHORE else 0
    if bar.step in scene.signed:
        start += bar_signs.room_for(scene, kit, bar, right - left, tab)
    inside = QRectF(start, box.y, max(right - start - 6, 0), box.h)
    tone = kit.tone(bar.tone)
    colour = kit.ink if bar.kind in paint_beside.KINDS else tone.on_full if bar.full else tone.on_soft
    face = kit.small_face if bar.crowned else kit.text_face
    says, work = _says(bar), work_of(scene, bar) if bar.pieces else ()
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
    for line in scene.serving_xs:
        if left - 6 <= line < left + 4:
            left = line + 6
    end = scene.width if bar.until is None else min(scene.x(bar.until), scene.width)
    says = bar.says[-1] if bar.says else ""
    for text in [says] if coded else [f"{bar.code} {says}", bar.code]:
        width = kit.width(text, kit.small_face)
        if not text or left + width > end - 5:
            continue
        where = QRectF(left, box.y - 1, width, box.h - 3)
        line = kit.metrics(kit.small_face).height() - 2
        if scene.now is not None:  # only as wide as what is painted anew each minute
            first, last = paint_now.across(scene, scene.now)
            gap = QRectF(first, where.center().y() - line / 2, last - first, line)
            painter.fillRect(gap.intersected(QRectF(left - 2, gap.top(), width + 4, line)), kit.lane)
        if any(left < line + 3 and line < left + width for line in scene.serving_xs):
            painter.fillRect(QRectF(left - 2, where.center().y() - line / 2, width + 4, line), kit.lane)
        kit.write(painter, where, text, kit.small_face, kit.ink)
        return True
    return False


def _says(bar: Bar) -> Sequence[str]:
    if bar.kind is BarKind.HEATING and bar.setting is not None:
        return (f"{bar.says[0]} {heat_text(bar.setting)}", *bar.says)
    return bar.says


def _clashing(painter: QPainter, scene: Scene, kit: Kit, box: Box, span: tuple[int, int]) -> None:
    """Frame a bar that clashes from one minute to another, hatch that stretch of it and put a disc at its end."""
    left, right, low, high = box.x, box.right, scene.gutter, scene.width
    if right < low or left > high:
        return
    if box.w < _TINY:  # among many of them a frame and a disc would hide each other
        painter.fillRect(QRectF(left - 1, box.y, box.w + 2, box.h), kit.clash)
        return
    start = max(scene.x(span[0]), left)
    first, last = start, min(max(scene.x(span[1]), start + 8), right)
    first = min(first, max(left, right - 6))  # a clash at its very end is seen on it, not beyond
    first, last = max(first, low - _PEEP), min(last, high + _PEEP)
    marks.hatch(painter, kit, QRectF(first, box.bottom - 7, max(last - first, min(6.0, box.w)), 7))
    start, end = max(left, low - 9), min(right, high + 9)
    kit.frame(painter, QRectF(start, box.y, end - start, box.h), kit.clash)
    centre = min(max(right - 2, low + 10), high - 10)
    kit.disc(painter, marks.clash_disc, centre, box.y + 4, 7.5 if box.w > 16 else 5.0)


def _ringed(scene: Scene, bar: Bar) -> bool:
    """Tell whether a bar has the focus, or belongs to the chosen step, to the marked one or to what is chosen along."""
    if bar is scene.focus or bar.key in scene.also:
        return True
    return bar.step is not None and bar.step in (scene.selected, scene.marked)


def _ring(painter: QPainter, scene: Scene, kit: Kit, at: int, bar: Bar) -> None:
    focused = bar is scene.focus and at == scene.focus_lane
    box = _clipped(scene, scene.box(at, bar))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(kit.accent_pen if bar.step is None or bar.step != scene.marked else kit.marked_pen)
    painter.drawRect(box.adjusted(-2, -2, 2, 2))
    if focused:
        painter.setPen(pen(kit.ink, 1))
        painter.drawRect(box.adjusted(-4, -4, 4, 4))
