"""Who holds up whom: arcs between the loads of a timetable, and how places, vessels and cooks give rise to them.

A place with several units passes each unit from one load to the next (a resource flow: Artigues, Michelon and
Reusser 2003, from memory); the unit free for longest goes first, unless the food itself stood there before.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum, StrEnum, auto
from typing import NamedTuple

from core.plan.kitchen import Heater
from core.timetable.warming import change_minutes


class Because(StrEnum):
    """Why one load cannot begin before something of another."""

    LINK = "it follows it"
    LOADS = "load after load"
    ORDER = "the order decided"
    PLACE = "its place"
    HEAT = "the change of temperature"
    NOT_WITH = "one appliance at a time"
    VESSEL = "its vessel"
    HANDS = "the cook's hands"


class From(Enum):
    """What of the earlier load counts: its start, its end, or when its cook is through with the work as planned."""

    START = auto()
    END = auto()
    HANDS = auto()


class Arc(NamedTuple):
    """`after` begins (or ends, `to_end`) not sooner than `minutes` after something of `before`."""

    before: int
    after: int
    minutes: int
    why: Because
    since: From = From.END
    to_end: bool = False


class Ref(NamedTuple):
    """The start or the end of a load, and minutes after it."""

    node: int
    end: bool
    gap: int = 0


@dataclass(frozen=True, slots=True)
class Occupant:
    """Something that takes `amount` of a place from the first of `begins` until the last of `leaves`.

    `enters` are the loads that wait for the place; food that waits enters when it is done, place or no place.
    """

    amount: int
    enters: tuple[int, ...]
    begins: tuple[Ref, ...]
    leaves: tuple[Ref, ...]
    until: int | None = None
    setting: int | None = None
    steady: bool = True

    def span(self, starts: Sequence[int], ends: Sequence[int]) -> tuple[int, int]:
        """Return from when to when it is there as planned."""
        times = [_time(ref, starts, ends) for ref in self.leaves]
        if self.until is not None:
            times.append(self.until)
        return min(_time(ref, starts, ends) for ref in self.begins), max(times)

    def frees(self, other: Occupant, why: Because, gap: int = 0) -> Iterator[Arc]:
        """Give the arcs by which another one waits for this one to be gone."""
        for ref in self.leaves:
            for node in other.enters:
                if ref.node != node:
                    since = From.END if ref.end else From.START
                    yield Arc(ref.node, node, ref.gap + gap, why, since)


@dataclass(frozen=True, slots=True)
class Pool:
    """So many units of a station, so much of a shelf, or so many vessels of a kind."""

    why: Because
    capacity: int
    occupants: tuple[Occupant, ...]

    def arcs(self, starts: Sequence[int], ends: Sequence[int], fed: Sequence[set[int]]) -> list[Arc]:
        """Return who waits for whom; `fed`: for each load the loads that its links make it wait for anyway."""
        found: list[Arc] = []
        free: list[tuple[int, int, Occupant | None]] = [(_LONG_AGO, self.capacity, None)]
        there: list[tuple[int, int, Occupant]] = []
        for begin, end, _number, one in _in_order(self.occupants, starts, ends):
            free += [(left, amount, each) for left, amount, each in there if left <= begin]
            there = [each for each in there if each[0] > begin]
            known = set(one.enters) | {ref.node for ref in one.begins}
            known.update(*(fed[node] for node in one.enters))
            free.sort(key=lambda chunk: (not _own(chunk[2], known), chunk[0]))
            wanted = one.amount
            while wanted > 0 and free:
                left, amount, former = free.pop(0)
                if former is not None:
                    found += former.frees(one, self.why)
                if amount > wanted:
                    free.insert(0, (left, amount - wanted, former))
                wanted -= amount
            there.append((end, one.amount - max(0, wanted), one))
        return found


@dataclass(frozen=True, slots=True)
class Bakes:
    """What stands in one place with a heater, at its settings."""

    heater: Heater
    occupants: tuple[Occupant, ...]

    def arcs(self, starts: Sequence[int], ends: Sequence[int], _fed: Sequence[set[int]]) -> list[Arc]:
        """Return who waits for another setting's bakes to be out and for the change after them."""
        found: list[Arc] = []
        before: list[tuple[int, Occupant]] = []
        inside: list[tuple[int, Occupant]] = []
        for begin, end, _number, one in _in_order(self.occupants, starts, ends):
            if inside and inside[-1][1].setting != one.setting:
                before, inside = inside, []
            for left, former in before:
                if left <= begin and former.setting is not None and one.setting is not None:
                    gap = change_minutes(self.heater, former.setting, one.setting) if one.steady else 0
                    found += former.frees(one, Because.HEAT, gap)
            inside.append((end, one))
        return found


@dataclass(frozen=True, slots=True)
class Apart:
    """Two stations of one appliance that are never used in the same minute."""

    one: tuple[Occupant, ...]
    other: tuple[Occupant, ...]

    def arcs(self, starts: Sequence[int], ends: Sequence[int], _fed: Sequence[set[int]]) -> list[Arc]:
        """Return who waits for what stands in the other station."""
        found: list[Arc] = []
        for firsts, thens in ((self.one, self.other), (self.other, self.one)):
            for first in firsts:
                gone = first.span(starts, ends)[1]
                for then in thens:
                    if gone <= then.span(starts, ends)[0]:
                        found += first.frees(then, Because.NOT_WITH)
        return found


class Work(NamedTuple):
    """A cook at a load: throughout (`whole`) or only when it begins, in which place ("" none)."""

    node: int
    whole: bool
    place: str


@dataclass(frozen=True, slots=True)
class Hours:
    """All that one cook does, and the minutes of walking between places."""

    works: tuple[Work, ...]
    walk: int

    def arcs(self, starts: Sequence[int], ends: Sequence[int], _fed: Sequence[set[int]]) -> list[Arc]:
        """Return what waits for the cook's former work. Touches in passing hold nothing up."""
        found: list[Arc] = []
        last: Work | None = None
        for work in sorted(self.works, key=lambda each: (starts[each.node], ends[each.node], each.node)):
            if last is not None and ends[last.node] <= starts[work.node]:
                away = bool(last.place and work.place and last.place != work.place)
                gap = self.walk if away and ends[last.node] + self.walk <= starts[work.node] else 0
                found.append(Arc(last.node, work.node, gap, Because.HANDS, From.HANDS))
            if work.whole:
                last = work
        return found


Source = Pool | Bakes | Apart | Hours
"""What gives rise to arcs that depend on the order seen on the timetable."""
_LONG_AGO = -(10**9)


def nodes_of(source: Source) -> set[int]:
    """Return the loads whose times make a difference to a source's arcs."""
    if isinstance(source, Hours):
        return {work.node for work in source.works}
    occupants = [*source.one, *source.other] if isinstance(source, Apart) else source.occupants
    return {ref.node for one in occupants for ref in (*one.begins, *one.leaves)}


def _time(ref: Ref, starts: Sequence[int], ends: Sequence[int]) -> int:
    return (ends[ref.node] if ref.end else starts[ref.node]) + ref.gap


def _own(former: Occupant | None, known: set[int]) -> bool:
    return former is not None and all(ref.node in known for ref in former.leaves)


def _in_order(
    occupants: Sequence[Occupant], starts: Sequence[int], ends: Sequence[int]
) -> list[tuple[int, int, int, Occupant]]:
    """Return when each is there, in order of time; what is there for no minute is left out."""
    found = []
    for number, one in enumerate(occupants):
        begin, end = one.span(starts, ends)
        if end > begin:
            found.append((begin, end, number, one))
    return sorted(found, key=lambda each: each[:3])
