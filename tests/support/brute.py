"""A search that tries every start, to hold the scheduler against: slow, plain, and none of its code.

Only for tiny plans: one oven at most, burners of one unit, worktop, cooks without skills; no vessels, shelves,
pins, orders or calendars. A bake has its recipe's setting, or one that it shares at that moment with another.
What it finds has been judged by the validator.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil

from core.plan import meaning
from core.plan.ids import CookId, StationId
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Heat, Step
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable

MOST_TRIED = 60_000
EARLIER = 30  # minutes by which an oven may be switched on before it must be


class TooMany(Exception):
    """There was more to try than time allows."""


@dataclass
class Job:
    """One step: where it may begin, at which settings with what lengths, what it needs."""

    step: Step
    latest_end: int
    earliest_end: int
    ways: tuple[tuple[int | None, int], ...]
    burners: int
    heat: Heat | None


@dataclass
class Bond:
    """Minutes between the end (start) of one job and the start (end) of another."""

    one: int
    other: int
    ends: tuple[bool, bool]
    least: int
    most: int | None
    waits: bool


@dataclass
class Laid:
    """A job with its start."""

    start: int
    end: int
    setting: int | None


@dataclass
class Brute:
    """One search."""

    plan: Plan
    jobs: list[Job] = field(default_factory=list)
    bonds: list[Bond] = field(default_factory=list)
    oven: Station | None = None
    burners: tuple[StationId, ...] = ()
    tried: int = 0

    def __post_init__(self) -> None:
        """Read the plan."""
        ovens = self.plan.kitchen.of_kind(StationKind.OVEN)
        assert len(ovens) <= 1
        self.oven = ovens[0] if ovens else None
        self.burners = tuple(each.id for each in self.plan.kitchen.of_kind(StationKind.BURNER))
        for dish in reversed(self.plan.menu.dishes):
            for step in reversed(dish.steps):
                self.jobs.append(self._job(step))
        number = {job.step.id: place for place, job in enumerate(self.jobs)}
        for link in self.plan.menu.links:
            ends = link.kind is not LinkKind.START_TO_START, link.kind is LinkKind.END_TO_END
            most = link.most
            if most is not None and link.kind is LinkKind.END_TO_START:
                most -= meaning.reserved(self.plan, link.before).early
            waits = link.kind is LinkKind.END_TO_START and link.wait.use is not None
            self.bonds.append(Bond(number[link.before], number[link.after], ends, link.least, most, waits))

    def _job(self, step: Step) -> Job:
        assert step.loads is None
        assert not step.vessels
        assert step.latest is None
        dish, kept = self.plan.dish_of[step.id], meaning.reserved(self.plan, step.id)
        heat, keep = meaning.heat_of(self.plan, step), meaning.keep_of(self.plan, step)
        burners = sum(use.units for use in step.uses if use.kind is StationKind.BURNER)
        last, first = 10**6, -(10**6)
        if step.id in self.plan.last_steps:
            last = dish.course
            if keep is not None and keep.most is not None:
                first = dish.course - keep.most + kept.early
        ways: tuple[tuple[int | None, int], ...] = ((None, kept.length),)
        if heat is not None:
            tens = {each for each in range(heat.low, heat.high + 1) if each % 10 == 0}
            degrees = (heat.setting, *sorted(tens - {heat.setting}))
            ways = tuple((each, meaning.length_at(kept.length, heat, each)) for each in degrees)
        return Job(step, last, first, ways, burners, heat)

    def find(self) -> Timetable | None:
        """Return a timetable without clashes, or None where there is none; raise TooMany."""
        return next(self._from(0, []), None)

    def _from(self, at: int, laid: list[Laid]) -> Iterator[Timetable]:
        if at == len(self.jobs):
            found = self._timetable(laid)
            if found is not None:
                yield found
            return
        job, low = self.jobs[at], self.plan.opens
        assert low is not None
        for setting, length in job.ways:
            for start in range(min(job.latest_end, 60) - length, max(low, job.earliest_end - length) - 1, -1):
                self.tried += 1
                if self.tried > MOST_TRIED:
                    raise TooMany
                here = [*laid, Laid(start, start + length, setting)]
                if self._bonds_hold(here) and self._room(here) and self._one_temperature(here):
                    yield from self._from(at + 1, here)

    def _bonds_hold(self, laid: list[Laid]) -> bool:
        newest = len(laid) - 1
        for bond in self.bonds:
            if max(bond.one, bond.other) == newest:
                one, other = laid[bond.one], laid[bond.other]
                gap = (other.end if bond.ends[1] else other.start) - (one.end if bond.ends[0] else one.start)
                if gap < bond.least or (bond.most is not None and gap > bond.most):
                    return False
        return True

    def _room(self, laid: list[Laid]) -> bool:
        newest = laid[-1]
        pieces = [piece for number in range(len(laid)) for piece in self._hands(laid, number)]
        racks = self.oven.units if self.oven is not None else 0
        for minute in range(newest.start, newest.end):
            there = [self.jobs[place] for place, each in enumerate(laid) if each.start <= minute < each.end]
            if sum(job.burners for job in there) > len(self.burners):
                return False
            if sum(job.heat is not None for job in there) > racks:
                return False
            busy = sum(start <= minute < start + minutes for start, minutes in pieces)
            if busy > len(self.plan.kitchen.cooks):
                return False
        return True

    def _hands(self, laid: list[Laid], number: int) -> list[tuple[int, int]]:
        each = laid[number]
        wanted = meaning.hands_of(self.plan, self.jobs[number].step, each.end - each.start)
        return [(each.start + hand.start, hand.minutes) for hand in wanted for _person in range(hand.people)]

    def _one_temperature(self, laid: list[Laid]) -> bool:
        newest, job = laid[-1], self.jobs[len(laid) - 1]
        if job.heat is None:
            return True
        assert self.oven is not None
        heater = self.oven.heater
        for other, each in zip(self.jobs, laid[:-1], strict=False):
            if other.heat is None or each.setting == newest.setting or heater is None:
                continue
            before, after, then = (each, newest, job) if each.start < newest.start else (newest, each, other)
            if after.start < before.end:
                return False
            if then.heat is not None and then.heat.steady:
                assert before.setting is not None
                assert after.setting is not None
                rate = heater.up if after.setting > before.setting else heater.down
                if after.start < before.end + ceil(abs(after.setting - before.setting) / rate):
                    return False
        return True

    # ---- a whole set of starts

    def _timetable(self, laid: list[Laid]) -> Timetable | None:
        for job, each in zip(self.jobs, laid, strict=True):
            if job.heat is not None and each.setting != job.heat.setting and not self._shares(laid, each):
                return None
        for burners in self._named(self._on_burners(laid), 0, {}):
            for sessions in self._heated(self._sessions(laid), 0, []):
                found = self._with_cooks(laid, burners, sessions)
                if found is not None and not clashes(self.plan, found):
                    return found
        return None

    def _shares(self, laid: list[Laid], each: Laid) -> bool:
        """Return whether a bake off its recipe's setting is in the oven with one whose recipe says another."""
        own = next(job.heat for job, other in zip(self.jobs, laid, strict=True) if other is each)
        return any(
            job.heat is not None
            and own is not None
            and job.heat.setting != own.setting
            and other.start < each.end
            and each.start < other.end
            for job, other in zip(self.jobs, laid, strict=True)
        )

    def _on_burners(self, laid: list[Laid]) -> list[tuple[tuple[int, int | None], int, int]]:
        found: list[tuple[tuple[int, int | None], int, int]] = []
        for number, (job, each) in enumerate(zip(self.jobs, laid, strict=True)):
            found += [((number, None), each.start, each.end)] * job.burners
            keep = meaning.keep_of(self.plan, job.step)
            course = self.plan.dish_of[job.step.id].course
            if keep is not None and keep.wait.use is not None and course > each.end:
                found.append(((number, -1), each.end, course))
        for bond in self.bonds:
            start, end = laid[bond.one].end, laid[bond.other].start
            if bond.waits and end > start:
                found.append(((bond.one, bond.other), start, end))
        return found

    def _named(
        self,
        wanted: list[tuple[tuple[int, int | None], int, int]],
        at: int,
        taken: dict[int, StationId],
    ) -> Iterator[dict[tuple[int, int | None], list[StationId]]]:
        if at == len(wanted):
            found: dict[tuple[int, int | None], list[StationId]] = {}
            for place, station in taken.items():
                found.setdefault(wanted[place][0], []).append(station)
            yield found
            return
        _owner, start, end = wanted[at]
        for station in self.burners:
            if all(
                taken[place] != station or wanted[place][1] >= end or wanted[place][2] <= start
                for place in range(at)
            ):
                yield from self._named(wanted, at + 1, {**taken, at: station})

    def _sessions(self, laid: list[Laid]) -> list[tuple[int, int, int]]:
        """Return for each time the oven is cold: not before, hot by, setting."""
        heater = self.oven.heater if self.oven is not None else None
        if heater is None or not heater.from_cold:
            return []
        bakes = [
            (each.start, each.end, each.setting)
            for job, each in zip(self.jobs, laid, strict=True)
            if job.heat is not None
        ]
        found: list[tuple[int, int, int]] = []
        out = -(10**6)
        for start, end, setting in sorted(bakes, key=lambda bake: bake[:2]):
            assert setting is not None
            if start > out + heater.keep_on:
                found.append((max(out, start - up_to(heater, setting) - EARLIER), start, setting))
            out = max(out, end)
        return found

    def _heated(
        self, sessions: list[tuple[int, int, int]], at: int, done: list[tuple[int, int, int]]
    ) -> Iterator[list[tuple[int, int, int]]]:
        if at == len(sessions):
            yield done
            return
        assert self.oven is not None
        assert self.oven.heater is not None
        first, hot, setting = sessions[at]
        for on in range(hot - up_to(self.oven.heater, setting), first - 1, -1):
            yield from self._heated(sessions, at + 1, [*done, (on, hot, setting)])

    def _with_cooks(
        self,
        laid: list[Laid],
        burners: dict[tuple[int, int | None], list[StationId]],
        sessions: list[tuple[int, int, int]],
    ) -> Timetable | None:
        pieces = [(number, *piece) for number in range(len(laid)) for piece in self._hands(laid, number)]
        pieces += [(-1 - number, on, 1) for number, (on, _hot, _setting) in enumerate(sessions)]
        cooks = self._cooks(sorted(pieces, key=lambda piece: piece[1]), [])
        if cooks is None:
            return None
        placed, stays = [], []
        for number, (job, each) in enumerate(zip(self.jobs, laid, strict=True)):
            hands = tuple(
                Hand(start, minutes, cook) for owner, start, minutes, cook in cooks if owner == number
            )
            spots = tuple(Spot(station) for station in burners.get((number, None), ()))
            if job.heat is not None and self.oven is not None:
                spots = (Spot(self.oven.id), *spots)
            placed.append(
                Placed(job.step.id, each.start, each.end - each.start, 0, spots, each.setting, hands)
            )
        for (one, other), stations in burners.items():
            if other is not None:
                after = None if other < 0 else self.jobs[other].step.id
                job = self.jobs[one]
                end = self.plan.dish_of[job.step.id].course if other < 0 else laid[other].start
                spots = tuple(Spot(station) for station in stations)
                stays.append(Stay(job.step.id, after, laid[one].end, end, spots=spots))
        by = {owner: cook for owner, _start, _minutes, cook in cooks}
        oven = self.oven.id if self.oven is not None else StationId("")
        heatings = [Heating(oven, *session, by[-1 - number]) for number, session in enumerate(sessions)]
        return Timetable(tuple(placed), tuple(stays), tuple(heatings))

    def _cooks(
        self, pieces: list[tuple[int, int, int]], done: list[tuple[int, int, int, CookId]]
    ) -> list[tuple[int, int, int, CookId]] | None:
        """Give pieces, in order of time, to whoever is free: with cooks all alike that is exact."""
        for number, start, minutes in pieces:
            free = [
                cook.id
                for cook in self.plan.kitchen.cooks
                if all(other[3] != cook.id or other[1] + other[2] <= start for other in done)
            ]
            if not free:
                return None
            done = [*done, (number, start, minutes, free[0])]
        return done


def up_to(heater: Heater, setting: int) -> int:
    """Return the minutes from cold: along the line through the measured points, past the last one too."""
    points = [(heater.cold, 0), *heater.from_cold]
    for (cool, soon), (hot, late) in pairwise(points):
        if setting <= hot or (hot, late) == points[-1]:
            return ceil(soon + (late - soon) * (setting - cool) / (hot - cool))
    return 0


def any_timetable(plan: Plan) -> Timetable | None:
    """Return a timetable without clashes, or None where there is none; raise TooMany."""
    return Brute(plan).find()
