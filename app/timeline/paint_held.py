"""Paints a drag: where the bar may start, the bar with its times, who is pushed where, what would clash."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.look.words import clock_text
from app.timeline import marks, paint_bars
from app.timeline.bars import Bar, BarKind
from app.timeline.drag_places import places_of
from app.timeline.geometry import Box
from app.timeline.kit import Kit, pen
from app.timeline.scene import Held, Scene, concerns
from core.measures.minutes import show_minutes

RAIL = 7.0
"""Height in points of the rail that tells where a held bar may start."""
_FAR_APART = 24.0
"""Points between the ends of a stretch below which their times are not written."""
_WIDEST = 460.0
"""Points of a line of what is wrong."""
_MOST_LINES = 4


def legal(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Shade where the bar may lie and break no wait, with rails at both ends."""
    held = scene.held
    if held is None or held.legal is None or held.refused:
        return
    lane = scene.lane_box(held.to_lane)
    first, last = held.legal
    left, right = scene.x(first), scene.x(last + held.length)
    part = QRectF(left, lane.y, right - left, lane.h)
    seen = part.intersected(QRectF(scene.gutter, lane.y, scene.width - scene.gutter, lane.h))
    shade = QColor(kit.legal)
    shade.setAlphaF(0.5)
    painter.fillRect(seen, shade)
    for x in (left, right):
        painter.fillRect(QRectF(round(x) - 1, lane.y, 2, lane.h), kit.ink)


def _hair(kit: Kit) -> QPen:
    return pen(kit.ink, 1)


def _meets(kit: Kit) -> QColor:
    """Return the full tone of the stretches that clash with nothing: the legal one, told apart by its depth too."""
    return kit.legal.lighter(240) if kit.palette.dark else kit.legal.darker(210)


def _rail(painter: QPainter, scene: Scene, kit: Kit, held: Held, lane: Box) -> None:
    """Paint the rail of starts under the lane: hollow where all waits bear it, filled where nothing clashes."""
    if held.spread is not None or held.legal is None:
        return
    rail = QRectF(scene.gutter, min(lane.bottom, scene.height - RAIL), scene.width - scene.gutter, RAIL)

    def stretch(first: int, last: int) -> QRectF:
        left, right = scene.x(first), scene.x(last)
        return QRectF(left - 1, rail.top(), max(right - left, 1) + 2, RAIL).intersected(rail)

    whole = stretch(*held.legal)
    painter.fillRect(whole, kit.lane)
    for first, last in held.free:
        painter.fillRect(stretch(first, last), _meets(kit))
    painter.setPen(_hair(kit))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(whole.adjusted(0, 0, -1, -1))
    at = QPointF(round(scene.x(held.start)), rail.top() - 1)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(pen(kit.lane, 1))
    painter.setBrush(kit.ink)
    painter.drawPolygon(QPolygonF([at + QPointF(0, 9), at + QPointF(-5, 0), at + QPointF(5, 0)]))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def _ends(painter: QPainter, scene: Scene, kit: Kit, held: Held, lane: Box) -> None:
    """Write the times at both ends of the stretch outside of it, where they are in sight."""
    if held.legal is None:
        return
    height = kit.metrics(kit.small_face).height() + 1
    y = lane.y + lane.h - height
    times = (held.legal[0], held.legal[1] + held.length)
    for minute, before in zip(times, (True, False), strict=True):
        x, text = scene.x(minute), clock_text(scene.plan.wall(minute))
        width = kit.width(text, kit.small_face) + 8
        box = QRectF(round(x - width - 2 if before else x + 2), round(y), width, height)
        if box.left() >= scene.gutter and box.right() <= scene.width:
            painter.fillRect(box, kit.lane)
            painter.setPen(_hair(kit))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box.adjusted(0, 0, -1, -1))
            kit.write(painter, box, text, kit.small_face, kit.ink, centre=True)


