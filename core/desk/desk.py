"""The open plan: one way in for every change, one way out to everybody who listens."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import replace
from typing import Protocol

from core.desk.change import Change, touched
from core.desk.history import History, Past, State
from core.desk.keeping import KeptEdit
from core.desk.kept import KeptDays
from core.desk.listeners import Listeners
from core.desk.request import Aim, Request
from core.desk.seen import still_there
from core.plan.edits import Edit
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


class Keeper(Protocol):
    """Keeps a plan where it outlasts the program."""

    def save(self, before: Plan, after: Plan) -> object:
        """Keep what differs; raise Refusal when that is not possible."""

    def keep(self, before: KeptDays, after: KeptDays) -> object:
        """Keep what differs among the days kept by name; raise Refusal when that is not possible."""


class Desk:
    """Holds the plan and the timetable seen, lets edits change them, undoes and redoes. One thread only.

    When the keeper refuses, everything stays as it was and the Refusal goes on to the caller.
    """

    def __init__(
        self,
        plan: Plan,
        keep: Keeper | None = None,
        timetable: Timetable | None = None,
        kept: KeptDays = KeptDays(),  # noqa: B008  it is a value
    ) -> None:
        """Open a plan that is kept already, with the timetable last seen and the days kept by name."""
        self._history = History(State(plan, still_there(timetable, plan), kept))
        self._keep = keep
        self._listeners: Listeners[Change] = Listeners()
        self._requests = 0
        self._request: Request | None = None

    @property
    def plan(self) -> Plan:
        """Return the plan now."""
        return self._history.now.plan

    @property
    def timetable(self) -> Timetable | None:
        """Return what the cook sees now."""
        return self._history.now.timetable

    @property
    def kept(self) -> KeptDays:
        """Return the days kept by name."""
        return self._history.now.kept

    @property
    def seen_before(self) -> Past | None:
        """Return what lay on the desk before the timetable became what it is, and what was done to it, if anything."""
        return self._history.seen_before()

    @property
    def can_undo(self) -> bool:
        """Tell whether there is something to undo."""
        return self._history.undo_label is not None

    @property
    def can_redo(self) -> bool:
        """Tell whether there is something to redo."""
        return self._history.redo_label is not None

    @property
    def undo_label(self) -> str | None:
        """Return what undo takes back, None when there is nothing."""
        return self._history.undo_label

    @property
    def redo_label(self) -> str | None:
        """Return what redo does again, None when there is nothing."""
        return self._history.redo_label

    def apply(self, edit: Edit, by: str = "", seen: Timetable | None = None) -> Change:
        """Change the plan by an edit, as one undo step; raise Refusal and change nothing when it may not be.

        `seen`: what the cook sees from then on, in the same step; else the timetable now less what is gone.
        """
        before = self._history.now
        plan = edit(before.plan)
        timetable = still_there(before.timetable if seen is None else seen, plan)
        after = replace(before, plan=plan, timetable=timetable)
        return self._go(after, edit.label_in(before.plan), by, edit.merge_key)

    def show(self, timetable: Timetable | None, label: str = "Arrange", by: str = "") -> Change:
        """Take an arrangement: one undo step, which brings back the timetable seen before."""
        return self._go(replace(self._history.now, timetable=still_there(timetable, self.plan)), label, by)

    def keep(self, edit: KeptEdit, by: str = "") -> Change:
        """Change the days kept by name, or go back to one, as one undo step; raise Refusal when it may not be."""
        return self._go(edit(self._history.now), edit.label, by)

    def follow(self, timetable: Timetable | None, by: str = "") -> Change:
        """Show what comes of the last change (steps that follow one that was moved); undone along with it."""
        before = self._history.now
        after = replace(before, timetable=still_there(timetable, before.plan))
        if after != before:
            self._history.amend(after)
        return _told(self._listeners, before, after, self.undo_label or "", by)

    def undo(self, by: str = "") -> Change | None:
        """Take the last step back; return None when there is none."""
        if not self.can_undo:
            return None
        before, label = self._history.now, self._history.undo_label or ""
        after = self._history.undone()
        _save(self._keep, before, after)
        self._history.undo()
        return _told(self._listeners, before, after, label, by)

    def redo(self, by: str = "") -> Change | None:
        """Do again what was undone last; return None when there is nothing."""
        if not self.can_redo:
            return None
        before, label = self._history.now, self._history.redo_label or ""
        after = self._history.redone()
        _save(self._keep, before, after)
        self._history.redo()
        return _told(self._listeners, before, after, label, by)

    def settle(self) -> None:
        """End a gesture: an edit that comes next is an undo step of its own, whatever its merge key."""
        self._history.settle()

    def listen(self, callback: Callable[[Change], None]) -> Callable[[], None]:
        """Tell a callback every change from now on; call what is returned to stop."""
        return self._listeners.listen(callback)

    def request(self, aim: Aim = Aim.ARRANGE, effort: float = 10.0) -> Request:
        """Return a numbered request to arrange the plan as it is now; the one before is no longer awaited."""
        self._requests += 1
        self._request = Request(self._requests, self.plan, self.timetable, aim, effort)
        return self._request

    def awaits(self, number: int) -> bool:
        """Tell whether an answer is still wanted: to the latest request, and about the plan as it is now."""
        asked = self._request
        return asked is not None and asked.number == number and asked.plan == self.plan

    def _go(self, after: State, label: str, by: str, merge_key: Hashable | None = None) -> Change:
        before = self._history.now
        if after != before:
            _save(self._keep, before, after)
            self._history.record(after, label, merge_key)
        return _told(self._listeners, before, after, label, by)


def _save(keep: Keeper | None, before: State, after: State) -> None:
    if keep is not None and before.plan != after.plan:
        keep.save(before.plan, after.plan)
    if keep is not None and before.kept != after.kept:
        keep.keep(before.kept, after.kept)


def _told(listeners: Listeners[Change], before: State, after: State, label: str, by: str) -> Change:
    """Return the change, and tell it unless nothing changed."""
    change = Change(
        before.plan,
        after.plan,
        touched(before.plan, after.plan),
        label,
        by,
        timetable_changed=before.timetable != after.timetable,
        kept_changed=before.kept != after.kept,
    )
    if after != before:
        listeners.tell(change)
    return change
