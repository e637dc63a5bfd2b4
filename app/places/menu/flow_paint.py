"""Paints a flow: boxes with numbers or a dish's letters, arrows with their waits, a link while it is drawn."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPolygonF

from app.fields.wrapping import wrapped
from app.look.colours import Palette, Tone
from app.places.menu.flow_picture import FlowPicture
from app.timeline.codes import dish_codes
from core.plan.edits.parts import LinkKey
from core.plan.ids import StepId
from core.plan.menu import Link, LinkKind

_HEAD = 5.0  # px, half the width of an arrow's head
_KNOB = 5.0  # px, half the width of the knob from which a link is drawn


@dataclass(frozen=True, slots=True)
class Aim:
    """A link while it is drawn: from which step, whether to what comes after it, over which step, to which point.

    `point` None: it is drawn by keys; `typed` is the number of a step as far as it is typed.
    """

    step: StepId
    forward: bool = True
    over: StepId | None = None
    point: QPointF | None = None
    typed: str = ""

    @property
    def ends(self) -> tuple[StepId, StepId] | None:
        """Return the step before and the one after that the link would join, None while there is no other."""
        if self.over is None or self.over == self.step:
            return None
        return (self.step, self.over) if self.forward else (self.over, self.step)


@dataclass(frozen=True, slots=True)
class Chosen:
    """What is marked: a step, a link, the step under the pointer, a link being drawn; whether keys go here."""

    step: StepId | None = None
    link: LinkKey | None = None
    hover: StepId | None = None
    aim: Aim | None = None
    focus: bool = False


class FlowPainter:
    """Paints one picture with one painter."""

    def __init__(self, painter: QPainter, picture: FlowPicture, colours: Palette, font: QFont) -> None:
        self._painter = painter
        self._picture = picture
        self._colours = colours
        self._font = font
        self._codes = dish_codes(picture.plan)
        self._tones = {dish: colours.tone(at) for at, dish in enumerate(picture.plan.dishes)}

    def paint(self, chosen: Chosen) -> None:
        """Paint arrows, then boxes, then what is being drawn."""
        for link in self._picture.links:
            if link.key != chosen.link:
                self._arrow(link, chosen=False)
        if (held := self._picture.link(chosen.link)) is not None:
            self._arrow(held, chosen=True)
        for link in self._picture.links:
            self._label(link, chosen=link.key == chosen.link, focus=chosen.focus)
        for step in self._picture.steps:
            self._box(step, chosen)
        if chosen.aim is not None:
            self._aim(chosen.aim)
            return
        pulled = chosen.hover or (chosen.step if chosen.focus and chosen.link is None else None)
        if pulled is not None:
            self._knobs(pulled)

    def _box(self, step: StepId, chosen: Chosen) -> None:
        box = self._picture.box(step)
        if box is None:
            return
        painter, plan = self._painter, self._picture.plan
        dish = plan.dish_of[step]
        tone = self._tones[dish.id]
        own = dish.id == self._picture.dish.id
        aimed = chosen.aim is not None and chosen.aim.over == step
        marked = step == chosen.step and chosen.link is None
        strong = marked or aimed
        edge = QColor(self._colours.accent if strong else tone.edge)
        line = Qt.PenStyle.SolidLine if own else Qt.PenStyle.DashLine
        painter.setPen(QPen(edge, 2.5 if strong else 1, line))
        painter.setBrush(QColor(tone.soft if own else self._colours.lane))
        painter.drawRoundedRect(box, 5, 5)
        if marked and chosen.focus:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(edge, 1))
            painter.drawRoundedRect(box.adjusted(-4, -4, 4, 4), 8, 8)
        inside = box.adjusted(7, 4, -6, -4)
        ink = QColor(tone.on_soft if own else self._colours.ink)
        lead = str(self._picture.number(step)) if own else self._codes[dish.id]
        room = self._lead(inside, lead, None if own else tone, ink)
        self._words(plan.steps[step].does, inside.adjusted(room, 0, 0, 0), ink)

    def _words(self, text: str, area: QRectF, ink: QColor) -> None:
        painter = self._painter
        painter.setPen(ink)
        painter.setFont(self._font)
        lines = wrapped(text, self._font, int(area.width()))
        if len(lines) > 2:
            rest = painter.fontMetrics().elidedText(
                " ".join(lines[1:]), Qt.TextElideMode.ElideRight, int(area.width())
            )
            lines = [lines[0], rest]
        painter.drawText(area, Qt.AlignmentFlag.AlignTop, "\n".join(lines))

    def _lead(self, inside: QRectF, lead: str, chip: Tone | None, ink: QColor) -> int:
        """Paint a step's number, or the letters of its dish on their colour; return the room that takes."""
        painter = self._painter
        bold = QFont(self._font)
        bold.setBold(True)
        painter.setFont(bold)
        metrics = painter.fontMetrics()
        wide = metrics.horizontalAdvance(lead)
        if chip is not None:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(chip.full))
            painter.drawRoundedRect(QRectF(inside.left() - 2, inside.top(), wide + 8, metrics.height()), 3, 3)
            painter.setPen(QColor(chip.on_full))
            painter.drawText(inside.adjusted(2, 0, 0, 0), Qt.AlignmentFlag.AlignTop, lead)
            return wide + 12
        painter.setPen(ink)
        painter.drawText(inside, Qt.AlignmentFlag.AlignTop, lead)
        return wide + 8

    def _arrow(self, link: Link, chosen: bool) -> None:
        way = self._picture.way(link)
        if len(way) < 2:
            return
        painter = self._painter
        colour = QColor(self._colours.accent if chosen else self._colours.rail)
        chain = link.kind is LinkKind.END_TO_START
        style = Qt.PenStyle.SolidLine if chain else Qt.PenStyle.DotLine
        painter.setPen(QPen(colour, 3 if chosen else 1.6, style))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(list(way))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        end = way[-1]
        painter.drawPolygon(QPolygonF([end, end + QPointF(-_HEAD, -9), end + QPointF(_HEAD, -9)]))

    def _label(self, link: Link, chosen: bool, focus: bool) -> None:
        words, area = self._picture.words(link), self._picture.label(link)
        if area is None or not (words or chosen):
            return
        painter, colours = self._painter, self._colours
        painter.setFont(self._font)
        painter.setPen(QPen(QColor(colours.accent), 2 if focus else 1) if chosen else Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.lane if chosen else colours.ground))
        painter.drawRoundedRect(area, 3, 3)
        painter.setPen(QColor(colours.accent if chosen else colours.faint))
        painter.drawText(area, Qt.AlignmentFlag.AlignCenter, words or "…")

    def _knobs(self, step: StepId) -> None:
        """Paint where links can be drawn from: below to what comes after, above to what comes before."""
        box = self._picture.box(step)
        if box is None:
            return
        self._painter.setPen(QPen(QColor(self._colours.accent), 1.6))
        self._painter.setBrush(QColor(self._colours.lane))
        for middle in (QPointF(box.center().x(), box.bottom()), QPointF(box.center().x(), box.top())):
            self._painter.drawEllipse(middle, _KNOB, _KNOB)

    def _aim(self, aim: Aim) -> None:
        start, over = self._picture.box(aim.step), self._picture.box(aim.over) if aim.over is not None else None
        if start is None:
            return
        begin = QPointF(start.center().x(), start.bottom() if aim.forward else start.top())
        end = aim.point
        if over is not None and aim.ends is not None:
            end = QPointF(over.center().x(), over.top() if aim.forward else over.bottom())
        if end is None:
            return
        painter, accent = self._painter, QColor(self._colours.accent)
        painter.setPen(QPen(accent, 2.4, Qt.PenStyle.DashLine))
        painter.drawLine(begin, end)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(accent)
        painter.drawEllipse(end, _KNOB, _KNOB)
