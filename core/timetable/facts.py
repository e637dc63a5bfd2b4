"""What a plan asks of any timetable, step by step: worked out once, kept while its timetables are judged."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from core.plan import calendar
from core.plan.check_words import Words
from core.plan.day import Day, Fact
from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.kitchen import HEATED, Heater, Station, StationKind
from core.plan.meaning import HandsAt, hands_of, keep_of, length_at, load_count, reserved, way_of
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan
from core.plan.runs import Run, vessel_runs
from core.plan.step import Heat, Keep, Step, Use
from core.timetable.so_far import LONG_AGO, dropped_loads, known_loads, without_dropped

DAY = 24 * 60
FAR = 10 * 366 * DAY
"""Minutes from plating beyond which a time is nonsense: such a step is reported and otherwise left out."""


@dataclass(frozen=True, slots=True)
class Need:
    """What a way of a step comes to: loads, reserved minutes of one load, places, keeping until served."""

    step: Step
    dish: Dish
    loads: int
    length: int
    early: int
    uses: tuple[Use, ...]
    keep: Keep | None
    last: bool

    def length_at(self, heat: Heat, setting: int | None) -> int:
        """Return the minutes of one load at a setting in °C of the place that heats it."""
        return self.length if setting is None else length_at(self.length, heat, setting)


class Facts:
    """Answers about a plan alone, and about what has happened so far. Each is worked out when first asked for.

    `plan` is the plan without what was dropped; `now` lies before everything where no day is given.
    """

    def __init__(self, plan: Plan, day: Day | None = None) -> None:
        self.plan = without_dropped(plan, day)
        self.has_day = day is not None
        self.now = LONG_AGO if day is None else day.now
        self.known: dict[tuple[StepId, int], Fact] = known_loads(plan, day)
        self.lit = frozenset((each.station, each.start) for each in day.lit) if day else frozenset()
        self.washed = (
            frozenset((each.vessel, each.after, each.start) for each in day.washed) if day else frozenset()
        )
        self.dropped: frozenset[tuple[StepId, int]] = dropped_loads(plan, day)
        self._whole = plan
        self._needs: dict[tuple[StepId, int], Need] = {}
        self._hands: dict[tuple[StepId, int, int], tuple[HandsAt, ...]] = {}
        self._away: dict[tuple[CookId, int, int], tuple[calendar.Stretch, ...]] = {}
        self._closed: dict[tuple[StationId, int, int], tuple[calendar.Stretch, ...]] = {}

    def need(self, step: StepId, way: int = 0) -> Need:
        """Return what a way of a step of the plan comes to: 0 as it is written, 1 its first alternative."""
        found = self._needs.get((step, way))
        if found is None:
            plan = self.plan
            the_step, dish, held = plan.steps[step], plan.dish_of[step], reserved(plan, step, way)
            _span, uses = way_of(plan, the_step, way)
            keep, last = keep_of(plan, the_step), step in plan.last_steps
            found = Need(the_step, dish, self.loads(step), held.length, held.early, uses, keep, last)
            self._needs[step, way] = found
        return found

    @cached_property
    def load_counts(self) -> dict[StepId, int]:
        """How many loads each step comes to."""
        return {
            step.id: 1 if step.loads is None else load_count(dish, step)
            for dish in self.plan.menu.dishes
            for step in dish.steps
        }

    def loads(self, step: StepId) -> int:
        """Return how many loads a step of the plan comes to."""
        return self.load_counts[step]

    def people(self, step: StepId, length: int, way: int = 0) -> tuple[HandsAt, ...]:
        """Return when a load of this length needs cooks, once for each of them; no minutes: left out."""
        found = self._hands.get((step, length, way))
        if found is None:
            asked = hands_of(self.plan, self.plan.steps[step], length, way)
            found = self._hands[step, length, way] = tuple(
                each for each in asked if each.minutes > 0 for _person in range(each.people)
            )
        return found

    def paired(self, link: Link) -> bool:
        """Return whether load k of the earlier step feeds load k of the later one."""
        loads = self.loads(link.before)
        return loads > 1 and link.kind is LinkKind.END_TO_START and loads == self.loads(link.after)

    def one_place(self, use: Use) -> bool:
        """Return whether all units of a use stand on one station."""
        if use.kind is StationKind.BURNER or use.units <= 1:
            return use.units <= 1
        stations = self.plan.kitchen.of_kind(use.kind)
        single = use.kind in HEATED or use.kind in {StationKind.MACHINE, StationKind.ROOM}
        return single or any(station.shelves or station.units != 1 for station in stations)

    def needs_spot(self, use: Use) -> bool:
        """Return whether a use must stand somewhere: without such places, room temperature is anywhere."""
        return use.kind is not StationKind.ROOM or bool(self.plan.kitchen.of_kind(StationKind.ROOM))

    def absences(self, cook: CookId, low: int, high: int) -> tuple[calendar.Stretch, ...]:
        """Return when a cook is away between two offsets at least (whole days, so that answers are kept)."""
        low, high = low // DAY * DAY, -(-high // DAY) * DAY
        found = self._away.get((cook, low, high))
        if found is None:
            found = calendar.absences(self.plan, self.plan.kitchen.cook[cook], low, high)
            self._away[cook, low, high] = found
        return found

    def closed(self, station: Station, low: int, high: int) -> tuple[calendar.Stretch, ...]:
        """Return when a station is not there between two offsets at least."""
        low, high = low // DAY * DAY, -(-high // DAY) * DAY
        found = self._closed.get((station.id, low, high))
        if found is None:
            found = self._closed[station.id, low, high] = calendar.closed(self.plan, station, low, high)
        return found

    @cached_property
    def words(self) -> Words:
        """The names of the plan's things, those dropped too."""
        return Words(self._whole)

    @cached_property
    def runs(self) -> dict[VesselId, tuple[Run, ...]]:
        """The runs of each vessel."""
        found: dict[VesselId, list[Run]] = {}
        for run in vessel_runs(self.plan):
            found.setdefault(run.vessel, []).append(run)
        return {vessel: tuple(runs) for vessel, runs in found.items()}

    @cached_property
    def vessels_of(self) -> dict[StepId, tuple[VesselId, ...]]:
        """The vessels whose runs each step belongs to."""
        found: dict[StepId, list[VesselId]] = {}
        for vessel, runs in self.runs.items():
            for run in runs:
                for step in run.steps:
                    found.setdefault(step, []).append(vessel)
        return {step: tuple(vessels) for step, vessels in found.items()}

    @cached_property
    def run_of(self) -> dict[tuple[VesselId, StepId], Run]:
        """Runs by their vessel and first step, as washings name them."""
        return {(run.vessel, run.steps[0]): run for runs in self.runs.values() for run in runs}

    @cached_property
    def walk(self) -> int:
        """Minutes between stations in different places; 0 where the kitchen is all in one."""
        places = {station.place for station in self.plan.kitchen.stations}
        return self.plan.kitchen.walk if len(places) > 1 else 0

    @cached_property
    def slower(self) -> dict[StationId, Heater]:
        """Stations in which everything takes longer while they are full, and their heaters.

        One with shelves is filled by area, not by units, and never full in this sense.
        """
        stations = (each for each in self.plan.kitchen.stations if not each.shelves)
        return {each.id: each.heater for each in stations if each.heater is not None and each.heater.full > 0}

    @cached_property
    def kept_steps(self) -> tuple[tuple[StepId, Use], ...]:
        """Last steps whose food waits in a scarce place until it is served."""
        found = []
        for step in self.plan.last_steps:
            keep = keep_of(self.plan, self.plan.steps[step])
            if keep is not None and keep.wait.use is not None:
                found.append((step, keep.wait.use))
        return tuple(found)

    @cached_property
    def waiting_links(self) -> tuple[tuple[Link, Use], ...]:
        """Links whose food waits in a scarce place, and what it takes there."""
        return tuple(
            (link, link.wait.use)
            for link in self.plan.menu.links
            if link.kind is LinkKind.END_TO_START and link.wait.use is not None
        )