def held(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Paint ghosts of what is pushed, then the held bar itself with the clock at both ends."""
    now = scene.held
    if now is None:
        return
    _fade(painter, scene, kit, now)
    for at, bar, box in ghosts(scene, now):
        _ghost(painter, scene, kit, at, bar, QRectF(box.x, box.y, box.w, box.h))
    for each in _along(scene, now):
        _held_along(painter, kit, *each)
    lane = scene.lane_box(now.to_lane)
    if now.legal is not None and not now.refused:
        _rail(painter, scene, kit, now, lane)
        if scene.x(now.legal[1] + now.length) - scene.x(now.legal[0]) > _FAR_APART:
            _ends(painter, scene, kit, now, lane)
    box = held_box(scene, now)
    where = QRectF(round(box.x), round(box.y), max(2, round(box.w)), round(box.h))
    painter.setOpacity(0.92)
    work = paint_bars.work_of(scene, now.bar, now.start - now.bar.start)
    paint_bars.strip(painter, kit, now.bar, where, work=work)
    painter.setOpacity(1.0)
    _held_text(painter, kit, now.bar, where, work)
    wrong = [clash for clash in now.clashes if now.bar.step in clash.steps]
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(kit.clash, 2) if now.refused else kit.accent_pen)
    painter.drawRect(where.adjusted(-2, -2, 2, 2))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if wrong or now.refused:
        marks.hatch(painter, kit, QRectF(where.left(), where.bottom() - 7, where.width(), 7))
        marks.clash_disc(painter, kit, where.right() - 2, where.top() + 4)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    if now.asks:
        _question(painter, kit, where)
    _times(painter, scene, kit, now, where)
    if says := now.refused or now.note or (wrong[0].sentence if wrong else ""):
        _sentence(painter, scene, kit, now, says, where)


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
    places, found = places_of(scene), []
    own = {now.bar.key, *now.also}
    for key, start in now.pushed.items():
        if key in own:
            continue
        for at, bar in places.get(key, ()):
            moved = Bar(bar.kind, start, start + bar.end - bar.start, row=bar.row, rows=bar.rows)
            found.append((at, bar, scene.box(at, moved)))
    return found


def _along(scene: Scene, now: Held) -> list[tuple[Bar, Box]]:
    """Return the bars that are dragged along, with the boxes they would take."""
    places, by, found = places_of(scene), now.start - now.bar.start, []
    for key in sorted(now.also):
        for at, bar in places.get(key, ()):
            moved = Bar(bar.kind, bar.start + by, bar.end + by, row=bar.row, rows=bar.rows)
            found.append((bar, scene.box(at, moved)))
    return found


def held_area(scene: Scene) -> list[QRectF]:
    """Return all that a drag paints over, so that the next move repaints no more than it must."""
    now = scene.held
    if now is None:
        return []
    box = held_box(scene, now)
    areas = [
        _rail_area(scene, now),
        QRectF(box.x - 90, box.y - 26, box.w + 180, box.h + 52),
        QRectF(scene.gutter, 0, scene.width - scene.gutter, scene.ruler),
    ]
    if now.refused or now.note or now.clashes:
        areas.append(_sentence_area(scene, now, box))
    moving = [(scene.box(at, bar)) for at, bar in _moving(scene, now)]
    moving += [ghost for _at, _bar, ghost in ghosts(scene, now)] + [each for _bar, each in _along(scene, now)]
    lanes = Box(scene.gutter, scene.ruler, scene.width - scene.gutter, scene.height - scene.ruler)
    seen = (each for each in moving if each.meets(lanes))
    return areas + [QRectF(each.x - 10, each.y - 10, each.w + 20, each.h + 20) for each in seen]


def _rail_area(scene: Scene, now: Held) -> QRectF:
    """Return the strip under the lane in which the mark of the start goes along."""
    foot = min(scene.lane_box(now.to_lane).bottom, scene.height - RAIL)
    return QRectF(scene.gutter, foot - 3, scene.width - scene.gutter, RAIL + 8)


def _sentence_area(scene: Scene, now: Held, box: Box) -> QRectF:
    more = 30.0 * (_MOST_LINES - 1)  # a line at 200 % text
    foot = max(box.bottom + 60, scene.lane_box(now.to_lane).bottom + RAIL + 44) + more
    return QRectF(min(box.x, scene.width - 600) - 10, box.y - 80 - more, 620, foot - box.y + 80 + more)


def legal_area(scene: Scene) -> QRectF:
    """Return the strip on which the stretches of starts are painted."""
    if scene.held is None:
        return QRectF()
    lane = scene.lane_box(scene.held.to_lane)
    return QRectF(scene.gutter, lane.y - 6, scene.width - scene.gutter, lane.h + RAIL + 10)


def _moving(scene: Scene, now: Held) -> list[tuple[int, Bar]]:
    """Return the bars that stand elsewhere while the held one is moved, itself among them."""
    places = places_of(scene)
    keys = {now.bar.key, *now.also, *now.pushed}
    return [place for key in keys if key is not None for place in places.get(key, ())]


def _row_in(scene: Scene, now: Held) -> int:
    if now.to_lane == now.lane:
        return now.bar.row
    return min(now.bar.row, max(0, scene.lanes[now.to_lane].rows - now.bar.rows))


def _fade(painter: QPainter, scene: Scene, kit: Kit, now: Held) -> None:
    """Fade the bar where it was, and those that are pushed."""
    veil = QColor(kit.lane)
    veil.setAlphaF(0.62)
    moving = _moving(scene, now)
    if now.bar.kind is BarKind.HAND:
        moving.append((now.lane, now.bar))
    for at, bar in moving:
        box = scene.box(at, bar)
        painter.fillRect(QRectF(box.x, box.y, box.w + 1, box.h + 1), veil)


def _held_along(painter: QPainter, kit: Kit, bar: Bar, box: Box) -> None:
    where = QRectF(round(box.x), round(box.y), max(2, round(box.w)), round(box.h))
    painter.setOpacity(0.92)
    paint_bars.strip(painter, kit, bar, where)
    painter.setOpacity(1.0)
    _held_text(painter, kit, bar, where, [])
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(kit.accent_pen)
    painter.drawRect(where.adjusted(-1, -1, 1, 1))


def _question(painter: QPainter, kit: Kit, where: QRectF) -> None:
    """Put a question mark on the end that lies beyond what is known of the step's length."""
    side = kit.metrics(kit.small_bold).height() + 2
    box = QRectF(round(where.right() + 6), round(where.center().y() - side / 2), side, side)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(kit.accent_pen)
    painter.setBrush(kit.lane)
    painter.drawEllipse(box)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    kit.write(painter, box, "?", kit.small_bold, kit.ink, centre=True)


def _held_text(
    painter: QPainter, kit: Kit, bar: Bar, where: QRectF, work: list[tuple[float, float]]
) -> None:
    tab = paint_bars.tab_width(kit, bar, where.width())
    room = where.adjusted(tab + 6, 0, -6, 0)
    tone = kit.tone(bar.tone)
    for text in bar.says:
        if kit.width(text, kit.text_face) <= room.width():
            ink = (kit.text_face, tone.on_full if bar.full else tone.on_soft)
            paint_bars.write_on(painter, kit, bar, room, text, ink=ink, work=work)
            return


def _ghost(painter: QPainter, scene: Scene, kit: Kit, at: int, bar: Bar, box: QRectF) -> None:
    tone = kit.tone(bar.tone)
    soft = QColor(tone.soft)
    soft.setAlphaF(0.75)
    painter.fillRect(box, soft)
    kit.dashed(painter, box, tone.edge)
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
    if now.spread is not None:
        last = f"{last}  {show_minutes(now.length)}"
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


def _sentence(painter: QPainter, scene: Scene, kit: Kit, now: Held, sentence: str, where: QRectF) -> None:
    lines = _lines(kit, sentence)
    width = max(kit.width(line, kit.small_face) for line in lines) + 14
    line_height = kit.metrics(kit.small_face).height()
    height = line_height * len(lines) + 6
    x = max(scene.gutter + 4, min(where.left(), scene.width - width - 4))
    lane = scene.lane_box(now.to_lane)
    y = max(where.bottom() + 24, lane.bottom + RAIL + 6)
    if y + height > scene.height:
        y = where.top() - height - 28
    box = QRectF(round(x), round(y), width, height)
    painter.fillRect(box, kit.lane)
    painter.setPen(pen(kit.clash, 1.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box)
    for number, line in enumerate(lines):
        place = QRectF(box.left() + 7, box.top() + 3 + number * line_height, width, line_height)
        kit.write(painter, place, line, kit.small_face, kit.clash)


def _lines(kit: Kit, sentence: str) -> list[str]:
    """Return a sentence in lines that are easily read: what is wrong stands at its end and must not be cut off."""
    lines = [""]
    for word in sentence.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and kit.width(longer, kit.small_face) > _WIDEST:
            lines.append(word)
        else:
            lines[-1] = longer
    if len(lines) > _MOST_LINES:
        last = kit.shortened(" ".join(lines[_MOST_LINES - 1 :]), kit.small_face, _WIDEST)
        lines[_MOST_LINES - 1 :] = [last or lines[_MOST_LINES - 1]]
    return lines
