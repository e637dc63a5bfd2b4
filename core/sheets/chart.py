"""Lanes along the clock: a station's racks, a burner each, a fridge's shelves."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from core.plan.plan import Plan
from core.sheets.words import mark_at

_HOUR = 60
_MOST_MARKS = 14


@dataclass(frozen=True, slots=True)
class Block:
    """Something in a lane during [start, end), minutes from plating; `tall` lanes high; `dark` to be seen first.

    `shorter` are labels for blocks with no room for the whole one, the longest first; `until` the minute to which its
    lanes stay free after it, where a label may stand that does not fit inside.
    """

    start: int
    end: int
    label: str
    tall: int = 1
    dark: bool = False
    shorter: tuple[str, ...] = ()
    until: int = 0


@dataclass(frozen=True, slots=True)
class Lane:
    """A lane with its name ("" where it goes on with the one above) and what stands in it."""

    name: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Chart:
    """From hour to hour, with the hours marked and the lanes from top to bottom."""

    start: int
    end: int
    hours: tuple[tuple[int, str], ...]
    lanes: tuple[Lane, ...]


def chart(plan: Plan, start: int, end: int, lanes: Iterable[Lane]) -> Chart:
    """Return a chart from the hour before `start` to the hour after `end`; blocks are cut to it."""
    start -= plan.wall(start).minute
    end += -(end - start) % _HOUR
    end = max(end, start + 2 * _HOUR)
    every = -(-(end - start) // (_HOUR * _MOST_MARKS)) * _HOUR
    hours = tuple((at, mark_at(plan, at)) for at in range(start, end + 1, every))
    return Chart(start, end, hours, _with_room([_cut(lane, start, end) for lane in lanes], end))


def _cut(lane: Lane, start: int, end: int) -> Lane:
    return replace(
        lane,
        blocks=tuple(
            replace(each, start=max(each.start, start), end=min(each.end, end))
            for each in lane.blocks
            if each.start < end and each.end > start
        ),
    )


def _with_room(lanes: Sequence[Lane], end: int) -> tuple[Lane, ...]:
    """Tell each block until when nothing follows it in its lanes."""
    whole = [(number, block) for number, lane in enumerate(lanes) for block in lane.blocks]

    def until(number: int, block: Block) -> int:
        later = [
            each.start
            for at, each in whole
            if each.start >= block.end and at < number + block.tall and number < at + each.tall
        ]
        return min(later, default=end)

    return tuple(
        replace(lane, blocks=tuple(replace(block, until=until(number, block)) for block in lane.blocks))
        for number, lane in enumerate(lanes)
    )


def stacked(name: str, blocks: Sequence[Block], least: int) -> list[Lane]:
    """Return at least so many lanes in which no two blocks meet; a tall one takes as many lanes side by side."""
    free = [-(10**9)] * least
    lanes: list[list[Block]] = [[] for _ in range(least)]
    for block in sorted(blocks, key=lambda each: (each.start, -each.tall)):
        tall = max(1, block.tall)
        places = range(len(free) - tall + 1)
        at = next((n for n in places if max(free[n : n + tall]) <= block.start), None)
        if at is None:
            at = len(free)
            free += [-(10**9)] * tall
            lanes += [[] for _ in range(tall)]
        free[at : at + tall] = [block.end] * tall
        lanes[at].append(block)
    return [Lane(name if number == 0 else "", tuple(own)) for number, own in enumerate(lanes)]
