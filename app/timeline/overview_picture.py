"""The picture on the strip along the foot: all days squeezed, how much goes on, clashes, nights, plating."""

from __future__ import annotations

from math import sqrt

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QPixmap

from app.look.words import day_text, word
from app.timeline.density import Grain, Profile, profile
from app.timeline.geometry import Axis
from app.timeline.kit import Kit
from app.timeline.scale import Label, day_labels, days
from app.timeline.scene import Scene

TICK = 5.0
"""Height in points of the tick that a clash is."""
LEAST = 2.0
"""Width in points of a tick at least."""
EDGE = 10.0
"""Points at the right of the strip where no time lies, so that the window's end can be taken hold of."""


def height(kit: Kit) -> int:
    """Return the height of the strip in points: about 40, more where the type is large."""
    return max(40, round(kit.metrics(kit.small_face).height() + 26))


def squeezed(scene: Scene, width: float) -> Axis:
    """Return the axis of all days in a strip so wide, the gutter and the edge left free."""
    return scene.axis.zoomed(scene.axis.scale_for(max(40.0, width - scene.gutter - EDGE)))


def taken_up(scene: Scene) -> tuple[Profile, Profile]:
    """Return how many loads go on at each minute, and how many hands are on."""
    placed = scene.timetable.placed
    loads = profile((each.start, each.end) for each in placed)
    hands = profile((hand.start, hand.start + hand.minutes) for each in placed for hand in each.hands)
    return loads, hands


def ticks(scene: Scene, axis: Axis) -> list[tuple[float, float]]:
    """Return from where to where clashes lie along the axis, those that touch as one."""
    found: list[tuple[float, float]] = []
    for clash in sorted(scene.clashes, key=lambda each: each.start):
        left, right = axis.x(clash.start), axis.x(max(clash.end, clash.start))
        if right - left < LEAST:
            left, right = (left + right - LEAST) / 2, (left + right + LEAST) / 2
        if found and left <= found[-1][1]:
            found[-1] = (found[-1][0], max(right, found[-1][1]))
        else:
            found.append((left, right))
    return found


def picture(scene: Scene, kit: Kit, axis: Axis, width: float, tall: float, ratio: float) -> QPixmap:
    """Return the strip without the window's frame."""
    made = QPixmap(round(width * ratio), round(tall * ratio))
    made.setDevicePixelRatio(ratio)
    painter = QPainter(made)
    painter.fillRect(QRectF(0, 0, width, tall), kit.panel)
    painter.fillRect(QRectF(scene.gutter, 1, width - scene.gutter, tall - 1), kit.lane)
    top = kit.metrics(kit.small_face).height() + 1
    painter.setClipRect(QRectF(scene.gutter, 0, width - scene.gutter, tall))
    for night in scene.nights:
        _band(painter, scene, axis, (night.start, night.end), kit.night, (0, tall))
    for fold in axis.folds:
        _band(painter, scene, axis, fold, kit.panel, (0, tall))
    _heaps(painter, scene, kit, axis, (top + TICK + 1, tall - 2))
    for left, right in ticks(scene, axis):
        painter.fillRect(QRectF(scene.gutter + left, top, right - left, TICK), kit.clash)
    for day in days(scene.plan, axis.low, axis.high):
        if axis.low < day.start < axis.high:
            painter.fillRect(QRectF(round(scene.gutter + axis.x(day.start)), 1, 1, tall - 1), kit.rail)
    for minute, _says in scene.courses:
        x, wide = round(scene.gutter + axis.x(minute)), 3 if minute == 0 else 1
        painter.fillRect(QRectF(x - wide // 2, 1, wide, tall - 1), kit.accent)
    painter.setClipping(False)
    _caption(painter, scene, kit, tall)
    painter.fillRect(QRectF(0, 0, width, 1), kit.rail)
    painter.fillRect(QRectF(scene.gutter - 1, 0, 1, tall), kit.rail)
    painter.end()
    return made


def _band(
    painter: QPainter,
    scene: Scene,
    axis: Axis,
    span: tuple[int, int],
    colour: QColor,
    across: tuple[float, float],
) -> None:
    left, right = round(scene.gutter + axis.x(span[0])), round(scene.gutter + axis.x(span[1]))
    painter.fillRect(QRectF(left, across[0], right - left, across[1] - across[0]), colour)


def _heaps(painter: QPainter, scene: Scene, kit: Kit, axis: Axis, room: tuple[float, float]) -> None:
    """Heap up what goes on: light for what cooks by itself, dark for hands that are on."""
    loads, hands = taken_up(scene)
    most = max(loads.most, hands.most, 1)
    for heap, colour in ((loads, kit.faint), (hands, kit.ink)):
        shade = QColor(colour)
        shade.setAlphaF(0.4 if heap is loads else 0.8)
        _step, steps = Grain(heap).at(axis.ppm)
        for start, end, level in steps.between(axis.low, axis.high):
            left, right = axis.x(start), axis.x(end)
            tall = max(1.0, round(sqrt(level / most) * (room[1] - room[0])))  # one alone is still seen
            where = QRectF(round(scene.gutter + left), room[1] - tall, max(1, round(right) - round(left)), tall)
            painter.fillRect(where, shade)


def dates(scene: Scene, kit: Kit, axis: Axis, width: float) -> list[Label]:
    """Return the dates with their places across the strip, clear of the lines of plating and of courses."""
    lines = [scene.gutter + axis.x(minute) for minute, _says in scene.courses]
    placed = day_labels(
        days(scene.plan, axis.low, axis.high),
        axis,
        0,
        width - scene.gutter,
        day_text,
        lambda text: kit.width(text, kit.small_face),
    )
    labels = [Label(scene.gutter + label.x, label.width, label.text) for label in placed]
    return [
        label for label in labels if all(line < label.x - 3 or line > label.x + label.width + 3 for line in lines)
    ]


def _caption(painter: QPainter, scene: Scene, kit: Kit, tall: float) -> None:
    says = kit.shortened(word("all days"), kit.small_face, scene.gutter - 16)
    kit.write(painter, QRectF(10, 0, scene.gutter - 16, tall), says, kit.small_face, kit.faint)
