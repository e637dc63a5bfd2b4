"""Pictures of drawers and boxes that keep food hot, of a worktop, and of machines."""

from __future__ import annotations

from math import ceil

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainterPath

from app.look import icons
from app.look.words import KIND_ICON, figure
from app.places.kitchen.pencil import MOST_DRAWN, Pencil, count_words
from core.plan.kitchen import Station, StationKind


def draw_box(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw a drawer with its handle, or a box with thick walls and a lid; its places side by side inside."""
    colours = pencil.colours
    whole = QRectF(box.left(), box.top() + 34, box.width(), box.height() - 40)
    _warm_air(pencil, QRectF(box.left(), box.top() + 4, box.width(), 22))
    pencil.body(whole)
    if station.kind is StationKind.HOT_BOX:
        pencil.body(QRectF(whole.left(), whole.top() - 2, whole.width(), 14), colours.panel, 4)
        inside = whole.adjusted(12, 20, -12, -12)
    else:
        inside = whole.adjusted(8, 8, -8, -20)
        pencil.pen(colours.ink, 3)
        pencil.line(
            whole.center().x() - 18, whole.bottom() - 10, whole.center().x() + 18, whole.bottom() - 10
        )
    pencil.body(inside, colours.heat_fill, 3)
    _slots(pencil, inside.adjusted(5, 5, -5, -5), station.units)
    if words := count_words(station.units):
        pencil.label(inside, words)


def _slots(pencil: Pencil, inside: QRectF, units: int) -> None:
    drawn = max(1, min(units, MOST_DRAWN))
    down = 1 if drawn <= 6 else 2
    across = ceil(drawn / down)
    wide, high = inside.width() / across, inside.height() / down
    pencil.fill(pencil.colours.heat)
    for at in range(drawn):
        slot = QRectF(inside.left() + wide * (at % across), inside.top() + high * (at // across), wide, high)
        slot.adjust(2, 2, -2, -2)
        flat = min(slot.height(), 16)
        slot.setTop(slot.bottom() - flat)
        pencil.painter.drawRoundedRect(slot, 3, 3)


def _warm_air(pencil: Pencil, box: QRectF) -> None:
    pencil.pen(pencil.colours.heat, 2)
    for at in (-20, 0, 20):
        x = box.center().x() + at
        path = QPainterPath(QPointF(x, box.bottom()))
        path.cubicTo(QPointF(x - 8, box.bottom() - 7), QPointF(x + 8, box.top() + 7), QPointF(x, box.top()))
        pencil.painter.drawPath(path)


def draw_table(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw a worktop on its legs with a place for each unit; an open end where there are as many as needed."""
    colours = pencil.colours
    top = QRectF(box.left(), box.center().y() - 4, box.width(), 12)
    pencil.pen(colours.ink, 3)
    for x in (top.left() + 14, top.right() - 14):
        pencil.line(x, top.bottom(), x, box.bottom() - 4)
    pencil.body(top, colours.panel, 2)
    drawn = min(station.units, MOST_DRAWN) or 3
    wide = top.width() / max(drawn, 3)
    pencil.fill(colours.accent)
    for at in range(drawn):
        x = top.center().x() + (at - (drawn - 1) / 2) * wide
        plate = QRectF(x - min(16, wide / 2 - 2), top.top() - 8, min(32, wide - 4), 6)
        pencil.painter.drawRoundedRect(plate, 3, 3)
    above = QRectF(box.left(), top.top() - 34, box.width(), 20)
    if station.units == 0:
        pencil.words(above, "…")
    elif words := count_words(station.units):
        pencil.words(above, words)


def draw_machine(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw the sign of the kind, and how many places there are."""
    side = min(box.width(), box.height()) - 34
    where = QRectF(0, 0, side, side)
    where.moveCenter(box.center() - QPointF(0, 10))
    icons.draw(pencil.painter, KIND_ICON[station.kind], pencil.colours.ink, where)
    if station.units > 1:
        below = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom
        pencil.words(box, f"× {figure(station.units)}", below)
