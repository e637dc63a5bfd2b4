"""A few lines that say what was done, what could not be, and one button that takes it back. It never blocks."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QWidget

from app.fields import a_button

_MOST_HIGH = 150  # px; a longer text is scrolled


class Notice(QFrame):
    """Says something until it is read, another thing is said, or what it offers no longer holds."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("notice")
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.back = a_button("", "undo")
        self.read = a_button(self.tr("Understood"))
        self._run: Callable[[], object] | None = None
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 6, 18, 6)
        row.setSpacing(8)
        self._scroll = QScrollArea()
        self._scroll.setObjectName("noticeText")
        self._scroll.setWidget(self.words)
        self._scroll.setWidgetResizable(True)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # the arrow keys read on
        self._scroll.setAccessibleName(self.tr("What was done"))
        row.addWidget(self._scroll, 1)
        for button in (self.back, self.read):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        self.back.clicked.connect(self._taken_back)
        self.read.clicked.connect(self.hide)
        self.hide()

    def say(self, words: str, back: str = "", run: Callable[[], object] | None = None) -> None:
        """Say what was done; the button with the words `back` runs what takes it back."""
        self._show(words, "news")
        self._run = run
        self.back.setText(back)
        self.back.setAccessibleName(back)
        self.back.setToolTip(back)
        self.back.setVisible(run is not None)

    def refuse(self, sentence: str) -> None:
        """Say why something was not done."""
        self._show(sentence, "refusal")
        self._run = None
        self.back.hide()

    def _show(self, words: str, mood: str) -> None:
        self.words.setText(words)
        self.setProperty("mood", mood)
        for widget in (self, self.words):
            widget.style().unpolish(widget)
            widget.style().polish(widget)
        self.show()
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Be as high as the words are at this width."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        high = self.words.heightForWidth(max(200, self._scroll.viewport().width()))
        self._scroll.setFixedHeight(max(self.read.sizeHint().height(), min(_MOST_HIGH, high + 2)))

    def _taken_back(self) -> None:
        run = self._run
        self.hide()
        if run is not None:
            run()
