"""The guests of the whole menu: how many sit down, who must not have what, and what that means for the dishes."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Draft, Form, Page, Rows, Spec, Typed, a_button, dress_inside, tab_as_read, tried
from app.fields.line import Line
from app.fields.typed_text import if_any, optional, read_count
from app.look.colours import palette_under
from app.places.menu.guests_cautions import GuestsCautions
from app.places.menu.guests_marks import marks_of
from app.places.menu.guests_row import GuestRow, changed
from app.places.menu.guests_servings import ServingsOffer
from app.places.menu.guests_words import care_words, count_words, read_guest, too_many
from core.measures.refusal import Refusal, quoted
from core.plan.edits import RemoveGuest, SetCovers, SetGuest
from core.plan.menu import Guest

_BY = "menu"


class GuestsPage(QFrame):
    """`left`: the cook goes back to the menu. `wanted` carries a dish whose ingredients the cook wants to see."""

    left = Signal()
    wanted = Signal(str)

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("paper")
        self._opened = opened
        self.count = _soft()
        self.back = a_button(self.tr("Back to the menu"), tip=self.tr("Back to the menu (Esc)"))
        self.back.clicked.connect(self.left)
        self.form = Form(self._specs(), self._take_covers, least=200)
        self.wrong_count = _soft("wrong")
        self.offer = ServingsOffer(opened)
        self.rows: Rows[GuestRow] = Rows(self._made)
        add = a_button(self.tr("Add the guest"), "plus", only_icon=True)
        self.draft = Draft(
            self.tr("A new guest"),
            self.tr("A guest with needs, such as: Orla: milk, nuts, no coriander"),
            self._add,
            add,
            self._read,
        )
        self.draft.added.connect(self._added)
        covers = self.form.field("covers")
        if isinstance(covers, Line):
            covers.returnPressed.connect(self._counted)
        self.teaching = QLabel(
            self.tr(
                "Nobody with needs is told of yet. Write one to a line: how many if they are several, a name, a "
                "colon, and what they must not have, with commas: 2 Reeds: milk, nuts. Words such as milk, nuts or "
                "egg become ticks; other words are what they do not like. Without a name it is “a guest”."
            )
        )
        self.teaching.setObjectName("teaching")
        self.teaching.setWordWrap(True)
        self.cautions = GuestsCautions()
        self.cautions.wanted.connect(self.wanted)
        self.page = Page(
            self.form, self.wrong_count, self.offer, self.teaching, self.rows, self.draft, self.cautions
        )
        self._lay_out()

    def _lay_out(self) -> None:
        title = QLabel(self.tr("Guests"))
        title.setObjectName("title")
        top = QHBoxLayout()
        top.setContentsMargins(18, 8, 18, 4)
        top.setSpacing(12)
        top.addWidget(title)
        top.addWidget(self.count, 1)
        top.addWidget(self.back)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(top)
        column.addWidget(self.page, 1)

    def begin(self) -> None:
        """Show the guests, the cursor at the number while that is not told, else where the next guest is written."""
        self.refresh()
        if self._opened.plan.menu.covers is None:
            self.form.field("covers").setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.draft.enter()

    def refresh(self) -> None:
        """Show the guests as they are; what is half typed or refused stays."""
        plan = self._opened.plan
        menu = plan.menu
        against = sum(bool(mark.words) for mark in marks_of(plan).values())
        self.count.setText(", ".join(filter(None, (count_words(menu), care_words(against)))))
        self.form.show_values({"covers": menu.covers})
        wrong = too_many(menu)
        self.wrong_count.setText(wrong)
        self.wrong_count.setVisible(bool(wrong))
        self.offer.refresh()
        remade = self.rows.show_keys(range(len(menu.guests)))
        for row, guest in zip(self.rows, menu.guests, strict=True):
            row.show_guest(guest)
        self.teaching.setVisible(not menu.guests)
        remade = self.cautions.refresh(plan) or remade
        if remade:
            tab_as_read(self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave by Escape; press by Enter the button that has the focus; what is written there is a guest."""
        focus = self.window().focusWidget()
        plain = event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
        letter = plain and event.text().strip().isprintable() and bool(event.text().strip())
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and isinstance(focus, QPushButton):
            focus.click()
        elif letter and isinstance(focus, QPushButton):  # else a space in the name would press the button
            self.draft.enter()
            again = QKeyEvent(event.type(), event.key(), event.modifiers(), event.text())
            QApplication.sendEvent(self.draft.line, again)
        else:
            super().keyPressEvent(event)

    def _specs(self) -> list[Spec]:
        return [
            Spec(
                "covers",
                self.tr("How many sit down"),
                Typed(optional(_read_covers), if_any(str)),
                self.tr("All who eat, with those told of below; empty: not told"),
                self.tr("not told"),
            )
        ]

    def _counted(self) -> None:
        """Go on to the guests once the number is taken."""
        if self.form.field("covers").commit():
            self.draft.enter()

    def _take_covers(self, _key: str, value: int | None) -> str:
        return tried(self._opened, SetCovers(value), _BY)

    def _made(self, at: int) -> GuestRow:
        row = GuestRow(lambda key, value: self._take(at, key, value), lambda: self._remove(at))
        row.finished.connect(self.draft.enter)
        dress_inside(row, palette_under(self.palette()))
        return row

    def _take(self, at: int, key: str, value: Any) -> str:
        guests = self._opened.plan.menu.guests
        before, after = guests[at], changed(guests[at], key, value)
        return tried(self._opened, SetGuest(after, before.name), _BY)

    def _remove(self, at: int) -> None:
        sentence = tried(self._opened, RemoveGuest(self._opened.plan.menu.guests[at].name), _BY)
        if sentence and (row := self.rows.at(at)) is not None:
            row.refuse(sentence)
        elif not sentence:
            self.draft.enter()

    def _read(self, text: str) -> Guest:
        return read_guest(text, frozenset(each.name for each in self._opened.plan.menu.guests))

    def _add(self, guest: Guest) -> str:
        if any(each.name == guest.name for each in self._opened.plan.menu.guests):
            return self.tr("{name} is on the list already; write another name, or change the line above.").format(
                name=guest.name
            )
        return tried(self._opened, SetGuest(guest), _BY)

    def _added(self, goes_on: bool) -> None:
        if goes_on:
            self.draft.enter()


def _read_covers(text: str) -> int:
    number = read_count(text)
    if number < 1:
        raise Refusal(f"{quoted(text)} is nobody; write how many sit down, or leave it empty.")
    return number


def _soft(name: str = "soft") -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
