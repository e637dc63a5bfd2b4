"""The flow of a dish with what can be done in it: link, type waits, take links out; what is wrong stands below."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import a_button, tried
from app.places.menu.flow import FlowPaper, FlowView
from app.places.menu.flow_finder import StepFinder
from app.places.menu.flow_keys import keys_in_words
from app.places.menu.flow_wait import WaitLine
from app.places.menu.flow_words import short_step, told_link
from core.measures.refusal import Refusal
from core.plan.edits import AddLink, ChangeLink, Edit, RemoveLink, require_possible
from core.plan.edits.parts import LinkKey
from core.plan.ids import DishId, StepId
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan

DishAt = Callable[[QPoint], DishId | None]


def tried_link(opened: OpenPlan, edit: Edit) -> str:
    """Apply an edit of links; return "" or why the plan does not bear it, a chain of waits named in words."""
    try:
        require_possible(opened.plan, edit)
    except Refusal as refusal:
        return str(refusal)
    return tried(opened, edit, "menu")


class FlowPanel(QFrame):
    """Edits the links of a dish in its flow. `chosen`: a step; `opened_step`: a step is to be written in."""

    chosen = Signal(str)
    opened_step = Signal(str)

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("flowPanel")
        self._opened = opened
        self.dish_at: DishAt = lambda _point: None
        self.view = FlowView()
        self.paper: FlowPaper = self.view.paper
        self.wait = WaitLine(lambda: opened.plan.kitchen, self._change, self.paper)
        self.finder = StepFinder()
        self.said = _said("soft")
        self.wrong = _said("wrong")
        self.link_on = a_button(self.tr("Link…"), tip=self.tr("Link the chosen step to one that comes after it (L)"))
        self.type_wait = a_button(self.tr("Wait…"), tip=self.tr("Type how long the food waits on the chosen link (F2)"))
        self.remove = a_button(
            self.tr("Take the chosen link out (undo brings it back)"), "bin", only_icon=True
        )
        self.remove.setToolTip(f"{self.remove.toolTip()} (Del)")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.view, 3)
        column.addWidget(self.finder, 2)
        column.addWidget(self._foot())
        self._connect()

    def _foot(self) -> QFrame:
        foot = QFrame()
        foot.setObjectName("flowFoot")
        column = QVBoxLayout(foot)
        column.setContentsMargins(10, 5, 10, 7)
        column.setSpacing(4)
        column.addWidget(self.wrong)
        column.addWidget(self.said)
        row = QHBoxLayout()
        row.setSpacing(4)
        for button in (self.link_on, self.type_wait, self.remove):
            row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        return foot

    def _connect(self) -> None:
        paper = self.paper
        paper.chosen.connect(self._step_chosen)
        paper.link_chosen.connect(lambda _key: self._refresh_foot())
        paper.opened.connect(self.opened_step)
        paper.linked.connect(self.link)
        paper.sought.connect(lambda step, forward, typed: self.find_step(StepId(step), forward, typed))
        paper.left_out.connect(self._left_out)
        paper.wait_wanted.connect(self.edit_wait)
        paper.removal_wanted.connect(self.take_out)
        paper.aimed.connect(self._refresh_foot)
        self.wait.complained.connect(self.refuse)
        self.wait.shut.connect(self._back)
        self.finder.found.connect(self.link)
        self.finder.shut.connect(self._back)
        self.link_on.clicked.connect(self._find_from_chosen)
        self.type_wait.clicked.connect(lambda: self.edit_wait(""))
        self.remove.clicked.connect(self.take_out)

    # ------------------------------------------------------------ what is shown

    def show_flow(self, plan: Plan, dish: Dish | None) -> None:
        """Show the steps of a dish with what they hang on in other dishes."""
        before = self.paper.picture
        other = before is None or dish is None or before.dish.id != dish.id
        self.paper.show_flow(plan, dish)
        if other:
            self._put_away()
        asks = self.wait.asks
        if asks is not None and (self.paper.picture is None or self.paper.picture.link(asks.key) is None):
            self.wait.drop()
        if other or before is None or plan is not before.plan:
            self.refuse("")
        self._refresh_foot()

    def mark(self, step: StepId | None) -> None:
        """Mark the chosen step and bring it into view."""
        if step != self.paper.marked:
            self.paper.mark(step)
            self.refuse("")
            self._refresh_foot()

    def refuse(self, sentence: str) -> None:
        """Say what is wrong."""
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        if sentence:
            self.said.hide()
        else:
            self._refresh_foot()

    def _put_away(self) -> None:
        if self.wait.isVisible():
            self.wait.drop()
        if self.finder.isVisible():
            self.finder.hide()
            self._refresh_foot()

    def _refresh_foot(self) -> None:
        paper = self.paper
        picture, link = paper.picture, paper.link
        plan = self._opened.plan
        stepped = paper.marked is not None and paper.marked in plan.steps and link is None
        self.link_on.setEnabled(stepped and len(plan.steps) > 1)
        self.type_wait.setEnabled(link is not None)
        self.remove.setEnabled(link is not None)
        if self.wrong.isVisibleTo(self):
            return
        self.said.setText(self._words())
        self.said.setToolTip(keys_in_words())
        self.said.setVisible(picture is not None and not self.finder.isVisibleTo(self))

    def _words(self) -> str:
        """Return what is chosen or being drawn, and what to do next."""
        plan, aim, link = self._opened.plan, self.paper.aim, self.paper.link
        if aim is not None and (ends := aim.ends) is not None:
            one, other = (short_step(plan, end) for end in ends)
            if aim.point is not None:
                return self.tr("{one}, then {other}.").format(one=one, other=other)
            return self.tr("{one}, then {other}: Enter links them. Type to find another step.").format(
                one=one, other=other
            )
        if aim is not None and aim.point is not None:
            return self._drop_words(aim.step, self.dish_at(self.paper.mapToGlobal(aim.point.toPoint())))
        if aim is not None:
            return self.tr("Arrows or a number choose the other step; type to find one of any dish.")
        if link is not None and self.paper.picture is not None:
            return told_link(plan, self.paper.picture.dish.id, link)
        if self.paper.marked is not None and self.paper.marked in plan.steps:
            return self.tr("Draw from the edge of {step} to another step, or press L.").format(
                step=short_step(plan, self.paper.marked)
            )
        return self.tr("Choose a step or an arrow.")

    def _drop_words(self, step: StepId, dish: DishId | None) -> str:
        plan = self._opened.plan
        if dish is None or dish not in plan.dishes:
            return self.tr("Go to a step of this dish, or to another dish in the list.")
        return self.tr("Drop here: a step of {dish} is linked to {step}.").format(
            dish=plan.dishes[dish].name, step=short_step(plan, step)
        )

    # ------------------------------------------------------------ what is done

    def link(self, before: str, after: str) -> None:
        """Link two steps and choose the link, or say why not."""
        self.finder.hide()
        new = Link(StepId(before), StepId(after))
        sentence = tried_link(self._opened, AddLink(new))
        self.paper.setFocus(Qt.FocusReason.OtherFocusReason)
        self.refuse(sentence)
        if not sentence:
            self.paper.hold((new.before, new.after, LinkKind.END_TO_START))

    def edit_wait(self, typed: str = "") -> None:
        """Let the wait of the chosen link be typed where it stands."""
        link, picture = self.paper.link, self.paper.picture
        area = picture.label(link) if link is not None and picture is not None else None
        if link is not None and area is not None:
            self.refuse("")
            self.paper.looked_at.emit(area)
            self.wait.ask(link, area, typed)

    def take_out(self) -> None:
        """Take the chosen link out."""
        link = self.paper.link
        if link is not None:
            self.paper.setFocus(Qt.FocusReason.OtherFocusReason)
            self.paper.choose(link.before)
            self.refuse(tried(self._opened, RemoveLink(link.key), "menu"))

    def find_step(self, step: StepId, forward: bool, typed: str = "", dish: DishId | None = None) -> None:
        """Let the other step of a link be found by typing."""
        self.refuse("")
        self.finder.ask(self._opened.plan, step, forward, typed, dish)
        self.said.hide()

    def _find_from_chosen(self) -> None:
        if self.paper.marked is not None and self.paper.marked in self._opened.plan.steps:
            self.find_step(self.paper.marked, True)

    def _left_out(self, step: str, forward: bool, where: QPoint) -> None:
        dish = self.dish_at(where)
        if dish is not None and dish in self._opened.plan.dishes:
            self.find_step(StepId(step), forward, dish=dish)

    def _change(self, key: LinkKey, link: Link) -> str:
        sentence = "" if link == self.paper.link else tried_link(self._opened, ChangeLink(key, link))
        if not sentence:
            self.paper.hold(link.key)
        return sentence

    def _back(self) -> None:
        """Go back to the picture."""
        self.refuse("")
        self.paper.setFocus(Qt.FocusReason.OtherFocusReason)

    def _step_chosen(self, step: str) -> None:
        self._put_away()
        self.refuse("")
        self.chosen.emit(step)


def _said(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.hide()
    return label
