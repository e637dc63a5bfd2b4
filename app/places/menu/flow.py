"""The flow of a dish, painted: steps as boxes, links as arrows with their waits; drawn on from step to step."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFont,
    QHelpEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QScrollArea, QToolTip, QWidget

from app.fields.wrapping import wrapped
from app.look.colours import Palette, Tone, palette_under
from app.places.menu.flow_layout import FlowLayout, Point, Sizes, laid_out
from app.places.menu.flow_words import spoken_link, wait_words
from app.timeline.codes import dish_codes
from core.plan.check_words import Words
from core.plan.ids import StepId
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan

_MARGIN = 14
_WIDEST, _NARROWEST = 176.0, 124.0  # px of a box
_HEAD = 5.0  # px, half the width of an arrow's head


class FlowView(QScrollArea):
    """Shows the flow. `chosen`: a step was clicked; `linked`: an arrow was drawn from one step to another."""

    chosen = Signal(str)
    linked = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.paper = _Paper()
        self.setObjectName("flow")
        self.setWidget(self.paper)
        self.setAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.viewport().setAutoFillBackground(False)
        self.setMinimumWidth(230)
        self.paper.chosen.connect(self.chosen)
        self.paper.linked.connect(self.linked)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Make the boxes narrower where that lets the whole flow be seen."""
        super().resizeEvent(event)
        self.paper.fit(self.viewport().width())

    def show_flow(self, plan: Plan, dish: Dish | None) -> None:
        """Show the steps of a dish with what they hang on in other dishes."""
        self.paper.show_flow(plan, dish)

    def mark(self, step: StepId | None) -> None:
        """Mark the chosen step and bring it into view."""
        self.paper.marked = step
        self.paper.update()
        box = self.paper.box(step) if step is not None else None
        if box is not None and self.isVisible():
            middle = box.center().toPoint()
            self.ensureVisible(middle.x(), middle.y(), 60, 60)


