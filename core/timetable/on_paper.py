"""The timetable as a cook counts it back on paper: every step as late as its waits allow, whoever is free.

It says nothing of what collides: that is what the validator finds in it and what arranging mends. Steps are done in
the way chosen, or as they are written, and in one piece; nothing is washed; fires are lit as needed.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from core.plan import meaning
from core.plan.fits import barred
from core.plan.ids import CookId, StationId, StepId
from core.plan.kitchen import HEATED, Station
from core.plan.menu import Link, LinkKind
from core.plan.network import back_timed
from core.plan.plan import Plan
from core.plan.step import Step, Use
from core.timetable.so_far import LONG_AGO
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable
from core.timetable.warming import heat_up_minutes


def on_paper(plan: Plan) -> Timetable:
    """Return the back-timed timetable; places and cooks are taken in turn, free or not."""
    return _OnPaper(plan).timetable()


class _OnPaper:
    """Places as they come, the least busy one first."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.busy: dict[tuple[StationId, int | None], list[tuple[int, int, int]]] = {}
        self.working: dict[CookId, list[tuple[int, int]]] = {cook.id: [] for cook in plan.kitchen.cooks}

    def timetable(self) -> Timetable:
        """Return it."""
        starts = back_timed(self.plan)
        placed = [self._placed(key[0], key[1], start) for key, start in sorted(starts.items(), key=_by_start)]
        at = {each.key: each for each in placed}
        stays = [stay for link in self.plan.menu.links for stay in self._link_stays(link, at)]
        stays += [stay for step in self.plan.steps.values() for stay in self._kept(step, at)]
        heatings = [*self._heatings(placed), *self._fires(placed, stays)]
        return Timetable(tuple(placed), tuple(stays), tuple(heatings))

    def _placed(self, step_id: StepId, load: int, start: int) -> Placed:
        step = self.plan.steps[step_id]
        way = meaning.ways_open(self.plan, step)[0]
        length = meaning.reserved(self.plan, step.id, way).length
        _span, uses = meaning.way_of(self.plan, step, way)
        outs = barred(self.plan.kitchen, step, uses)
        spots = tuple(
            spot
            for use, out in zip(uses, outs, strict=True)
            for spot in self._spots(use, start, start + length, out.stations)
        )
        heat = meaning.heat_of(self.plan, step, way)
        hands = tuple(
            Hand(start + hand.start, hand.minutes, cook)
            for hand in meaning.hands_of(self.plan, step, length, way)
            for cook in self._cooks(hand.skill, hand.people, start + hand.start, hand.minutes)
        )
        return Placed(step.id, start, length, load, spots, heat.setting if heat else None, hands, way)

    def _spots(self, use: Use, start: int, end: int, out: Collection[StationId] = ()) -> list[Spot]:
        stations = [each for each in self.plan.kitchen.of_kind(use.kind) if use.station in (None, each.id)]
        stations = [each for each in stations if each.id not in out]
        slots = [
            (station, shelf)
            for station in stations
            for shelf in (range(len(station.shelves)) if station.shelves else (None,))
            if shelf is None or _fits(station, shelf, use)
        ]
        slots.sort(key=lambda slot: self._load((slot[0].id, slot[1]), start, end))
        found: list[Spot] = []
        left = use.units
        for station, shelf in slots:
            units = min(left, station.units) if shelf is None else left
            found.append(Spot(station.id, units, shelf))
            self.busy.setdefault((station.id, shelf), []).append((start, end, use.area or units))
            left -= units
            if left <= 0:
                break
        return found

    def _load(self, slot: tuple[StationId, int | None], start: int, end: int) -> int:
        return sum(
            units for begin, finish, units in self.busy.get(slot, ()) if begin < end and start < finish
        )

    def _cooks(self, skill: str, people: int, start: int, minutes: int) -> list[CookId | None]:
        able = [cook.id for cook in self.plan.kitchen.cooks if not skill or skill in cook.skills]
        able.sort(key=lambda cook: sum(a < start + minutes and start < b for a, b in self.working[cook]))
        chosen: list[CookId | None] = [*able[:people]]
        for cook in able[:people]:
            self.working[cook].append((start, start + minutes))
        return chosen + [None] * (people - len(chosen))

    def _link_stays(self, link: Link, at: dict[tuple[StepId, int], Placed]) -> list[Stay]:
        if link.wait.use is None or link.kind is not LinkKind.END_TO_START:
            return []
        before = [
            each for key, each in sorted(at.items(), key=lambda one: one[0][1]) if key[0] == link.before
        ]
        after = [each for key, each in sorted(at.items(), key=lambda one: one[0][1]) if key[0] == link.after]
        pairs = (
            list(zip(before, after, strict=True))
            if len(before) == len(after) > 1
            else [(before[0], after[-1])]
        )
        return [
            self._stay(one, link.after, one.end, other.start, link.wait.use)
            for one, other in pairs
            if other.start > one.end
        ]

    def _kept(self, step: Step, at: dict[tuple[StepId, int], Placed]) -> list[Stay]:
        keep = meaning.keep_of(self.plan, step)
        first = at[step.id, 0]
        course = self.plan.dish_of[step.id].course
        if keep is None or keep.wait.use is None or course <= first.end:
            return []
        return [self._stay(first, None, first.end, course, keep.wait.use)]

    def _stay(self, placed: Placed, after: StepId | None, start: int, end: int, use: Use) -> Stay:
        setting = use.heat.setting if use.heat else None
        spots = tuple(self._spots(use, start, end))
        return Stay(placed.step, after, start, end, placed.load, spots=spots, setting=setting)

    def _heatings(self, placed: list[Placed]) -> list[Heating]:
        found = []
        for station in self.plan.kitchen.stations:
            if station.heater is None or station.kind not in HEATED or not station.heater.from_cold:
                continue
            inside = sorted(
                (each.start, each.end, each.setting)
                for each in placed
                if each.setting is not None and any(spot.station == station.id for spot in each.spots)
            )
            out: int | None = None
            for start, end, setting in inside:
                if out is None or start > out + station.heater.keep_on:
                    begins = start - heat_up_minutes(station.heater, setting)
                    cook = next(iter(self._cooks("", 1, begins, 1)), None)
                    found.append(Heating(station.id, begins, start, setting, cook))
                out = end if out is None else max(out, end)
        return found

    def _fires(self, placed: list[Placed], stays: list[Stay]) -> Iterator[Heating]:
        """Light a fire for whatever comes first, and another where that has burnt out, as often as it may be lit."""
        for station in self.plan.kitchen.stations:
            if not station.is_fire:
                continue
            things = [(each.start, each.end, each.spots) for each in placed]
            things += ((each.start, each.end, each.spots) for each in stays)
            there = sorted(each[:2] for each in things if any(spot.station == station.id for spot in each[2]))
            left, until = station.fires, LONG_AGO
            for start, end in there:
                while until < end and left > 0:
                    ready = max(start, until)
                    yield self._fire(station, ready)
                    until, left = (ready + station.burns, left - 1) if station.burns is not None else (end, 0)

    def _fire(self, station: Station, ready: int) -> Heating:
        begins, laying = ready - station.lighting, min(station.laying, station.lighting)
        cook = next(iter(self._cooks("", 1, begins, laying)), None) if laying else None
        return Heating(station.id, begins, ready, 0, cook)


def _by_start(item: tuple[tuple[StepId, int], int]) -> tuple[int, tuple[StepId, int]]:
    return item[1], item[0]


def _fits(station: Station, shelf: int, use: Use) -> bool:
    place = station.shelves[shelf]
    return use.area <= place.area and use.height <= place.height and (shelf == 0 or not use.raw)
