"""The kitchens kept, one in a row: what they hold, a button to cook there, a button to forget them."""

from __future__ import annotations

from collections import Counter
from functools import partial

from PySide6.QtCore import QCoreApplication, Qt, Signal, SignalInstance
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from app.fields import a_button, dress_inside
from app.look.colours import palette_under
from app.look.words import figure, kind_word
from app.places.kitchen.kept_kitchens import KeptList
from core.measures.words import plural
from core.plan.kitchen import Kitchen

_MOST_HIGH = 190  # px; more rows are scrolled to


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("KeptKitchens", words)


def kitchen_words(kitchen: Kitchen) -> str:
    """Return what a kitchen holds in one line: '2 ovens, 6 burners, 4 cooks'."""
    counted = Counter(station.kind for station in kitchen.stations)
    parts = [
        plural(count, kind_word(kind))
        for kind, count in counted.items()
    ]
    for count, one, several in (
        (sum(each.count for each in kitchen.vessels), tr("1 vessel"), tr("{count} vessels")),
        (len(kitchen.cooks), tr("1 cook"), tr("{count} cooks")),
    ):
        if count:
            parts.append(one if count == 1 else several.format(count=figure(count)))
    return ", ".join(parts) or tr("empty")


class KeptKitchens(QFrame):
    """Lists the kitchens kept. `wanted` and `forgotten` carry one; `left`: Escape was pressed."""

    wanted = Signal(object)
    forgotten = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("aside")
        self.teaching = QLabel()
        self.teaching.setObjectName("soft")
        self.teaching.setWordWrap(True)
        self.rows: dict[str, tuple[QPushButton, QPushButton]] = {}
        self._paper = QFrame()
        self._paper.setObjectName("clear")
        self._column = QVBoxLayout(self._paper)
        self._column.setContentsMargins(0, 0, 8, 0)
        self._column.setSpacing(2)
        self._scroll = QScrollArea()
        self._scroll.setWidget(self._paper)
        self._scroll.viewport().setObjectName("clear")
        self._scroll.setWidgetResizable(True)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column = QVBoxLayout(self)
        column.setContentsMargins(18, 6, 10, 6)
        column.addWidget(self.teaching)
        column.addWidget(self._scroll)
        self.hide()

    def show_list(self, kept: KeptList, now: Kitchen) -> None:
        """Show what is kept; the kitchen of the moment is marked as such."""
        while (item := self._column.takeAt(0)) is not None:
            if (gone := item.widget()) is not None:
                gone.hide()
                gone.deleteLater()
        self.rows = {}
        for kitchen in kept.kitchens:
            row = self._row(kitchen, kitchen == now)
            self._column.addWidget(row)
            row.show()  # at once, so that the cursor may go there
        self._column.addStretch(1)
        self.teaching.setText(
            kept.wrong
            or tr(
                "No kitchen is kept yet. “Keep this kitchen” puts it here, to be cooked in with any other menu."
            )
        )
        self.teaching.setVisible(not kept.kitchens)
        self._scroll.setVisible(bool(kept.kitchens))
        high = sum(use.sizeHint().height() + self._column.spacing() for use, _forget in self.rows.values())
        self._scroll.setFixedHeight(min(_MOST_HIGH, high + 8))
        dress_inside(self._paper, palette_under(self.palette()))

    def enter(self) -> None:
        """Put the cursor onto the first kitchen that can be cooked in."""
        for use, forget in self.rows.values():
            (use if use.isEnabled() else forget).setFocus(Qt.FocusReason.TabFocusReason)
            return

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Fold at Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _row(self, kitchen: Kitchen, is_now: bool) -> QWidget:
        row = QWidget()
        box = QHBoxLayout(row)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(10)
        name = QLabel(kitchen.name)
        name.setTextFormat(Qt.TextFormat.PlainText)
        name.setObjectName("keptName")
        name.setMaximumWidth(340)
        name.setMinimumWidth(180)
        name.setToolTip(kitchen.name)
        words = QLabel(kitchen_words(kitchen))
        words.setObjectName("soft")
        words.setWordWrap(True)
        use = a_button(tr("Cook here"))
        use.setAccessibleName(tr("Cook in {kitchen}").format(kitchen=kitchen.name))
        use.setToolTip(
            tr("The menu stays; its steps go to stations of the same kind. Undo brings the other one back")
        )
        here = QLabel(tr("cooked in now"))
        here.setAlignment(Qt.AlignmentFlag.AlignCenter)
        wide = max(each.sizeHint().width() for each in (use, here)) + 12
        for each in (use, here):
            each.setFixedWidth(wide)
        use.setEnabled(not is_now)
        (use if is_now else here).hide()
        forget = a_button(tr("Forget {kitchen}").format(kitchen=kitchen.name), "bin", only_icon=True)
        use.clicked.connect(partial(self._emit, self.wanted, kitchen))
        forget.clicked.connect(partial(self._emit, self.forgotten, kitchen))
        box.addWidget(use)
        box.addWidget(here)
        box.addWidget(name)
        box.addWidget(words, 1)
        box.addWidget(forget)
        self.rows[kitchen.name] = use, forget
        return row

    @staticmethod
    def _emit(signal: SignalInstance, kitchen: Kitchen, _checked: bool = False) -> None:
        signal.emit(kitchen)
