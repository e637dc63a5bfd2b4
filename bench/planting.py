"""Plants a timetable while a feast is drawn up, so that the feast is known to be solvable.

Dish by dish, last step first, each step as late as all that was placed before leaves room. Nothing of the
scheduler is used here, and what comes out is judged by the validator.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import ceil
from random import Random
from typing import NamedTuple

from bench.minutes_taken import Taken
from core.plan.calendar import absences
from core.plan.ids import CookId, StationId, StepId
from core.plan.kitchen import Station, StationKind
from core.plan.meaning import HandsAt, hands_of, keep_of, length_at, load_count, reserved
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.runs import Run, vessel_runs
from core.plan.step import Step, Use
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Washing

AREA = 50
"""Shelves are booked in pieces of so many cm2."""
LOOK_BACK = 8 * 60
"""A start by chance lies at most so many minutes before the latest one, late ones more likely."""
UNWASHED = -60
"""What is empty after this minute is washed after the feast."""
WASHED_WITHIN = 8 * 60

NOWHERE: tuple[StationId, int | None] = (StationId(""), None)


class NoRoomError(Exception):
    """Something found no place."""


class Bake(NamedTuple):
    """What stands in an oven: from, to, setting in °C, and whether it minds a change to this setting."""

    start: int
    end: int
    setting: int
    steady: bool


class Way(NamedTuple):
    """One way to place a step: minutes of a load, and where."""

    length: int
    station: Station | None = None
    shelf: int | None = None
    setting: int | None = None


class Wanted(NamedTuple):
    """A place on a shelf for food that waits until `end`; `after` None: until it is served."""

    use: Use
    after: StepId | None
    end: int


@dataclass
class Planted:
    """What one dish got. `taken` is what to give back when the rest of the dish finds no place."""

    placed: dict[StepId, list[Placed]] = field(default_factory=dict)
    stays: list[Stay] = field(default_factory=list)
    taken: list[tuple[Taken, int, int, int]] = field(default_factory=list)
    baked: list[tuple[StationId, Bake]] = field(default_factory=list)
    held: dict[Run, tuple[int, int]] = field(default_factory=dict)
    washings: list[Washing] = field(default_factory=list)


class Ground:
    """A kitchen with what is taken of it, minute by minute from `low` to `high`."""

    def __init__(self, empty: Plan, low: int, high: int) -> None:
        self.low, self.high = low, high
        self.kitchen = empty.kitchen
        self.cooks = {cook.id: Taken(low, high, 1) for cook in self.kitchen.cooks}
        for cook in self.kitchen.cooks:
            for start, end in absences(empty, cook, low, high):
                self.cooks[cook.id].take(start, end)
        self.places: dict[tuple[StationId, int | None], Taken] = {}
        for station in self.kitchen.stations:
            self.places[station.id, None] = Taken(low, high, station.units)
            for number, shelf in enumerate(station.shelves):
                self.places[station.id, number] = Taken(low, high, shelf.area // AREA)
        self.vessels = {each.id: Taken(low, high, each.count) for each in self.kitchen.vessels}
        self.bakes: dict[StationId, list[Bake]] = {each.id: [] for each in self.kitchen.stations}

    def take(self, planted: Planted, taken: Taken, start: int, end: int, amount: int = 1) -> None:
        """Take something, to be given back by `give_back`."""
        taken.take(start, end, amount)
        planted.taken.append((taken, start, end, amount))

    def give_back(self, planted: Planted) -> None:
        """Give back all that a dish took."""
        for taken, start, end, amount in planted.taken:
            taken.take(start, end, -amount)
        for station, bake in planted.baked:
            self.bakes[station].remove(bake)

    def plant(self, plan: Plan, dish: Dish, chance: Random) -> Planted:
        """Place one dish anywhere in its waits, rather late than early; raise NoRoomError."""
        planted = Planted()
        runs = vessel_runs(plan)
        try:
            for step in reversed(dish.steps):
                self._plant_step(plan, step, [run for run in runs if step.id in run.steps], planted, chance)
        except NoRoomError:
            self.give_back(planted)
            raise
        return planted

    def _plant_step(
        self, plan: Plan, step: Step, runs: Sequence[Run], planted: Planted, chance: Random
    ) -> None:
        ways = list(self._ways(plan, step))
        windows = {way: _window(plan, step, way.length, planted.placed) for way in ways}
        first, last = min(each[0] for each in windows.values()), max(each[1] for each in windows.values())
        top = last
        if first <= last:
            top -= int(min(last - first, LOOK_BACK) * chance.random() ** 2)
        for start in (*range(top, first - 1, -1), *range(last, top, -1)):
            for way, (first, last) in windows.items():
                if first <= start <= last and self._fits(plan, step, way, start, runs, planted):
                    return
        raise NoRoomError(step.id)

    def _ways(self, plan: Plan, step: Step) -> Iterator[Way]:
        length = reserved(plan, step.id).length
        if not step.uses:
            yield Way(length)
            return
        (use,) = step.uses
        for station in self.kitchen.of_kind(use.kind):
            if station.shelves:
                yield from (Way(length, station, shelf) for shelf in _shelves(station, use))
            elif use.heat is not None:
                shared = {bake.setting for bake in self.bakes[station.id]}
                for setting in (use.heat.setting, *sorted(shared - {use.heat.setting})):
                    if use.heat.low <= setting <= use.heat.high:
                        yield Way(length_at(length, use.heat, setting), station, None, setting)
            else:
                yield Way(length, station)

    def _fits(
        self, plan: Plan, step: Step, way: Way, start: int, runs: Sequence[Run], planted: Planted
    ) -> bool:
        """Take all that a step needs from this start on and return True, or take nothing and return False."""
        starts = _load_starts(plan, step, way.length, start)
        end = starts[-1] + way.length
        if way.station is not None and not all(
            self._station_fits(step.uses[0], way, way.station, each, each + way.length) for each in starts
        ):
            return False
        hands = [self._hands(hands_of(plan, step, way.length), each) for each in starts]
        if any(each is None for each in hands):
            return False
        washings = {run: self._washing(run, end) for run in runs if run not in planted.held}
        extents = {run: self._extent(run, start, planted, washings.get(run)) for run in runs}
        if any(each is None for each in extents.values()):
            return False
        shelved = [(wanted, self._shelf(wanted, starts[0] + way.length)) for wanted in _waits(plan, step, planted)]
        if any(place is None for _wanted, place in shelved):
            return False
        self._take_step(step, way, starts, [each or [] for each in hands], planted)
        for run, extent in extents.items():
            self._take_vessel(run, extent or (start, start), planted, washings.get(run))
        for wanted, place in shelved:
            self._take_stay(step.id, wanted, place or NOWHERE, starts[0] + way.length, planted)
        return True

    def _station_fits(self, use: Use, way: Way, station: Station, start: int, end: int) -> bool:
        amount = -(-use.area // AREA) if way.shelf is not None else use.units
        if not self.places[station.id, way.shelf].room(start, end, amount):
            return False
        if use.heat is None or way.setting is None:
            return True
        bake = Bake(start, end, way.setting, use.heat.steady)
        return all(_bear(each, bake) for each in self.bakes[station.id])

    def _hands(self, needs: tuple[HandsAt, ...], start: int) -> list[Hand] | None:
        found: list[Hand] = []
        for need in needs:
            begins = start + need.start
            cook = self.free_cook(begins, need.minutes, need.skill)
            if cook is None:
                return None
            found.append(Hand(begins, need.minutes, cook))
        return found

    def free_cook(self, start: int, minutes: int, skill: str = "") -> CookId | None:
        """Return a cook who is there, free and skilled, or None."""
        for cook in reversed(self.kitchen.cooks):  # those without skills first
            if skill in ("", *cook.skills) and self.cooks[cook.id].room(start, start + minutes):
                return cook.id
        return None

    def _washing(self, run: Run, emptied: int) -> Washing | None:
        """Return how a run's vessels are washed, the sooner the better; None where that is left for afterwards."""
        minutes = self.kitchen.vessel[run.vessel].washing
        for start in range(emptied, min(emptied + WASHED_WITHIN, UNWASHED)):
            cook = self.free_cook(start, minutes)
            if cook is not None:
                return Washing(run.vessel, start, minutes, run.steps[0], cook)
        return None

    def _extent(
        self, run: Run, start: int, planted: Planted, washing: Washing | None
    ) -> tuple[int, int] | None:
        """Return from when to when a vessel must be taken in addition, or None where there is none left."""
        known = planted.held.get(run)
        until = known[0] if known is not None else washing.end if washing is not None else self.high
        return (start, until) if self.vessels[run.vessel].room(start, until, run.count) else None

    def _shelf(self, wanted: Wanted, start: int) -> tuple[StationId, int | None] | None:
        if start >= wanted.end:
            return NOWHERE  # it does not wait
        for station in self.kitchen.of_kind(wanted.use.kind):
            for shelf in _shelves(station, wanted.use):
                if self.places[station.id, shelf].room(start, wanted.end, -(-wanted.use.area // AREA)):
                    return station.id, shelf
        return None

    def _take_step(
        self, step: Step, way: Way, starts: list[int], hands: list[list[Hand]], planted: Planted
    ) -> None:
        placed: list[Placed] = []
        for load, (start, own) in enumerate(zip(starts, hands, strict=True)):
            end, spots = start + way.length, tuple[Spot, ...]()
            for hand in own:
                if hand.cook is not None:
                    self.take(planted, self.cooks[hand.cook], hand.start, hand.start + hand.minutes)
            if way.station is not None:
                use, place = step.uses[0], self.places[way.station.id, way.shelf]
                spots = (Spot(way.station.id, use.units, way.shelf),)
                self.take(planted, place, start, end, -(-use.area // AREA) if way.shelf is not None else use.units)
                if use.heat is not None and way.setting is not None:
                    bake = Bake(start, end, way.setting, use.heat.steady)
                    self.bakes[way.station.id].append(bake)
                    planted.baked.append((way.station.id, bake))
            placed.append(Placed(step.id, start, way.length, load, spots, way.setting, tuple(own)))
        planted.placed[step.id] = placed

    def _take_vessel(
        self, run: Run, extent: tuple[int, int], planted: Planted, washing: Washing | None
    ) -> None:
        self.take(planted, self.vessels[run.vessel], *extent, run.count)
        if washing is not None and washing.cook is not None:
            self.take(planted, self.cooks[washing.cook], washing.start, washing.end)
            planted.washings.append(washing)
        known = planted.held.get(run, extent)
        planted.held[run] = (extent[0], known[1])

    def _take_stay(
        self, step: StepId, wanted: Wanted, place: tuple[StationId, int | None], start: int, planted: Planted
    ) -> None:
        if start >= wanted.end:
            return
        self.take(planted, self.places[place], start, wanted.end, -(-wanted.use.area // AREA))
        spot = Spot(place[0], wanted.use.units, place[1])
        planted.stays.append(Stay(step, wanted.after, start, wanted.end, spots=(spot,)))


def heatings(ground: Ground, plan: Plan) -> list[Heating]:
    """Return the heatings from cold that the bakes need, each with a free cook; raise NoRoomError."""
    found = []
    for station in plan.kitchen.of_kind(StationKind.OVEN):
        heater, until = station.heater, ground.low
        if heater is None:
            continue
        ((measured, minutes),) = heater.from_cold
        for first, last_end in _sessions(ground.bakes[station.id], heater.keep_on):
            need = ceil((first.setting - heater.cold) * minutes / (measured - heater.cold))
            # It may be switched on sooner than needed when no cook is free just then.
            for start in range(first.start - need, until - 1, -1):
                cook = ground.free_cook(start, 1)
                if cook is not None:
                    break
            else:
                raise NoRoomError(station.id)
            ground.cooks[cook].take(start, start + 1)
            found.append(Heating(station.id, start, first.start, first.setting, cook))
            until = last_end
    return found


def _sessions(bakes: list[Bake], keep_on: int) -> Iterator[tuple[Bake, int]]:
    """Give the first bake and the last end of each stretch without a pause longer than `keep_on`."""
    first, end = None, 0
    for bake in sorted(bakes):
        if first is None or bake.start - end > keep_on:
            if first is not None:
                yield first, end
            first, end = bake, bake.end
        end = max(end, bake.end)
    if first is not None:
        yield first, end


def _bear(one: Bake, other: Bake) -> bool:
    """Return whether two bakes go into one oven: one setting, or time to change it at 5 °C a minute."""
    if one.setting == other.setting:
        return True
    earlier, later = sorted((one, other))
    change = -(-abs(one.setting - other.setting) // 5) if later.steady else 0
    return later.start >= earlier.end + change


def _load_starts(plan: Plan, step: Step, length: int, start: int) -> list[int]:
    count = load_count(plan.dish_of[step.id], step)
    pace = length + (step.loads.change_over if step.loads is not None else 0)
    return [start + load * pace for load in range(count)]


def _window(plan: Plan, step: Step, length: int, placed: dict[StepId, list[Placed]]) -> tuple[int, int]:
    """Return the first and last start of a step; loads of two linked steps never pair in these feasts."""
    dish, early = plan.dish_of[step.id], reserved(plan, step.id).early
    total = _load_starts(plan, step, length, 0)[-1] + length
    first, last = [plan.opens or 0], []
    keep = keep_of(plan, step)
    if step.id in plan.last_steps:
        last.append(dish.course - total)
        if keep is not None and keep.most is not None:
            first.append(dish.course - keep.most + early - length)
    for link in plan.links_from[step.id]:
        following = placed[link.after]
        last.append(following[0].start - link.least - total)
        if link.most is not None:
            first.append(following[-1].start - link.most + early - length)
    return max(first), min(last)


def _waits(plan: Plan, step: Step, planted: Planted) -> list[Wanted]:
    found = [
        Wanted(link.wait.use, link.after, planted.placed[link.after][-1].start)
        for link in plan.links_from[step.id]
        if link.wait.use is not None
    ]
    keep = keep_of(plan, step)
    if keep is not None and keep.wait.use is not None:
        found.append(Wanted(keep.wait.use, None, plan.dish_of[step.id].course))
    return found


def _shelves(station: Station, use: Use) -> range:
    high_enough = [number for number, shelf in enumerate(station.shelves) if shelf.height >= use.height]
    return range(1) if use.raw else range(min(high_enough), len(station.shelves))
