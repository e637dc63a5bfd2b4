"""Keeping a dish of the menu among the cook's own: a line asks only where one of its name is kept already."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from app.bridge import OpenPlan
from app.fields import a_button
from app.places.library.note import Note
from app.places.library.shelf import Shelf
from app.places.library.words import day_words, times_words
from core.measures.refusal import Refusal
from core.measures.words import plural
from core.plan.edits.library import OwnCopy, left_behind, own_copy
from core.plan.ids import DishId

if TYPE_CHECKING:
    from core.store.library_values import OwnDish


class KeepNote(Note):
    """Asks, keeps, and says what was kept; Enter presses the button that has the focus, Escape leaves."""

    def __init__(self, opened: OpenPlan, shelf: Shelf, parent: QWidget | None = None) -> None:
        super().__init__("keepNote", parent)
        self._opened, self._shelf = opened, shelf
        self._copy: OwnCopy | None = None
        self._held: OwnDish | None = None
        self._behind: tuple[str, ...] = ()
        self._before: QWidget | None = None
        self.replace = a_button(self.tr("Replace the one kept"))
        self.another = a_button(self.tr("Keep as another"))
        self.leave = a_button(self.tr("Leave it"), tip=self.tr("Keep nothing (Esc)"))
        for place, button in enumerate((self.replace, self.another, self.leave), start=1):
            self.row.insertWidget(place, button)
        self.replace.clicked.connect(lambda _checked=False: self._replace())
        self.another.clicked.connect(lambda _checked=False: self._keep(another=True))
        self.leave.clicked.connect(lambda _checked=False: self.forget())
        self._ask(False)

    def keep(self, dish: DishId) -> None:
        """Keep a dish of the menu, or ask what to do where one of its name is kept."""
        plan = self._opened.plan
        self._remember_focus()
        try:
            self._copy, self._behind = own_copy(plan, dish), left_behind(plan, dish)
            self._held = self._shelf.library.named(self._copy.dish.name)
        except Refusal as refusal:
            self._say_no(refusal)
            return
        if self._held is None:
            self._keep(another=False)
        elif self._held.copy == self._copy:
            self._ask(False)
            self.say(self.tr("“{name}” is kept already, just as it is here.").format(name=self._held.name))
        else:
            self._ask_which(self._held, self._copy)

    def forget(self) -> None:
        """Say and ask no more; the focus goes back to where it was."""
        inside = self._has_focus()
        super().forget()
        self._ask(False)
        if inside and self._before is not None:
            self._before.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Press by Enter, leave by Escape."""
        focus = self.window().focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.forget()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and isinstance(focus, QPushButton):
            focus.click()
        else:
            super().keyPressEvent(event)

    def _ask_which(self, held: OwnDish, copy: OwnCopy) -> None:
        from core.store.library_values import OwnDish

        this = OwnDish("", copy, "", held.kept, held.kept)
        said = self.tr("“{name}” is among my dishes already ({when}).\nThere: {kept}. Here: {this}.").format(
            name=held.name, when=day_words(held.changed), kept=self._brief(held), this=self._brief(this)
        )
        self.say(said)
        self._ask(True)
        self.replace.setFocus(Qt.FocusReason.OtherFocusReason)

    def _brief(self, own: OwnDish) -> str:
        steps = plural(len(own.copy.dish.steps), self.tr("step"))
        return self.tr("{steps}, {times}").format(steps=steps, times=times_words(own))

    def _keep(self, another: bool) -> None:
        copy = self._copy
        assert copy is not None  # the buttons are only there when there is one

        def keep() -> tuple[str, Callable[[], object]]:
            own = self._shelf.library.keep_dish(copy, self._opened.plan.name, another=another)
            said = self.tr("“{name}” is kept in my dishes.").format(name=own.name)
            return said, lambda: self._take_back_kept(own)

        self._do(keep)

    def _replace(self) -> None:
        copy, held = self._copy, self._held
        assert copy is not None
        assert held is not None

        def replace() -> tuple[str, Callable[[], object]]:
            own = self._shelf.library.replace(held, copy, self._opened.plan.name)
            said = self.tr("“{name}” in my dishes is as it is here now.").format(name=own.name)
            return said, lambda: self._take_back_replaced(own, held)

        self._do(replace)

    def _take_back_kept(self, own: OwnDish) -> None:
        self._try(lambda: self._shelf.library.remove(own))

    def _take_back_replaced(self, own: OwnDish, held: OwnDish) -> None:
        self._try(lambda: self._shelf.library.replace(own, held.copy, held.origin))

    def _do(self, act: Callable[[], tuple[str, Callable[[], object]]]) -> None:
        """Do something with the library; say what, and what was left behind, or why not."""
        had = self._has_focus()
        try:
            said, undo = act()
        except Refusal as refusal:
            self._say_no(refusal)
            return
        self._ask(False)
        self.say(" ".join((said, *self._behind)), undo)
        if had and self._before is not None:
            self._before.setFocus(Qt.FocusReason.OtherFocusReason)

    def _try(self, act: Callable[[], object]) -> None:
        try:
            act()
        except Refusal as refusal:
            self._say_no(refusal)

    def _say_no(self, refusal: Refusal) -> None:
        self._ask(False)
        self.refuse(str(refusal))

    def _ask(self, asking: bool) -> None:
        for button in (self.replace, self.another, self.leave):
            button.setVisible(asking)
        self.read.setVisible(not asking)

    def _has_focus(self) -> bool:
        focus = QApplication.focusWidget()
        return focus is not None and self.isAncestorOf(focus)

    def _remember_focus(self) -> None:
        focus = QApplication.focusWidget()
        if focus is not None and not self.isAncestorOf(focus):
            self._before = focus
            focus.destroyed.connect(self._forget_focus)

    def _forget_focus(self) -> None:
        self._before = None
