"""A project as a plan: activities are hands-off steps, resources stations of so many units, the end is plating.

Each activity is a dish of its own that is not served, so only a step "Begin" before all of them is wished to be late:
what the scheduler makes small is the makespan and nothing else. Lags are start-to-start links, since those bear no
price for waiting. "Begin" keeps for a limited time, which bounds the project's length.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from bench.project import Lag, Project
from core.measures.clock import parse_moment
from core.plan.decisions import Decisions, Wishes
from core.plan.ids import DishId, StationId, StepId
from core.plan.kitchen import Kitchen, Station, StationKind
from core.plan.menu import Dish, Link, LinkKind, Menu
from core.plan.plan import Plan
from core.plan.step import Attention, Keep, Span, Step, Use
from core.timetable.timetable import Timetable

BEGIN = StepId("begin.begin")
_PLATING = "2026-09-26 19:30"


def plan_of(project: Project, most: int | None = None) -> Plan:
    """Return the plan of a project that lasts at most so many minutes (None: as long as it may take)."""
    return _Reading(project, project.horizon if most is None else most).plan()


def makespan_of(timetable: Timetable) -> int:
    """Return the minutes from the beginning to plating."""
    return -timetable.at[BEGIN, 0].start


def starts_of(project: Project, timetable: Timetable) -> tuple[int, ...]:
    """Return the start of each activity, from the beginning."""
    length = makespan_of(timetable)
    inner = (timetable.at[_step(number), 0].start + length for number in range(1, project.end))
    return (0, *inner, length)


def _step(number: int) -> StepId:
    return StepId(f"activity-{number}.do")


@dataclass(slots=True)
class _Reading:
    """One project being read."""

    project: Project
    most: int
    least: dict[tuple[StepId, StepId], int] = field(default_factory=dict)
    limits: dict[tuple[StepId, StepId], int] = field(default_factory=dict)
    marks: dict[int, Dish] = field(default_factory=dict)
    earliest: dict[int, int] = field(default_factory=dict)
    latest: dict[int, int] = field(default_factory=dict)

    def plan(self) -> Plan:
        """Return the plan."""
        followers = _reached(self.project)
        for lag in self.project.lags:
            if lag.before == lag.after and lag.minutes > 0:
                raise ValueError(f"activity {lag.before} is to start after itself")
            self._add(lag, followers)
        for number in _unled(self.project):
            self.least.setdefault((BEGIN, _step(number)), 0)
        latest = self.latest.get(0)
        begin = Step(
            BEGIN,
            "Begin",
            Span.of(1),
            Attention.HANDS_OFF,
            earliest=self.earliest.get(0),
            latest=None if latest is None else latest + 1,
        )
        dishes = (
            Dish(DishId("begin"), "Begin", (begin,), keep=Keep(max(0, self.most - 1)), course=0),
            *(self._dish(number) for number in range(1, self.project.end)),
            *self.marks.values(),
        )
        return Plan(
            self.project.name,
            parse_moment(_PLATING, "UTC"),
            Menu(dishes, tuple(self._links())),
            Kitchen("Project", tuple(_stations(self.project))),
            Decisions(wishes=Wishes(fresh=1, calm=0, oven=0, sleep=0, keep=0)),
            transfer=0,
        )

    def _dish(self, number: int) -> Dish:
        """Return the dish of an activity; a mere moment takes a minute that may lie after plating."""
        activity = self.project.activities[number]
        length = max(1, activity.length)
        uses = tuple(
            Use(StationKind.MACHINE, units, station=_resource(resource))
            for resource, units in enumerate(activity.demands)
            if units > 0 and activity.length > 0
        )
        latest = self.latest.get(number)
        step = Step(
            _step(number),
            f"Activity {number}",
            Span.of(length),
            Attention.HANDS_OFF,
            uses=uses,
            earliest=self.earliest.get(number),
            latest=None if latest is None else latest + length,
        )
        after = 1 if activity.length == 0 else 0
        return Dish(DishId(f"activity-{number}"), f"Activity {number}", (step,), course=after, served=False)

    def _add(self, lag: Lag, followers: dict[int, set[int]]) -> None:
        end = self.project.end
        if lag.before == lag.after:
            return
        if lag.after == end:
            self.latest[lag.before] = min(self.latest.get(lag.before, 0), -lag.minutes)
        elif lag.before == end:
            self.earliest[lag.after] = max(self.earliest.get(lag.after, lag.minutes), lag.minutes)
        elif lag.minutes >= 0:
            key = (self._of(lag.before), self._of(lag.after))
            self.least[key] = max(self.least.get(key, 0), lag.minutes)
        elif lag.before in followers[lag.after]:
            key = (self._of(lag.after), self._of(lag.before))
            self.least.setdefault(key, 0)
            self.limits[key] = min(self.limits.get(key, -lag.minutes), -lag.minutes)
        else:
            self._marked(lag)

    def _of(self, number: int) -> StepId:
        return BEGIN if number == 0 else _step(number)

    def _marked(self, lag: Lag) -> None:
        """Limit how late one activity starts after another that need not come first: from a mark far before it."""
        far = 2 * self.most
        if lag.after not in self.marks:
            dish = DishId(f"mark-{lag.after}")
            step = Step(StepId(f"{dish}.mark"), f"Mark {lag.after}", Span.of(1), Attention.HANDS_OFF)
            self.marks[lag.after] = Dish(dish, f"Mark {lag.after}", (step,), served=False)
            own = (step.id, self._of(lag.after))
            self.least[own] = self.limits[own] = far
        key = (self.marks[lag.after].steps[0].id, self._of(lag.before))
        self.least.setdefault(key, 0)
        self.limits[key] = min(self.limits.get(key, far - lag.minutes), far - lag.minutes)

    def _links(self) -> list[Link]:
        return [
            Link(before, after, least, self.limits.get((before, after)), LinkKind.START_TO_START)
            for (before, after), least in self.least.items()
        ]


def _resource(number: int) -> StationId:
    return StationId(f"resource-{number + 1}")


def _stations(project: Project) -> list[Station]:
    return [
        Station(_resource(number), f"Resource {number + 1}", StationKind.MACHINE, units)
        for number, units in enumerate(project.capacities)
    ]


def _reached(project: Project) -> dict[int, set[int]]:
    """Return for each activity those that surely do not start before it, by lags that are not negative."""
    onward: dict[int, set[int]] = {number: set() for number in range(len(project.activities))}
    for lag in project.lags:
        if lag.minutes >= 0:
            onward[lag.before].add(lag.after)
    found: dict[int, set[int]] = {}
    for number in onward:
        seen, waiting = {number}, [number]
        while waiting:
            for other in onward[waiting.pop()] - seen:
                seen.add(other)
                waiting.append(other)
        found[number] = seen
    found[0] = set(onward)
    return found


def _unled(project: Project) -> list[int]:
    """Return activities that must be told to start after the beginning, since no lag from another says so."""
    followers = _reached(project)
    led: set[int] = set().union(*(followers[lag.after] for lag in project.lags if lag.before == 0 <= lag.minutes))
    found = []
    heads = sorted(range(1, project.end), key=lambda number: -len(followers[number]))
    for number in heads:
        if number not in led:
            found.append(number)
            led |= followers[number]
    return found
