"""What is seen before a plan is open: the ways in, and the plans opened lately."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget


class Welcome(QWidget):
    """Ways in. `begin`, `demo`, `open_other`, `recipe` ask the window; `recent_chosen` carries a path."""

    begin = Signal()
    demo = Signal()
    open_other = Signal()
    recipe = Signal()
    recent_chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        paper = QWidget()
        scroll = QScrollArea()  # many plans opened lately make no window higher than its screen
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(paper)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scroll)
        outer = QVBoxLayout(paper)
        outer.addStretch(1)
        middle = QWidget()
        middle.setMaximumWidth(620)
        column = QVBoxLayout(middle)
        column.setSpacing(10)
        heading = QLabel(self.tr("Cook-Day Planner"))
        heading.setObjectName("heading")
        about = QLabel(
            self.tr(
                "Write down the dishes, their steps and your kitchen. Every step finds its place on ovens, burners, "
                "vessels, fridge and hands, so that all meets at plating."
            )
        )
        about.setWordWrap(True)
        column.addWidget(heading)
        column.addWidget(about)
        column.addSpacing(10)
        self.demo_button = self._way(
            column, self.tr("Look at the demo feast"), self.tr("Twelve dishes, three days, one home kitchen"), self.demo
        )
        self.begin_button = self._way(
            column, self.tr("Begin an empty plan"), self.tr("A kitchen to adapt, and a menu to write"), self.begin
        )
        self.open_button = self._way(
            column, self.tr("Open a plan"), self.tr("A plan file, or a plan written as text"), self.open_other
        )
        self.recipe_button = self._way(
            column, self.tr("Open a recipe"), self.tr("Paste its words or open a saved page; put it right"), self.recipe
        )
        self.recent_heading = QLabel(self.tr("Opened lately"))
        self.recent_heading.setObjectName("soft")
        column.addSpacing(10)
        column.addWidget(self.recent_heading)
        self._recent = QVBoxLayout()
        column.addLayout(self._recent)
        outer.addWidget(middle, 0, Qt.AlignmentFlag.AlignHCenter)
        outer.addStretch(2)

    def _way(self, column: QVBoxLayout, words: str, about: str, signal: SignalInstance) -> QPushButton:
        button = QPushButton(f"{words}\n{about}")
        button.setObjectName("welcomeButton")
        button.setAutoDefault(True)  # Enter opens it, as the space bar does
        button.setMinimumHeight(68)
        button.setMinimumWidth(520)
        button.clicked.connect(signal)
        column.addWidget(button)
        return button

    def show_recent(self, paths: list[Path]) -> None:
        """List the plans opened lately; those no longer there are greyed."""
        while (item := self._recent.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        self.recent_heading.setVisible(bool(paths))
        for path in paths[:6]:
            button = QPushButton(path.stem)
            button.setFlat(True)
            button.setAutoDefault(True)
            button.setMinimumHeight(30)
            button.setStyleSheet("text-align: left; padding: 4px 8px;")
            button.setToolTip(str(path))
            button.setEnabled(path.exists())
            button.clicked.connect(lambda _checked=False, chosen=path: self.recent_chosen.emit(chosen))
            self._recent.addWidget(button)
