"""The steps of a dish in order, edited in place by the keyboard; what more there is about the chosen one."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSplitter, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import (
    Draft,
    Page,
    Row,
    Rows,
    a_button,
    bring_into_view,
    dress_inside,
    tried,
    values_of,
    with_key,
)
from app.look.colours import palette_under
from app.places.menu.flow import FlowView
from app.places.menu.step_details import StepDetails
from app.places.menu.step_fields import row_fields
from core.plan.edits import AddStep, ChangeStep, CopyStep, MoveStepInDish, RemoveStep, new_step_id
from core.plan.ids import StepId
from core.plan.menu import Dish
from core.plan.step import Span, Step

_FIRST_GUESS = Span.of(10)
"""The length of a step of which nothing is said yet, in minutes."""
_WIDE = 1240  # px from which the details stand beside the steps
_SIDE = 480  # px
_HIGH = 560  # px from which there is room for them below


class StepsLeaf(QWidget):
    """Edits a dish's steps. `chosen` carries the step worked on; `remade`: rows came or went."""

    chosen = Signal(str)
    remade = Signal()

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._dish: Dish | None = None
        self.step: StepId | None = None
        self._fields = row_fields(opened)
        self.rows: Rows[Row] = Rows(self._made)
        add = a_button(self.tr("Add"), "plus", self.tr("Write it down as a step"), only_icon=True)
        self.draft = Draft(
            self.tr("What is done next"), self.tr("What is done next, such as: peel the potatoes"), self.add, add
        )
        self.draft.added.connect(self._added)
        self.draft.line.editingFinished.connect(self._draft_left)
        self.rows.put_guest(self.draft)
        self.teaching = QLabel(
            self.tr(
                "No steps yet. Write one thing to a line, as you would say it: “peel the potatoes”. Each follows "
                "the one above it, until you say otherwise under “What follows what”. Tab moves on through a step, "
                "Enter at its end begins the next."
            )
        )
        self.teaching.setObjectName("teaching")
        self.teaching.setWordWrap(True)
        self.details = StepDetails(opened)
        self.flow = FlowView()
        self.flow.chosen.connect(self.choose)
        self._after: StepId | None = None
        self._room: tuple[bool, bool] | None = None
        self._split = self._laid_out()

    def _laid_out(self) -> QSplitter:
        self.page = Page(self.teaching, self.rows)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.bar = _Bar(self)
        column.addWidget(self.bar)
        column.addWidget(self.page, 1)
        self._side = QSplitter(Qt.Orientation.Vertical)
        self._side.addWidget(self.details)
        self._side.addWidget(self.flow)
        self._side.setSizes([380, 300])
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(left)
        split.addWidget(self._side)
        split.setChildrenCollapsible(False)
        split.setStretchFactor(0, 3)
        split.setStretchFactor(1, 2)
        split.setSizes([300, 190])
        self.flow.hide()
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(split)
        return split

    def refresh(self, dish: Dish | None) -> None:
        """Show the steps of a dish."""
        other = (dish.id if dish else None) != (self._dish.id if self._dish else None)
        self._dish = dish
        steps = dish.steps if dish is not None else ()
        if other:
            self.draft.drop()
            self._put_draft(None)
        before = self.rows.keys
        changed = self.rows.show_keys([step.id for step in steps])
        for number, step in enumerate(steps, 1):
            row = self.rows.at(step.id)
            if row is not None:
                row.show_values(values_of(self._fields, step), step.id)
                _number_of(row).setText(str(number))
        self.teaching.setVisible(not steps)
        if self.step not in self.rows.keys:
            at = before.index(self.step) if self.step in before and not other else 0
            self.step = steps[min(at, len(steps) - 1)].id if steps else None
        if self.flow.isVisibleTo(self):
            self.flow.show_flow(self._opened.plan, dish)
        self._show_chosen()
        if changed:
            self.remade.emit()

    def choose(self, step: str) -> None:
        """Choose a step."""
        if step in self.rows.keys and step != self.step:
            self.step = StepId(step)
            self._show_chosen()
            self.chosen.emit(step)

    def go_to(self, step: StepId) -> None:
        """Choose a step, put the cursor into it and bring it into view."""
        self.choose(step)
        row = self.rows.at(step)
        if row is not None:
            row.enter()
            bring_into_view(self.page, row)

    def write_next(self) -> None:
        """Have an empty line after the chosen step, and the cursor in it."""
        self._put_draft(self.step)
        self.draft.enter()
        bring_into_view(self.page, self.draft)

    def write_first(self) -> None:
        """Put the cursor on the empty line at the end."""
        self._put_draft(None)
        self.draft.enter()

    def add(self, does: str) -> str:
        """Add a step after the step that the empty line stands behind; return why not, or ""."""
        if self._dish is None:
            return self.tr("There is no dish to write steps for; add one first.")
        dish = self._opened.plan.dishes[self._dish.id]
        after = self._after if self._after in self.rows.keys else None
        after = after or (dish.steps[-1].id if dish.steps else None)
        step = Step(new_step_id(dish, does), does, _FIRST_GUESS)
        sentence = tried(
            self._opened, AddStep(dish.id, step, after, chained=after is not None), "menu"
        )
        if not sentence:
            self._put_draft(None)
            self.choose(step.id)
        return sentence

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the details beside the steps where there is room, with the flow under them."""
        super().resizeEvent(event)
        size = event.size()
        room = (size.width() >= _WIDE, size.height() >= _HIGH)
        if room == self._room:
            return
        self._room = room
        wide, high = room
        self._split.setOrientation(Qt.Orientation.Horizontal if wide else Qt.Orientation.Vertical)
        self.flow.setVisible(wide)
        if wide:
            self.flow.show_flow(self._opened.plan, self._dish)
            self.flow.mark(self.step)
        self._side.setVisible(wide or high)
        self.bar.more.setChecked(wide or high)
        self._split.setSizes([size.width() - _SIDE, _SIDE] if wide else [size.height() - 260, 260])

    def fold(self) -> None:
        """Show or hide what there is more about the chosen step."""
        shown = not self._side.isVisible()
        self._side.setVisible(shown)
        self.bar.more.setChecked(shown)
        bring_into_view(self.page, self.rows.at(self.step))

    def _made(self, step: StepId) -> Row:
        fields = {key: field.spec for key, field in self._fields.items()}
        number = QLabel()
        number.setObjectName("number")
        number.setAlignment(Qt.AlignmentFlag.AlignCenter)
        number.setFixedSize(28, 26)
        row = Row(
            [
                [fields["does"]],
                [
                    *(self.tr("takes"), fields["length"], fields["attention"]),
                    *(self.tr("at"), fields["uses"], self.tr("in"), fields["vessels"]),
                    *(self.tr("until"), fields["cue"]),
                ],
            ],
            lambda key, value: self._take(step, key, value),
            number,
        )
        row.entered.connect(lambda: self.choose(step))
        row.finished.connect(self.write_next)
        dress_inside(row, palette_under(self.palette()))
        return row

    def _take(self, step: StepId, key: str, value: Any) -> str:
        new = self._fields[key].put(self._opened.plan.steps[step], value)
        return tried(self._opened, ChangeStep(step, new), "menu")

    def _show_chosen(self) -> None:
        for key in self.rows.keys:
            row = self.rows.at(key)
            if row is not None:
                row.set_chosen(key == self.step)
        self.details.refresh(self.step)
        self.flow.mark(self.step)
        keys = self.rows.keys
        self.bar.show_state(keys.index(self.step) if self.step in keys else -1, len(keys))

    def _put_draft(self, after: StepId | None) -> None:
        last = self.rows.keys[-1] if self.rows.keys else None
        self._after = None if after == last else after
        self.rows.put_guest(self.draft, self._after)

    def _draft_left(self) -> None:
        if self._after is not None and not self.draft.line.text() and not self.draft.line.hasFocus():
            self._put_draft(None)

    def _added(self, goes_on: bool) -> None:
        row = self.rows.at(self.step)
        if goes_on and row is not None:
            row.enter("length")
            bring_into_view(self.page, row)

    def copy(self) -> None:
        """Copy the chosen step."""
        if self.step is not None:
            edit = CopyStep(self.step)
            new = edit.new_id(self._opened.plan)
            if self._refused(tried(self._opened, edit, "menu")):
                self.go_to(new)

    def shift(self, by: int) -> None:
        """Move the chosen step among the steps of its dish."""
        if self.step is not None and self.step in self.rows.keys:
            to = self.rows.keys.index(self.step) + by
            if 0 <= to < len(self.rows):
                self._refused(tried(self._opened, MoveStepInDish(self.step, to), "menu"))

    def remove(self) -> None:
        """Take the chosen step out; what followed it follows what it followed."""
        if self.step is None or self.step not in self.rows.keys:
            return
        keys = self.rows.keys
        at = keys.index(self.step)
        if self._refused(tried(self._opened, RemoveStep(self.step, joined=True), "menu")):
            left = self.rows.keys
            if left:
                self.go_to(left[min(at, len(left) - 1)])
            else:
                self.write_first()

    def _refused(self, sentence: str) -> bool:
        """Say at the chosen step why something was not taken; tell whether it was."""
        row = self.rows.at(self.step)
        if row is not None:
            row.refuse(sentence)
        return not sentence


class _Bar(QWidget):
    """What can be done with the chosen step."""

    def __init__(self, leaf: StepsLeaf) -> None:
        super().__init__()
        self.insert = a_button(self.tr("New step below"), "plus", self.tr("Write a step after the chosen one"))
        self.copy = a_button(self.tr("Copy"), tip=self.tr("Copy the chosen step"))
        self.up = a_button(self.tr("Move the step up"), "up", only_icon=True)
        self.down = a_button(self.tr("Move the step down"), "down", only_icon=True)
        self.remove = a_button(self.tr("Remove the step (undo brings it back)"), "bin", only_icon=True)
        self.more = a_button(self.tr("More about the step"), tip=self.tr("Show or hide what does not fit in a row"))
        self.more.setCheckable(True)
        with_key(self.insert, "Alt+Return", leaf, leaf.write_next)
        with_key(self.copy, "Ctrl+D", leaf, leaf.copy)
        with_key(self.up, "Alt+Up", leaf, lambda: leaf.shift(-1))
        with_key(self.down, "Alt+Down", leaf, lambda: leaf.shift(1))
        with_key(self.remove, "Alt+Del", leaf, leaf.remove)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 8, 18, 4)
        row.setSpacing(4)
        for button in (self.insert, self.copy, self.up, self.down, self.remove):
            row.addWidget(button)
        row.addStretch(1)
        row.addWidget(self.more)
        with_key(self.more, "Alt+M", leaf, leaf.fold)

    def show_state(self, at: int, count: int) -> None:
        """Let be pressed what can be done with the step in a place of so many (-1: with none)."""
        self.copy.setEnabled(at >= 0)
        self.remove.setEnabled(at >= 0)
        self.up.setEnabled(at > 0)
        self.down.setEnabled(0 <= at < count - 1)


def _number_of(row: Row) -> QLabel:
    found = row.findChild(QLabel, "number")
    assert isinstance(found, QLabel)
    return found
