"""The sheet that a flow is painted on: what is shown, chosen and being drawn; spoken to assistive technology."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QToolTip, QWidget

from app.look.colours import palette_under
from app.places.menu.flow_paint import Aim, Chosen, FlowPainter
from app.places.menu.flow_picture import MARGIN, FlowPicture
from app.places.menu.flow_words import spoken_link
from core.plan.check_words import Words
from core.plan.edits.parts import LinkKey
from core.plan.ids import StepId
from core.plan.menu import Dish, Link
from core.plan.plan import Plan


class FlowSheet(QWidget):
    """Paints the flow and knows what is chosen and drawn in it; it changes no plan, but says what is wanted.

    `chosen`: a step; `link_chosen`: a link, by its key, or None; `opened`: a step was to be written in; `linked`: a
    link was drawn from the first step to the second; `sought`: the other step of a link is to be found by typing:
    step, whether what comes after it, what was typed so far; `left_out`: a link was dropped outside: step, whether
    forward, where on the screen; `wait_wanted`: the chosen link's wait is to be typed, beginning with these signs;
    `removal_wanted`: the chosen link is to go; `aimed`: what is being drawn changed.
    """

    chosen = Signal(str)
    link_chosen = Signal(object)
    opened = Signal(str)
    linked = Signal(str, str)
    sought = Signal(str, bool, str)
    left_out = Signal(str, bool, QPoint)
    wait_wanted = Signal(str)
    removal_wanted = Signal()
    aimed = Signal()
    looked_at = Signal(QRectF)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("flowPaper")
        self.picture: FlowPicture | None = None
        self.marked: StepId | None = None
        self.held: LinkKey | None = None
        self.aim: Aim | None = None
        self.hover: StepId | None = None
        self._room = 0
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(self.tr("Flow of the dish"))

    # ------------------------------------------------------------ what is shown

    def show_flow(self, plan: Plan, dish: Dish | None) -> None:
        """Show the steps of a dish with what they hang on in other dishes."""
        other = self.picture is None or dish is None or self.picture.dish.id != dish.id
        self.picture = None if dish is None else FlowPicture.of(plan, dish, self.fontMetrics(), self._room)
        if other or (self.aim is not None and self.aim.step not in plan.steps):
            self.let_go()
        if self.picture is None or self.picture.link(self.held) is None:
            self.hold(None)
        self._laid_out()
        self._speak()

    def fit(self, width: int) -> None:
        """Use a width, if it is enough."""
        if width != self._room:
            self._room = width
            if self.picture is not None:
                shown = self.picture
                self.picture = FlowPicture.of(shown.plan, shown.dish, self.fontMetrics(), width)
                self._laid_out()

    def _laid_out(self) -> None:
        self.resize(self.sizeHint())
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for the whole flow."""
        return QSize(2 * MARGIN, 2 * MARGIN) if self.picture is None else self.picture.size

    def box(self, step: str) -> QRectF | None:
        """Return the box of a step."""
        return None if self.picture is None else self.picture.box(step)

    @property
    def link(self) -> Link | None:
        """Return the chosen link."""
        return None if self.picture is None else self.picture.link(self.held)

    # ------------------------------------------------------------ what is chosen

    def mark(self, step: StepId | None) -> None:
        """Mark the chosen step and bring it into view; a chosen link stays chosen if it is one of its own."""
        if step != self.marked:
            self.marked = step
            if self.held is not None and step not in self.held[:2]:
                self.hold(None)
        box = self.box(step) if step is not None else None
        if box is not None and self.held is None:
            self.looked_at.emit(box)
        self._speak()
        self.update()

    def hold(self, key: LinkKey | None) -> None:
        """Choose a link, or none."""
        if key != self.held:
            self.held = key
            self.link_chosen.emit(key)
        if self.picture is not None and (link := self.link) is not None:
            area = self.picture.label(link)
            if area is not None:
                self.looked_at.emit(area)
        self._speak()
        self.update()

    def choose(self, step: StepId) -> None:
        """Choose a step as by hand."""
        self.hold(None)
        self.mark(step)  # also one of another dish, which is not among the rows
        self.chosen.emit(step)

    def aim_at(self, aim: Aim | None) -> None:
        """Draw a link, or none."""
        self.aim = aim
        if aim is not None:
            self.held = None
            box = self.box(aim.over) if aim.over is not None else None
            if box is not None and aim.point is None:
                self.looked_at.emit(box)
        self.update()
        self.aimed.emit()

    def let_go(self) -> None:
        """Draw nothing any more."""
        if self.aim is not None:
            self.aim_at(None)

    def land(self) -> bool:
        """Make the link that is drawn, if it has two ends."""
        ends = self.aim.ends if self.aim is not None else None
        if ends is None:
            return False
        self.let_go()
        self.linked.emit(*ends)
        return True

    # ------------------------------------------------------------ painting and speech

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint it."""
        if self.picture is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = Chosen(self.marked, self.held, self.hover, self.aim, self.hasFocus())
        FlowPainter(painter, self.picture, palette_under(self.palette()), self.font()).paint(chosen)

    def _speak(self) -> None:
        """Tell assistive technology what is chosen, and all links."""
        if self.picture is None:
            self.setAccessibleDescription("")
            return
        plan, said = self.picture.plan, []
        if (link := self.link) is not None:
            said.append(self.tr("Chosen: {what}").format(what=spoken_link(plan, link)))
        elif self.marked is not None and self.marked in plan.steps:
            said.append(self.tr("Chosen: {what}").format(what=Words(plan).step(self.marked)))
        self.setAccessibleDescription("; ".join([*said, *(spoken_link(plan, each) for each in self.picture.links)]))

    def tell(self, point: QPoint, where: QPoint) -> None:
        """Say the step or the link under a point in full."""
        if self.picture is None:
            return
        plan = self.picture.plan
        step, link = self.picture.step_at(QPointF(point)), self.picture.link_at(QPointF(point))
        if step is not None:
            draw = self.tr("Draw from its lower edge to what comes after, from its upper edge to what comes before.")
            said = f"{Words(plan).step(step)}\n{draw}"
            QToolTip.showText(where, said, self)
        elif link is not None:
            hint = self.tr("Double-click to type how long it waits.")
            QToolTip.showText(where, f"{spoken_link(plan, link)}\n{hint}", self)
        else:
            QToolTip.hideText()
