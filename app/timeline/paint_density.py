"""Paints a lane in which bars would be too narrow to be told apart: how much of it is taken, and where it clashes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPolygonF

from app.timeline.bars import Bar, LaneKind
from app.timeline.density import Grain, Profile, crowded, occupied, profile, typical
from app.timeline.kit import Kit
from app.timeline.scene import Scene

TICK = 5.0
"""Height in points of what marks a clash."""
MOST = 260
"""Bars in sight at once, above which the fullest lanes show profiles."""
_BUSY = 1.5
"""How much fuller than the mean of all the days the fullest part of a lane usually is."""
_ALL = -1
"""Where it is kept which lanes do."""
_SHADE = 0.55
"""How strongly the heap of what is taken is painted."""


@dataclass(frozen=True)
class _Thin:
    """Which lanes show profiles, and for what scale, lanes and size of the view."""

    of: tuple[object, ...]
    lanes: frozenset[int]


@dataclass
class LaneHeaps:
    """What one lane's profile is painted from, worked out once for a scene; minutes."""

    typical: float
    taken: Grain
    clashing: Grain
    paths: dict[tuple[bool, int], QPainterPath] = field(default_factory=dict)
    beside: float | None = None

    def text_beside(self, kit: Kit, bars: Iterable[Bar]) -> float:
        """Return the points that the longest text beside a bar takes."""
        if self.beside is None:
            texts = (f"{bar.code} {bar.says[-1]}" for bar in bars if bar.says)
            self.beside = max((kit.width(text, kit.small_face) for text in texts), default=0.0)
        return self.beside

    def path(self, clashing: bool, ppm: float) -> tuple[QPainterPath, Profile]:
        """Return the outline over minutes across and levels up, as fine as the scale shows."""
        step, found = (self.clashing if clashing else self.taken).at(ppm)
        path = self.paths.get((clashing, step))
        if path is None:
            path = self.paths[clashing, step] = outline(found, flat=clashing)
        return path, found


def outline(of: Profile, *, flat: bool = False) -> QPainterPath:
    """Return the outline of a profile, a step as high as its level; `flat`: 1 wherever there is anything."""
    corners = []
    for at, level in enumerate(of.levels):
        high = float(level > 0) if flat else level
        corners += [QPointF(of.times[at], high), QPointF(of.times[at + 1], high)]
    path = QPainterPath()
    if corners:
        whole = [QPointF(of.times[0], 0), *corners, QPointF(of.times[-1], 0)]
        path.addPolygon(QPolygonF(whole))
        path.closeSubpath()
    return path


def thinned(scene: Scene, at: int) -> bool:
    """Tell whether a lane shows its profile at the scene's scale."""
    return at in _thin(scene)


def _thin(scene: Scene) -> frozenset[int]:
    """Return the lanes that show a profile: those too crowded, and the fullest of the rest while all are too many.

    It hangs on the scale and the size of the view, not on where it is scrolled to: scrolling changes no lane's look.
    """
    axis, layout = scene.axis, scene.layout
    now = (axis, layout, scene.width, scene.height, scene.gutter, scene.ruler)
    last = scene.heaps.get(_ALL)
    if isinstance(last, _Thin) and last.of == now:
        return last.lanes
    whole = {at: lane for at, lane in enumerate(scene.lanes) if not lane.line}
    found = {
        at for at, lane in whole.items() if crowded(lane, heaps(scene, at).typical, axis.ppm, axis.open_minutes)
    }
    across = min(1.0, _BUSY * (scene.width - scene.gutter) / max(1.0, axis.width))
    seen = {at: len(lane.bars) * across for at, lane in whole.items() if at not in found}
    for first in seen:  # from each lane down as far as a view reaches
        foot = layout.tops[first] + scene.height
        there = [at for at in seen if at >= first and at not in found and layout.tops[at] < foot]
        there.sort(key=lambda at: (seen[at], at))
        total = sum(seen[at] for at in there)
        while total > MOST:
            fullest = there.pop()
            found.add(fullest)
            total -= seen[fullest]
    scene.heaps[_ALL] = _Thin(now, frozenset(found))
    return frozenset(found)


def heaps(scene: Scene, at: int) -> LaneHeaps:
    """Return what a lane's profile is painted from."""
    found = scene.heaps.get(at)
    if not isinstance(found, LaneHeaps):
        lane = scene.lanes[at]
        found = scene.heaps[at] = LaneHeaps(typical(lane), Grain(occupied(lane.bars)), Grain(_clashing(scene, at)))
    return found


def _clashing(scene: Scene, at: int) -> Profile:
    lane, spans = scene.lanes[at], set()
    for bar in lane.bars if scene.clashes else ():
        for clash in scene.wrong(at, bar):
            start = max(clash.start, bar.start)
            spans.add((start, max(min(clash.end, bar.reach), start + 1)))
    return profile(spans)


def lane(painter: QPainter, scene: Scene, kit: Kit, at: int, area: QRectF) -> None:
    """Paint the profile of a lane inside an area; what is more than the lane has room for in the clash colour."""
    kit.counts["profiles"] += 1
    here, there = scene.lanes[at], heaps(scene, at)
    top, bottom = scene.y(scene.layout.row_top(at, 0)), scene.y(scene.layout.row_top(at, here.rows))
    colour = kit.tone(here.tone).edge if here.kind is LaneKind.DISH else kit.faint
    high = (bottom - top) / max(1, here.rows)
    full = here.room if here.room is not None else here.rows
    clash = QColor(kit.clash)
    clash.setAlphaF(_SHADE)
    shade = QColor(colour)
    shade.setAlphaF(_SHADE)
    roof = bottom - full * high
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    inside = area.intersected(QRectF(area.left(), roof, area.width(), bottom - roof))
    _heap(painter, scene, there, inside, foot=bottom, high=high, brush=QBrush(shade))
    if roof > top:
        above = area.intersected(QRectF(area.left(), top, area.width(), roof - top))
        _heap(painter, scene, there, above, foot=bottom, high=high, brush=QBrush(clash))
    marks = area.intersected(QRectF(area.left(), top, area.width(), TICK))
    _heap(painter, scene, there, marks, foot=top + TICK, high=TICK, brush=QBrush(kit.clash), clashing=True)
    painter.restore()


def _heap(
    painter: QPainter,
    scene: Scene,
    there: LaneHeaps,
    inside: QRectF,
    *,
    foot: float,
    high: float,
    brush: QBrush,
    clashing: bool = False,
) -> None:
    if inside.isEmpty():
        return
    path, found = there.path(clashing, scene.axis.ppm)
    painter.setBrush(brush)
    for start, end, rate in scene.axis.pieces(scene.time(inside.left()), scene.time(inside.right())):
        if not found.meets(start, end):
            continue
        left, right = scene.x(start), scene.x(end)
        painter.save()
        painter.setClipRect(inside.intersected(QRectF(left, inside.top(), right - left, inside.height())))
        painter.translate(left - start * rate, foot)
        painter.scale(rate, -high)
        painter.drawPath(path)
        painter.restore()
