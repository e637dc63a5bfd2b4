"""The lines of a dish's steps: the empty one, those of steps that there are, what they say, and the help page."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from app.bridge import OpenPlan
from app.fields import Rows, a_button, dress_inside
from app.look.colours import palette_under
from app.places.menu.flow_panel import tried_link
from app.places.menu.line_box import LineBox
from app.places.menu.line_help import LineHelp
from app.places.menu.line_making import Made, Waits, changed_step, link_after, new_steps
from app.places.menu.line_reading import LineReader, TypedLine
from app.places.menu.line_words import line_told
from app.places.menu.step_row import StepRow
from core.measures.words import join_words
from core.plan.ids import DishId, StepId
from core.plan.menu import Link
from core.plan.step import Step
from core.reading.line import read_line
from core.reading.line_value import Line
from core.reading.line_write import beyond_line, write_line

Place = Callable[[], tuple[DishId, StepId | None] | None]
"""Returns the dish and the step after which the next line's step goes; None where there is no dish."""


class StepLines(QObject):
    """Writes steps as lines into the plan. `wrote`: new steps, the last one's id; `rewrote`: one that there was.

    `grown`: a box in which the cook writes has become higher.
    """

    wrote = Signal(str)
    rewrote = Signal(str)
    grown = Signal(object)

    def __init__(self, opened: OpenPlan, place: Place, page: QWidget) -> None:
        super().__init__(page)
        self._opened = opened
        self._place = place
        self._page = page
        self._reader = LineReader()
        self._was: dict[StepId, tuple[Step, Line]] = {}
        self._told: dict[StepId, tuple[object, str]] = {}
        self.help_page: LineHelp | None = None
        self.waits: Waits = {}
        self._half: dict[StepId, str] = {}
        self._unsent: dict[DishId, str] = {}
        self._handing = False
        add = a_button(self.tr("Add"), "plus", self.tr("Write it down as a step"), only_icon=True)
        self.draft = LineBox(
            opened,
            self.tr("The next step in a line"),
            self.tr("The next step, such as: bake 45-50 min 190C, turn at 25"),
            self._take_new,
            add,
        )
        self._connect(self.draft)

    # ------------------------------------------------------------ what is written

    def link(self, step: StepId) -> Link | None:
        """Return the link whose wait a step's line tells; one that is still to come stands for itself."""
        there = link_after(self._opened.plan, step)
        if there is None and step in self.waits:
            return self.waits[step].link(step, step)
        return there

    def told(self, step: Step) -> str:
        """Return what is known of a step beside what is done, on one line."""
        plan = self._opened.plan
        dish = plan.dish_of[step.id].id
        link = self.link(step.id)
        key = (step, link, plan.kitchen, dish)
        kept = self._told.get(step.id)
        if kept is not None and kept[0] == key:
            return kept[1]
        names = self._reader.names(plan, dish)
        line = read_line(write_line(step, link, names), names)
        words = line_told(line, plan, dish)
        if step.id in self.waits and link_after(plan, step.id) is None:
            words[-1] = self.tr("{wait}, once a step follows").format(wait=words[-1])
        words += beyond_line(step, link, names)
        text = "  ·  ".join(words)
        self._told[step.id] = (key, text)
        return text

    def written(self, step: Step) -> tuple[str, str]:
        """Return a step's line, and a sentence of what no line can say."""
        plan = self._opened.plan
        dish = plan.dish_of[step.id].id
        names = self._reader.names(plan, dish, step.id)
        link = self.link(step.id)
        text = write_line(step, link, names)
        self._was[step.id] = (step, read_line(text, names))
        beyond = beyond_line(step, link, names)
        if not beyond:
            return text, ""
        return text, self.tr("Kept as it is, since no line says it: {what}.").format(what=join_words(list(beyond)))

    # ------------------------------------------------------------ what is taken

    def box(self, step: StepId) -> LineBox:
        """Return a new box for the line of a step that there is."""
        made = LineBox(
            self._opened,
            self.tr("The step in a line"),
            self.tr("What is done, how long, and the rest"),
            lambda typed: self._take_change(step, typed),
        )
        made.aim(self._opened.plan.dish_of[step].id, step)
        self._connect(made)
        made.added.connect(lambda _on: self.rewrote.emit(step))
        dress_inside(made, palette_under(self._page.palette()))
        return made

    def hand_over(self) -> None:
        """Take the empty line's text before another dish is shown; what cannot be taken is kept for this dish."""
        if self._handing:
            return
        self._handing = True
        text, place = self.draft.line.toPlainText(), self._place()
        if text and place is not None and not self.draft.commit():
            self._unsent[place[0]] = text
        self._handing = False
        self.draft.drop()

    def finish(self, rows: Rows[StepRow]) -> None:
        """Take the line that the cook is at, also where the cursor is on one of its chips."""
        boxes = [self.draft, *(row.box for row in rows if row.box is not None)]
        for box in boxes:
            if box.has_focus():
                box.commit()

    def hand_over_rows(self, rows: Rows[StepRow]) -> None:
        """Take what is being written in steps' lines before their rows go; what cannot be taken is kept for them."""
        for step, row in zip(rows.keys, rows, strict=True):
            if row.face == "line" and row.box is not None and not row.box.commit():
                self._half[step] = row.box.line.toPlainText()

    def bring_half(self, step: StepId, row: StepRow) -> None:
        """Show what was left to be mended in a step's line."""
        text = self._half.pop(step, "")
        if text and row.box is not None:
            row.box.line.write(text)

    def bring_unsent(self, dish: DishId) -> None:
        """Show what was left to be mended in a dish's empty line."""
        text = self._unsent.pop(dish, "")
        if text and not self._handing:
            self.draft.line.write(text)

    def _connect(self, box: LineBox) -> None:
        box.help_wanted.connect(self.show_help)
        box.grown.connect(lambda: self.grown.emit(box) if box.has_focus() else None)

    def _take_new(self, typed: tuple[TypedLine, ...]) -> str:
        place = self._place()
        if place is None:
            return self.tr("There is no dish to write steps for; add one first.")
        dish, after = place
        made = new_steps(self._opened.plan, dish, typed, after, self.waits)
        sentence = self._done(made, [each.step for each in typed])
        if not sentence:
            self.wrote.emit(typed[-1].step)
        return sentence

    def _take_change(self, step: StepId, typed: tuple[TypedLine, ...]) -> str:
        plan = self._opened.plan
        if step not in plan.steps:
            return self.tr("This step is no longer there.")
        was = self._was.get(step)
        if was is None or was[0] != plan.steps[step]:
            self.written(plan.steps[step])
            was = self._was[step]
        made = changed_step(plan, step, was[1], typed[0].line, self.waits)
        sentence = self._done(made, [step])
        self._told.pop(step, None)
        return sentence

    def _done(self, made: Made, steps: Sequence[StepId]) -> str:
        """Apply what was made of some steps; their waits are remembered first, so that the rows show them."""
        before = self.waits
        self.waits = {step: wait for step, wait in before.items() if step not in steps} | made.waits
        sentence = "" if made.edit is None else tried_link(self._opened, made.edit)
        if sentence:
            self.waits = before
        return sentence

    # ------------------------------------------------------------ the help page

    def show_help(self) -> None:
        """Show the page that tells how a line is written, or put it away."""
        if self.help_page is None:
            self.help_page = LineHelp(self._page)
        if self.help_page.isVisible():
            self.help_page.close()
        else:
            self.help_page.show()
            self.help_page.raise_()
            self.help_page.activateWindow()
