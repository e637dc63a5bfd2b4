"""Paints what bars lie on: strips, shades, nights, the grid, racks, shelves with their filling, the oven's curve."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from operator import attrgetter

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter

from app.look.words import figure, word
from app.timeline import marks, paint_beside, paint_density
from app.timeline.bars import Lane, LaneKind, Track
from app.timeline.geometry import CROWN, LANE_PAD
from app.timeline.heat import Curve, heat_text
from app.timeline.kit import Kit
from app.timeline.scale import days, finer_step, ruler_step
from app.timeline.scene import Scene
from core.timetable.sweep import Level

_FIGURES = 40.0
"""Points in which the filling of a shelf certainly has no room as figures."""
_end_of, _start_of = attrgetter("end"), attrgetter("start")
_BESIDE = 180.0
"""Points that a text beside a bar, or hanging below it, may take."""


def ground(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint the paper, the strips, nights and the grid under everything."""
    strips = [(at, _strip(scene, at)) for at in scene.lanes_between(area.top(), area.bottom())]
    bare = area.top()  # no point is painted twice: so many of them take their time
    for _at, strip in strips:
        seen = strip.intersected(area)
        if seen.top() > bare:
            painter.fillRect(QRectF(area.left(), bare, area.width(), seen.top() - bare), kit.ground)
        painter.fillRect(seen, kit.lane)
        bare = max(bare, seen.bottom())
    if bare < area.bottom():
        painter.fillRect(QRectF(area.left(), bare, area.width(), area.bottom() - bare), kit.ground)
    for night in scene.nights:
        _band(painter, scene, kit, area, night.start, night.end)
    for at, strip in strips:
        _shades(painter, scene, kit, scene.lanes[at], strip.intersected(area))
    _grid(painter, scene, kit, area)


def furniture(painter: QPainter, scene: Scene, kit: Kit, at: int, area: QRectF) -> None:
    """Paint what belongs to one lane: its curve, racks, shelves, and a hatched strip where it is over-full."""
    lane = scene.lanes[at]
    if lane.line or paint_density.thinned(scene, at):
        return
    curve = scene.curves.get(lane.id)
    if curve is not None:
        _curve(painter, scene, kit, at, curve)
    paint_beside.glow(painter, scene, kit, at)
    left = max(scene.gutter, area.left())
    width = area.right() - left
    for row in range(1, lane.rows):
        if lane.kind is LaneKind.STATION and lane.room is not None and row <= lane.room:
            y = round(scene.y(scene.layout.row_top(at, row)))
            painter.fillRect(QRectF(left, y - 1, width, 1), kit.line)
            if lane.row_share == 1.0:
                painter.fillRect(QRectF(left, y + 1, width, 1), kit.line)
    if lane.room is not None and lane.rows > lane.room and lane.kind is not LaneKind.COOK:
        top = scene.y(scene.layout.row_top(at, lane.room))
        bottom = scene.y(scene.layout.row_top(at, lane.rows))
        painter.fillRect(QRectF(left, top, width, bottom - top), kit.panel)
    for track in lane.tracks:
        _shelf(painter, scene, kit, at, track)


