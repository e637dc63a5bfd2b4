"""What is held besides bars, as values: the line of plating, an end of a link, a band around bars. No Qt."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.ids import StepId
from core.plan.menu import Link

Point = tuple[float, float]
"""Points across and down the widget."""


@dataclass(frozen=True)
class PlatingHeld:
    """The line of plating drawn by some minutes. `along`: what is not pinned comes along; `says`: what comes of it."""

    by: int
    along: bool = False
    says: str = ""
    wrong: bool = False


@dataclass(frozen=True)
class LinkHeld:
    """An end of a link in the air, or a new link: from `start` to the pointer at `end`.

    `link`: the link whose end it is (None: a new one); `over`: the step under the pointer; `says`: what a drop here
    does; `wrong`: why it may not be dropped here.
    """

    start: Point
    end: Point
    link: Link | None = None
    over: StepId | None = None
    says: str = ""
    wrong: bool = False


@dataclass(frozen=True)
class BandHeld:
    """A band drawn around bars, from where it was begun to the pointer; `count`: bars inside."""

    start: Point
    end: Point
    count: int = 0


Gesture = PlatingHeld | LinkHeld | BandHeld
