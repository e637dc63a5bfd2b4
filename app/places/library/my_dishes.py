"""The panel in which the cook's own dishes are searched, looked at, taken into the menu, and removed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.bridge import OpenPlan
from app.fields import a_button, tried, with_key
from app.places.library.note import Note
from app.places.library.preview import Preview
from app.places.library.result_list import ResultList
from app.places.library.search_line import SearchLine
from app.places.library.shelf import Shelf
from core.desk import Change
from core.measures.refusal import Refusal
from core.measures.words import plural
from core.plan.edits.library import TakeDish
from core.plan.plan import Plan

if TYPE_CHECKING:
    from core.store.library_values import OwnDish

_BY = "library"


class MyDishes(QFrame):
    """`left`: the cook goes back to the menu. `took` carries the id of a dish that was put on the menu.

    `keep_wanted`: the dish chosen in the menu is to be kept (where nothing is kept yet).
    """

    left = Signal()
    took = Signal(str)
    keep_wanted = Signal()

    def __init__(self, opened: OpenPlan, shelf: Shelf, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("paper")
        self._opened, self._shelf = opened, shelf
        self._removed: list[OwnDish] = []
        self._took = False  # whether the note offers to undo what was put on the menu
        self.count = QLabel()
        self.count.setObjectName("soft")
        self.back = a_button(self.tr("Back to the menu"), tip=self.tr("Back to the menu (Esc)"))
        self.line = SearchLine()
        self.results = ResultList()
        self.preview = Preview()
        self.take = a_button(self.tr("Put it on the menu"), tip=self.tr("Put a copy of it on the menu (Enter)"))
        self.take.setObjectName("takeButton")
        self.remove = a_button(
            self.tr("Remove it from my dishes"), "bin", self.tr("Remove it from my dishes; plans keep their copies")
        )
        self.note = Note("ownNote")
        self.pages = QStackedWidget()
        self.empty = _Teaching(self.tr("Nothing is kept here yet"), self._teaching(), self.tr("Keep the dish chosen"))
        self.nothing = _Teaching(self.tr("No dish of mine has all of that"), "", self.tr("Show all of them"))
        self.broken = _Teaching(
            self.tr("My dishes cannot be read"), "", self.tr("Set the file aside and begin a new one")
        )
        self._lay_out()
        self._connect()

    def begin(self) -> None:
        """Show what is kept, the cursor in the search."""
        self.line.clear()
        self.note.forget()
        self.refresh()
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def refresh(self) -> None:
        """Search again: another window may have kept something."""
        from core.store.library_search import found_in, in_none

        text = self.line.text()
        try:
            library = self._shelf.library
            dishes = library.dishes()
        except Refusal as refusal:
            self._show_broken(refusal)
            return
        found = found_in(dishes, text)
        self.results.show_found(found, {dish.name.casefold() for dish in self._opened.plan.menu.dishes})
        self._show_count(len(found), len(dishes), library.unread)
        if not dishes:
            self.empty.button.setVisible(bool(self._opened.plan.menu.dishes))
            self.pages.setCurrentWidget(self.empty)
        elif not found:
            self.nothing.say(self._nothing_words(in_none(dishes, text)))
            self.pages.setCurrentWidget(self.nothing)
        else:
            self.pages.setCurrentIndex(0)
        self._look()

    def take_in(self) -> None:
        """Put the dish that is looked at on the menu, for as many as the other dishes."""
        found = self.results.chosen
        if found is None:
            return
        plan = self._opened.plan
        edit = TakeDish.of(found.own.copy, servings_of(plan))
        dish, name, notes = edit.new_id(plan), edit.new_name(plan), edit.notes(plan)
        sentence = tried(self._opened, edit, _BY)
        if sentence:
            self.note.refuse(self.tr("It cannot be put on this menu. {why}").format(why=sentence))
            return
        self.took.emit(dish)
        said = self.tr("“{name}” is on the menu, for {number}.").format(name=name, number=edit.dish.wanted)
        self.note.say(" ".join((said, *notes)), self._opened.undo)
        self._took = True
        self.refresh()
        self.line.selectAll()

    def remove_chosen(self) -> None:
        """Remove the dish that is looked at; until the panel is left it can be brought back."""
        found = self.results.chosen
        if found is None:
            return
        try:
            self._shelf.library.remove(found.own)
        except Refusal as refusal:
            self.note.refuse(str(refusal))
        else:
            self._removed.append(found.own)
            self._say_removed()
        self.refresh()

    def hideEvent(self, event: QHideEvent) -> None:
        """Forget what could have been brought back."""
        super().hideEvent(event)
        self._removed.clear()
        self.note.forget()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave by Escape; press by Enter the button that has the focus, or take in the dish chosen in the list."""
        focus = self.window().focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            focus.click() if isinstance(focus, QPushButton) else self.take_in()
        elif event.key() == Qt.Key.Key_Delete and focus is self.results:
            self.remove_chosen()
        else:
            super().keyPressEvent(event)

    def eventFilter(self, _watched: Any, event: QEvent) -> bool:
        """Let Enter, Delete and Escape in the list mean what they do in the panel."""
        own = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Delete, Qt.Key.Key_Escape)
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and event.key() in own:
            self.keyPressEvent(event)
            return True
        return False

    def _lay_out(self) -> None:
        title = QLabel(self.tr("My dishes"))
        title.setObjectName("title")
        head = QHBoxLayout()
        head.addWidget(title)
        head.addWidget(self.count)
        head.addStretch(1)
        head.addWidget(self.back)
        buttons = QHBoxLayout()
        buttons.addWidget(self.take)
        buttons.addStretch(1)
        buttons.addWidget(self.remove)
        look = QWidget()
        right = QVBoxLayout(look)
        right.setContentsMargins(10, 0, 0, 0)
        right.setSpacing(8)
        right.addWidget(self.preview, 1)
        right.addLayout(buttons)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.addWidget(self.results)
        split.addWidget(look)
        split.setChildrenCollapsible(False)
        split.setSizes([430, 520])
        for page in (split, self.empty, self.nothing, self.broken):
            self.pages.addWidget(page)
        column = QVBoxLayout(self)
        column.setContentsMargins(18, 10, 18, 12)
        column.setSpacing(8)
        column.addLayout(head)
        column.addWidget(self.line)
        column.addWidget(self.note)
        column.addWidget(self.pages, 1)

    def _connect(self) -> None:
        self.line.textChanged.connect(lambda _text: self.refresh())
        self.line.stepped.connect(self.results.step)
        self.line.taken.connect(self.take_in)
        self.line.escaped.connect(self.left)
        self.results.installEventFilter(self)
        self.results.currentRowChanged.connect(lambda _row: self._look())
        self.results.itemDoubleClicked.connect(lambda _item: self.take_in())
        self.back.clicked.connect(lambda _checked=False: self.left.emit())
        self.take.clicked.connect(lambda _checked=False: self.take_in())
        with_key(self.remove, "Alt+Del", self, self.remove_chosen)
        self.empty.button.clicked.connect(lambda _checked=False: self.keep_wanted.emit())
        self.nothing.button.clicked.connect(lambda _checked=False: self._show_all())
        self.broken.button.clicked.connect(lambda _checked=False: self._begin_anew())
        self._opened.changed.connect(self._changed)

    def _look(self) -> None:
        found = self.results.chosen
        self.preview.show_dish(None if found is None else found.own)
        self.take.setEnabled(found is not None)
        self.remove.setEnabled(found is not None)

    def _changed(self, change: Change) -> None:
        """Offer to undo only what was done last; mark again what is on the menu."""
        if not self.isVisible():
            return
        if change.by != _BY and self._took and self.note.has_undo:
            self.note.forget()
        self.refresh()

    def _say_removed(self) -> None:
        name = self._removed[-1].name
        said = self.tr("“{name}” is removed from my dishes. Plans that have a copy of it keep it.").format(name=name)
        self._took = False
        self.note.say(said, self._put_back)

    def _put_back(self) -> None:
        try:
            self._shelf.library.put_back(self._removed[-1])
        except Refusal as refusal:
            self.note.refuse(str(refusal))
            return
        name = self._removed.pop().name
        self.note.say(self.tr("“{name}” is among my dishes again.").format(name=name))
        if self._removed:
            self._say_removed()
        self.refresh()

    def _show_all(self) -> None:
        self.line.clear()
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_count(self, found: int, all_: int, unread: int) -> None:
        some = self.tr("{found} of {all}").format(found=found, all=all_)
        said = plural(all_, self.tr("dish")) if found == all_ else some
        if unread:
            left_out = self.tr("{dishes} of a newer program or damaged: not shown, still in the file")
            said = f"{said}; {left_out.format(dishes=plural(unread, self.tr('dish')))}"
        self.count.setText(said if all_ or unread else "")

    def _show_broken(self, refusal: Refusal) -> None:
        from core.store.library_sentences import Damaged

        self.results.show_found((), ())
        self._show_count(0, 0, 0)
        self.broken.say(str(refusal))
        self.broken.button.setVisible(isinstance(refusal, Damaged))
        self.pages.setCurrentWidget(self.broken)
        self._look()

    def _begin_anew(self) -> None:
        try:
            name = self._shelf.begin_anew()
        except Refusal as refusal:
            self.note.refuse(str(refusal))
        else:
            self.note.say(self.tr("The file is called “{name}” now; nothing of it was changed.").format(name=name))
        self.refresh()
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _nothing_words(self, none: tuple[str, ...]) -> str:
        if not none:
            return self.tr("Each word is found in some dish, but no dish has all of them. Leave one out.")
        return self.tr("None has {words}. Leave it out, or write it otherwise.").format(
            words=", ".join(f"“{each}”" for each in none)
        )

    def _teaching(self) -> str:
        return self.tr(
            "Dishes that turned out well are kept here, apart from all plans: with their steps, times, vessels and "
            "ingredients. Choose a dish of the menu and press “Keep in my dishes” (Ctrl+Shift+L). Later, in any plan, "
            "search it here and press Enter: a copy goes on the menu. What is changed there is changed here only when "
            "you keep it again."
        )


class _Teaching(QFrame):
    """What stands where there is nothing to show: a title, words, and a button that goes on."""

    def __init__(self, title: str, words: str, button: str) -> None:
        super().__init__()
        self.title = QLabel(title)
        self.title.setObjectName("ownName")
        self.words = QLabel(words)
        self.button = a_button(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 30, 24, 24)
        column.setSpacing(12)
        for label in (self.title, self.words):
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
            label.setMaximumWidth(620)
            column.addWidget(label)
        column.addWidget(self.button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)

    def say(self, words: str) -> None:
        """Say something else."""
        self.words.setText(words)


def servings_of(plan: Plan) -> int | None:
    """Return for how many a dish taken in is wanted: who sit down, or as all other dishes; None: as it was kept."""
    if plan.menu.covers is not None:
        return plan.menu.covers
    wanted = {dish.wanted for dish in plan.menu.dishes}
    return wanted.pop() if len(wanted) == 1 else None


