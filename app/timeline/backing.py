"""Keeps the picture under a drag, so that each move of the mouse paints only what floats above it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QRect, QRectF
from PySide6.QtGui import QPainter, QPixmap

from app.timeline.heat import Curve, bent
from app.timeline.kit import Kit
from app.timeline.paint import paint, paint_over
from app.timeline.scene import Scene


class Backing:
    """Paints a scene: as it is, or, while anything is held, from a picture taken once. `taken` counts these."""

    def __init__(self) -> None:
        self._picture: QPixmap | None = None
        self._taken_of: tuple[object, ...] = ()
        self._curves: Mapping[str, Curve] = {}
        self.taken = 0

    def paint(self, painter: QPainter, scene: Scene, kit: Kit, rects: Sequence[QRect]) -> None:
        """Paint some rectangles of the widget."""
        ratio = painter.device().devicePixelRatioF()
        kit.ratio = int(ratio) if ratio == int(ratio) else 0  # a text's picture is sharp at whole pixels only
        if scene.held is None and scene.gesture is None:
            self._picture = None
            for rect in rects:
                paint(painter, scene, kit, QRectF(rect))
            return
        picture = self._current(scene, kit, ratio)
        whole = QRectF()
        for rect in rects:
            part = QRectF(rect)
            source = QRectF(part.x() * ratio, part.y() * ratio, part.width() * ratio, part.height() * ratio)
            painter.drawPixmap(part, picture, source)
            whole = whole.united(part)
        paint_over(painter, scene, kit, whole)  # once: what lies outside the rectangles Qt cuts off itself

    def _current(self, scene: Scene, kit: Kit, ratio: float) -> QPixmap:
        now = (
            scene,
            scene.axis,
            scene.layout,
            scene.left,
            scene.top,
            scene.width,
            scene.height,
            scene.now,
            kit,
            ratio,
        )
        same = len(now) == len(self._taken_of) and all(
            one is other or (isinstance(one, (float, tuple)) and one == other)
            for one, other in zip(now, self._taken_of, strict=True)
        )
        if self._picture is None or not same:
            self._picture = QPixmap(round(scene.width * ratio), round(scene.height * ratio))
            self._picture.setDevicePixelRatio(ratio)
            painter = QPainter(self._picture)
            paint(painter, scene, kit, QRectF(0, 0, scene.width, scene.height))
            painter.end()
            self._taken_of, self._curves = now, scene.curves
            self.taken += 1
        elif self._curves is not scene.curves:
            self._bend(self._picture, scene, kit)
        return self._picture

    def _bend(self, picture: QPixmap, scene: Scene, kit: Kit) -> None:
        """Paint anew the lanes whose curve is another one by now."""
        painter = QPainter(picture)
        for at, lane in enumerate(scene.lanes):
            span = bent(self._curves.get(lane.id), scene.curves.get(lane.id))
            if span is not None:
                box = scene.lane_box(at)
                left, right = max(scene.x(span[0]) - 50, scene.gutter), min(scene.x(span[1]) + 50, scene.width)
                if left < right:
                    paint(painter, scene, kit, QRectF(QRectF(left, box.y, right - left, box.h).toAlignedRect()))
        painter.end()
        self._curves = scene.curves
