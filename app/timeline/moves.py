"""The picture of moves: where bars stood in another timetable, beside where they stand in the one shown. No Qt."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from app.timeline.bars import Bar, BarKind, Key, Lane
from app.timeline.geometry import Box
from app.timeline.lanes import Reading, lanes_of
from app.timeline.scene import Scene
from core.plan.ids import CookId, StationId
from core.plan.plan import Plan
from core.timetable.changes import Moved, changes
from core.timetable.timetable import Placed, Timetable

_READINGS_OF_HANDS = frozenset({"cook"})
MOST_ARROWS = 80
"""Arrows in sight; beyond, only what moved furthest has one."""
_FURTHEST = 10**9
_NEAR = 8.0
"""Points of a way too short for an arrow."""


@dataclass(frozen=True, slots=True)
class Ghost:
    """A bar as it was (None: it is new) in a lane of those shown, and as it is (None: it is gone)."""

    key: Key
    lane: int = -1
    bar: Bar | None = None
    to_lane: int = -1
    to: Bar | None = None


class Compared:
    """Another timetable, with its plan, that the one shown is compared with; knows its ghosts in the lanes shown."""

    def __init__(self, plan: Plan, timetable: Timetable) -> None:
        """Take what is compared with."""
        self.plan, self.timetable = plan, timetable
        self._known: tuple[tuple[Lane, ...], tuple[Ghost, ...]] | None = None

    def ghosts(self, scene: Scene) -> tuple[Ghost, ...]:
        """Return what stands otherwise, worked out once for the lanes of a scene."""
        if self._known is None or self._known[0] is not scene.lanes:
            moved = {(each.step, each.load) for each in changes(self.timetable, scene.timetable)}
            reading: Reading = scene.reading  # type: ignore[assignment]  # a scene is staged with a Reading
            before = lanes_of(self.plan, self.timetable, reading, scene.axis.low, scene.axis.high) if moved else ()
            self._known = (scene.lanes, ghosts(before, scene.lanes, moved, reading in _READINGS_OF_HANDS))
        return self._known[1]


@dataclass(frozen=True, slots=True)
class Move:
    """What a load did between two timetables. `minutes`: its start moved by, later is positive.

    `station` and `cooks`: before and after, where they differ; `length`: minutes that it takes more.
    """

    key: Key
    before: Placed | None
    after: Placed | None
    minutes: int = 0
    length: int = 0
    station: tuple[StationId | None, StationId | None] | None = None
    cooks: tuple[tuple[CookId, ...], tuple[CookId, ...]] | None = None

    @property
    def weight(self) -> tuple[int, int]:
        """Return how much it moved, for an order: new and gone ones first, then by minutes, then by what else."""
        if self.before is None or self.after is None:
            return _FURTHEST, 0
        return abs(self.minutes), abs(self.length) + int(self.station is not None) + int(self.cooks is not None)


def moves(before: Timetable, after: Timetable) -> list[Move]:
    """Return what starts, lasts or stands otherwise, or is new or gone; the furthest moved first.

    A touch at another minute is no move, nor is another rack or ring of one station.
    """
    found = [move for each in changes(before, after) if (move := _move(each)).weight != (0, 0)]
    return sorted(found, key=lambda each: (tuple(-part for part in each.weight), _start(each), each.key))


def ghosts(before: Sequence[Lane], after: Sequence[Lane], moved: set[Key], hands: bool) -> tuple[Ghost, ...]:
    """Return the old and new bars of loads that moved, each old one with where it went.

    `hands`: in this reading the hands are what is read; else they go with their steps, and only those that went to
    another cook are shown.
    """
    lanes = {lane.id: at for at, lane in enumerate(after)}
    olds, news = _by_key(before, moved, hands), _by_key(after, moved, hands)
    found: list[Ghost] = []
    for key in dict.fromkeys([*olds, *news]):
        left = list(news.get(key, ()))
        for lane, bar in _first_same_lane(olds.get(key, []), left):
            to = _partner(lane, bar, left)
            if to is not None:
                left.remove(to)
            if lane not in lanes or (to is not None and _stands(lane, bar, to, hands)):
                continue
            # in which row of a lane it is packed says nothing: it stood in the row where it stands now
            same = to is not None and to[0] == lane
            stood = replace(bar, row=to[1].row, rows=to[1].rows) if same and to is not None else bar
            ghost = Ghost(key, lanes[lane], _inside(stood, after[lanes[lane]]))
            found.append(ghost if to is None else replace(ghost, to_lane=lanes[to[0]], to=to[1]))
        if key not in olds:
            found += (Ghost(key, to_lane=lanes[lane], to=bar) for lane, bar in left)
    return tuple(found)


def arrow(old: Box, new: Box) -> tuple[float, float, float, float] | None:
    """Return from where to where an arrow goes: through the room that was left, to the near edge; None: too short."""
    later = new.x + new.w / 2 >= old.x + old.w / 2
    x, to_x = (old.x, new.x) if later else (old.right, new.right)
    y, to_y = old.y + old.h / 2, new.y + new.h / 2
    if abs(to_y - y) <= 1.0:  # along the lower edge, so that what is written in the bars is read
        y = to_y = old.bottom - min(5.0, old.h / 3)
        return None if abs(to_x - x) < _NEAR else (x, y, to_x, to_y)
    if abs(to_x - x) < _NEAR:  # straight up or down
        x = to_x = (max(old.x, new.x) + min(old.right, new.right)) / 2
        y, to_y = (old.bottom, new.y) if to_y > y else (old.y, new.bottom)
    return x, y, to_x, to_y


def _move(moved: Moved) -> Move:
    before, after, key = moved.before, moved.after, (moved.step, moved.load)
    if before is None or after is None:
        return Move(key, before, after)
    stations, cooks = (_station(before), _station(after)), (_cooks(before), _cooks(after))
    return Move(
        key,
        before,
        after,
        moved.minutes,
        after.length - before.length,
        stations if stations[0] != stations[1] else None,
        cooks if cooks[0] != cooks[1] else None,
    )


def _station(placed: Placed) -> StationId | None:
    return placed.spots[0].station if placed.spots else None


def _cooks(placed: Placed) -> tuple[CookId, ...]:
    return tuple(sorted({hand.cook for hand in placed.hands if hand.cook is not None}))


def _start(move: Move) -> int:
    placed = move.after or move.before
    return placed.start if placed is not None else 0


_Standing = tuple[str, Bar]
"""The id of a lane and a bar in it."""


def _by_key(lanes: Sequence[Lane], moved: set[Key], hands: bool) -> dict[Key, list[_Standing]]:
    found: dict[Key, list[_Standing]] = {}
    for lane in lanes:
        for bar in lane.bars:
            key = bar.key
            if key is not None and key in moved and _shows(bar, hands):
                found.setdefault(key, []).append((lane.id, bar))
    return found


def _stands(lane: str, bar: Bar, to: _Standing, hands: bool) -> bool:
    """Tell whether an old bar and its partner need no picture: they are where they were, or go with their step."""
    if to[0] != lane:
        return False
    goes_along = bar.kind is BarKind.HAND and not hands
    return goes_along or (to[1].start, to[1].end) == (bar.start, bar.end)


def _shows(bar: Bar, hands: bool) -> bool:
    return bar.kind is BarKind.STEP or (bar.kind is BarKind.HAND and (hands or bar.full))


def _first_same_lane(olds: list[_Standing], news: list[_Standing]) -> Iterator[_Standing]:
    """Hand out first the old bars whose lane has a new one: these stay where they are for their partners."""
    there = {lane for lane, _bar in news}
    yield from (each for each in olds if each[0] in there)
    yield from (each for each in olds if each[0] not in there)


def _partner(lane: str, bar: Bar, left: list[_Standing]) -> _Standing | None:
    alike = [each for each in left if each[1].kind is bar.kind]
    return next((each for each in alike if each[0] == lane), alike[0] if alike else None)


def _inside(bar: Bar, lane: Lane) -> Bar:
    """Return an old bar in rows that its lane has now."""
    return bar if bar.crowned else replace(bar, row=max(0, min(bar.row, lane.rows - bar.rows)))
