"""A text that stands for a value and wraps, so that nothing of it is cut off; as high as it needs to be."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QMimeData, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QIcon, QKeyEvent, QResizeEvent, QTextCursor, QTextOption
from PySide6.QtWidgets import QFrame, QPlainTextEdit, QSizePolicy, QToolButton, QWidget

from app.fields.reading import Reading
from app.fields.spec import Take, Typed
from app.fields.wrapping import wrapped

_FRAME = 4  # px around the text, of border and padding
_MARGIN = 2
_CHEVRON = 22


class Paragraph(Reading, QPlainTextEdit):
    """For what may be long. It has one paragraph only: Enter moves on, as in a line."""

    complained = Signal(str)
    taken = Signal()
    returnPressed = Signal()  # noqa: N815  as QLineEdit has it

    def __init__(self, how: Typed, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.begin(how, take)
        self._touched = False
        self._putting = False
        self.setProperty("field", "paragraph")
        self.setTabChangesFocus(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setWordWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        self.document().setDocumentMargin(_MARGIN)
        policy = self.sizePolicy()
        policy.setVerticalPolicy(QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.textChanged.connect(self._changed)
        self.chevron: QToolButton | None = None
        if how.offers is not None:
            self.chevron = QToolButton(self)
            self.chevron.setProperty("field", "chevron")
            self.chevron.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            self.chevron.setToolTip(self.tr("Choose (arrow down)"))
            self.chevron.setAccessibleName(self.tr("Choose"))
            self.chevron.clicked.connect(self.offer)
            self.setViewportMargins(0, 0, _CHEVRON, 0)

    def dress(self, chevron: QIcon) -> None:
        """Give the mark that opens the list its colours."""
        if self.chevron is not None:
            self.chevron.setIcon(chevron)

    def shown_text(self) -> str:
        """Return the text."""
        return self.toPlainText()

    def put_text(self, text: str) -> None:
        """Put another text."""
        self._putting = True
        self.setPlainText(text)
        self._putting = False

    def touched(self) -> bool:
        """Tell whether the cook has typed here."""
        return self._touched

    def set_touched(self, touched: bool) -> None:
        """Say whether the cook has typed here."""
        self._touched = touched

    def heightForWidth(self, width: int) -> int:
        """Return the height that the text takes at a width."""
        room = max(20, width - 2 * (_FRAME + _MARGIN) - (_CHEVRON if self.chevron is not None else 0))
        lines = max(1, len(wrapped(self.toPlainText(), self.font(), room)))
        return max(self.minimumHeight(), lines * self.fontMetrics().lineSpacing() + 2 * (_FRAME + _MARGIN) - 2)

    def sizeHint(self) -> QSize:
        """Ask for the height at the width of the moment."""
        return QSize(max(self.minimumWidth(), 120), self.heightForWidth(max(self.width(), self.minimumWidth())))

    def minimumSizeHint(self) -> QSize:
        """Ask for one line at least."""
        return QSize(60, self.fontMetrics().lineSpacing() + 2 * (_FRAME + _MARGIN) - 2)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take Enter, Escape and the arrow down."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier):
                self.returnPressed.emit()
                self.commit()
            else:
                event.ignore()
        elif not self.is_own_key(event):
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Leave undo to the plan while nothing was typed here."""
        if self.leaves_to_plan(event):
            event.ignore()
            return False
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Have all of the text ready to be typed over where Tab led here, as in a line."""
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Read the text."""
        self.left_by = event.reason()
        super().focusOutEvent(event)
        if event.reason() is not Qt.FocusReason.PopupFocusReason:
            self.moveCursor(QTextCursor.MoveOperation.Start)
            self.commit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the mark at the end of the first line."""
        super().resizeEvent(event)
        if self.chevron is not None:
            self.chevron.setGeometry(self.width() - _CHEVRON - 2, 2, _CHEVRON, 24)

    def insertFromMimeData(self, source: QMimeData) -> None:
        """Paste on one line."""
        self.insertPlainText(" ".join(source.text().split()))

    def _changed(self) -> None:
        self.updateGeometry()
        if not self._putting:
            self._touched = True
            self.typed()
