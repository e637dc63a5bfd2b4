"""How bars go from where they were to where they are: who is who, and where each is after a while. No Qt."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from app.timeline.bars import Bar, BarKind
from app.timeline.geometry import Box

LASTS = 0.22
"""Seconds from the old places to the new ones."""
MANY = 400
"""Bars in sight, old and new together, beyond which the two pictures fade over instead."""


class Shown(NamedTuple):
    """A bar that is seen in a box of the widget; `lane`: the id of its lane."""

    lane: str
    bar: Bar
    box: Box


class Moving(NamedTuple):
    """A bar between two boxes. Without `old` it is new and fades in, without `new` it is gone and fades out.

    `merges`: it is gone too, into the box of another bar of its load.
    """

    bar: Bar
    old: Box | None
    new: Box | None
    merges: bool = False


@dataclass(frozen=True)
class Glide:
    """All bars on their way, and whether there are so many that the pictures fade over instead."""

    moving: tuple[Moving, ...] = field(default=())
    fades: bool = False

    def at(self, share: float) -> list[tuple[Bar, Box, float]]:
        """Return each bar's box and how much of it is seen (0 to 1) after a share of the time, gone ones first."""
        done = eased(share)
        found = []
        for bar, old, new, merges in self.moving:
            if old is not None and new is not None:
                found.append((bar, between(old, new, done), max(0.0, 1.0 - share) if merges else 1.0))
            elif old is not None:
                found.append((bar, old, max(0.0, 1.0 - 2.0 * share)))
            elif new is not None:
                found.append((bar, new, max(0.0, min(1.0, 2.0 * share - 1.0))))
        return found

    @property
    def goes(self) -> bool:
        """Tell whether there is anything to be seen of it."""
        return self.fades or any(old != new or merges for _bar, old, new, merges in self.moving)


def eased(share: float) -> float:
    """Return how far on the way a bar is after a share of the time: fast at first, then slower (cubic ease-out)."""
    return 1.0 - (1.0 - max(0.0, min(1.0, share))) ** 3


def between(old: Box, new: Box, done: float) -> Box:
    """Return the box that has gone so far (0 to 1) from one to the other; at the ends exactly those."""
    if done <= 0.0:
        return old
    if done >= 1.0:
        return new
    return Box(
        old.x + (new.x - old.x) * done,
        old.y + (new.y - old.y) * done,
        old.w + (new.w - old.w) * done,
        old.h + (new.h - old.h) * done,
    )


def family(bar: Bar) -> Hashable:
    """Return what bars have in common that may become each other: their load, or else the place or vessel."""
    return bar.key or (bar.kind, bar.vessel, bar.station)


def glide_of(before: Sequence[Shown], after: Sequence[Shown], sight: Box) -> Glide:
    """Return how the bars of one picture become those of another; what is out of sight in both is left out.

    A bar is the same one where it stands for the same thing: the same load, hands, fire, washing. What is left of a
    load is taken from any of its bars: hands come out of the step's bar and go back into it.
    """
    if sum(each.box.meets(sight) for each in (*before, *after)) > MANY:
        return Glide(fades=True)
    moving = [
        each
        for each in _paired(before, after)
        if any(box is not None and box.meets(sight) for box in (each.old, each.new))
    ]
    moving.sort(key=lambda each: (each.new is not None and not each.merges, each.old is None))  # gone ones lie below
    return Glide(tuple(moving))


def _paired(before: Sequence[Shown], after: Sequence[Shown]) -> list[Moving]:
    left = dict(_numbered(before))
    loads_before, loads_after = _by_load(before), _by_load(after)
    found: list[Moving] = []
    for name, each in _numbered(after):
        known = left.pop(name, None) or loads_before.get(each.bar.key)  # or it comes out of a bar of its load
        found.append(Moving(each.bar, None if known is None else known.box, each.box))
    for gone in left.values():
        into = loads_after.get(gone.bar.key)
        found.append(Moving(gone.bar, gone.box, None if into is None else into.box, into is not None))
    return found


def _numbered(shown: Sequence[Shown]) -> Iterator[tuple[object, Shown]]:
    """Yield each bar under a name that it also bears in the other picture: what it is, and its number among those."""
    counts: dict[object, int] = {}
    for each in sorted(shown, key=lambda one: (one.bar.start, one.bar.row)):
        bar = each.bar
        where = each.lane.partition(":")[0] if bar.kind is BarKind.CHORE else ""
        name = (bar.kind, bar.key, bar.vessel, where, bar.station if bar.key is None else None)
        number = counts[name] = counts.get(name, 0) + 1
        yield (name, number), each


def _by_load(shown: Sequence[Shown]) -> dict[object, Shown]:
    """Return for each load the bar that stands for it: its own before those of hands and waits."""
    found: dict[object, Shown] = {}
    for each in shown:
        key = each.bar.key
        known = found.get(key)
        if key is not None and (known is None or (each.bar.kind is BarKind.STEP is not known.bar.kind)):
            found[key] = each
    return found
