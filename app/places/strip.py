"""The strip along the top: what is planned, for when, whether everything meets, what comes next."""

from __future__ import annotations

from datetime import UTC, datetime

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QToolButton, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.look.colours import palette_under
from app.look.words import clock_text, day_text
from app.places.clash_list import clashes_words
from app.places.folding import Folding
from app.places.food.watching import FoodWatch, Told, watch_of
from app.places.food.words import food_words, is_over
from app.places.gist import gist_of
from app.places.one_line import OneLine
from app.timeline.paint_food import food_icon
from core.arrange.outcome import Outcome
from core.plan.network import Network
from core.plan.plan import Plan
from core.plan.step import Attention
from core.timetable.clash import ClashKind

_SIGN = 22


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
        self.name = OneLine()
        self.serving = QLabel()
        self.state = _Clicked()
        self.next = OneLine()
        self.name.setObjectName("stripName")
        self.state.setObjectName("stripState")
        self.next.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.name, 2)
        row.addWidget(self.serving)
        row.addWidget(self.state)
        row.addWidget(self.next, 3)
        self.state.pressed.connect(self.state_chosen)
        self._watch: FoodWatch | None = None
        self._opened: OpenPlan | None = None
        self.sign = QLabel()
        self.sign.setFixedSize(_SIGN, _SIGN)
        self.sign.hide()
        row.insertWidget(2, self.sign)

    def show_plan(self, opened: OpenPlan | None, now: datetime | None = None) -> None:
        """Say how the plan stands."""
        self.setVisible(opened is not None)
        self._opened = opened
        if opened is None:
            self._watch = None
            return
        if self._watch is not watch_of(opened):
            self._watch = watch_of(opened)
            self._watch.told.connect(self._food_told)
        plan = opened.plan
        served = plan.wall(0)
        against = self._against(plan)
        self.against.show_gist(gist_of(against, lists=True))
        self._show_against(against)
        self.name.setText(plan.name)
        self.serving.setText(self.tr("serving {day}, {time}").format(day=day_text(served), time=clock_text(served)))
        count = len(opened.clashes)
        unplaced = _unplaced(opened)
        if not plan.steps:
            words, mood = self.tr("no steps yet"), "waiting"
        elif against:
            words, mood = self.tr("waits and times contradict each other"), "clash"
        elif opened.timetable is None or unplaced == len(plan.steps):
            words, mood = self.tr("not arranged yet"), "waiting"
        elif unplaced:
            one = unplaced == 1
            words = self.tr("1 step not placed yet") if one else self.tr("{count} steps not placed yet")
            words, mood = words.format(count=unplaced), "waiting"
        elif count:
            words, mood = clashes_words(count), "clash"
        else:
            words, mood = self.tr("everything meets"), "meets"
        self._say(*self._with_food(words, mood))
        self.next.setText(self._next(opened, now or datetime.now(UTC)))

    @Slot(object)
    def _food_told(self, _told: Told) -> None:
        if self._opened is not None and self.sender() is self._watch and self.state.property("mood") != "waiting":
            self.show_plan(self._opened)

    def _with_food(self, words: str, mood: str) -> tuple[str, str]:
        """Add the food limits that are missed to how the plan stands."""
        report = self._watch.report if self._watch is not None else None
        found = report.findings if report is not None and mood != "waiting" else ()
        over = any(is_over(each) for each in found)
        self.sign.setVisible(bool(found))
        if not found:
            return words, mood
        self.sign.setPixmap(food_icon(palette_under(self.palette()), over, _SIGN).pixmap(_SIGN, _SIGN))
        self.sign.setToolTip(self.tr("Food limits: choose them in the list beside the timeline (F7)"))
        return f"{words}, {food_words(found)}", "food" if over and mood == "meets" else mood

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
        self.sign.hide()
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


def _unplaced(opened: OpenPlan) -> int:
    """Return how many steps have no place yet, where nothing else is wrong: that is no clash, it is to be arranged."""
    if any(clash.kind is not ClashKind.MISSING for clash in opened.clashes):
        return 0
    return len({step for clash in opened.clashes for step in clash.steps})


class _Clicked(QLabel):
    """A label that can be clicked."""

    pressed = Signal()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Tell that it was clicked."""
        super().mouseReleaseEvent(event)
        self.pressed.emit()
