"""How the day stands, beside the timeline: what the page shows, what is looked at, marked and taken of it."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QApplication, QFrame, QHBoxLayout, QVBoxLayout, QWidget

from app.bridge import Arranger, OpenPlan
from app.fields import a_button, bring_into_view, dress_fields, tab_as_read
from app.places.advice.asking import Asking
from app.places.advice.dress import advice_sheet
from app.places.advice.look import Look
from app.places.advice.marking import mark_of
from app.places.advice.page import AdvicePage
from app.places.advice.said import Said
from app.places.advice.section import words_of
from app.places.dressed import Dressed
from core.arrange.why.reason import Reason
from core.plan.ids import StepId
from core.timetable.clash import Clash, ClashKind

_SETTLED = 60
"""Milliseconds after which everything has its new place."""


class AdvicePane(QFrame):
    """`looked` and `glanced` carry a Look or None, `taken` and `keep_wanted` a Look, `marked` a Clash or None.

    `arrange`: the day should be arranged; `closed`: it was put away.
    """

    looked = Signal(object)
    glanced = Signal(object)
    taken = Signal(object)
    keep_wanted = Signal(object)
    marked = Signal(object)
    arrange = Signal()
    closed = Signal()

    def __init__(self, opened: OpenPlan, arranger: Arranger, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("advice")
        self.setAccessibleName(self.tr("How the day stands"))
        self._opened = opened
        self._awaited = False
        self.title = words_of("adviceTitle", self.tr("How the day stands"))
        self.close_button = a_button(self.tr("Put away"), tip=self.tr("Put this away (F6 brings it back)"))
        self.page = AdvicePage(opened)
        self.asking = Asking(opened, arranger, self.page, self)
        head = QHBoxLayout()
        head.setContentsMargins(14, 8, 10, 4)
        head.addWidget(self.title, 1)
        head.addWidget(self.close_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(head)
        column.addWidget(self.page.sure.head)
        column.addWidget(self.page, 1)
        self._connect()
        Dressed(self, lambda palette: dress_fields(self, palette, advice_sheet(palette)))

    def _connect(self) -> None:
        self.close_button.clicked.connect(lambda _checked=False: self.closed.emit())
        self._opened.changed.connect(self._changed)
        # what was made just now is not shown before the next turn of the loop
        self.asking.found.connect(lambda: QTimer.singleShot(0, self, self._placed))
        self.page.why.chosen.connect(self._reason_chosen)
        self.page.why.arrange.connect(self.arrange)
        self.page.sure.chosen.connect(self._step_chosen)
        self.asking.again.connect(self._keep_focus)
        for section in self.page.offering:
            section.looked.connect(self._look)
            section.glanced.connect(self.glanced)
            section.taken.connect(self.taken)
            section.keep_wanted.connect(self.keep_wanted)

    def say(self, words: str) -> None:
        """Say what was done; it stays until the next change."""
        self.page.say(words)

    def show_looked_at(self, look: Look | None) -> None:
        """Mark the offer that is shown; None: none is."""
        for section in self.page.offering:
            section.show_looked_at(look)
        if look is not None:
            self._let_marks_go()
        there = QApplication.focusWidget()
        if isinstance(there, Said):
            # once the line above the timeline has taken its room
            QTimer.singleShot(_SETTLED, there, there.come_into_view)

    def go_in(self) -> None:
        """Put the focus on the first thing that can be chosen; while there is none yet, on it when it comes."""
        found = self.page.first()
        self._awaited = found is None
        (found or self.close_button).setFocus(Qt.FocusReason.OtherFocusReason)

    def go_to_sure(self) -> None:
        """Scroll to how sure the day is; once it is told, where it is not yet."""
        bring_into_view(self.page, self.page.sure)

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what changed while it was not seen."""
        super().showEvent(event)
        QTimer.singleShot(0, self, self.asking.catch_up)  # once the page is shown too

    @Slot(object)
    def _changed(self, change: Any) -> None:
        if change.by != "advice":
            self.say("")
        self._keep_focus()
        self.asking.ask()

    def _keep_focus(self) -> None:
        """Let the focus wait where it stays, while what has it goes and something else comes."""
        there = QApplication.focusWidget()
        if there is not None and self.page.isAncestorOf(there):
            self._awaited = True
            self.close_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _placed(self) -> None:
        """Let Tab go as one reads through what has come, and the focus to the first of it where it is awaited."""
        tab_as_read(self)
        if self._awaited and self.close_button.hasFocus():
            self.go_in()

    @Slot(object, str)
    def _reason_chosen(self, reason: Reason | None, sentence: str) -> None:
        timetable = self._opened.timetable
        self.looked.emit(None)
        mark = None
        if reason is not None and timetable is not None:
            mark = mark_of(self._opened.plan, timetable, reason, sentence)
        self.marked.emit(mark)

    @Slot(str, str)
    def _step_chosen(self, step: str, sentence: str) -> None:
        timetable = self._opened.timetable
        self.looked.emit(None)
        loads = timetable.loads_of.get(StepId(step), ()) if timetable is not None else ()
        mark = None
        if loads:
            mark = Clash(ClashKind.LATE, sentence, loads[0].start, loads[-1].end, (loads[0].step,))
        self.marked.emit(mark)

    def _let_marks_go(self) -> None:
        self.page.why.let_go()
        self.page.sure.let_go()

    @Slot(object)
    def _look(self, look: Look | None) -> None:
        self._let_marks_go()
        self.marked.emit(None)
        self.looked.emit(look)
