"""Holds the food rules against the day on a thread of its own, a little after each change and never while one drags."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal, Slot

from app.places.food.readings import Readings
from core.measures.refusal import Refusal
from core.plan.edits import Edit
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.timetable import Timetable

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from core.safety import Finding, Report, RuleSet

_log = logging.getLogger(__name__)
_PAUSE = 60
"""Milliseconds after a change: several edits at once are held against the rules once."""
_HELD = 150
"""Milliseconds until it is looked again whether what is dragged was let go of."""
_END = 2.0
"""Seconds that the end of the plan waits for the thread at most."""


@dataclass(frozen=True)
class Told:
    """A report on a plan and timetable; `fault`: why there is none (the rules are not to be had)."""

    plan: Plan
    timetable: Timetable
    report: Report | None
    fault: str = ""


@dataclass(frozen=True)
class Tried:
    """What a way out comes to: the plan after its edit, what then clashes, and the report then. `fault`: why not."""

    edit: Edit
    plan: Plan
    timetable: Timetable
    clashes: tuple[Clash, ...] = ()
    report: Report | None = None
    fault: str = ""


class _Desk:
    """Work that waits and the thread that does it. No QObject: it is closed while its plan is being taken apart."""

    def __init__(self, give: Callable[[Told | Tried], None]) -> None:
        self._give = give
        self._work: list[Callable[[], Told | Tried]] = []
        self._thread: threading.Thread | None = None
        self._lock = threading.Lock()
        self.closed = False

    def put(self, work: Callable[[], Told | Tried], *, alone: bool = False) -> None:
        """Have something done; `alone`: what waited before is no longer wanted."""
        with self._lock:
            if alone:
                self._work.clear()
            self._work.append(work)
            if self._thread is not None:
                return
            self._thread = threading.Thread(target=self._run, name="food rules", daemon=True)
        self._thread.start()

    def close(self, *_given: object) -> None:
        """End: nothing is told any more."""
        self.closed = True
        with self._lock:
            self._work.clear()
            thread = self._thread
        if thread is not None:
            thread.join(_END)

    def _run(self) -> None:
        while True:
            with self._lock:
                if not self._work:
                    self._thread = None
                    return
                work = self._work.pop(0)
            found = work()
            with suppress(RuntimeError):  # the plan was closed meanwhile
                if not self.closed:
                    self._give(found)


class FoodWatch(QObject):
    """Keeps the report on the day that is open. GUI thread only; `told` and `tried` carry what came.

    `held` tells whether something is being dragged; `folder`: where the cook's own sets of rules lie.
    """

    told = Signal(object)
    tried = Signal(object)
    _came = Signal(object)

    def __init__(self, opened: OpenPlan) -> None:
        super().__init__(opened)
        self._opened = opened
        self._last: Told | None = None
        self.desk = _Desk(self._came.emit)
        self.held: Callable[[], bool] = lambda: False
        self.readings = Readings()
        self.folder: Path | None = None
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.timeout.connect(self._begin)
        self._came.connect(self._take, Qt.ConnectionType.QueuedConnection)
        opened.changed.connect(self.ask)
        self.ask()

    @property
    def last(self) -> Told | None:
        """Return the last report, perhaps on the day as it was a moment ago."""
        return self._last

    @property
    def current(self) -> bool:
        """Tell whether the last report is on the day as it is."""
        opened, last = self._opened, self._last
        return last is not None and last.plan is opened.plan and last.timetable is opened.timetable

    @property
    def report(self) -> Report | None:
        """Return the last report; None while there is none."""
        return None if self._last is None else self._last.report

    def set_folder(self, folder: Path | None) -> None:
        """Say where the cook's own sets lie."""
        if folder != self.folder:
            self.folder = folder
            if self._opened.plan.decisions.rules:
                self._last = None
                self.ask()

    def own_rules(self) -> tuple[RuleSet, ...]:
        """Return the cook's own sets; refuse a file of the folder that holds none."""
        from core.safety import rules_in_folder

        return () if self.folder is None else rules_in_folder(self.folder)

    @Slot()
    def ask(self, _change: object = None) -> None:
        """Work the report out anew, soon."""
        if not self.desk.closed:
            self._pause.start(_PAUSE)

    def attempt(self, finding: Finding) -> None:
        """Work out what the ways out of a finding come to that have an edit."""
        plan, timetable = self._opened.plan, self._opened.timetable
        if timetable is None:
            return
        rules = self.report.rules if self.report is not None else None
        for way in finding.ways:
            if way.edit is not None:
                self.desk.put(partial(_attempt, plan, timetable, way.edit, rules))

    def close(self) -> None:
        """End: nothing is told any more."""
        self._pause.stop()
        self.desk.close()

    def _begin(self) -> None:
        plan, timetable = self._opened.plan, self._opened.timetable
        if self.desk.closed or self.current:
            return
        if self.held():
            self._pause.start(_HELD)
            return
        if timetable is None or not timetable.placed:
            self._take(Told(plan, timetable or Timetable(), None))
            return
        folder = self.folder
        self.desk.put(partial(_report, plan, timetable, folder), alone=True)

    @Slot(object)
    def _take(self, found: Told | Tried) -> None:
        opened = self._opened
        if self.desk.closed or found.timetable is not (opened.timetable or found.timetable):
            return
        if isinstance(found, Tried):
            self.tried.emit(found)
        elif found.plan is opened.plan:
            self._last = found
            self.told.emit(found)


def watch_of(opened: OpenPlan) -> FoodWatch:
    """Return who watches the food of an open plan; made when first asked for."""
    found = opened.findChild(FoodWatch)
    if not isinstance(found, FoodWatch):
        found = FoodWatch(opened)
        opened.destroyed.connect(found.desk.close)  # a method of the child is no longer there then
    return found


def _report(plan: Plan, timetable: Timetable, folder: Path | None) -> Told:
    from core.safety import food_report, rules_beside

    try:
        return Told(plan, timetable, food_report(plan, timetable, rules_beside(plan.decisions.rules, folder)))
    except Refusal as refusal:
        return Told(plan, timetable, None, str(refusal))
    except Exception:  # noqa: BLE001  our own fault: told in the window, with its trace in the log
        _log.exception("the food rules could not be held against the day")
        return Told(plan, timetable, None, "The food limits could not be worked out for this day; none is shown.")


def _attempt(plan: Plan, timetable: Timetable, edit: Edit, rules: RuleSet | None) -> Tried:
    from core.safety import food_report
    from core.timetable.clashes import clashes

    try:
        after = edit(plan)
    except Refusal as refusal:
        return Tried(edit, plan, timetable, fault=str(refusal))
    try:
        return Tried(edit, after, timetable, clashes(after, timetable), food_report(after, timetable, rules))
    except Exception:  # noqa: BLE001  our own fault: told in the window, with its trace in the log
        _log.exception("a way out could not be tried")
        return Tried(edit, plan, timetable, fault="What comes of it could not be worked out.")
