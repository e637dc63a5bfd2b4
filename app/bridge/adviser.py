"""Asks about the plan beside the interface, one question after the other: why not, ways out, how sure, guests late."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal, Slot

from app.bridge.arranger import Arranger
from app.bridge.open_plan import OpenPlan
from core.arrange.apart import Answer, Ask, Work
from core.arrange.demand import Demand
from core.arrange.effort import Effort
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked about the plan and timetable of the moment; see core.arrange.apart.Work for the fields."""

    ask: Ask
    work: float = 1.0
    demands: tuple[Demand, ...] = ()
    at: int = 0
    minutes: int = 0


class Adviser(QObject):
    """Puts questions to the arranging process while it does not arrange. GUI thread only.

    `began`: the Ask that is worked on now; `part`: an Ask and one of several things it tells; `whole`: an Ask and all
    that it tells; `failed`: an Ask and why. An answer about a plan or timetable that has changed is dropped.
    """

    began = Signal(object)
    part = Signal(object, object)
    whole = Signal(object, object)
    failed = Signal(object, str)

    def __init__(self, opened: OpenPlan, arranger: Arranger, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._arranger = arranger
        self._waiting: deque[Question] = deque()
        self._asked: tuple[int, Question] | None = None
        self._about: tuple[Plan, Timetable | None] = (opened.plan, opened.timetable)
        arranger.told.connect(self._take)
        arranger.began.connect(self._interrupted)
        arranger.ended.connect(self._ended)
        arranger.failed.connect(self._broke)

    @property
    def busy(self) -> bool:
        """Tell whether anything is asked or waits to be."""
        return self._asked is not None or bool(self._waiting)

    def ask(self, *questions: Question) -> None:
        """Ask these, one after the other; what was asked before is dropped."""
        self.stop()
        self._waiting.extend(questions)
        self._go_on()

    def also(self, question: Question) -> None:
        """Ask this next; a question of the same kind that runs or waits is dropped."""
        self._waiting = deque(each for each in self._waiting if each.ask is not question.ask)
        self._waiting.appendleft(question)
        if self._asked is not None and self._asked[1].ask is question.ask:
            self._asked = None
        self._go_on()

    def stop(self) -> None:
        """Drop all questions."""
        self._waiting.clear()
        if self._asked is not None:
            self._asked = None
            self._arranger.hush()

    @Slot(str)
    def _interrupted(self, _aim: str) -> None:
        """Ask again later what an arrangement cut off."""
        if self._asked is not None:
            self._waiting.appendleft(self._asked[1])
            self._asked = None

    @Slot(object)
    def _ended(self, _outcome: object) -> None:
        self._go_on()

    @Slot(str)
    def _broke(self, _words: str) -> None:
        self._go_on()

    def _go_on(self) -> None:
        if self._asked is not None or not self._waiting or self._arranger.busy:
            return
        question = self._waiting.popleft()
        opened = self._opened
        effort = Effort(work=question.work)
        self._about = plan, seen = opened.plan, opened.timetable
        work = Work(
            0,
            plan,
            seen,
            effort,
            ask=question.ask,
            demands=question.demands,
            at=question.at,
            minutes=question.minutes,
        )
        try:
            self._asked = self._arranger.consult(work), question
        except OSError as wrong:
            self.failed.emit(question.ask, str(wrong))
            return
        self.began.emit(question.ask)

    @Slot(object)
    def _take(self, answer: Answer) -> None:
        if self._asked is None or answer.number != self._asked[0]:
            return
        ask = self._asked[1].ask
        if self._about[0] is not self._opened.plan or self._about[1] is not self._opened.timetable:
            self.stop()
            return
        if not answer.last:
            self.part.emit(ask, answer.told)
            return
        self._asked = None
        if answer.fault:
            self.failed.emit(ask, answer.fault.strip().splitlines()[-1])
        else:
            self.whole.emit(ask, answer.told)
        self._go_on()
