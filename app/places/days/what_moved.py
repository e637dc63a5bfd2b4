"""What moved: old places beside the new ones on the timeline, and a list; off until it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QElapsedTimer, QEvent, QObject, Qt, Slot
from PySide6.QtGui import QKeyEvent

from app.places.days.words import moves_words
from app.timeline.moves import Compared, moves
from core.desk import Change
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.timeline_place import TimelinePlace

KEY = Qt.Key.Key_M
HELD = 350
"""Milliseconds: a key pressed longer is held for a glance, and ends with the letting go."""


class WhatMoved(QObject):
    """Decides what the timeline shown is compared with, and lists it. On and off by M, a button, Escape."""

    def __init__(self, place: TimelinePlace, opened: OpenPlan) -> None:
        super().__init__(place)
        self._place, self._opened = place, opened
        self._seen = (opened.plan, opened.timetable)
        self._undone: tuple[Plan, Timetable | None] | None = None
        self._pressed = QElapsedTimer()
        self.on = False
        place.timeline.installEventFilter(self)
        place.days_bar.moved.toggled.connect(self.set_on)
        place.moves_list.chosen.connect(self._go_to)
        place.beside.shown_otherwise.connect(self.refresh)
        place.beside.escaped.connect(lambda: self.set_on(False))

    @Slot(bool)
    def set_on(self, there: bool) -> None:
        """Show what moved, or no longer."""
        if there is self.on:
            return
        self.on = there
        self._place.days_bar.moved.setChecked(there)
        self._place.beside.heed_escape(there)
        self.refresh()

    @Slot()
    def refresh(self) -> None:
        """Compare what the timeline shows now."""
        place, scene = self._place, self._place.timeline.scene
        look = place.beside.look
        before = self._before()
        shown = before if self.on or look is not None else None
        scene.compared = None if shown is None or shown[1] is None else Compared(shown[0], shown[1])
        found = moves(scene.compared.timetable, scene.timetable) if scene.compared is not None else []
        place.look_line.show_moves(moves_words(found) if look is not None else "")
        place.days_bar.moved.setEnabled(self.on or before is not None)
        listed = self.on and scene.compared is not None
        place.moves_list.setVisible(listed)
        place.clash_list.setVisible(not listed or bool(self._opened.clashes))  # less is said where all meets
        if listed:
            place.moves_list.show_moves(scene.plan, found, self._against())
        place.beside.heed_escape(self.on)
        place.timeline.viewport().update()

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Switch at the key; where it is held, end when it is let go."""
        if isinstance(event, QKeyEvent) and event.key() == KEY and not event.modifiers():
            if event.type() == QEvent.Type.KeyPress:
                if not event.isAutoRepeat():
                    self._pressed.start()
                    self.set_on(not self.on)
                return True
            if event.type() == QEvent.Type.KeyRelease and not event.isAutoRepeat():
                if self.on and self._pressed.isValid() and self._pressed.elapsed() > HELD:
                    self.set_on(False)
                return True
        return False

    def _before(self) -> tuple[Plan, Timetable | None] | None:
        """Return the plan and timetable that what is shown is compared with; None where there is none."""
        opened, look = self._opened, self._place.beside.look
        if look is not None:
            return opened.plan, look.before or opened.timetable
        if self._place.previewed is not None:  # still being arranged: what it was
            return opened.plan, opened.timetable
        if self._undone is not None:
            return self._undone
        former = opened.desk.seen_before
        if former is None or former.state.timetable is None:
            return None
        return former.state.plan, former.state.timetable

    def _against(self) -> str:
        look = self._place.beside.look
        if look is not None and look.before is not None:
            return f"{look.words}:"
        if look is not None:
            return self.tr("Against your day as it stands:")
        if self._undone is not None:
            return self.tr("Against what was undone:")
        if self._place.previewed is not None:
            return self.tr("Against your day before arranging:")
        former = self._opened.desk.seen_before
        return self.tr("Against the day before “{label}”:").format(label=former.label if former is not None else "")

    def hear(self, change: Change) -> None:
        """Remember what an undo took away: no step of the past knows it."""
        if change.timetable_changed:
            self._undone = self._seen if change.by == "undo" else None
            self._seen = (self._opened.plan, self._opened.timetable)

    @Slot(str)
    def _go_to(self, step: str) -> None:
        self._place.timeline.show_step(StepId(step))


