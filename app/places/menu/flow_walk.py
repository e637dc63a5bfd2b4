"""Walking through a flow by the arrow keys: from a step to its link, from the link to the next step, and sideways."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from typing import TypeVar

from app.places.menu.flow_picture import FlowPicture
from core.plan.edits.parts import LinkKey
from core.plan.ids import StepId
from core.plan.menu import Link

Thing = TypeVar("Thing")


class Way(Enum):
    """Where an arrow key leads."""

    UP = "up"
    DOWN = "down"
    LEFT = "left"
    RIGHT = "right"


def from_step(picture: FlowPicture, step: StepId, way: Way) -> StepId | LinkKey:
    """Return what comes next: down and up a link of the step, if it has one, sideways a step of the same height."""
    if way in (Way.LEFT, Way.RIGHT):
        return _beside(_level(picture, step), step, way)
    down = way is Way.DOWN
    links = [each for each in picture.links if (each.before if down else each.after) == step]
    here = _middle(picture, step)
    nearest = min(
        links, key=lambda link: abs(_middle(picture, link.after if down else link.before) - here), default=None
    )
    return step if nearest is None else nearest.key


def from_link(picture: FlowPicture, link: Link, way: Way) -> StepId | LinkKey:
    """Return what comes next: the step at either end, sideways another link of the same step."""
    if way is Way.DOWN:
        return link.after
    if way is Way.UP:
        return link.before
    siblings = [each for each in picture.links if each.before == link.before]
    if len(siblings) == 1:
        siblings = [each for each in picture.links if each.after == link.after]
    keys = [each.key for each in sorted(siblings, key=lambda each: _across(picture, each))]
    return _beside(keys, link.key, way)


def next_step(picture: FlowPicture, step: StepId, way: Way) -> StepId:
    """Return the nearest step above, below or beside a step, linked or not."""
    if way in (Way.LEFT, Way.RIGHT):
        return _beside(_level(picture, step), step, way)
    here = picture.layout.boxes[step]
    sign = 1 if way is Way.DOWN else -1
    there = {other: box for other, box in picture.layout.boxes.items() if (box[1] - here[1]) * sign > 0}
    if not there:
        return step
    return StepId(min(there, key=lambda other: (abs(there[other][1] - here[1]), abs(there[other][0] - here[0]))))


def _level(picture: FlowPicture, step: StepId) -> list[StepId]:
    boxes = picture.layout.boxes
    level = [each for each in picture.steps if boxes[each][1] == boxes[step][1]]
    return sorted(level, key=lambda each: boxes[each][0])


def _beside(things: Sequence[Thing], thing: Thing, way: Way) -> Thing:
    at = things.index(thing) + (1 if way is Way.RIGHT else -1)
    return things[at] if 0 <= at < len(things) else thing


def _middle(picture: FlowPicture, step: StepId) -> float:
    box = picture.box(step)
    return 0.0 if box is None else box.center().x()


def _across(picture: FlowPicture, link: Link) -> tuple[float, float]:
    return (_middle(picture, link.after), _middle(picture, link.before))
