"""The Timeline place: the timeline, its clashes beside it, arranging above it."""

from __future__ import annotations

from PySide6.QtCore import QMargins, Qt, Signal, Slot
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QProgressBar,
    QPushButton,
    QSizePolicy,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.bridge import Arranger, OpenPlan
from app.fields import Entered, tab_as_read
from app.fields.row_wrap import RowWrap
from app.look import icons
from app.look.colours import palette_under
from app.places.advice import AdvicePane, Beside, LookLine
from app.places.clash_list import ClashList
from app.places.days import DayKeeper, DaysBar, FitNote, MovesList, WhatMoved
from app.places.direct import Direct
from app.places.food.beside import FoodBeside
from app.places.food.details import FoodDetails
from app.timeline import Timeline
from app.timeline.lane_reading import ReadingChoice, ReadingSetting
from app.timeline.lanes import Reading
from core.arrange.outcome import Fit, Outcome
from core.desk import Aim, Change
from core.plan.edits import LiftPin, PinStep
from core.plan.ids import StationId, StepId
from core.timetable.clash import Clash

_ARRANGED = ("arrange", "follow")
_WIDEST = 520
"""Pixels of the side beyond which lines become too long to read."""


class TimelinePlace(Entered):
    """Where the day is shaped. `step_opened` asks the window to show a step in the Menu place."""

    step_opened = Signal(str)

    def __init__(self, opened: OpenPlan, arranger: Arranger, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._arranger = arranger
        self.previewed: Outcome | None = None
        self._remembered = ReadingSetting()
        self.timeline = Timeline()
        self.clash_list = ClashList()
        self.moves_list = MovesList()
        self.food_line = QPushButton()
        self.food_line.setObjectName("foodLine")
        self.food_details = FoodDetails()
        self.days_bar = DaysBar()
        self.look_line = LookLine()
        self.fit_note = FitNote()
        self.advice = AdvicePane(opened, arranger)
        self.line = QStackedWidget()  # one of two lines, of one height: nothing moves when the other comes
        self.line.addWidget(self.days_bar)
        self.line.addWidget(self.look_line)
        self.line.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.split = QSplitter(Qt.Orientation.Horizontal)
        self.split.addWidget(self.timeline)
        self.split.addWidget(self._side())
        self.split.setStretchFactor(0, 1)
        self.split.setStretchFactor(1, 0)
        self.split.setCollapsible(0, False)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._bar())
        column.addWidget(self.line)
        column.addWidget(self.fit_note)
        column.addWidget(self.split, 1)
        self.beside = Beside(self, opened)
        self.moved = WhatMoved(self, opened)
        self.days = DayKeeper(self, opened)
        self.food = FoodBeside(self, opened)
        self.direct = Direct(self, opened, arranger)
        self._connect()
        self.enter_at(self.timeline)
        tab_as_read(self)
        self.timeline.set_reading(self._remembered.reading)
        self.refresh()
        self.timeline.fit_all()

    def _side(self) -> QWidget:
        """Return the side: the clashes, and under them how the day stands."""
        side = QFrame()
        side.setObjectName("side")
        column = QVBoxLayout(side)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.clash_list.setContentsMargins(14, 12, 14, 8)
        column.addWidget(self.moves_list, 3)
        column.addWidget(self.clash_list, 1)
        column.addWidget(self.food_line)
        column.addWidget(self.food_details, 3)
        column.addWidget(self.advice, 3)
        return side

    def show_side(self, width: int) -> None:
        """Give the side so many pixels, or a quarter where that is more, the timeline the rest."""
        whole = sum(self.split.sizes()) or width + 900
        width = max(width, min(_WIDEST, whole // 4)) if self.advice.isVisibleTo(self) else width
        self.split.setSizes([whole - width, width])
        self.clash_list.show_few(self.advice.isVisibleTo(self))

    def _bar(self) -> QWidget:
        bar = QWidget()
        row = RowWrap(bar, QMargins(14, 8, 14, 8))
        self.arrange = QPushButton(self.tr("Arrange the day"))
        self.around = QPushButton(self.tr("Mend, move little"))
        self.stop = QPushButton(self.tr("Stop"))
        self.reading = ReadingChoice()
        self.fit_all = QPushButton(self.tr("All days"))
        self.fit_last = QPushButton(self.tr("Last two hours"))
        self.meter = QProgressBar()
        self.meter.setRange(0, 0)
        self.meter.setTextVisible(False)
        self.meter.setMaximumWidth(120)
        self.meter.setMaximumHeight(8)
        self.told = QLabel()
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        self.told.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.how = QPushButton(self.tr("How it stands"))
        self.how.setCheckable(True)
        self.how.setToolTip(self.tr("Why it does not meet and ways out, or how good and sure the day is (F6)"))
        self.arrange.setToolTip(self.tr("Put every step that is not pinned at its best place (Ctrl+R)"))
        self.around.setToolTip(self.tr("Mend what clashes and move as little as can be (Ctrl+Shift+R)"))
        self.stop.setToolTip(self.tr("End now and keep the best so far (Ctrl+.)"))
        for button in (self.arrange, self.around, self.stop):
            button.setMinimumHeight(30)
            row.addWidget(button)
        row.addWidget(self.meter)
        row.addWidget(self.told)
        row.addWidget(self.reading)
        for button in (self.fit_all, self.fit_last, self.how):
            button.setMinimumHeight(30)
            row.addWidget(button)
        self.dress()
        return bar

    def dress(self) -> None:
        """Draw the icons in the colours of the moment."""
        ink = palette_under(self.palette()).ink
        self.arrange.setIcon(icons.icon("arrange", ink))
        self.stop.setIcon(icons.icon("stop", ink))

    def _connect(self) -> None:
        self.arrange.clicked.connect(lambda: self.ask(Aim.ARRANGE))
        self.around.clicked.connect(lambda: self.ask(Aim.AROUND))
        self.stop.clicked.connect(self._arranger.stop)
        self.reading.chosen.connect(self.timeline.set_reading)
        self.timeline.reading_changed.connect(self._read)
        self.fit_all.clicked.connect(self.timeline.fit_all)
        self.fit_last.clicked.connect(lambda: self.timeline.fit_last_hours(2))
        self.how.setChecked(self.advice.isVisibleTo(self))
        self.how.clicked.connect(lambda there: self.beside.bring() if there else self.beside.put_away())
        self.advice.arrange.connect(lambda: self.ask(Aim.ARRANGE))
        self.clash_list.chosen.connect(self._show_clash)
        self.timeline.step_dropped.connect(self._dropped)
        self.timeline.step_opened.connect(self.step_opened)
        self.timeline.pin_lifted.connect(self._lift)
        self._opened.changed.connect(self._changed)
        self._arranger.began.connect(self._began)
        self._arranger.better.connect(self._better)
        self._arranger.ended.connect(self._ended)
        self._arranger.failed.connect(self._failed)

    def ask(self, aim: Aim) -> None:
        """Begin to arrange beside the interface."""
        self._arranger.ask(aim)

    def refresh(self) -> None:
        """Show the plan and timetable as they are."""
        opened = self._opened
        self.beside.forget()
        self.timeline.set_plan(opened.plan, opened.timetable, opened.clashes)
        self.clash_list.show_clashes(opened.plan, opened.clashes)
        self.moved.refresh()
        self.days.refresh()
        self.food.refresh()
        self._show_state()

    @Slot(str)
    def _read(self, reading: Reading) -> None:
        """Show and remember how the day is read."""
        self.reading.show_reading(reading)
        self._remembered.reading = reading

    def _show_state(self) -> None:
        busy = self._arranger.busy
        self.stop.setVisible(busy)
        self.meter.setVisible(busy)
        self.arrange.setEnabled(not busy)
        self.around.setEnabled(not busy and self._opened.timetable is not None)

    @Slot(object)
    def _changed(self, change: Change) -> None:
        if change.by not in _ARRANGED:
            self.told.setText("")  # what was said of the arrangement no longer holds
        self.moved.hear(change)
        self.days.hear(change)
        self.refresh()

    @Slot(str)
    def _began(self, _aim: str) -> None:
        if self._arranger.aim is not Aim.FOLLOW:
            self.told.setText(self.tr("arranging…"))
        self._show_state()

    @Slot(object)
    def _better(self, outcome: Outcome) -> None:
        """Let the bars go to better places as they are found; nothing is taken yet."""
        self.beside.forget()
        self.previewed = outcome
        self.timeline.set_plan(self._opened.plan, outcome.timetable, outcome.clashes)
        self.clash_list.show_clashes(self._opened.plan, outcome.clashes)
        self.food.leave_out()
        self.moved.refresh()
        self.told.setText(self._quality(outcome))

    @Slot(object)
    def _ended(self, outcome: Outcome | None) -> None:
        self.previewed = None
        self.refresh()
        self.told.setText(self._quality(outcome) if outcome is not None else "")

    @Slot(str)
    def _failed(self, _words: str) -> None:
        self.previewed = None
        self.refresh()
        self.told.setText(self.tr("The arranging broke off; the day is as it was. Try again."))

    def _quality(self, outcome: Outcome) -> str:
        if outcome.fit is Fit.IMPOSSIBLE:
            return self.tr("This cannot all meet; shown is what comes nearest.")
        if outcome.fit is Fit.NOT_FOUND:
            return self.tr("Nothing found yet in which all meets; shown is what comes nearest.")
        if outcome.bound is not None and outcome.bound >= outcome.score:
            return self.tr("Everything meets; no day is better by your wishes.")
        return self.tr("Everything meets.")

    @Slot(str, int, int, object)
    def _dropped(self, step: str, load: int, start: int, station: object) -> None:
        """Pin the step where it was dropped; what hangs on it follows, and what still clashes is mended nearby."""
        if self._opened.timetable is None:
            return
        if self.direct.only_a_look():
            return
        where = StationId(station) if isinstance(station, str) and station else None
        seen = self.timeline.thinker.timetable_if((StepId(step), load), start, where)
        pin = PinStep(StepId(step), load, start, where)
        if self._opened.apply(pin, "timeline", seen) and self._opened.clashes:
            self._arranger.ask(Aim.FOLLOW)

    @Slot(object)
    def _show_clash(self, clash: Clash) -> None:
        self.beside.leave()
        self.beside.mark(None)
        self.timeline.show_clash(clash)

    @Slot(str, int)
    def _lift(self, step: str, load: int) -> None:
        if not self.direct.only_a_look() and (StepId(step), load) in self._opened.plan.pins:
            self._opened.apply(LiftPin(StepId(step), load), "timeline")
            self.told.setText(self.tr("The pin is lifted; arranging finds it a place again."))
