"""The line at the top of the place: the kitchen's name and ways, keeping it, and cooking in another one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Form, Spec, a_button, tried
from app.fields.typed_text import NAME
from app.fields.typed_times import MINUTES
from app.places.kitchen.kept_kitchens import Keeping, KeptList
from app.places.kitchen.kept_list import KeptKitchens
from app.places.kitchen.notice import Notice
from app.places.kitchen.typed_warmth import ROOM
from core.desk import Change
from core.plan.edits import Edit, RenameKitchen, SetRoom, SetTransfer, SetWalk, UseKitchen
from core.plan.kitchen import Kitchen


class KitchenLine(QFrame):
    """Says which kitchen it is, keeps it, and lets the menu be cooked elsewhere."""

    def __init__(self, opened: OpenPlan, keeping: Keeping, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bar")
        self._opened = opened
        self._keeping = keeping
        self.form = Form(self._specs(), self._take, least=190)
        self.keep_button = a_button(
            self.tr("Keep this kitchen"),
            tip=self.tr("Keep it apart from this plan, to cook other menus in it too"),
        )
        self.others_button = a_button(
            self.tr("Cook elsewhere…"), tip=self.tr("What if this menu were cooked in another kitchen?")
        )
        self.others_button.setCheckable(True)
        self.others = KeptKitchens()
        self.notice = Notice()
        self._kept: KeptList | None = None  # as last read; None: to be read
        self._swapped = False
        self._lay_out()
        self.keep_button.clicked.connect(self.keep)
        self.others_button.toggled.connect(self._fold)
        self.others.wanted.connect(self.use)
        self.others.forgotten.connect(self.forget)
        self.others.left.connect(self._leave)
        opened.changed.connect(self._changed)

    def _specs(self) -> list[Spec]:
        put = self.tr(
            "Minutes of a cook at either end of what cooks by itself, where a step says nothing else"
        )
        walk = self.tr("Minutes on foot between stations that stand in different places: kitchen, terrace")
        warm = self.tr("While the food is made: 24 C, 75 F; how long food may stand out is judged by it")
        return [
            Spec("kitchen_name", self.tr("The kitchen"), NAME),
            Spec("transfer", self.tr("Putting in, taking out"), MINUTES, put),
            Spec("walk", self.tr("From place to place"), MINUTES, walk),
            Spec("room", self.tr("How warm it gets"), ROOM, warm, self.tr("not told")),
        ]

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setContentsMargins(18, 8, 18, 4)
        row.setSpacing(12)
        self.form.setMaximumWidth(1000)  # four columns at most: none stays empty
        row.addWidget(self.form, 1000)
        for button in (self.keep_button, self.others_button):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(row)
        column.addWidget(self.others)
        column.addWidget(self.notice)

    def refresh(self) -> None:
        """Show the kitchen as it is, and whether it is kept so."""
        plan = self._opened.plan
        self.form.show_values(
            {
                "kitchen_name": plan.kitchen.name,
                "transfer": plan.transfer,
                "walk": plan.kitchen.walk,
                "room": plan.kitchen.room,
            }
        )
        self._show_kept(anew=False)

    def look_again(self) -> None:
        """Read what is kept once more: another window may have kept something."""
        self._kept = None

    def keep(self) -> None:
        """Keep the kitchen of the moment."""
        kitchen = self._opened.plan.kitchen
        before = self._keeping.list().named(kitchen.name)
        if sentence := self._keeping.keep(kitchen):
            self.notice.refuse(sentence)
            return
        if before is None:
            words = self.tr("“{kitchen}” is kept. Other plans can be cooked in it from now on.")
            back, run = self.tr("Do not keep it"), lambda: self._then(self._keeping.forget(kitchen.name))
        else:
            words = self.tr("“{kitchen}” is kept as it is now, in the place of how it was kept before.")
            older = before
            back, run = self.tr("Bring the older one back"), lambda: self._then(self._keeping.keep(older))
        self._swapped = False
        self.notice.say(words.format(kitchen=kitchen.name), back, run)
        self._show_kept()

    def use(self, kitchen: Kitchen) -> None:
        """Cook the menu in a kept kitchen, and say what could not be carried over."""
        before, edit = self._opened.plan, UseKitchen(kitchen)
        if sentence := tried(self._opened, edit, "kitchen"):
            self.notice.refuse(sentence)
            return
        self._leave()  # the button that was pressed is gone: the cursor goes back to where it came from
        words = [self.tr("Now cooked in “{kitchen}”.").format(kitchen=kitchen.name)]
        words += edit.notes(before) or (self.tr("Every step has its place there."),)
        back = self.tr("Back to {kitchen} (Ctrl+Z)").format(kitchen=before.kitchen.name)
        self.notice.say("\n".join(words), back, self._opened.undo)
        self._swapped = True
        self._show_kept()

    def forget(self, kitchen: Kitchen) -> None:
        """Take a kept kitchen out; the plan's own stays as it is."""
        if sentence := self._keeping.forget(kitchen.name):
            self.notice.refuse(sentence)
            return
        words = self.tr("“{kitchen}” is no longer kept. This plan stays as it is.").format(
            kitchen=kitchen.name
        )
        back = self.tr("Keep it again")
        self._swapped = False
        self.notice.say(words, back, lambda: self._then(self._keeping.keep(kitchen)))
        self._show_kept()
        self.others.enter()

    def _then(self, sentence: str) -> None:
        """Say why something was not taken back, or show what is kept now."""
        if sentence:
            self.notice.refuse(sentence)
        self._show_kept()

    def _show_kept(self, *, anew: bool = True) -> None:
        kept = self._keeping.list() if anew or self._kept is None else self._kept
        self._kept = kept
        now = self._opened.plan.kitchen
        same = kept.named(now.name)
        words = (
            ""
            if same is None
            else self.tr("kept as it is")
            if same == now
            else self.tr("kept, and changed since")
        )
        hint = self.form.cells["kitchen_name"].hint
        hint.setText(words)
        hint.setVisible(bool(words))
        if self.others.isVisible() or self.others_button.isChecked():
            self.others.show_list(kept, now)

    def _fold(self, unfolded: bool) -> None:
        self.others.setVisible(unfolded)
        if unfolded:
            self._show_kept()
            self.others.enter()

    def _leave(self) -> None:
        self.others_button.setChecked(False)
        self.others_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _changed(self, change: Change) -> None:
        """Offer no longer to take a swap back once another change lies upon it; when undone, nothing is to be said."""
        if self._swapped:
            self._swapped = False
            self.notice.back.hide()
            if change.by == "undo":
                self.notice.hide()

    def _take(self, key: str, value: Any) -> str:
        edits: dict[str, Callable[[Any], Edit]] = {
            "kitchen_name": RenameKitchen,
            "transfer": SetTransfer,
            "walk": SetWalk,
            "room": SetRoom,
        }
        return tried(self._opened, edits[key](value), "kitchen")
