"""What ways out are sought for: the plan, where its trouble lies, which steps, stations and cooks have part in it."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import cached_property

from core.arrange.demand import Demand
from core.plan import meaning
from core.plan.day import Day, State
from core.plan.ids import DishId, StepId
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from core.plan.step import Attention, Step, Use
from core.timetable.clash import Clash, ClashKind
from core.timetable.timetable import Timetable

SMALL = 14
"""A plan of so few steps is looked at as a whole."""
_NEARBY = 45  # minutes before and after a clash in which others at the same places have part in it
_LIMITS = frozenset({ClashKind.WAITED_TOO_LONG, ClashKind.LATE})


@dataclass(frozen=True)
class Case:
    """`nearest` is the best timetable found with limits giving, `clashes` what it has; `demands` from reasons."""

    plan: Plan
    nearest: Timetable
    clashes: tuple[Clash, ...]
    day: Day | None = None
    demands: tuple[Demand, ...] = ()

    @cached_property
    def steps(self) -> tuple[StepId, ...]:
        """The steps that have part in the trouble, the nearest first; what is done or under way left out."""
        rank = self.rank
        small = len(self.plan.steps) <= SMALL
        found = [step for step in self.plan.steps if small or rank[step] <= 2]
        return tuple(sorted((step for step in found if self.open(step)), key=lambda step: rank[step]))

    @cached_property
    def rank(self) -> dict[StepId, int]:
        """How far each step is from the trouble: 0 in it, 1 at the same places at that time, 2 linked, 3 far."""
        steps = self.plan.steps
        inside = {step for clash in self.clashes for step in clash.steps if step in steps}
        inside |= {step for each in self.demands for step in (each.step, each.after) if step in steps}
        inside = inside or set(steps)
        beside = set(self._beside(inside)) - inside
        linked = {
            other
            for link in self.plan.menu.links
            for one, other in ((link.before, link.after), (link.after, link.before))
            if one in inside | beside
        } - (inside | beside)
        return {s: 0 if s in inside else 1 if s in beside else 2 if s in linked else 3 for s in steps}

    @cached_property
    def dishes(self) -> tuple[DishId, ...]:
        """The dishes of those steps, the nearest first."""
        return tuple(dict.fromkeys(self.plan.dish_of[step].id for step in self.steps))

    def open(self, step: StepId) -> bool:
        """Tell whether a step is still wholly to be done."""
        if self.day is None:
            return True
        return not any(fact.step == step and fact.state in _SETTLED for fact in self.day.facts)

    def step(self, step: StepId) -> Step:
        """Return a step of the plan."""
        return self.plan.steps[step]

    def uses(self, step: StepId) -> tuple[Use, ...]:
        """Return the places of a step in the way chosen, or as it is written."""
        return meaning.way_of(self.plan, self.plan.steps[step])[1]

    def kinds(self) -> tuple[StationKind, ...]:
        """Return the kinds of stations that steps in the trouble stand or wait in, the nearest first."""
        found: list[StationKind] = []
        for step in self.steps:
            uses = list(self.uses(step))
            uses += [link.wait.use for link in self.plan.links_from[step] if link.wait.use is not None]
            keep = meaning.keep_of(self.plan, self.step(step))
            if keep is not None and keep.wait.use is not None:
                uses.append(keep.wait.use)
            found += [use.kind for use in uses]
        found += [
            self.plan.kitchen.station[each].kind
            for clash in self.clashes
            for each in clash.stations
            if each in self.plan.kitchen.station
        ]
        return tuple(dict.fromkeys(found))

    def over(self, steps: Collection[StepId]) -> int:
        """Return the most minutes by which these steps wait too long or are late in the nearest timetable."""
        return max(
            (
                clash.by
                for clash in self.clashes
                if clash.kind in _LIMITS and not set(clash.steps).isdisjoint(steps)
            ),
            default=0,
        )

    def _beside(self, inside: Collection[StepId]) -> Iterable[StepId]:
        """Find steps that share a kind of station or a cook's time with those inside, about the same minutes."""
        plan = self.plan
        wanted: dict[StationKind | str, list[tuple[int, int]]] = {}
        for placed in self.nearest.placed:
            if placed.step in inside:
                for key in self._shares(placed.step):
                    wanted.setdefault(key, []).append((placed.start - _NEARBY, placed.end + _NEARBY))
        for placed in self.nearest.placed:
            if placed.step not in plan.steps:
                continue
            for key in self._shares(placed.step):
                if any(placed.start < ends and placed.end > begins for begins, ends in wanted.get(key, ())):
                    yield placed.step

    def _shares(self, step: StepId) -> set[StationKind | str]:
        if step not in self.plan.steps:
            return set()
        found: set[StationKind | str] = {
            use.kind for use in self.uses(step) if use.kind is not StationKind.ROOM
        }
        if self.plan.steps[step].attention is Attention.HANDS_ON:
            found.add("hands")
        found |= {use.vessel for use in self.plan.steps[step].vessels}
        return found


_SETTLED = frozenset(State)
