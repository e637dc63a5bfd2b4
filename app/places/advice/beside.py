"""Joins the advice to the timeline: glances, looks, marks, what is taken, and the chance while a bar is dragged."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication

from app.bridge import DraggedOdds
from app.places.advice.glancing import Glancing
from app.places.advice.look import Look
from app.places.settings import Settings
from core.timetable.clash import Clash

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.timeline_place import TimelinePlace

WIDE, NARROW = 400, 290
"""Pixels of the side with the advice and without."""

_QUICK = 150
"""Loads up to which the chance follows a held bar although only the quiet figure shows it: drawing days takes time."""


class Beside(QObject):
    """Shows what the advice offers on the timeline of a place, and takes it as one undo step.

    `look` is what is shown of what is only offered, glanced at or looked at; `shown_otherwise` tells that it changed.
    `escaped`: Escape was pressed while nothing was looked at.
    """

    shown_otherwise = Signal()
    escaped = Signal()

    def __init__(self, place: TimelinePlace, opened: OpenPlan) -> None:
        super().__init__(place)
        self._place, self._opened = place, opened
        self._settings = Settings()
        self._odds = DraggedOdds()
        self._mark: Clash | None = None
        self._pinned: Look | None = None
        self.look: Look | None = None
        self.glancing = Glancing(self)
        self.glancing.settled.connect(self._glance)
        self._connect()
        self._back = QShortcut(QKeySequence(Qt.Key.Key_Escape), place)
        self._back.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self._back.activated.connect(self._escape)
        self._back.setEnabled(False)
        place.advice.setVisible(self._settings.advice_open)
        place.show_side(WIDE if self._settings.advice_open else NARROW)

    def _connect(self) -> None:
        pane, line, timeline = self._place.advice, self._place.look_line, self._place.timeline
        pane.looked.connect(self.show_look)
        pane.glanced.connect(self.glancing.over)
        pane.taken.connect(self.take)
        pane.marked.connect(self.mark)
        pane.closed.connect(self.put_away)
        line.taken.connect(self.take)
        line.left.connect(self.leave)
        timeline.held_moved.connect(self._held)
        timeline.installEventFilter(self)
        timeline.viewport().installEventFilter(self)

    # ------------------------------------------------------------ open and closed

    def toggle(self) -> None:
        """Open the advice and go there; where the focus is in it already, put it away."""
        pane = self._place.advice
        there = QApplication.focusWidget()
        if pane.isVisible() and there is not None and pane.isAncestorOf(there):
            self.put_away()
        else:
            self.go_in()

    def go_in(self) -> None:
        """Open the advice and put the focus on the first thing there."""
        self.bring()
        self._place.advice.go_in()

    def bring(self) -> None:
        """Open the advice."""
        self._set_open(True)

    @Slot()
    def put_away(self) -> None:
        """Close the advice; the day stands as it is."""
        self.leave()
        self.mark(None)
        self._place.advice.asking.adviser.stop()
        self._set_open(False)
        self._place.timeline.setFocus(Qt.FocusReason.OtherFocusReason)

    def _set_open(self, there: bool) -> None:
        pane = self._place.advice
        if pane.isHidden() is not there:
            return
        self._settings.advice_open = there
        self._place.how.setChecked(there)
        if there:
            pane.asking.ask()
        pane.setVisible(there)
        self._place.show_side(WIDE if there else NARROW)

    # ------------------------------------------------------------ looks and marks

    @Slot(object)
    def show_look(self, look: Look | None) -> None:
        """Keep a day that is offered in sight, or show again the day as it stands."""
        self.glancing.forget()
        if look is None and self.look is None:
            return
        self._pinned = look
        if look is not None:
            self._mark = None
        self._show(look)
        self._place.advice.show_looked_at(look)

    @Slot()
    def leave(self) -> None:
        """Look at nothing."""
        self.show_look(None)

    @Slot(object)
    def _glance(self, look: Look | None) -> None:
        """Show a day while the pointer or the focus is on it; then what was shown before."""
        shown = self._pinned if look is None else look
        if shown is not self.look:
            self._show(shown)

    def _show(self, look: Look | None) -> None:
        self._put(look)
        opened, timeline = self._opened, self._place.timeline
        if look is not None:
            timeline.set_plan(look.plan, look.timetable, look.clashes)
        else:
            marks = opened.clashes if self._mark is None else (self._mark,)
            timeline.set_plan(opened.plan, opened.timetable, marks)
        self.shown_otherwise.emit()

    @Slot(object)
    def take(self, look: Look) -> None:
        """Take what is offered: one undo step, with the timetable that was shown."""
        self.glancing.forget()
        self._pinned = None
        self._put(None)
        label = self._opened.desk.undo_label
        if look.kept:
            self._place.days.go_to(look.kept)  # which also says what of it no longer fits
            return
        if look.edit is not None:
            done = self._opened.apply(look.edit, "advice", look.timetable)
        else:
            done = self._opened.show(look.timetable, look.label, "advice")
        if done:
            self._place.advice.say(self.tr("Taken: {words} Ctrl+Z takes it back.").format(words=look.words))
        elif label == self._opened.desk.undo_label:
            self._place.refresh()

    @Slot(object)
    def mark(self, mark: Clash | None) -> None:
        """Mark the steps of a reason on the timeline and scroll there; None: mark the clashes again."""
        opened, timeline = self._opened, self._place.timeline
        if mark is not None and opened.timetable is not None:
            self._mark = mark
            timeline.set_plan(opened.plan, opened.timetable, (mark,))
            timeline.show_clash(mark)
        elif self._mark is not None:
            self._mark = None
            timeline.set_plan(opened.plan, opened.timetable, opened.clashes)

    def forget(self) -> None:
        """Look at nothing and mark nothing, because the day itself is shown anew."""
        self.glancing.forget()
        self._mark = self._pinned = None
        if self.look is not None:
            self._put(None)
            self._place.advice.show_looked_at(None)

    def heed_escape(self, there: bool) -> None:
        """Let Escape be heard although nothing is looked at."""
        self._back.setEnabled(there or self.look is not None)

    def _put(self, look: Look | None) -> None:
        self.look = look
        self._back.setEnabled(look is not None)
        self._place.look_line.show_look(look)
        self._place.line.setCurrentWidget(self._place.days_bar if look is None else self._place.look_line)

    @Slot()
    def _escape(self) -> None:
        if self._place.timeline.pointer.let_go():
            return
        if self.look is not None:
            self.leave()
        else:
            self.escaped.emit()

    # ------------------------------------------------------------ while a bar is dragged

    @Slot(str)
    def _held(self, _sentence: str) -> None:
        scene, pane = self._place.timeline.scene, self._place.advice
        quick = pane.page.sure.is_told and len(scene.timetable.placed) <= _QUICK
        if scene.held is None or not (pane.page.sure.isVisible() or quick):
            return
        chance = self._odds.after(scene.plan, scene.timetable, scene.held.pushed)
        if chance is not None:
            pane.page.sure.hold(chance)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Show the chance as it stands once the bar is let go; ask for it when the timeline comes into sight."""
        if event.type() == QEvent.Type.Show:
            self._place.advice.asking.catch_up()
        if event.type() in (QEvent.Type.MouseButtonRelease, QEvent.Type.KeyPress):
            QTimer.singleShot(0, self, self._let_go)
        return False

    def _let_go(self) -> None:
        if self._place.timeline.scene.held is None:
            self._place.advice.page.sure.hold(None)
