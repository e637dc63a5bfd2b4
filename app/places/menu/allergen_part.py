"""What an ingredient has of the fourteen groups: noted ones in short, what its name proposes, and the ticks."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.fields import a_button
from app.fields.spec import Take
from app.places.menu.allergen_ticks import AllergenTicks, Words, with_group
from core.measures.words import join_words

_WIDE = 82  # px of the button at a usual size of type
_USUAL_HEIGHT = 18


class AllergenPart(QWidget):
    """Stands under an ingredient; `button` stands in its line. `answered`: a proposal was taken or turned down."""

    answered = Signal()

    def __init__(self, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._take = take
        self._item = ""
        self._words: Words = ()
        self._proposed: Words = ()
        self.button = _Short(self.tr("allergens"))
        self.button.clicked.connect(self._turn)
        self.asks = QLabel()
        self.asks.setObjectName("allergenAsks")
        self.asks.setTextFormat(Qt.TextFormat.PlainText)
        self.yes = a_button(self.tr("Take it"))
        self.no = a_button(self.tr("Not"))
        self.yes.clicked.connect(lambda _checked=False: self.accept())
        self.no.clicked.connect(lambda _checked=False: self._decline())
        self.ticks: AllergenTicks | None = None
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.hide()
        self.declined: set[tuple[str, str]] = set()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(2)
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.asks)
        row.addWidget(self.yes)
        row.addWidget(self.no)
        row.addStretch(1)
        self._column.addLayout(row)
        self._column.addWidget(self.wrong)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.hide()

    @property
    def open_proposals(self) -> Words:
        """Return what the item's name proposes and what is neither noted nor turned down."""
        return tuple(each for each in self._proposed if (self._item.casefold(), each) not in self.declined)

    def show_words(self, item: str, words: Words) -> None:
        """Show what is noted of an item."""
        other = item != self._item
        self._item, self._words, self._proposed = item, words, proposed_of(item, words)
        if other:
            self._shut()
        self.button.show_words(words, item)
        self._show()

    def accept(self) -> None:
        """Note what is proposed."""
        self._complain(self._take(self.noted_with_proposals()))
        self.answered.emit()

    def noted_with_proposals(self) -> Words:
        """Return what would be noted if all that is proposed were taken."""
        words = self._words
        for each in self.open_proposals:
            words = with_group(words, each)
        return words

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Press the button that has the focus by Enter too."""
        for button in (self.yes, self.no):
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and button.hasFocus():
                button.click()
                return
        super().keyPressEvent(event)

    def _decline(self) -> None:
        self.declined |= {(self._item.casefold(), each) for each in self.open_proposals}
        self._show()
        self.answered.emit()

    def _turn(self) -> None:
        if self.ticks is None or self.ticks.isHidden():
            self._open().enter()
        else:
            self._shut()
            self._show()

    def _open(self) -> AllergenTicks:
        if self.ticks is None:  # most are never opened
            name = self.tr("Allergens of {item}").format(item=self._item)
            self.ticks = AllergenTicks(name, self._take)
            self.ticks.complained.connect(self._complain)
            self.ticks.finished.connect(self._left)
            self._column.insertWidget(1, self.ticks)
        self.ticks.show()
        self.button.setChecked(True)
        self._show()
        return self.ticks

    def _left(self) -> None:
        self._shut()
        self._show()
        self.button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _shut(self) -> None:
        self.button.setChecked(False)
        self._complain("")
        if self.ticks is not None:
            self.ticks.hide()

    def _show(self) -> None:
        asked = self.open_proposals
        for widget in (self.asks, self.yes, self.no):
            widget.setVisible(bool(asked))
        if asked:
            groups = join_words(asked)
            self.asks.setText(self.tr("Usually has {groups}; it is not noted.").format(groups=groups))
            self.yes.setText(self.tr("Take it") if len(asked) == 1 else self.tr("Take them"))
            self.yes.setAccessibleName(
                self.tr("{item}: note {groups}").format(item=self._item, groups=groups)
            )
            self.yes.setToolTip(self.tr("Proposed from the name, not known: the label has the last word"))
            self.no.setAccessibleName(self.tr("{item}: no {groups}").format(item=self._item, groups=groups))
            self.no.setToolTip(
                self.tr(
                    "Do not ask again while the plan is open. A guest who must not have it is still told of: a "
                    "name such as “gluten-free oats” says it for good"
                )
            )
        opened = self.ticks is not None and not self.ticks.isHidden()
        if self.ticks is not None:
            self.ticks.show_words(self._words, self._proposed)
        self.setVisible(bool(asked) or opened or bool(self.wrong.text()))

    def _complain(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        if sentence:
            self.show()


class _Short(QPushButton):
    """Says in a word or two what is noted, and opens the ticks."""

    def __init__(self, none: str) -> None:
        super().__init__(none)
        self._none = none
        self._said = none
        self.setObjectName("allergenButton")
        self.setCheckable(True)
        self.setMinimumHeight(28)
        self.setFixedWidth(round(_WIDE * self.fontMetrics().height() / _USUAL_HEIGHT))
        self.setProperty("noted", False)

    def show_words(self, words: Words, item: str) -> None:
        said = ", ".join(words) or self._none
        room = self.width() - 14
        if len(words) > 1 and self.fontMetrics().horizontalAdvance(said) > room:
            said = f"{words[0]} +{len(words) - 1}"
        self.setText(self.fontMetrics().elidedText(said, Qt.TextElideMode.ElideRight, room))
        self.setToolTip(
            self.tr("Allergens noted: {names}. Press to change").format(names=", ".join(words))
            if words
            else self.tr("No allergens noted. Press to tick them")
        )
        self.setAccessibleName(f"{item}: {self.toolTip()}")
        if self.property("noted") != bool(words):
            self.setProperty("noted", bool(words))
            self.style().unpolish(self)
            self.style().polish(self)


def proposed_of(item: str, words: Words) -> Words:
    """Return the groups that an item's name proposes beyond those noted."""
    from core.food.allergens import groups_of, likely_allergens

    noted = {group.name for word in words for group in groups_of(word)}
    return tuple(each for each in likely_allergens(item) if each not in noted)
