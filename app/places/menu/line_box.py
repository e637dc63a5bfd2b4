"""A cook's line with what was understood of it below: chips to correct, faults with their mends, the help page."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout

from app.bridge import OpenPlan
from app.fields import a_button
from app.places.menu.line_edit import CookLine
from app.places.menu.line_reading import TypedLine
from app.places.menu.line_understood import Understood
from core.measures.refusal import Refusal
from core.plan.ids import DishId, StepId

TakeLines = Callable[[tuple[TypedLine, ...]], str]
"""Takes lines without faults; returns why the plan does not bear them, or ""."""
_LOOK_AGAIN = 60  # ms


class LineBox(QFrame):
    """Reads as the cook types. `added`: the lines were taken, True when the cook goes on by the keyboard."""

    added = Signal(bool)
    given_up = Signal()
    entered = Signal()
    left = Signal()
    grown = Signal()
    help_wanted = Signal()

    def __init__(
        self, opened: OpenPlan, name: str, empty: str, take: TakeLines, button: QPushButton | None = None
    ) -> None:
        """Make a line called `name` for assistive technology, `empty` greyed in it; `button` takes it too."""
        super().__init__()
        self.setObjectName("draft")
        self._take = take
        self._entering = False
        self.line = CookLine(self._taken_in)
        self.line.setAccessibleName(name)
        self.line.setPlaceholderText(empty)
        self.understood = Understood(opened, self.line, self)
        self.chips = self.understood.bar
        self.note = self.understood.note
        self.wrong = self.note.words
        self.beyond = QLabel()
        self.beyond.setObjectName("soft")
        self.beyond.setWordWrap(True)
        self.beyond.hide()
        self.button = button
        self.help = a_button(self.tr("How a line is written"), tip=self.tr("Show all that a line can say (Shift+F1)"))
        self.help.setObjectName("lineHelp")
        self._column = QVBoxLayout(self)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        column = self._column
        column.setContentsMargins(10, 5, 8, 6)
        column.setSpacing(3)
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.line, 1)
        if self.button is not None:
            row.addWidget(self.button, 0, Qt.AlignmentFlag.AlignTop)
        column.addLayout(row)
        under = QHBoxLayout()
        under.setSpacing(6)
        under.addWidget(self.chips, 1)
        under.addWidget(self.help, 0, Qt.AlignmentFlag.AlignTop)
        column.addLayout(under)
        column.addWidget(self.note)
        column.addWidget(self.beyond)

    def _connect(self) -> None:
        line = self.line
        line.returnPressed.connect(self._returned)
        line.complained.connect(self._complained)
        line.taken.connect(self._taken)
        line.to_chips.connect(self.enter_chips)
        line.gone_out.connect(self._look_whether_left)
        line.given_up.connect(self.given_up)
        self.understood.walked_on.connect(lambda: self.help.setFocus(Qt.FocusReason.TabFocusReason))
        self.help.clicked.connect(self.help_wanted)
        if self.button is not None:
            self.button.clicked.connect(self._clicked)

    # ------------------------------------------------------------ what it stands for

    def aim(self, dish: DishId | None, step: StepId | None = None) -> None:
        """Read for a dish; with `step` the line of a step that there is."""
        self.understood.aim(dish, step)

    def stand_for(self, text: str, beyond: str = "") -> None:
        """Show the line of a step, and what of the step no line can say."""
        self.line.stand_for(text)
        self.beyond.setText(beyond)
        self.beyond.setVisible(bool(beyond))

    def stand_close(self) -> None:
        """Have no room around it, as a part of a row."""
        self._column.setContentsMargins(0, 0, 0, 0)

    def enter(self) -> None:
        """Put the cursor here, at the end."""
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self.line.put_cursor(len(self.line.toPlainText()))

    def drop(self) -> None:
        """Forget what was typed."""
        self.line.stand_for("")

    def enter_chips(self) -> None:
        """Go on to the chips, or to what comes after them."""
        if self.chips.buttons:
            self.chips.enter(0)
        else:
            self.help.setFocus(Qt.FocusReason.TabFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Tell that there is more to see."""
        super().resizeEvent(event)
        if event.size().height() > event.oldSize().height():
            self.grown.emit()

    def has_focus(self) -> bool:
        """Tell whether the cursor is anywhere in the box."""
        focused = QApplication.focusWidget()
        return focused is not None and self.isAncestorOf(focused)

    # ------------------------------------------------------------ taking

    def _returned(self) -> None:
        self._entering = True
        QTimer.singleShot(0, self, self._entered)  # Enter hands the text over right after this signal

    def _entered(self) -> None:
        self._entering = False

    def _clicked(self) -> None:
        """Take what stands here; an empty line shows where to type."""
        self.line.commit()
        self.enter()

    def commit(self) -> bool:
        """Hand the line over; tell whether nothing is wrong."""
        return self.line.commit()

    def _taken_in(self, _text: str) -> str:
        """Hand over what was typed, or return what is wrong with it."""
        typed, new = self.understood.typed, self.understood.step is None
        if not typed:
            return "" if new else self.tr("Nothing is written here; say what is done.")
        if not new and len(typed) > 1:
            return self.tr("This is the line of one step; write further steps on lines of their own below.")
        faults = self.understood.faults
        if new and not faults:
            faults = [each for each in (line.missing() for line in typed) if each is not None]
        if faults:
            self.understood.mark(faults)
            self.line.put_cursor(faults[0].end)
            return faults[0].sentence
        try:
            sentence = self._take(typed)
        except Refusal as refusal:
            sentence = str(refusal)
        if sentence:
            self.note.tell_refusal(sentence)
            self.understood.mark_follows()
        return sentence

    def _complained(self, sentence: str) -> None:
        if not sentence:
            self.note.tell_refusal("")

    def _taken(self) -> None:
        self.added.emit(self._entering)

    def _look_whether_left(self) -> None:
        QTimer.singleShot(0, self, self._look)

    def _look(self) -> None:
        """Hand the line over where the cook went elsewhere in the window; a look at another window is no leaving."""
        focused = QApplication.focusWidget()
        if focused is None or QApplication.activePopupWidget() is not None or self.has_focus():
            return
        if focused.window() is not self.window():  # such as the help page
            return
        if QApplication.mouseButtons() != Qt.MouseButton.NoButton:  # nothing moves under a finger that is down
            QTimer.singleShot(_LOOK_AGAIN, self, self._look)
            return
        if not self.isVisible() and not self.line.touched():
            return
        self.line.commit()
        self.left.emit()
