"""Words with a short head, the rest of them folded away under "more"."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.places.gist import Gist


class Folding(QWidget):
    """Shows a gist: its head, and on wish the rest. `name`: of its words in the style sheet."""

    def __init__(self, name: str = "plain", *, bold: bool = True, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gist = Gist("")
        self.head, self.rest = _words(name), _words(name)
        if bold:
            face = self.head.font()
            face.setBold(True)
            self.head.setFont(face)
        self.more = QToolButton()
        self.more.setObjectName("moreButton")
        self.more.setMinimumHeight(24)
        self.more.setCheckable(True)
        self.more.toggled.connect(self._show)
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.head, 1)
        row.addWidget(self.more, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self.rest)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.show_gist(self.gist)

    def show_gist(self, gist: Gist) -> None:
        """Show other words, folded; the same words stay as they are."""
        if gist == self.gist and self.head.text():
            return
        self.gist = gist
        self.head.setText(gist.head)
        self.rest.setText("\n".join(f"–  {each}" for each in gist.rest) if len(gist.rest) > 1 else "".join(gist.rest))
        self.more.setVisible(bool(gist.rest))
        self.more.setChecked(False)
        self._show()

    def _show(self) -> None:
        open_ = self.more.isChecked()
        self.rest.setVisible(open_ and bool(self.gist.rest))
        self.more.setText(self.tr("less") if open_ else self.tr("more"))
        self.more.setAccessibleName(self.more.text())
        self.more.setAccessibleDescription(" ".join(self.gist.rest))


def _words(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return label
