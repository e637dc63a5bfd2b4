"""Keeps the picture under a drag, so that each move of the mouse paints only what floats above it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRect, QRectF
from PySide6.QtGui import QPainter, QPixmap

from app.timeline.kit import Kit
from app.timeline.paint import paint, paint_over
from app.timeline.scene import Scene


class Backing:
    """Paints a scene: as it is, or, while a bar is held, from a picture taken once."""

    def __init__(self) -> None:
        self._picture: QPixmap | None = None
        self._taken_of: tuple[object, ...] = ()

    def paint(self, painter: QPainter, scene: Scene, kit: Kit, rects: Sequence[QRect]) -> None:
        """Paint some rectangles of the widget."""
        if scene.held is None:
            self._picture = None
            for rect in rects:
                paint(painter, scene, kit, QRectF(rect))
            return
        ratio = painter.device().devicePixelRatioF()
        picture = self._current(scene, kit, ratio)
        for rect in rects:
            part = QRectF(rect)
            source = QRectF(part.x() * ratio, part.y() * ratio, part.width() * ratio, part.height() * ratio)
            painter.drawPixmap(part, picture, source)
            paint_over(painter, scene, kit, part)

    def _current(self, scene: Scene, kit: Kit, ratio: float) -> QPixmap:
        held = scene.held
        now = (
            scene,
            scene.axis,
            scene.layout,
            scene.left,
            scene.top,
            scene.width,
            scene.height,
            scene.curves,
            kit,
            ratio,
            None if held is None else (held.to_lane, held.legal),
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
            self._taken_of = now
        return self._picture
