"""Drawing links: where their ends lie, what a drop of one does, and why it may not be. Points and values."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QCoreApplication

from app.timeline.drag_gesture import Point
from app.timeline.drag_places import places_of
from app.timeline.geometry import Box
from app.timeline.scene import Scene
from core.measures.refusal import Refusal
from core.plan.check_links import circles
from core.plan.edits import AddLink, ChangeLink, Edit, RemoveLink
from core.plan.ids import StepId
from core.plan.menu import Link, LinkKind
from core.plan.network import Network
from core.plan.plan import Plan
from core.sheets.step_words import done_as

END = 4.5
"""Radius in points of the round end that can be taken hold of."""
KNOB = 6.5
"""Radius of the knob from which a new link is drawn."""
REACH = 11.0
"""Points around an end or a knob that still take hold of it."""
_AWAY = 15.0
"""Points from a bar's end to its knob."""


@dataclass(frozen=True)
class Curve:
    """A link on the picture: where it leaves the step before and meets the one after.

    `far_is_after`: the end at the step after is the one that can be drawn elsewhere; the other is the chosen step's.
    """

    link: Link
    start: Point
    end: Point
    far_is_after: bool

    @property
    def far(self) -> Point:
        """Return the end that can be drawn elsewhere."""
        return self.end if self.far_is_after else self.start

    @property
    def near(self) -> Point:
        """Return the end at the chosen step."""
        return self.start if self.far_is_after else self.end


def curves_of(scene: Scene) -> list[Curve]:
    """Return the links of the chosen step whose two steps are on the picture."""
    here = scene.selected
    if here is None or here not in scene.plan.steps:
        return []
    found = []
    links = [(link, True) for link in scene.plan.links_from[here]]
    links += [(link, False) for link in scene.plan.links_to[here]]
    for link, far_is_after in links:
        before = box_of(scene, link.before, last=link.kind is not LinkKind.START_TO_START)
        after = box_of(scene, link.after, last=link.kind is LinkKind.END_TO_END)
        if before is not None and after is not None:
            found.append(Curve(link, _leaves(before, link.kind), _meets(after, link.kind), far_is_after))
    return found


def _leaves(box: Box, kind: LinkKind) -> Point:
    return (box.x if kind is LinkKind.START_TO_START else box.right, box.y + box.h / 2)


def _meets(box: Box, kind: LinkKind) -> Point:
    return (box.right if kind is LinkKind.END_TO_END else box.x, box.y + box.h / 2)


def knob_of(scene: Scene) -> Point | None:
    """Return where the chosen step's knob is: right of its last load's bar, in sight; None where it has no bar."""
    if scene.selected is None or scene.held is not None:
        return None
    box = box_of(scene, scene.selected, last=True)
    if box is None or box.right < scene.gutter or box.right > scene.width:
        return None
    return (min(box.right + _AWAY, scene.width - KNOB - 2), box.y + box.h / 2)


def box_of(scene: Scene, step: StepId, *, last: bool) -> Box | None:
    """Return the box of a step's first or last load; None where it is not shown."""
    loads = scene.timetable.loads_of.get(step, ())
    if not loads:
        return None
    there = places_of(scene).get(loads[-1 if last else 0].key, ())
    return scene.box(*there[0]) if there else None


def grip_at(scene: Scene, point: Point) -> Curve | Point | None:
    """Return the link whose far end is under a point, or the knob's place; None where there is neither."""
    knob = knob_of(scene)
    near: tuple[float, Curve | Point] | None = None
    for each in curves_of(scene):
        away = _apart(each.far, point)
        if away <= REACH and (near is None or away < near[0]):
            near = (away, each)
    if knob is not None and (away := _apart(knob, point)) <= REACH and (near is None or away < near[0]):
        near = (away, knob)
    return None if near is None else near[1]


def edit_for(curve: Curve | None, here: StepId, over: StepId | None) -> Edit | None:
    """Return what a drop over a step does, or over none: link anew, break, make a link; None: nothing."""
    if curve is None:
        return None if over is None or over == here else AddLink(Link(here, over))
    if over is None:
        return RemoveLink(curve.link.key)
    ends = replace(curve.link, after=over) if curve.far_is_after else replace(curve.link, before=over)
    return None if ends.key == curve.link.key else ChangeLink(curve.link.key, ends)


def why_not(plan: Plan, edit: Edit) -> str:
    """Return why a plan would not bear a link, the chain named; "" where it does."""
    knots = {frozenset(chain) for chain, _knot in circles(plan)}
    ring = next((chain for chain, _knot in circles(edit.change(plan)) if frozenset(chain) not in knots), None)
    if ring is not None:
        chain = ", ".join(_does(plan, step) for step in ring)
        return _translated("These would wait for each other in a circle: {chain}").format(chain=chain)
    try:
        after = edit(plan)
    except Refusal as refusal:
        return str(refusal)
    new = Network.of(after).contradiction()
    return "" if new is None or Network.of(plan).contradiction() is not None else new.sentence


def said(plan: Plan, curve: Curve | None, here: StepId, over: StepId | None) -> str:
    """Return what a drop over a step does, in words."""
    if over is None:
        if curve is None:
            return _translated("Drop on the step that is to come after")
        said = _translated("Drop here: {after} no longer hangs on {before}")
        return said.format(before=_does(plan, curve.link.before), after=_does(plan, curve.link.after))
    before, after = here, over
    if curve is not None:
        before, after = (curve.link.before, over) if curve.far_is_after else (over, curve.link.after)
    if before == after:
        return _translated("A step cannot hang on itself")
    return _translated("{after} after {before}").format(before=_does(plan, before), after=_does(plan, after))


def _does(plan: Plan, step: StepId) -> str:
    """Return what a step does up to the first comma."""
    return f"“{done_as(plan.steps[step]).split(',')[0]}”" if step in plan.steps else "…"


def _apart(one: Point, other: Point) -> float:
    return max(abs(one[0] - other[0]), abs(one[1] - other[1]))


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
