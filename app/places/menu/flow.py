"""The flow of a dish: steps as boxes, links as arrows with their waits; chosen and drawn with the mouse or by keys."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt
from PySide6.QtGui import QFocusEvent, QHelpEvent, QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from app.places.menu.flow_keys import FlowKeys
from app.places.menu.flow_paint import Aim
from app.places.menu.flow_sheet import FlowSheet
from core.plan.ids import StepId


class FlowView(QScrollArea):
    """Scrolls the flow."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.paper = FlowPaper()
        self.setObjectName("flow")
        self.setWidget(self.paper)
        self.setAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.viewport().setAutoFillBackground(False)
        self.setMinimumWidth(210)
        self.paper.looked_at.connect(self._bring)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Make the boxes narrower where that lets the whole flow be seen."""
        super().resizeEvent(event)
        self.paper.fit(self.viewport().width())

    def _bring(self, area: QRectF) -> None:
        if self.isVisible():
            middle = area.center().toPoint()
            self.ensureVisible(middle.x(), middle.y(), 60, 60)


class FlowPaper(FlowSheet):
    """A flow that takes the mouse and the keys."""

    def __init__(self) -> None:
        super().__init__()
        self._pressed: tuple[StepId, bool, QPointF] | None = None
        self._keys = FlowKeys(self)

    def let_go(self) -> None:
        """Draw nothing any more, also while the mouse is still held down."""
        self._pressed = None
        super().let_go()

    # ------------------------------------------------------------ mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose a step or a link; from a step a link may be drawn."""
        if event.button() is not Qt.MouseButton.LeftButton or self.picture is None:
            return
        if self.aim is not None and self.aim.point is None:  # drawn by a key: the mouse may say where to
            self.aim_at(replace(self.aim, over=self.picture.step_at(event.position())))
            self.land()
            return
        step = self.picture.step_at(event.position())
        if step is not None:
            self._pressed = (step, not self.picture.draws_up(step, event.position()), event.position())
            self.choose(step)
            return
        link = self.picture.link_at(event.position())
        self.hold(None if link is None else link.key)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Draw the link on; show what is under the pointer."""
        if self.picture is None:
            return
        over = self.picture.step_at(event.position())
        hand = over is not None or self.picture.link_at(event.position()) is not None
        self.setCursor(Qt.CursorShape.PointingHandCursor if hand else Qt.CursorShape.ArrowCursor)
        if over != self.hover:
            self.hover = over
            self.update()
        if self._pressed is None:
            return
        step, forward, begin = self._pressed
        if self.aim is not None or (event.position() - begin).manhattanLength() >= QApplication.startDragDistance():
            self.aim_at(Aim(step, forward, over, event.position()))
            self.looked_at.emit(QRectF(event.position(), event.position()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Link the step where the arrow began to the one where it ends; outside, ask which is meant."""
        pressed, self._pressed = self._pressed, None
        if pressed is None or self.picture is None:
            return
        begun = self.aim is not None
        over = self.picture.step_at(event.position())
        if over is not None and over != pressed[0]:
            self.aim_at(Aim(pressed[0], pressed[1], over, event.position()))
            self.land()
        elif begun:
            self.let_go()
            self.left_out.emit(pressed[0], pressed[1], event.globalPosition().toPoint())

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Type the wait of a link; write in a step."""
        if self.picture is None or event.button() is not Qt.MouseButton.LeftButton:
            return
        step = self.picture.step_at(event.position())
        link = None if step is not None else self.picture.link_at(event.position())
        if step is not None:
            self.let_go()
            self.opened.emit(step)
        elif link is not None:
            self.hold(link.key)
            self.wait_wanted.emit("")

    def leaveEvent(self, event: QEvent) -> None:
        """Let the knobs go."""
        self.hover = None
        self.update()
        super().leaveEvent(event)

    # ------------------------------------------------------------ keys

    def event(self, event: QEvent) -> bool:
        """Say a step in full under the pointer; keep the keys that are the flow's own from the menus."""
        if event.type() is QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            self.tell(event.pos(), event.globalPos())
            return True
        if (
            event.type() is QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and self._keys.is_own(event)
        ):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk, draw links, type waits."""
        if not self._keys.press(event):
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Have something chosen for the keys."""
        super().focusInEvent(event)
        if self.picture is not None and self.marked is None and self.picture.steps:
            self.choose(self.picture.steps[0])
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Let a link go that was drawn by keys."""
        super().focusOutEvent(event)
        if self.aim is not None and self.aim.point is None:
            self.let_go()
        self.update()
