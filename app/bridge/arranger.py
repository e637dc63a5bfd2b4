"""Arranges beside the interface: a process of its own does the work, its answers arrive as Qt signals."""

from __future__ import annotations

import logging
from contextlib import suppress
from dataclasses import replace

from PySide6.QtCore import QObject, Qt, Signal, Slot

from app.bridge.open_plan import OpenPlan
from core.arrange.apart import Answer, Apart, Work
from core.arrange.effort import Effort
from core.arrange.outcome import Fit, Outcome
from core.desk import Aim
from core.measures.refusal import Refusal

_log = logging.getLogger(__name__)


class Arranger(QObject):
    """Asks for arrangements of the open plan and takes what comes back. GUI thread only.

    `began`: the aim; `better`: an Outcome on the way, to be shown and not yet taken; `ended`: the last Outcome,
    taken as one undo step, or None where nothing was found or the plan has changed meanwhile. `told`: an Answer to
    what was asked by `consult`.
    """

    began = Signal(str)
    better = Signal(object)
    ended = Signal(object)
    failed = Signal(str)
    told = Signal(object)
    _arrived = Signal(object)

    def __init__(self, opened: OpenPlan, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._aim: Aim | None = None
        self._number = 0
        self._asked = 0
        self._consulted = 0
        # answers come on a thread of the process's reader; this signal brings them to the GUI thread
        self._arrived.connect(self._take, Qt.ConnectionType.QueuedConnection)
        self._apart = Apart(self._hear)

    @property
    def busy(self) -> bool:
        """Tell whether an arrangement is under way."""
        return self._aim is not None

    @property
    def aim(self) -> Aim | None:
        """Return what is being worked on."""
        return self._aim

    def warm(self) -> None:
        """Start the process, so that the first arrangement begins at once."""
        self._apart.warm()

    def follow_plan(self, opened: OpenPlan) -> None:
        """Work for another plan from now on; what runs is dropped."""
        self.stop()
        self._aim = None
        self._opened = opened

    def ask(self, aim: Aim, seconds: float = 10.0) -> None:
        """Begin an arrangement; one that runs is given up."""
        request = self._opened.desk.request(aim, seconds)
        # numbers go on from plan to plan, so that a late answer about another one is never taken
        self._number += 1
        self._asked, self._consulted = request.number, 0
        self._aim = aim
        seen = request.seen if aim is not Aim.ARRANGE else None
        work = Work(self._number, request.plan, seen, Effort.seconds(seconds), near=aim is Aim.FOLLOW)
        try:
            self._apart.ask(work)
        except OSError as wrong:
            self._aim = None
            _log.error("the arranging process could not be asked: %s", wrong)
            self.failed.emit(str(wrong))
            return
        self.began.emit(aim.value)

    def consult(self, work: Work) -> int:
        """Ask what tells something and arranges nothing; return its number. Only while no arrangement runs.

        One consultation runs at a time: a newer one, or an arrangement, ends it. Raise OSError where the process
        cannot be started.
        """
        self._number += 1
        self._consulted = self._number
        self._apart.ask(replace(work, number=self._number))
        return self._number

    def hush(self) -> None:
        """End the consultation that runs; nothing more is told of it."""
        if self._consulted and self._aim is None:
            self._consulted = 0
            self._apart.stop()

    @Slot()
    def stop(self) -> None:
        """End what runs with the best it has; its last answer still arrives."""
        if self._aim is not None:
            self._apart.stop()

    def close(self) -> None:
        """End the process."""
        self._aim = None
        self._apart.close()

    def _hear(self, answer: Answer) -> None:
        """Pass on what came, on the reading thread; an answer that was still being read when this went is dropped."""
        with suppress(RuntimeError):
            self._arrived.emit(answer)

    @Slot(object)
    def _take(self, answer: Answer) -> None:
        if answer.number == self._consulted:
            if answer.fault:
                _log.error("advice failed: %s", answer.fault)
            self.told.emit(answer)
            return
        if self._aim is None or answer.number != self._number:
            return
        if not self._opened.desk.awaits(self._asked):
            if answer.last:
                self._end(None)
            return
        if answer.fault:
            _log.error("arranging failed: %s", answer.fault)
            self._aim = None
            self.failed.emit(answer.fault.strip().splitlines()[-1])
            return
        if not answer.last:
            self.better.emit(answer.outcome)
            return
        self._end(answer.outcome)

    def _end(self, outcome: Outcome | None) -> None:
        aim, self._aim = self._aim, None
        if outcome is not None and aim is not None:
            self._show(outcome, aim)
        self.ended.emit(outcome)

    def _show(self, outcome: Outcome, aim: Aim) -> None:
        desk = self._opened.desk
        try:
            if aim is Aim.FOLLOW:
                if outcome.fit is Fit.MEETS:
                    desk.follow(outcome.timetable, by="follow")
            elif outcome.timetable.placed:
                label = "Arrange" if aim is Aim.ARRANGE else "Arrange around this"
                desk.show(outcome.timetable, label, by="arrange")
        except Refusal as refusal:
            self._opened.refused.emit(str(refusal))
