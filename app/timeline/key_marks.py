"""A link or an order drawn by keys: one step is marked, another one is gone to, the same key joins the two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.timeline import offers, spoken
from app.timeline.drag_wish import Done
from app.timeline.pointer_link import seen_after
from core.plan.edits import AddLink, AddOrder, Edit, RemoveLink, RemoveOrder
from core.plan.ids import StepId
from core.plan.menu import Link
from core.plan.plan import Plan

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


class Marks:
    """Marks steps of one timeline and joins them."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline

    def join(self) -> None:
        """Mark the focused step, or link it to the marked one; where they are linked already, unlink them."""
        pair = self._pair()
        if pair is not None:
            scene = self._timeline.scene
            edit = linking(scene.plan, *pair)
            self._timeline.edit_wanted.emit(Done(edit, seen_after(scene.plan, scene.timetable, edit)))

    def order(self) -> None:
        """Mark the focused step, or put it after the marked one; where it is so already, lift that order."""
        pair = self._pair()
        if pair is not None:
            self._timeline.edit_wanted.emit(ordering(self._timeline.scene.plan, *pair))

    def _pair(self) -> tuple[StepId, StepId] | None:
        """Return the marked step and the focused one; None where this only marks, or takes the mark away."""
        scene, here = self._timeline.scene, self._timeline.focused
        step = here[1].step if here is not None else None
        if step is None:
            return None
        before, scene.marked = scene.marked, None
        self._timeline.viewport().update()
        if before is None:
            scene.marked = step
            said = offers.translated("{step} is marked: go to another one and press the same key")
            spoken.say(self._timeline, said.format(step=offers.step_text(scene, step)))
        return None if before is None or before == step else (before, step)


def linking(plan: Plan, before: StepId, after: StepId) -> Edit:
    """Return the edit that links two steps, or unlinks them where they are linked, either way round."""
    for link in plan.menu.links:
        if {link.before, link.after} == {before, after}:
            return RemoveLink(link.key)
    return AddLink(Link(before, after))


def ordering(plan: Plan, first: StepId, then: StepId) -> Edit:
    """Return the edit that puts one step before another, or takes that order out where it stands, either way round."""
    for order in plan.decisions.orders:
        if {order.first, order.then} == {first, then}:
            return RemoveOrder(order.first, order.then)
    return AddOrder(first, then)
