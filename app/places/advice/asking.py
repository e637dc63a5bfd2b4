"""Asks how the day stands once it is seen and has changed, and lets the sections of the page show the answers."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal, Slot
from PySide6.QtWidgets import QWidget

from app.bridge import Adviser, Arranger, OpenPlan, Question
from app.places.advice.late_section import BEFORE
from app.places.advice.page import AdvicePage
from core.arrange.apart import Ask
from core.arrange.outcome import Fit

_PAUSE = 250
"""Milliseconds after a change before anything is asked: a cook who types or nudges is not done yet."""
_QUIETLY = 900
"""Milliseconds after which, with the advice put away, only the chance is asked for the figure above the timeline."""
_WORK = {Ask.WHY: 2.0, Ask.QUALITY: 6.0, Ask.SEVERAL: 10.0}
"""Of the solver, as in Effort; 1 where nothing is said."""


class Asking(QObject):
    """`found`: something was shown that was not there before; `again`: it is about to be asked once more."""

    found = Signal()
    again = Signal()

    def __init__(self, opened: OpenPlan, arranger: Arranger, page: AdvicePage, parent: QWidget) -> None:
        super().__init__(parent)
        self._parent = parent
        self._opened, self._arranger, self._page = opened, arranger, page
        self._stale, self._more = True, 1
        self.adviser = Adviser(opened, arranger, self)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE)
        self._pause.timeout.connect(self._begin)
        self._quiet = QTimer(self)
        self._quiet.setSingleShot(True)
        self._quiet.setInterval(_QUIETLY)
        self._quiet.timeout.connect(self._ask_quietly)
        arranger.ended.connect(self._arranged)
        self.adviser.began.connect(lambda ask: self._page.sections[ask].wait())
        self.adviser.part.connect(self._part)
        self.adviser.whole.connect(self._whole)
        self.adviser.failed.connect(lambda ask, _why: self._page.sections[ask].fail())
        page.late.asked.connect(lambda: self.adviser.also(self._question(Ask.LATE)))
        page.others.wanted.connect(lambda: self.adviser.also(self._question(Ask.SEVERAL)))
        for section in page.sections.values():
            section.again.connect(self._again)

    @property
    def busy(self) -> bool:
        """Tell whether something is asked or is going to be."""
        return self._stale or self._pause.isActive() or self.adviser.busy

    def ask(self) -> None:
        """Ask anew about the day as it stands, as soon as it is seen."""
        self._stale, self._more = True, 1
        self.adviser.stop()
        if not self._page.isVisible():
            self._page.sure.clear()
        self.catch_up()

    def catch_up(self) -> None:
        """Ask what has not been asked since the last change; put away, only how sure it is."""
        if self._stale and self._page.isVisible():
            self._pause.start()
        elif not self._page.isVisible():
            self._quiet.start()

    def _ask_quietly(self) -> None:
        """Ask how sure the day is, for one quiet figure, where the timeline is seen and all meets."""
        opened, page = self._opened, self._page
        if page.isVisible() or self._arranger.busy or page.sure.is_told or not self._watched():
            return
        if opened.timetable is not None and opened.timetable.placed and not opened.clashes:
            self.adviser.ask(self._question(Ask.CHANCES))

    def _watched(self) -> bool:
        """Tell whether the place is seen in which the advice stands, or is put away."""
        place = self._parent.parentWidget()
        return place is not None and place.isVisible()

    def _again(self) -> None:
        """Ask once more and try harder."""
        self.again.emit()
        self._more *= 3
        self._begin()

    @Slot(object)
    def _arranged(self, _outcome: object) -> None:
        self.catch_up()

    def _begin(self) -> None:
        """Show what kind of day it is, and ask what there is to ask about it."""
        page, opened = self._page, self._opened
        if not page.isVisible():
            return
        if self._arranger.busy:
            page.show_only(words=self.tr("The day is being arranged; how it stands is told when that is done."))
            return  # asked again when it ends
        self._stale = False
        if not opened.plan.steps:
            page.show_only(words=self.tr("Nothing is planned yet. Write down dishes and steps in the Menu."))
        elif opened.timetable is None or not opened.timetable.placed:
            page.show_only(words=self.tr("The day is not arranged yet. Arrange it, then see here how it stands."))
        elif opened.clashes:
            self._put(Ask.WHY)
        else:
            if not page.late.written:
                page.late.at = self._heard_at()
            self._put(Ask.CHANCES, Ask.LATE, Ask.QUALITY)
            page.others.show()
            page.others.ask_whether()

    def _put(self, *asks: Ask) -> None:
        self._page.show_only(*asks)
        for ask in asks:
            self._page.sections[ask].wait()
        self.adviser.ask(*(self._question(ask) for ask in asks))

    def _question(self, ask: Ask, **fields: Any) -> Question:
        if ask is Ask.LATE:
            fields = {"at": self._page.late.at, "minutes": self._page.late.minutes}
        return Question(ask, _WORK.get(ask, 1.0) * self._more, **fields)

    def _heard_at(self) -> int:
        """Return now while the day is under way, else half an hour before plating."""
        plan, timetable = self._opened.plan, self._opened.timetable
        now = int((datetime.now(UTC) - plan.plating.utc()).total_seconds() // 60)
        begins = min((each.start for each in timetable.placed), default=0) if timetable is not None else 0
        return now if begins <= now <= 0 else BEFORE

    @Slot(object, object)
    def _part(self, ask: Ask, told: Any) -> None:
        page, plan = self._page, self._opened.plan
        if ask is Ask.WAYS:
            page.ways.add_way(plan, told)
        elif ask is Ask.QUALITY:
            page.good.show_wishes(plan, told, whole=False)
        elif ask is Ask.SEVERAL:
            page.others.show_days(plan, self._opened.timetable, told, whole=False)
        self.found.emit()

    @Slot(object, object)
    def _whole(self, ask: Ask, told: Any) -> None:
        page, plan, timetable = self._page, self._opened.plan, self._opened.timetable
        if ask is Ask.WHY:
            page.why.show_answer(plan, told)
            if told.fit is not Fit.MEETS:
                page.show_only(Ask.WHY, Ask.WAYS)
                page.ways.wait()
                demands = tuple(dict.fromkeys(each for reason in told.reasons for each in reason.demands))
                self.adviser.also(self._question(Ask.WAYS, demands=demands))
        elif ask is Ask.WAYS:
            page.ways.show_all(plan, told)
        elif ask is Ask.CHANCES and timetable is not None:
            page.sure.show_chances(plan, timetable, told)
        elif ask is Ask.LATE:
            page.late.show_late(plan, *told)
        elif ask is Ask.QUALITY:
            page.good.show_wishes(plan, told, whole=True)
        elif ask is Ask.SEVERAL:
            page.others.show_days(plan, timetable, told, whole=True)
        self.found.emit()
