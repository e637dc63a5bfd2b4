"""Joins the advice to the timeline: looks, marks, what is taken, and the chance while a bar is dragged."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Slot
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication

from app.bridge import DraggedOdds
from app.places.advice.look import Look
from app.places.advice.remembered import Remembered
from core.timetable.clash import Clash

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.timeline_place import TimelinePlace

WIDE, NARROW = 400, 290
"""Pixels of the side with the advice and without."""


class Beside(QObject):
    """Shows what the advice offers on the timeline of a place, and takes it as one undo step."""

    def __init__(self, place: TimelinePlace, opened: OpenPlan) -> None:
        super().__init__(place)
        self._place, self._opened = place, opened
        self._remembered = Remembered()
        self._odds = DraggedOdds()
        self._marked = False
        self.look: Look | None = None
        pane, line = place.advice, place.look_line
        pane.looked.connect(self.show_look)
        pane.taken.connect(self.take)
        pane.marked.connect(self.mark)
        pane.closed.connect(self.put_away)
        line.taken.connect(self.take)
        line.left.connect(lambda: self.show_look(None))
        place.timeline.held_moved.connect(self._held)
        place.timeline.installEventFilter(self)
        place.timeline.viewport().installEventFilter(self)
        self._back = QShortcut(QKeySequence(Qt.Key.Key_Escape), place)
        self._back.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self._back.activated.connect(self._escape)
        self._back.setEnabled(False)
        pane.setVisible(self._remembered.is_open)
        place.show_side(WIDE if self._remembered.is_open else NARROW)

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
        self.show_look(None)
        self.mark(None)
        self._place.advice.asking.adviser.stop()
        self._set_open(False)
        self._place.timeline.setFocus(Qt.FocusReason.OtherFocusReason)

    def _set_open(self, there: bool) -> None:
        pane = self._place.advice
        if pane.isHidden() is not there:
            return
        self._remembered.is_open = there
        self._place.how.setChecked(there)
        if there:
            pane.asking.ask()
        pane.setVisible(there)
        self._place.show_side(WIDE if there else NARROW)

    # ------------------------------------------------------------ looks and marks

    @Slot(object)
    def show_look(self, look: Look | None) -> None:
        """Show a day that is offered, or again the day as it stands."""
        if look is None and self.look is None:
            return
        self._marked = False
        self._put(look)
        if look is None:
            self._place.refresh()
        else:
            self._place.timeline.set_plan(look.plan, look.timetable)
        self._place.advice.show_looked_at(look)

    @Slot(object)
    def take(self, look: Look) -> None:
        """Take what is offered: one undo step, with the timetable that was shown."""
        self._put(None)
        label = self._opened.desk.undo_label
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
            self._marked = True
            timeline.set_plan(opened.plan, opened.timetable, (mark,))
            timeline.show_clash(mark)
        elif self._marked:
            self._marked = False
            timeline.set_plan(opened.plan, opened.timetable, opened.clashes)

    def forget(self) -> None:
        """Look at nothing and mark nothing, because the day itself is shown anew."""
        self._marked = False
        if self.look is not None:
            self._put(None)
            self._place.advice.show_looked_at(None)

    def _put(self, look: Look | None) -> None:
        self.look = look
        self._back.setEnabled(look is not None)
        self._place.look_line.show_look(look)

    @Slot()
    def _escape(self) -> None:
        self.show_look(None)

    # ------------------------------------------------------------ while a bar is dragged

    @Slot(str)
    def _held(self, _sentence: str) -> None:
        scene, pane = self._place.timeline.scene, self._place.advice
        if scene.held is None or not pane.page.sure.isVisible():
            return
        chance = self._odds.after(scene.plan, scene.timetable, scene.held.pushed)
        if chance is not None:
            pane.page.sure.hold(chance)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Show the chance as it stands once the bar is let go."""
        if event.type() in (QEvent.Type.MouseButtonRelease, QEvent.Type.KeyPress):
            QTimer.singleShot(0, self, self._let_go)
        return False

    def _let_go(self) -> None:
        if self._place.timeline.scene.held is None:
            self._place.advice.page.sure.hold(None)
