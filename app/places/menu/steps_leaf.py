"""The steps of a dish in order, edited in place by the keyboard; what more there is about the chosen one."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Page, Rows, bring_into_view, dress_inside, tried, values_of
from app.look.colours import palette_under
from app.places.menu.block_chooser import UsualSteps
from app.places.menu.flow_panel import FlowPanel
from app.places.menu.step_details import StepDetails
from app.places.menu.step_fields import row_fields
from app.places.menu.step_lines import StepLines
from app.places.menu.step_row import StepRow
from app.places.menu.steps_acts import StepActs
from app.places.menu.steps_bar import StepsBar
from app.places.menu.steps_room import StepsRoom
from core.plan.edits import ChangeStep
from core.plan.ids import DishId, StepId
from core.plan.menu import Dish


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
        self._after: StepId | None = None
        self.rows: Rows[StepRow] = Rows(self._made)
        self.lines = StepLines(opened, self._place, self)
        self.lines.wrote.connect(self._wrote)
        self.lines.rewrote.connect(self._words_anew)
        self.lines.grown.connect(lambda box: bring_into_view(self.page, box))
        self.draft = self.lines.draft
        self.draft.left.connect(self._draft_left)
        self.rows.put_guest(self.draft)
        shortcut = QShortcut(QKeySequence("Shift+F1"), self)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(self.lines.show_help)
        self.teaching = QLabel(
            self.tr(
                "No steps yet. Write each as you would say it, in one line: “peel the potatoes 15 min”, “bake 45-50 "
                "min 190C, turn at 25, then rest 10-30 min”. What was understood stands below the line, to be "
                "corrected. Enter begins the next; each follows the one above it. Several lines may be pasted at once."
            )
        )
        self.teaching.setObjectName("teaching")
        self.teaching.setWordWrap(True)
        self.details = StepDetails(opened)
        self.flow = FlowPanel(opened)
        self.flow.chosen.connect(self.choose)
        self.usual: UsualSteps = UsualSteps(
            opened, lambda: (self._dish.id, self.step) if self._dish is not None else None, self
        )
        self.usual.added.connect(self.go_to)
        self.room = self._laid_out()

    def _laid_out(self) -> StepsRoom:
        self.page: Page = Page(self.teaching, self.rows)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.acts: StepActs = StepActs(self._opened, self)
        self.bar = StepsBar(self)
        column.addWidget(self.bar)
        column.addWidget(self.page, 1)
        room = StepsRoom(left, self.flow, self.details)
        room.shared.connect(self._room_shared)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(room)
        return room

    def refresh(self, dish: Dish | None) -> None:
        """Show the steps of a dish."""
        other = (dish.id if dish else None) != (self._dish.id if self._dish else None)
        if other:
            self.lines.hand_over()
            self.lines.hand_over_rows(self.rows)
        self._dish = dish
        steps = dish.steps if dish is not None else ()
        if other:
            self._put_draft(None)
        self.draft.aim(dish.id if dish is not None else None)
        if other and dish is not None:
            self.lines.bring_unsent(dish.id)
        before = self.rows.keys
        changed = self.rows.show_keys([step.id for step in steps])
        for number, step in enumerate(steps, 1):
            row = self.rows.at(step.id)
            if row is not None:
                row.show_values(values_of(self._fields, step), step.id)
                row.words.show_words(step.does, self.lines.told(step))
                _number_of(row).setText(str(number))
        self.teaching.setVisible(not steps)
        if self.step not in self.rows.keys:
            at = before.index(self.step) if self.step in before and not other else 0
            self.step = steps[min(at, len(steps) - 1)].id if steps else None
        if not self.flow.isHidden():
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

    def write_line(self, step: StepId | None = None) -> None:
        """Let a step be written as a line, the chosen one unless another is named."""
        self.choose(step or "")
        row = self.rows.at(self.step)
        if row is not None and self.step is not None:
            row.write_line(*self.lines.written(self._opened.plan.steps[self.step]))
            self.lines.bring_half(self.step, row)
            bring_into_view(self.page, row)

    def open_fields(self) -> None:
        """Show the fields of the chosen step, the cursor in the first."""
        row = self.rows.at(self.step)
        if row is not None:
            row.enter()
            bring_into_view(self.page, row)

    def _place(self) -> tuple[DishId, StepId | None] | None:
        """Return the dish, and the step that the empty line stands behind."""
        if self._dish is None or self._dish.id not in self._opened.plan.dishes:
            return None
        steps = self._opened.plan.dishes[self._dish.id].steps
        after = self._after if self._after in self.rows.keys else None
        return self._dish.id, after or (steps[-1].id if steps else None)

    def fold(self) -> None:
        """Show or hide what there is more about the chosen step."""
        self.room.fold(not self.room.folded)
        self.bar.more.setChecked(not self.room.folded)
        bring_into_view(self.page, self.rows.at(self.step))

    def _room_shared(self) -> None:
        self.bar.more.setChecked(not self.room.folded)
        if not self.flow.isHidden():
            self.flow.show_flow(self._opened.plan, self._dish)
            self.flow.mark(self.step)

    def _made(self, step: StepId) -> StepRow:
        fields = {key: field.spec for key, field in self._fields.items()}
        number = QLabel()
        number.setObjectName("number")
        number.setAlignment(Qt.AlignmentFlag.AlignCenter)
        number.setFixedSize(28, 26)
        row = StepRow(
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
            lambda: self.lines.box(step),
        )
        row.entered.connect(lambda: self.choose(step))
        row.line_wanted.connect(lambda: self.write_line(step))
        row.walked.connect(lambda by: self._walk(step, by))
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
        if self._after is not None and not self.draft.line.toPlainText() and not self.draft.has_focus():
            self._put_draft(None)

    def _wrote(self, step: str) -> None:
        """Go on with an empty line below the last step written."""
        writing = self.draft.has_focus()
        self._put_draft(StepId(step))
        self.choose(step)
        if writing:
            self.draft.enter()
        bring_into_view(self.page, self.draft)

    def _words_anew(self, step: str) -> None:
        """Show a step's words where the plan did not change, but a wait for the step to come did."""
        row, there = self.rows.at(step), self._opened.plan.steps.get(StepId(step))
        if row is not None and there is not None:
            row.words.show_words(there.does, self.lines.told(there))

    def _walk(self, step: StepId, by: int) -> None:
        """Go to the words of the step above or below; below the last one is the empty line."""
        keys = self.rows.keys
        to = keys.index(step) + by
        row = self.rows.at(keys[to]) if 0 <= to < len(keys) else None
        if row is not None:
            row.read()
            bring_into_view(self.page, row)
        elif to == len(keys):
            self.draft.enter()


def _number_of(row: StepRow) -> QLabel:
    found = row.findChild(QLabel, "number")
    assert isinstance(found, QLabel)
    return found
