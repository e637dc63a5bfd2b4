"""The strip along the top: what is planned, for when, whether everything meets, what comes next."""

from __future__ import annotations

from datetime import UTC, datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.look.words import clock_text, day_text
from app.places.clash_list import clashes_words
from app.places.folding import Folding
from app.places.gist import gist_of
from core.arrange.outcome import Outcome
from core.plan.network import Network
from core.plan.plan import Plan
from core.plan.step import Attention


class Strip(QFrame):
    """Says the state of the plan in one line, wherever the cook is; under it, at once, what contradicts itself.

    `state_chosen`: the clashes were clicked.
    """

    state_chosen = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("strip")
        column = QVBoxLayout(self)
        column.setContentsMargins(18, 8, 18, 8)
        column.setSpacing(6)
        row = QHBoxLayout()
        row.setSpacing(24)
        column.addLayout(row)
        self.against = Folding("wrong")
        self.understood = QToolButton()
        self.understood.setText(self.tr("Understood"))
        self.understood.setMinimumHeight(26)
        self.understood.clicked.connect(self._put_away)
        under = QHBoxLayout()
        under.setSpacing(12)
        under.addWidget(self.against, 1)
        under.addWidget(self.understood, 0, Qt.AlignmentFlag.AlignTop)
        column.addLayout(under)
        self._read = ""
        self._known: tuple[Plan, str] | None = None
        self.name = QLabel()
        self.serving = QLabel()
        self.state = _Clicked()
        self.next = QLabel()
        self.name.setObjectName("stripName")
        self.state.setObjectName("stripState")
        self.name.setTextFormat(Qt.TextFormat.PlainText)
        self.next.setTextFormat(Qt.TextFormat.PlainText)
        self.name.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.next.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.next.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.name, 2)
        row.addWidget(self.serving)
        row.addWidget(self.state)
        row.addWidget(self.next, 3)
        self.state.pressed.connect(self.state_chosen)

    def show_plan(self, opened: OpenPlan | None, now: datetime | None = None) -> None:
        """Say how the plan stands."""
        self.setVisible(opened is not None)
        if opened is None:
            return
        plan = opened.plan
        served = plan.wall(0)
        against = self._against(plan)
        self.against.show_gist(gist_of(against, lists=True))
        self._show_against(against)
        self.name.setText(plan.name)
        self.name.setToolTip(plan.name)
        self.serving.setText(self.tr("serving {day}, {time}").format(day=day_text(served), time=clock_text(served)))
        count = len(opened.clashes)
        if not plan.steps:
            words, mood = self.tr("no steps yet"), "waiting"
        elif against:
            words, mood = self.tr("waits and times contradict each other"), "clash"
        elif opened.timetable is None:
            words, mood = self.tr("not arranged yet"), "waiting"
        elif count:
            words, mood = clashes_words(count), "clash"
        else:
            words, mood = self.tr("everything meets"), "meets"
        self._say(words, mood)
        self.next.setText(self._next(opened, now or datetime.now(UTC)))
        self.next.setToolTip(self.next.text())

    def _against(self, plan: Plan) -> str:
        """Return what in the plan contradicts itself whatever the timetable, worked out once for each plan."""
        if self._known is None or self._known[0] is not plan:
            found = Network.of(plan).contradiction() if plan.steps else None
            self._known = (plan, found.sentence if found is not None else "")
        return self._known[1]

    def _show_against(self, against: str) -> None:
        """Show what contradicts itself until it has been read; another contradiction is shown again."""
        there = bool(against) and against != self._read
        self.against.setVisible(there)
        self.understood.setVisible(there)

    def _put_away(self) -> None:
        self._read = self._known[1] if self._known is not None else ""
        self._show_against(self._read)

    def show_under_way(self, outcome: Outcome | None) -> None:
        """Say how far an arrangement has come; None: nothing found yet."""
        if outcome is None:
            self._say(self.tr("arranging"), "waiting")
        elif outcome.clashes:
            self._say(self.tr("so far {clashes}").format(clashes=clashes_words(len(outcome.clashes))), "waiting")
        else:
            self._say(self.tr("so far everything meets"), "waiting")

    def _say(self, words: str, mood: str) -> None:
        self.state.setText(words)
        self.state.setProperty("mood", mood)
        self.state.style().unpolish(self.state)
        self.state.style().polish(self.state)

    def _next(self, opened: OpenPlan, now: datetime) -> str:
        """Return the next thing to do with its clock time; before the day it is the first of all."""
        plan, timetable = opened.plan, opened.timetable
        if timetable is None:
            return ""
        offset = int((now - plan.plating.utc()).total_seconds() // 60)
        coming = [
            (placed.start, plan.steps[placed.step])
            for placed in timetable.placed
            if placed.step in plan.steps and placed.start >= offset
        ]
        if not coming:
            return ""
        start, step = min(coming, key=lambda each: (each[0], each[1].attention is not Attention.HANDS_ON))
        at = plan.wall(start)
        dish = plan.dish_of[step.id]
        return self.tr("next: {day} {time}  {dish}: {step}").format(
            day=day_text(at), time=clock_text(at), dish=dish.name, step=step.does
        )


class _Clicked(QLabel):
    """A label that can be clicked."""

    pressed = Signal()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Tell that it was clicked."""
        super().mouseReleaseEvent(event)
        self.pressed.emit()