class _Paper(QWidget):
    """Paints the flow."""

    chosen = Signal(str)
    linked = Signal(str, str)

    def __init__(self) -> None:
        super().__init__()
        self.marked: StepId | None = None
        self._plan: Plan | None = None
        self._dish: Dish | None = None
        self._links: tuple[Link, ...] = ()
        self._nodes: list[StepId] = []
        self._room = 0
        self._layout = FlowLayout({}, {}, 0, 0)
        self._sizes = Sizes()
        self._drawn_from: str | None = None
        self._drawn_to = QPointF()
        self.setMouseTracking(True)

    def show_flow(self, plan: Plan, dish: Dish | None) -> None:
        """Lay the flow out anew."""
        self._plan, self._dish = plan, dish
        own = [step.id for step in dish.steps] if dish is not None else []
        self._nodes = self._gathered(plan, own)
        self.setAccessibleName(self.tr("Flow of the dish"))
        self.setAccessibleDescription("; ".join(spoken_link(plan, link) for link in self._links))
        self._lay_out()

    def fit(self, width: int) -> None:
        """Use a width, if it is enough."""
        if width != self._room:
            self._room = width
            self._lay_out()

    def _gathered(self, plan: Plan, own: list[StepId]) -> list[StepId]:
        self._links = tuple(link for link in plan.menu.links if link.before in own or link.after in own)
        near = [end for link in self._links for end in (link.before, link.after)]
        return list(dict.fromkeys([*own, *near]))

    def _lay_out(self) -> None:
        metrics = self.fontMetrics()
        arrows = [(link.before, link.after) for link in self._links]
        for width in (_WIDEST, (_WIDEST + _NARROWEST) / 2, _NARROWEST):
            self._sizes = Sizes(width, 2 * metrics.lineSpacing() + 10, below=metrics.height() + 22)
            self._layout = laid_out(self._nodes, arrows, self._sizes)
            if self._layout.width + 2 * _MARGIN <= self._room:
                break
        self.resize(self.sizeHint())
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for the whole flow."""
        return QSize(round(self._layout.width) + 2 * _MARGIN, round(self._layout.height) + 2 * _MARGIN)

    def box(self, step: str) -> QRectF | None:
        """Return the box of a step."""
        corner = self._layout.boxes.get(step)
        if corner is None:
            return None
        return QRectF(corner[0] + _MARGIN, corner[1] + _MARGIN, self._sizes.width, self._sizes.height)

    def step_at(self, point: QPointF) -> str | None:
        """Return the step under a point."""
        for step in self._layout.boxes:
            box = self.box(step)
            if box is not None and box.contains(point):
                return step
        return None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose a step; an arrow may be drawn from here."""
        if event.button() is Qt.MouseButton.LeftButton:
            self._drawn_from = self.step_at(event.position())
            self._drawn_to = event.position()
            if self._drawn_from is not None:
                self.chosen.emit(self._drawn_from)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Draw the arrow on."""
        over = self.step_at(event.position())
        self.setCursor(Qt.CursorShape.PointingHandCursor if over is not None else Qt.CursorShape.ArrowCursor)
        if self._drawn_from is not None:
            self._drawn_to = event.position()
            self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Link the step where the arrow began to the one where it ends."""
        one, other = self._drawn_from, self.step_at(event.position())
        self._drawn_from = None
        self.update()
        if one is not None and other is not None and one != other:
            self.linked.emit(one, other)

    def event(self, event: QEvent) -> bool:
        """Say a step in full under the pointer."""
        if event.type() is QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            self._tell(event.pos(), event.globalPos())
            return True
        return super().event(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint arrows, then boxes."""
        if self._plan is None:
            return
        colours = palette_under(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for link in self._links:
            self._paint_arrow(painter, colours, link)
        codes = dish_codes(self._plan)
        for step in self._layout.boxes:
            self._paint_box(painter, colours, StepId(step), codes)
        if self._drawn_from is not None and (start := self.box(self._drawn_from)) is not None:
            painter.setPen(QPen(QColor(colours.accent), 2, Qt.PenStyle.DashLine))
            painter.drawLine(start.center(), self._drawn_to)

    def _paint_box(self, painter: QPainter, colours: Palette, step: StepId, codes: dict) -> None:
        box, plan = self.box(step), self._plan
        if box is None or plan is None or self._dish is None:
            return
        dish = plan.dish_of[step]
        tone = colours.tone(list(plan.dishes).index(dish.id))
        own = dish.id == self._dish.id
        chosen = step == self.marked
        edge = QColor(colours.accent if chosen else tone.edge)
        painter.setPen(QPen(edge, 2.5 if chosen else 1, Qt.PenStyle.SolidLine if own else Qt.PenStyle.DashLine))
        painter.setBrush(QColor(tone.soft if own else colours.lane))
        painter.drawRoundedRect(box, 5, 5)
        inside = box.adjusted(7, 4, -6, -4)
        lead = str([each.id for each in dish.steps].index(step) + 1) if own else codes[dish.id]
        room = self._paint_lead(painter, inside, lead, None if own else tone, QColor(tone.on_soft))
        painter.setPen(QColor(tone.on_soft if own else colours.ink))
        painter.setFont(self.font())
        lines = wrapped(plan.steps[step].does, self.font(), int(inside.width() - room))
        if len(lines) > 2:
            rest = " ".join(lines[1:])
            lines = [lines[0], painter.fontMetrics().elidedText(
                rest, Qt.TextElideMode.ElideRight, int(inside.width() - room)
            )]  # fmt: skip
        painter.drawText(inside.adjusted(room, 0, 0, 0), Qt.AlignmentFlag.AlignTop, "\n".join(lines))

    def _paint_lead(
        self, painter: QPainter, inside: QRectF, lead: str, chip: Tone | None, ink: QColor
    ) -> int:
        """Paint a step's number, or the letters of its dish on their colour; return the room that takes."""
        bold = QFont(self.font())
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

    def _paint_arrow(self, painter: QPainter, colours: Palette, link: Link) -> None:
        points = [QPointF(x + _MARGIN, y + _MARGIN) for x, y in self._points(link)]
        if len(points) < 2:
            return
        chain = link.kind is LinkKind.END_TO_START
        painter.setPen(QPen(QColor(colours.rail), 1.6, Qt.PenStyle.SolidLine if chain else Qt.PenStyle.DotLine))
        painter.drawPolyline(points)
        end = points[-1]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.rail))
        painter.drawPolygon(QPolygonF([end, end + QPointF(-_HEAD, -9), end + QPointF(_HEAD, -9)]))
        words = wait_words(link)
        if words:
            painter.setFont(self.font())
            metrics = painter.fontMetrics()
            middle = self._label_place(link, points)
            area = QRectF(0, 0, metrics.horizontalAdvance(words) + 6, metrics.height())
            area.moveCenter(middle)
            area.moveLeft(max(0.0, min(area.left(), self.width() - area.width())))
            painter.fillRect(area, QColor(colours.ground))
            painter.setPen(QColor(colours.faint))
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter, words)

    def _label_place(self, link: Link, points: list[QPointF]) -> QPointF:
        """Return where an arrow's words stand apart from those of the arrows that begin or end with it."""
        begin = sum(each.before == link.before for each in self._links)
        end = sum(each.after == link.after for each in self._links)
        if begin == 1 and end > 1:
            return points[0] + (points[1] - points[0]) * 0.35
        return points[-2] + (points[-1] - points[-2]) * (0.62 if begin > 1 else 0.5)

    def _points(self, link: Link) -> tuple[Point, ...]:
        return self._layout.arrows.get((link.before, link.after), ())

    def _tell(self, point: QPoint, where: QPoint) -> None:
        step = self.step_at(QPointF(point))
        if step is None or self._plan is None:
            QToolTip.hideText()
            return
        said = Words(self._plan).step(StepId(step))
        QToolTip.showText(where, self.tr("{step}\nDraw from here to a step that follows it.").format(step=said), self)