def night_words(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Write 'night' below the lanes in each dark band that has room for it."""
    says = word("night")
    width, height = kit.width(says, kit.small_face), max(18.0, kit.metrics(kit.small_face).height())
    foot = scene.y(scene.layout.height) + height + 2
    for night in scene.nights:
        for start, end in _open_parts(scene, night.start, night.end):
            left, right = max(scene.x(start), scene.gutter), min(scene.x(end), scene.width)
            if right - left > width + 16:
                where = QRectF(left, foot - height - 1, right - left, height)
                kit.write(painter, where, says, kit.small_face, kit.faint, centre=True)


def shade_words(painter: QPainter, scene: Scene, kit: Kit, at: int) -> None:
    """Write in a lane's shaded stretches who or what is not there, where there is room; nights say so below."""
    strip = _strip(scene, at)
    for shade in scene.lanes[at].shades:
        if scene.lanes[at].line:
            break
        if any(night.start <= shade.start and shade.end <= night.end for night in scene.nights):
            continue
        for start, end in _open_parts(scene, shade.start, shade.end):
            left, right = max(scene.x(start), scene.gutter), min(scene.x(end), scene.width)
            if right - left > kit.width(shade.says, kit.small_face) + 20 and _quiet(scene, at, left, right):
                where = QRectF(left + 8, strip.top(), right - left, strip.height())
                kit.write(painter, where, shade.says, kit.small_face, kit.faint)
                break


def _quiet(scene: Scene, at: int, left: float, right: float) -> bool:
    """Tell whether no bar is between two places or so shortly before that its text could reach in."""
    return not any(
        scene.x(bar.end) > left - _BESIDE and scene.x(bar.start) < right
        for bar in scene.layout.between(at, scene.time(left - _BESIDE), scene.time(right))
    )


def folds(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint folded stretches as creased strips; bars lie over them."""
    bottom = min(scene.height, scene.y(scene.layout.height))
    for start, end in scene.axis.folds:
        left, right = round(scene.x(start)), round(scene.x(end))
        if right < scene.gutter or left > scene.width or right - left < 12:
            continue
        painter.fillRect(QRectF(left, scene.ruler, right - left, bottom - scene.ruler), kit.panel)
        marks.crease(painter, kit, (left + right) / 2, scene.ruler, bottom)


def plating_lines(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint the bold double line of plating and a slighter one for each further course."""
    bottom = min(area.bottom(), scene.y(scene.layout.height) + 6)
    for minute, _says in scene.courses:
        x = round(scene.x(minute))
        if not scene.gutter <= x <= scene.width:
            continue
        wide, thin = (4, 2) if minute == 0 else (1, 1)
        painter.fillRect(QRectF(x - wide, area.top(), wide, bottom - area.top()), kit.accent)
        painter.fillRect(QRectF(x + 2, area.top(), thin, bottom - area.top()), kit.accent)


def _strip(scene: Scene, at: int) -> QRectF:
    box = scene.lane_box(at)
    return QRectF(box.x, box.y, box.w, box.h)


def _band(painter: QPainter, scene: Scene, kit: Kit, area: QRectF, start: int, end: int) -> None:
    left, right = scene.x(start), scene.x(end)
    bottom = max(area.top(), min(area.bottom(), scene.y(scene.layout.height) + 20))
    band = QRectF(left, area.top(), right - left, bottom - area.top()).intersected(area)
    if band.width() > 0:
        painter.fillRect(band, kit.night)


def _shades(painter: QPainter, scene: Scene, kit: Kit, lane: Lane, strip: QRectF) -> None:
    low, high = (scene.time(strip.left()), scene.time(strip.right())) if lane.shades else (0, 0)
    for shade in lane.shades:
        if shade.start >= high or shade.end <= low:
            continue
        left, right = scene.x(shade.start), scene.x(shade.end)
        part = QRectF(left, strip.top(), right - left, strip.height()).intersected(strip)
        if part.width() <= 0:
            continue
        painter.fillRect(part, kit.night)


def _grid(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    from app.timeline.scale import clock_marks

    low, high = scene.time(max(area.left(), scene.gutter)), scene.time(area.right())
    first, last = int(max(low, scene.axis.low)), int(min(high, scene.axis.high)) + 1
    step = finer_step(ruler_step(scene.axis.ppm))
    while step * scene.axis.ppm < 20:
        step *= 2
    bottom = min(area.bottom(), scene.y(scene.layout.height))
    top, high_up = round(area.top()), max(0, round(bottom) - round(area.top()))
    for minute in clock_marks(scene.plan, first, last, min(step, 1440)):
        if not scene.axis.folded(minute):
            painter.fillRect(round(scene.x(minute)), top, 1, high_up, kit.panel)
    for day in days(scene.plan, first, last):
        if first < day.start < last:
            painter.fillRect(QRectF(round(scene.x(day.start)), area.top(), 1, bottom - area.top()), kit.rail)


def _open_parts(scene: Scene, start: int, end: int) -> list[tuple[int, int]]:
    parts = [(start, end)]
    for low, high in scene.axis.folds:
        cut = []
        for first, last in parts:
            cut += [(first, min(last, low)), (max(first, high), last)]
        parts = [(first, last) for first, last in cut if last > first]
    return parts


def _curve(painter: QPainter, scene: Scene, kit: Kit, at: int, curve: Curve) -> None:
    lane_top = scene.y(scene.layout.tops[at])
    lane = scene.lanes[at]
    floor = scene.y(scene.layout.row_top(at, min(lane.rows, lane.room or lane.rows))) + LANE_PAD - 1
    ceiling = lane_top + LANE_PAD + CROWN * scene.layout.row * 0.75
    low, high = scene.seen

    def point(minute: float, celsius: float) -> QPointF:
        x = max(scene.gutter - 50, min(scene.width + 50, scene.x(minute)))
        return QPointF(x, floor - curve.share(celsius) * (floor - ceiling))

    for corners in curve.warm_between(low, high):
        line = [point(*corner) for corner in corners]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(kit.heat_fill)
        painter.drawPolygon([QPointF(line[0].x(), floor), *line, QPointF(line[-1].x(), floor)])
        painter.setPen(kit.heat_pen)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)  # of the line alone: a smooth filling is dear
        painter.drawPolyline(line)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    free = 0.0
    for plateau in sorted(curve.plateaus, key=lambda each: each.start):
        if plateau.end <= low or plateau.start >= high:
            continue
        left = max(scene.x(plateau.start) + 4, scene.gutter + 4)
        degrees = heat_text(plateau.setting)
        width = kit.width(degrees, kit.small_bold)
        if free <= left <= scene.width - width and scene.x(plateau.end) - left > width * 0.5:
            free = left + width + 8
            height = round(kit.metrics(kit.small_bold).height() - 2)
            where = QRectF(left, lane_top + LANE_PAD - 1, width, height)
            painter.fillRect(QRectF(left - 2, where.top() + 1, width + 4, height - 1), kit.lane)
            kit.write(painter, where, degrees, kit.small_bold, kit.heat)


def _shelf(painter: QPainter, scene: Scene, kit: Kit, at: int, track: Track) -> None:
    """Paint the gauge of a shelf: how much of its area is taken, hatched where it is more than there is."""
    foot = track.row + track.rows
    top, bottom = scene.y(scene.layout.row_top(at, foot - 1)) + 2, scene.y(scene.layout.row_top(at, foot)) - 1
    low, high = scene.seen
    words: list[tuple[QRectF, str]] = []
    over: list[tuple[float, float]] = []
    for level in _in_sight(track, low, high):
        amount = level.amount
        left, right = max(scene.x(level.start), scene.gutter), min(scene.x(level.end), scene.width)
        if amount <= 0 or right <= left or track.area <= 0:
            continue
        height = round((bottom - top) * min(1.0, amount / track.area))
        painter.fillRect(QRectF(left, bottom - height, right - left, height), kit.line)
        if amount > track.area:
            if over and over[-1][1] >= left:
                left_most, _right = over.pop()
                over.append((left_most, right))
            else:
                over.append((left, right))
        brim = left
        if right - left > _FIGURES:
            says = f"{figure(amount)} / {figure(track.area)} cm²"
            if right - left > kit.width(says, kit.small_face) + 12:
                where = QRectF(left + 6, top, right - left, bottom - top)
                words.append((where, says))
                brim = left + kit.width(says, kit.small_face) + 12
        painter.fillRect(QRectF(brim, bottom - height, right - brim, 1), kit.rail)
    for left, right in over:
        marks.hatch(painter, kit, QRectF(left, top, right - left, bottom - top))
    for where, says in words:
        kit.write(painter, where, says, kit.small_face, kit.ink)
    painter.fillRect(QRectF(scene.gutter, round(bottom), scene.width - scene.gutter, 1), kit.rail)


def _in_sight(track: Track, low: float, high: float) -> Sequence[Level]:
    """Return what of a shelf's filling meets a stretch of time; it is in the order of time."""
    first = bisect_right(track.filling, low, key=_end_of)
    return track.filling[first : bisect_left(track.filling, high, key=_start_of)]
