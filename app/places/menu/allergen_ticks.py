"""The fourteen groups of allergens as ticks: one stop of Tab, the arrow keys go from tick to tick."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, QMargins, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.fields.row_wrap import RowWrap
from app.fields.spec import Take
from app.fields.tick import Tick

Words = tuple[str, ...]
_STEPS = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}


class AllergenTicks(QWidget):
    """Ticks words of a list that name groups of EU Regulation 1169/2011, Annex II; its other words stay as they are.

    `complained` carries why a tick was not taken, `finished`: Enter or Escape was pressed.
    """

    complained = Signal(str)
    finished = Signal()

    def __init__(self, name: str, take: Take, parent: QWidget | None = None) -> None:
        """Make the ticks; `name` for assistive technology, `take` gets the whole list of words."""
        super().__init__(parent)
        from core.food.allergens import GROUPS

        self._take = take
        self._words: Words = ()
        self._aimed: Tick | None = None
        self.setObjectName("allergenTicks")
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.ticks: dict[str, Tick] = {}
        row = RowWrap(self, QMargins(0, 0, 0, 0), gap=2)
        for group in GROUPS:
            tick = Tick(group.name, partial(self._ticked, group.name))
            tick.setToolTip(group.heading)
            tick.setAccessibleName(f"{group.name}, {name}")
            tick.complained.connect(self.complained)
            tick.installEventFilter(self)
            tick.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
            self.ticks[group.name] = tick
            row.addWidget(tick)
        self._aim(next(iter(self.ticks.values())))

    def show_words(self, words: Sequence[str], proposed: Sequence[str] = ()) -> None:
        """Show a list of words; what is proposed and not ticked bears a question mark."""
        self._words = tuple(words)
        noted = {name for word in words for name in names_of(word)}
        for name, tick in self.ticks.items():
            tick.show_value(name in noted)
            text = f"{name}?" if name in proposed and name not in noted else name
            if tick.text() != text:
                tick.setText(text)
                tick.updateGeometry()

    def enter(self) -> None:
        """Put the cursor on the first tick that is set, else the first proposed, else the first of all."""
        every = list(self.ticks.values())
        ticked = [tick for tick in every if tick.value]
        proposed = [tick for tick in every if tick.text().endswith("?")]
        self._go_to((ticked or proposed or every)[0])

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Go on by the arrow keys; Enter and Escape leave."""
        if event.type() is QEvent.Type.FocusIn and isinstance(watched, Tick):
            self._aim(watched)
        if event.type() is QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            key = Qt.Key(event.key())
            if key in _STEPS:
                every = list(self.ticks.values())
                self._go_to(every[(every.index(watched) + _STEPS[key]) % len(every)])  # type: ignore[arg-type]  # only ticks are watched
                return True
            if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape):
                self.finished.emit()
                return True
        return super().eventFilter(watched, event)

    def _go_to(self, tick: Tick) -> None:
        self._aim(tick)
        tick.setFocus(Qt.FocusReason.TabFocusReason)

    def _aim(self, chosen: Tick) -> None:
        """Let Tab stop at one tick only, in the place of the one before it."""
        before, self._aimed = self._aimed, chosen
        if before is chosen:
            return
        if before is not None:
            QWidget.setTabOrder(before, chosen)
            before.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        chosen.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def _ticked(self, name: str, ticked: bool) -> str:
        return self._take(with_group(self._words, name) if ticked else without_group(self._words, name))


def names_of(word: str) -> Words:
    """Return the short names of the groups that a word means."""
    from core.food.allergens import groups_of

    return tuple(each.name for each in groups_of(word))


def with_group(words: Words, name: str) -> Words:
    """Return a list of words with a group: after the others, in the order of the Annex."""
    from core.food.allergens import NAMES

    if any(name in names_of(word) for word in words):
        return words
    named = [word for word in (*words, name) if names_of(word)]
    named.sort(key=lambda word: NAMES.index(names_of(word)[0]))
    return (*named, *(word for word in words if not names_of(word)))


def without_group(words: Words, name: str) -> Words:
    """Return a list of words without a group; of a word that means several ("shellfish") the others stay."""
    left: list[str] = []
    for word in words:
        names = names_of(word)
        left += [word] if name not in names else [each for each in names if each != name]
    return tuple(dict.fromkeys(left))
