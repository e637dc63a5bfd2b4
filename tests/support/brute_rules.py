"""A search that tries every way, start, cut, fire and washing of a tiny plan; none of the scheduler's code.

For plans of one burner, one grill, one oven without temperatures to change, one kind of vessel, cooks without skills
or nights; no shelves, pins, orders, clock times. `found` says whether there is a day; what it finds is a timetable.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, product

from core.plan import calendar, meaning
from core.plan.ids import CookId, StationId
from core.plan.kitchen import Station, Vessel
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.runs import Run, vessel_runs
from core.plan.step import Attention, Step
from core.timetable.timetable import Hand, Heating, Placed, Spot, Timetable, Washing

MOST_TRIED = 150_000


class TooMany(Exception):
    """There was more to try than time allows."""


@dataclass(frozen=True)
class Job:
    """One load done in one way from one minute on, with the minutes of its hands (from, to).

    `minutes` are its work without the pauses between pieces, `usual` those that it would take if nothing were full.
    """

    step: Step
    load: int
    way: int
    start: int
    end: int
    hands: tuple[tuple[int, int], ...]
    station: StationId | None
    minutes: int
    usual: int

    @property
    def key(self) -> tuple[str, int]:
        """Return step and load."""
        return (self.step.id, self.load)


@dataclass(frozen=True)
class Work:
    """Minutes for one cook, in a place of the house (None: anywhere), for a job or a chore."""

    start: int
    end: int
    place: str | None
    of: object


@dataclass
class Tiny:
    """One search."""

    plan: Plan
    tried: int = 0

    def __post_init__(self) -> None:
        """Read the plan."""
        assert self.plan.opens is not None
        self.low: int = self.plan.opens
        kitchen = self.plan.kitchen
        self.station_of = {each.kind: each for each in kitchen.stations}
        assert len(self.station_of) == len(kitchen.stations)
        self.away = {each.id: calendar.absences(self.plan, each, -1000, 1000) for each in kitchen.cooks}
        self.keys = [
            (step, load)
            for dish in self.plan.menu.dishes
            for step in dish.steps
            for load in range(meaning.load_count(dish, step))
        ]

    def found(self) -> Timetable | None:
        """Return a timetable, or None where there is none; raise TooMany."""
        return next(self._from([]), None)

    # ---- jobs

    def _from(self, jobs: list[Job]) -> Iterator[Timetable]:
        if len(jobs) == len(self.keys):
            if self._full_as_long(jobs):
                yield from self._with_chores(jobs)
            return
        step, load = self.keys[len(jobs)]
        for job in self._jobs(step, load):
            self.tried += 1
            if self.tried > MOST_TRIED:
                raise TooMany
            if self._bears(jobs, job):
                yield from self._from([*jobs, job])

    def _jobs(self, step: Step, load: int) -> Iterator[Job]:
        last = self.plan.dish_of[step.id].course if step.id in self.plan.last_steps else 0
        for way in meaning.ways_open(self.plan, step):
            _span, uses = meaning.way_of(self.plan, step, way)
            station = self.station_of[uses[0].kind] if uses else None
            usual = meaning.reserved(self.plan, step.id, way).length
            lengths = {usual}
            if station is not None and station.heater is not None and station.heater.full:
                lengths.add(meaning.length_when_full(usual, station.heater))
            for length, start in product(sorted(lengths), range(last - 1, self.low - 1, -1)):
                for hands, end in self._hands(step, way, start, length, last):
                    yield Job(
                        step, load, way, start, end, hands, station.id if station else None, length, usual
                    )

    def _hands(
        self, step: Step, way: int, start: int, length: int, last: int
    ) -> Iterator[tuple[tuple[tuple[int, int], ...], int]]:
        if start + length > last:
            return
        whole = tuple(
            (start + each.start, start + each.start + each.minutes)
            for each in meaning.hands_of(self.plan, step, length, way)
            for _person in range(each.people)
        )
        yield whole, start + length
        if step.attention is Attention.HANDS_ON and meaning.most_pieces(step, length) > 1:
            for pieces in _cuts(start, length, step.least_piece or 1, last):
                if len(pieces) > 1:
                    yield pieces, pieces[-1][1]

    def _bears(self, jobs: list[Job], new: Job) -> bool:
        """Tell whether a job goes with those before it: room, loads, links, ways, keeping."""
        for other in jobs:
            if other.step is new.step:
                if other.way != new.way:
                    return False
                pause = new.step.loads.change_over if new.step.loads else 0
                if other.load == new.load - 1 and new.start < other.end + pause:
                    return False
        keep = meaning.keep_of(self.plan, new.step)
        early = meaning.reserved(self.plan, new.step.id, new.way).early
        course = self.plan.dish_of[new.step.id].course
        if (
            new.load == 0
            and keep is not None
            and keep.most is not None
            and new.end - early < course - keep.most
        ):
            return False
        every = [*jobs, new]
        return (
            self._room(every, new)
            and self._not_both(every, new)
            and self._vessels_in_use(every)
            and all(self._link(every, link) for link in self.plan.menu.links)
        )

    def _room(self, jobs: list[Job], new: Job) -> bool:
        if new.station is None:
            return True
        units = self.plan.kitchen.station[new.station].units
        here = [each for each in jobs if each.station == new.station]
        return all(
            sum(_units(self.plan, each) for each in here if each.start <= at < each.end) <= units
            for at in range(new.start, new.end)
        )

    def _not_both(self, jobs: list[Job], new: Job) -> bool:
        return not any(
            _overlap((each.start, each.end), (new.start, new.end))
            for each in jobs
            if each.station and new.station and self._one_machine(each.station, new.station)
        )

    def _one_machine(self, one: StationId, other: StationId) -> bool:
        station = self.plan.kitchen.station
        return one != other and (other in station[one].not_with or one in station[other].not_with)

    def _link(self, jobs: list[Job], link: Link) -> bool:
        before = [each for each in jobs if each.step.id == link.before]
        after = [each for each in jobs if each.step.id == link.after]
        counts = [
            sum(1 for step, _load in self.keys if step.id == each) for each in (link.before, link.after)
        ]
        if [len(before), len(after)] != counts:  # not all of them there yet
            return True
        if link.kind is LinkKind.START_TO_START:
            return _within(link, after[0].start - before[0].start)
        if link.kind is LinkKind.END_TO_END:
            return _within(link, after[-1].end - before[-1].end)
        if len(before) == len(after) > 1:
            return all(self._feeds(link, [one], [other]) for one, other in zip(before, after, strict=True))
        return self._feeds(link, before, after)

    def _feeds(self, link: Link, before: list[Job], after: list[Job]) -> bool:
        early = meaning.reserved(self.plan, link.before, before[0].way).early
        if after[0].start - before[-1].end < link.least:
            return False
        return link.most is None or after[-1].start - (before[0].end - early) <= link.most

    def _full_as_long(self, jobs: list[Job]) -> bool:
        for job in jobs:
            station = self.plan.kitchen.station[job.station] if job.station else None
            if station is None or station.heater is None or not station.heater.full:
                continue
            full = any(self._full_at(jobs, station, at) for at in range(job.start, job.end))
            wanted = meaning.length_when_full(job.usual, station.heater) if full else job.usual
            if job.minutes != wanted:
                return False
        return True

    def _full_at(self, jobs: list[Job], station: Station, at: int) -> bool:
        inside = [each for each in jobs if each.station == station.id and each.start <= at < each.end]
        dishes = {self.plan.dish_of[each.step.id].id for each in inside}
        return sum(_units(self.plan, each) for each in inside) >= station.units and len(dishes) > 1

    # ---- vessels

    def _runs(self, jobs: list[Job]) -> list[tuple[Run, int, int]]:
        found = []
        for run in vessel_runs(self.plan):
            own = [each for each in jobs if each.step.id in run.steps]
            if own:
                found.append((run, min(each.start for each in own), max(each.end for each in own)))
        return found

    def _vessels_in_use(self, jobs: list[Job], washed: dict[Run, int] | None = None) -> bool:
        """Tell whether no more vessels are in use than there are; `washed`: when those of each run are clean."""
        held = [
            (run, start, end if washed is None else washed.get(run, 10**6))
            for run, start, end in self._runs(jobs)
        ]
        for run, start, _end in held:
            there = sum(each.count for each, begins, ends in held if begins <= start < ends)
            if there > self.plan.kitchen.vessel[run.vessel].count:
                return False
        return True

    def _washings(self, jobs: list[Job]) -> Iterator[list[tuple[Run, Vessel, int]]]:
        """Yield every choice of washings by which the vessels suffice."""
        runs = [(run, self.plan.kitchen.vessel[run.vessel], end) for run, _start, end in self._runs(jobs)]
        free = {run: end for run, vessel, end in runs if not vessel.washing}
        todo = [(run, vessel, end) for run, vessel, end in runs if vessel.washing]
        choices = [[None, *range(end, 1)] for _run, _vessel, end in todo]
        for chosen in product(*choices):
            some = [(run, v, at) for (run, v, _end), at in zip(todo, chosen, strict=True) if at is not None]
            clean = {run: at + vessel.washing for run, vessel, at in some}
            if self._vessels_in_use(jobs, {**free, **clean}):
                yield some

    # ---- fires

    def _fires(self, jobs: list[Job]) -> Iterator[list[tuple[Station, int]]]:
        """Yield every choice of fires (station, ready at) in which each minute of use burns."""
        choices: list[list[tuple[tuple[Station, int], ...]]] = []
        for station in self.plan.kitchen.stations:
            here = [each for each in jobs if each.station == station.id]
            if not station.is_fire or not here:
                continue
            wanted = {at for each in here for at in range(each.start, each.end)}
            some = []
            for count in range(1, station.fires + 1):
                some += [
                    tuple((station, at) for at in ready)
                    for ready in combinations(range(self.low, 1), count)
                    if self._burns(station, ready, wanted)
                ]
            choices.append(some)
        for chosen in product(*choices):
            fires = [each for some in chosen for each in some]
            if all(self._lit_alone(jobs, station, ready) for station, ready in fires):
                yield fires

    def _burns(self, station: Station, ready: tuple[int, ...], wanted: set[int]) -> bool:
        burning = {at for one in ready for at in wanted if at >= one}
        if station.burns is not None:
            burning = {at for one in ready for at in wanted if one <= at < one + station.burns}
        return wanted <= burning

    def _lit_alone(self, jobs: list[Job], station: Station, ready: int) -> bool:
        return not any(
            _overlap((each.start, each.end), (ready - station.lighting, ready))
            for each in jobs
            if each.station and self._one_machine(each.station, station.id)
        )

    # ---- cooks

    def _with_chores(self, jobs: list[Job]) -> Iterator[Timetable]:
        for washings in self._washings(jobs):
            for fires in self._fires(jobs):
                self.tried += 1
                if self.tried > MOST_TRIED:
                    raise TooMany
                by = self._cooks(self._work(jobs, washings, fires))
                if by is not None:
                    yield _timetable(self.plan, jobs, washings, fires, by)

    def _work(
        self, jobs: list[Job], washings: list[tuple[Run, Vessel, int]], fires: list[tuple[Station, int]]
    ) -> list[Work]:
        station = self.plan.kitchen.station
        found = []
        for job in jobs:
            place = station[job.station].place if job.station else None
            found += [Work(start, end, place, job) for start, end in job.hands if end > start]
        for run, vessel, at in washings:
            if vessel.by_hand:
                found.append(Work(at, at + vessel.washing, None, run))
        for grill, ready in fires:
            lit = ready - grill.lighting
            if minutes := min(grill.laying, grill.lighting):
                found.append(Work(lit, lit + minutes, grill.place, (grill.id, ready)))
        return sorted(found, key=lambda each: (each.start, each.end))

    def _cooks(
        self, work: list[Work], at: int = 0, by: tuple[CookId, ...] = ()
    ) -> list[tuple[Work, CookId]] | None:
        if at == len(work):
            return list(zip(work, by, strict=True))
        new = work[at]
        for cook, away in self.away.items():
            if any(_overlap(stretch, (new.start, new.end)) for stretch in away):
                continue
            own = [each for each, who in zip(work, by, strict=False) if who == cook]
            if all(self._apart(each, new) for each in own):
                found = self._cooks(work, at + 1, (*by, cook))
                if found is not None:
                    return found
        return None

    def _apart(self, one: Work, other: Work) -> bool:
        gap = max(other.start - one.end, one.start - other.end)
        elsewhere = one.place is not None and other.place is not None and one.place != other.place
        return gap >= (self.plan.kitchen.walk if elsewhere else 0)


def _cuts(start: int, length: int, least: int, last: int) -> Iterator[tuple[tuple[int, int], ...]]:
    """Yield all ways to cut work that begins at `start` into pieces of `least` or more, done by `last`."""
    if length >= least and start + length <= last:
        yield ((start, start + length),)
    for first in range(least, length - least + 1):
        for then in range(start + first, last):
            for rest in _cuts(then, length - first, least, last):
                yield ((start, start + first), *rest)


def _units(plan: Plan, job: Job) -> int:
    _span, uses = meaning.way_of(plan, job.step, job.way)
    return uses[0].units


def _overlap(one: tuple[int, int], other: tuple[int, int]) -> bool:
    return max(one[0], other[0]) < min(one[1], other[1])


def _within(link: Link, gap: int) -> bool:
    return gap >= link.least and (link.most is None or gap <= link.most)


def _timetable(
    plan: Plan,
    jobs: list[Job],
    washings: list[tuple[Run, Vessel, int]],
    fires: list[tuple[Station, int]],
    by: list[tuple[Work, CookId]],
) -> Timetable:
    placed = tuple(
        Placed(
            job.step.id,
            job.start,
            job.end - job.start,
            job.load,
            (Spot(job.station, _units(plan, job)),) if job.station else (),
            None,
            tuple(Hand(work.start, work.end - work.start, cook) for work, cook in by if work.of is job),
            job.way,
        )
        for job in jobs
    )
    who = {work.of: cook for work, cook in by if not isinstance(work.of, Job)}
    heatings = tuple(
        Heating(station.id, ready - station.lighting, ready, 0, who.get((station.id, ready)))
        for station, ready in fires
    )
    washed = tuple(
        Washing(vessel.id, at, vessel.washing, run.steps[0], who.get(run)) for run, vessel, at in washings
    )
    return Timetable(placed, (), heatings, washed)


def any_day(plan: Plan) -> Timetable | None:
    """Return a timetable of a tiny plan, or None where there is none; raise TooMany."""
    return Tiny(plan).found()
