"""Drawing an end of a link, or a new one from a bar's knob, with the pointer."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, Qt

from app.timeline import spoken
from app.timeline.drag_gesture import LinkHeld, Point
from app.timeline.drag_link import Curve, edit_for, grip_at, knob_of, said, why_not
from app.timeline.drag_wish import Done
from app.timeline.paint_gesture import link_area
from app.timeline.pointer_grip import Canvas, far
from app.timeline.thinking import Thinking
from core.measures.refusal import Refusal
from core.plan.edits import AddLink, ChangeLink, Edit, RemoveLink
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


class Linking(QObject):
    """Draws links of one timeline's chosen step."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self._canvas = Canvas(timeline)
        self._press: QPointF | None = None
        self._curve: Curve | None = None
        self._from: Point = (0.0, 0.0)
        self._held: LinkHeld | None = None
        self._edit: Edit | None = None

    @property
    def active(self) -> bool:
        """Tell whether a link is being drawn."""
        return self._held is not None

    def at(self, point: QPointF) -> bool:
        """Tell whether an end or the knob is under a point."""
        scene = self._timeline.scene
        if point.x() < scene.gutter or point.y() < scene.ruler or scene.selected is None:
            return False
        return grip_at(scene, (point.x(), point.y())) is not None

    def press(self, point: QPointF) -> None:
        """Take hold of what is under a point."""
        grip = grip_at(self._timeline.scene, (point.x(), point.y()))
        if grip is None:
            return
        self._press = point
        self._curve = grip if isinstance(grip, Curve) else None
        knob = knob_of(self._timeline.scene)
        x, y = self._curve.near if self._curve is not None else knob or (point.x(), point.y())
        scene = self._timeline.scene
        self._from = scene.time(x), y + scene.top  # where on the day, so that it stays there while the view scrolls

    def move(self, point: QPointF, _fine: bool, _other: bool = False) -> bool:
        """Follow the pointer; tell whether a link is being drawn."""
        if self._press is None or (self._held is None and not far(self._press, point)):
            return False
        over = self._step_at(point)
        old, end = self._held, (point.x(), point.y())
        if old is None or old.over != over:
            link = None if self._curve is None else self._curve.link
            self._show(self._judged(LinkHeld(self._start, end, link, over)))
        else:
            self._show(replace(old, start=self._start, end=end))
        return True

    @property
    def _start(self) -> tuple[float, float]:
        """Return where on the screen the link begins."""
        scene, (minute, y) = self._timeline.scene, self._from
        return scene.x(minute), y - scene.top

    def drop(self) -> bool:
        """Link, link anew or break; tell whether a link was drawn."""
        held, edit, timeline = self._held, self._edit, self._timeline
        self.cancel()
        if held is None:
            return False
        if held.wrong:
            spoken.say(timeline, held.says)
            timeline.held_moved.emit(held.says)
        elif edit is not None:
            scene = timeline.scene
            spoken.say(timeline, edit.label_in(scene.plan))
            timeline.edit_wanted.emit(Done(edit, seen_after(scene.plan, scene.timetable, edit)))
        return True

    def cancel(self) -> bool:
        """Let go with nothing changed; tell whether there was anything to let go of."""
        was = self._press is not None
        self._press, self._curve, self._held, self._edit = None, None, None, None
        self._canvas.clear()
        return was

    def _step_at(self, point: QPointF) -> StepId | None:
        found = self._timeline.pointer.bar_at(point)
        return None if found is None or not found[1].moves else found[1].step

    def _judged(self, held: LinkHeld) -> LinkHeld:
        """Return what is held with what a drop over this step does, or why it may not be."""
        scene = self._timeline.scene
        here = scene.selected
        if here is None:
            return held
        says = said(scene.plan, self._curve, here, held.over)
        self._edit = edit_for(self._curve, here, held.over)
        if self._edit is None:
            return replace(held, says=says)
        wrong = why_not(scene.plan, self._edit)
        self._timeline.held_moved.emit(wrong)
        return replace(held, says=wrong or says, wrong=bool(wrong))

    def _show(self, held: LinkHeld) -> None:
        self._held = held
        self._canvas.show(held, link_area(self._timeline.scene, held), Qt.CursorShape.CrossCursor)


def seen_after(plan: Plan, timetable: Timetable, edit: Edit) -> Timetable | None:
    """Return the timetable once a link is another one: its stay is gone, and what the new one pushes is pushed."""
    gone = edit.key if isinstance(edit, ChangeLink | RemoveLink) else None
    stays = tuple(stay for stay in timetable.stays if gone is None or (stay.before, stay.after, stay.kind) != gone)
    left = timetable if len(stays) == len(timetable.stays) else replace(timetable, stays=stays)
    link = edit.link if isinstance(edit, AddLink) else edit.replacement if isinstance(edit, ChangeLink) else None
    loads = timetable.loads_of.get(link.before, ()) if link is not None else ()
    if not loads:
        return left
    try:
        return Thinking(edit(plan), left).timetable_if(loads[-1].key, loads[-1].start)
    except Refusal:
        return left
