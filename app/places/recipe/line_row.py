"""One line of a recipe that was read: the line to correct, what is understood of it, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QMouseEvent, QTextCursor
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QToolButton, QVBoxLayout, QWidget

from app.fields import Line, Paragraph, Typed
from app.fields.row_wrap import RowWrap
from app.fields.tick import Tick


@dataclass(frozen=True, slots=True)
class Chip:
    """One value that was understood: its words, where it stands in the line, and what the draft calls it ("": none)."""

    words: str
    start: int
    end: int
    what: str = ""
    plain: bool = False


@dataclass(frozen=True, slots=True)
class Shown:
    """What a row shows. `wrong` are sentences on what cannot be read; `out`: left out of the dish."""

    number: str
    line: str
    chips: tuple[Chip, ...] = ()
    wrong: str = ""
    out: bool = False
    understood: bool = False


class _Box(Tick):
    """A tick without words: all of it can be hit, also with a wet finger."""

    def hitButton(self, pos: QPoint) -> bool:
        """Tell whether a place of it is hit."""
        return self.rect().contains(pos)


class LineRow(QFrame):
    """`entered`: the focus came to it, or went to another value of it; carries what value that is ("": the line)."""

    entered = Signal(str)
    done = Signal()

    aside = True  # whether what is understood stands beside the line, not below it

    def __init__(self, name: str, how: Typed, take: Callable[[str], str], tick: Callable[[bool], str]) -> None:
        super().__init__()
        self.setObjectName("row")
        self._shown: Shown | None = None
        self._chips: tuple[Chip, ...] = ()
        self.number = QLabel()
        self.number.setObjectName("soft")
        self.number.setMinimumWidth(26)
        self.number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self.number.setContentsMargins(0, 7, 0, 0)
        self.line = Paragraph(how, take)
        self.line.setAccessibleName(name)
        self.tick = _Box("", tick)
        self.tick.setToolTip(self.tr("Understood: nothing more to ask about it (Ctrl+Enter)"))
        self.complaint = QLabel()
        self.complaint.setObjectName("wrong")
        self.complaint.setTextFormat(Qt.TextFormat.PlainText)
        self.complaint.setWordWrap(True)
        self.complaint.hide()
        self.beside = QHBoxLayout()
        self.beside.setSpacing(6)
        self._said = QWidget()
        self._wrap = RowWrap(self._said, gap=4)
        self._lay_out()
        bar = self.line.verticalScrollBar()
        bar.valueChanged.connect(lambda value: bar.setValue(0) if value else None)  # it is as high as its text
        self.line.complained.connect(lambda _words: self._show_complaint())
        self.line.returnPressed.connect(self.done)
        self.line.cursorPositionChanged.connect(self._walked)
        self.watch(self.line)
        self.watch(self.tick)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.number)
        row.addWidget(self.line, 4)
        if self.aside:
            self._wrap.setContentsMargins(0, 4, 0, 0)
            row.addWidget(self._said, 5, Qt.AlignmentFlag.AlignTop)
        row.addLayout(self.beside)
        row.addWidget(self.tick, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(2, 3, 6, 4)
        column.setSpacing(1)
        column.addLayout(row)
        below = QVBoxLayout()
        below.setContentsMargins(36, 0, 0, 0)
        if not self.aside:
            below.addWidget(self._said)
        below.addWidget(self.complaint)
        column.addLayout(below)

    def watch(self, field: QWidget) -> None:
        """Tell when a field of the row gets the focus."""
        field.installEventFilter(self)

    def show_row(self, shown: Shown) -> None:
        """Show the row as it is now; what is being typed stays."""
        self._shown = shown
        self.number.setText(shown.number)
        self.line.show_value(shown.line)
        self.line.setReadOnly(shown.out)
        face = self.line.font()
        face.setStrikeOut(shown.out)
        self.line.setFont(face)
        self.tick.show_value(shown.understood)
        self.tick.setEnabled(not shown.out)
        name = shown.number or self.line.accessibleName()
        self.tick.setAccessibleName(self.tr("{number} understood").format(number=name))
        if shown.chips != self._chips:
            self._show_chips(shown.chips)
        self._said.setVisible(not shown.out and (self.aside or bool(shown.chips)))
        self._show_complaint()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Go into the line wherever the row is pressed, also where it is left out."""
        self.line.setFocus(Qt.FocusReason.MouseFocusReason)
        super().mousePressEvent(event)

    def set_chosen(self, chosen: bool) -> None:
        """Mark the row, or take the mark away."""
        if self.property("chosen") != chosen:
            self.setProperty("chosen", chosen)
            self.style().unpolish(self)
            self.style().polish(self)

    def go_in(self, what: str = "") -> None:
        """Put the cursor into the line, on a value where it says it."""
        chip = next((each for each in self._chips if what and each.what == what), None)
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)
        if chip is not None:
            self._select(chip)

    def commit(self) -> bool:
        """Take what is typed into the line; tell whether nothing is wrong."""
        return self.line.commit()

    def place_in_line(self) -> int | None:
        """Return the place of the cursor in the line, None where it is not there."""
        return self.line.textCursor().position() if self.line.hasFocus() else None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell that the focus came."""
        if event.type() is QEvent.Type.FocusIn:
            self.entered.emit("" if watched is not self.line else self._at_cursor())
        return False

    def _walked(self) -> None:
        if self.line.hasFocus():
            self.entered.emit(self._at_cursor())

    def _at_cursor(self) -> str:
        cursor = self.line.textCursor()
        low, high = cursor.selectionStart(), cursor.selectionEnd()
        inside = [each for each in self._chips if each.start <= low and high <= each.end]
        return min(inside, key=lambda each: each.end - each.start).what if inside else ""

    def _select(self, chip: Chip) -> None:
        cursor = self.line.textCursor()
        cursor.setPosition(chip.start)
        cursor.setPosition(min(chip.end, len(self.line.toPlainText())), QTextCursor.MoveMode.KeepAnchor)
        self.line.setTextCursor(cursor)

    def _show_chips(self, chips: Sequence[Chip]) -> None:
        self._chips = tuple(chips)
        while (item := self._wrap.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        for chip in self._chips:
            self._wrap.addWidget(self._chip(chip))

    def _chip(self, chip: Chip) -> QWidget:
        if chip.plain:
            label = QLabel(chip.words)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setObjectName("plainChip")
            return label
        button = QToolButton()
        button.setObjectName("chip")
        button.setText(chip.words.replace("&", "&&"))
        button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        button.setToolTip(self.tr("Show where the recipe says it"))
        button.clicked.connect(lambda _checked=False: self._chip_chosen(chip))
        return button

    def _chip_chosen(self, chip: Chip) -> None:
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self._select(chip)
        self.entered.emit(chip.what)

    def _show_complaint(self) -> None:
        words = self.line.wrong or (self._shown.wrong if self._shown is not None and not self._shown.out else "")
        self.complaint.setText(words)
        self.complaint.setVisible(bool(words))


class StepRow(LineRow):
    """A step: its line, its length and what it follows beside it."""

    aside = False

    def __init__(
        self,
        how: tuple[Typed, Typed, Typed],
        take: tuple[Callable[[str], str], Callable[[str], str], Callable[[tuple[int, ...]], str]],
        tick: Callable[[bool], str],
    ) -> None:
        super().__init__("", how[0], take[0], tick)
        self.line.setAccessibleName(self.tr("Step"))
        self.length = Line(how[1], take[1])
        self.length.setAccessibleName(self.tr("How long it takes"))
        self.length.setPlaceholderText(self.tr("how long?"))
        self.length.setToolTip(
            self.tr("How long it takes: 10 min, 8-12 min or 1 h 30. A question mark: a guess, which is marked as one.")
        )
        self.after = Line(how[2], take[2])
        self.after.setAccessibleName(self.tr("After which steps"))
        self.after.setToolTip(
            self.tr("The numbers of the steps it follows, such as 2 or 1, 3; empty: it can begin at once")
        )
        self.after.setPlaceholderText(self.tr("begins"))
        unit = self.fontMetrics().averageCharWidth()
        self.length.setFixedWidth(15 * unit + 14)
        self.after.setFixedWidth(8 * unit + 14)
        for field in (self.length, self.after):
            field.setMinimumHeight(28)
            self.beside.addWidget(field, 0, Qt.AlignmentFlag.AlignTop)
            field.complained.connect(lambda _words: self._show_complaint())
            field.returnPressed.connect(self.done)
            self.watch(field)

    def show_step(self, shown: Shown, length: str, after: tuple[int, ...], missing: bool) -> None:
        """Show the step as it is now."""
        self.show_row(shown)
        self.length.show_value(length)
        self.after.show_value(after)
        self.length.setEnabled(not shown.out)
        self.after.setEnabled(not shown.out)
        if self.length.property("missing") != missing:
            self.length.setProperty("missing", missing)
            self.length.style().unpolish(self.length)
            self.length.style().polish(self.length)

    def commit(self) -> bool:
        """Take what is typed into the step's fields; tell whether nothing is wrong."""
        return all([super().commit(), self.length.commit(), self.after.commit()])

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell that the focus came to the line or to the length."""
        if event.type() is QEvent.Type.FocusIn and watched is self.length:
            self.entered.emit("length")
            return False
        return super().eventFilter(watched, event)

    def _show_complaint(self) -> None:
        super()._show_complaint()
        more = self.length.wrong or self.after.wrong if hasattr(self, "after") else ""
        if more:
            self.complaint.setText(more)
            self.complaint.show()
