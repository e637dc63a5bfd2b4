"""Arranges again from a timetable that holds, for other weights: quick, because the first solution is there."""

from __future__ import annotations

from collections.abc import Callable

from core.arrange.bounds import in_cooks_units
from core.arrange.found import Found, read_found
from core.arrange.goals_meaning import weights_of
from core.arrange.model import Model, build
from core.arrange.naming import NobodyLeft
from core.arrange.outcome import WishKind
from core.arrange.quality_measure import measure
from core.arrange.reading import read
from core.arrange.search import first_found, improve
from core.arrange.settle import settle
from core.arrange.solver import cp_model
from core.arrange.watch import Watch
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable

Hear = Callable[[Timetable], None]
_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_SET_OUT = 0.5
_ALONE = 0.3  # of the work, to have one wish by itself first


def again(
    plan: Plan,
    start: Timetable,
    watch: Watch,
    *,
    seen: Timetable | None = None,
    alone: WishKind | None = None,
    better: Hear | None = None,
) -> Timetable:
    """Return a timetable of the plan that is better by its wishes than `start`, or `start` where none was found.

    What is returned in place of `start` has no clash. `alone`: that wish is first had by itself, as much as can be,
    before the others weigh again. `better` hears each better one.
    """
    return _Again(plan, start, watch, seen, alone, better).run()


def weighed(plan: Plan, reached: dict[WishKind, int]) -> int:
    """Return the weighed sum of what was reached (core.arrange.quality_measure.measure) by a plan's wishes."""
    weights = weights_of(plan.decisions.wishes)
    return sum(weights[wish] * amount for wish, amount in reached.items())


class _Again:
    """One search from a timetable."""

    def __init__(
        self,
        plan: Plan,
        start: Timetable,
        watch: Watch,
        seen: Timetable | None,
        alone: WishKind | None,
        better: Hear | None,
    ) -> None:
        self.plan, self.watch, self.seen, self.alone, self.better = plan, watch, seen, alone, better
        self.best = self.last = start
        self.score = weighed(plan, measure(plan, start, seen))
        self.problem = read(plan, None, seen)

    def run(self) -> Timetable:
        """Return the best timetable found."""
        seen = None if self.seen is None else self.problem.starts_in(self.seen)
        named: frozenset[str] = frozenset()
        while not self.watch.over:
            model = build(self.problem, seen=seen, named=named)
            found = self._set_out(model) if model is not None else None
            if model is None or found is None:
                break
            try:
                self._search(model, found)
                break
            except NobodyLeft as trouble:  # once more, from the last timetable that has its cooks
                if trouble.keys <= named:
                    break
                named |= trouble.keys
        return self.best

    def _search(self, model: Model, found: Found) -> None:
        def hear(each: Found) -> None:
            self._judge(settle(model, each))

        hear(found)
        if self.alone is not None:
            found = self._had_alone(model, found, self.alone)
            hear(found)
            self.alone = None
        improve(model, found, self.watch, lambda _model, each: hear(each))

    def _set_out(self, model: Model) -> Found | None:
        """Return a solution at the starts of the last timetable, or near them where they do not hold."""
        starts = self.problem.starts_in(self.last)
        if len(starts) == len(self.problem.tasks):
            part = model.board.model.clone()
            for task in self.problem.tasks:
                part.add(model.board.start[task.index] == starts[task.index])
                placed = self.last.at[task.key]
                for (way, celsius), pick in model.board.picks[task.index].items():
                    part.add(pick == int(way == placed.way and celsius == placed.setting))
            solver, status = self.watch.solve(part, _SET_OUT)
            if status in _GOOD:
                return read_found(model, solver)
        near = tuple(starts[each.index] for each in self.problem.tasks) if starts else None
        return first_found(model, self.watch, near)[0]

    def _had_alone(self, model: Model, found: Found, wish: WishKind) -> Found:
        """Return a solution with as much of one wish as is found in a part of the work."""
        if self.watch.over:
            return found
        wanted = in_cooks_units(model, wish)
        part = model.board.model.clone()
        for index, at in enumerate(found.values):
            part.add_hint(part.get_int_var_from_proto_index(index), at)
        part.minimize(wanted)
        solver, status = self.watch.solve(part, self.watch.left * _ALONE)
        return read_found(model, solver) if status in _GOOD else found

    def _judge(self, timetable: Timetable) -> None:
        self.last = timetable
        score = weighed(self.plan, measure(self.plan, timetable, self.seen))
        if score < self.score and not clashes(self.plan, timetable):
            self.best, self.score = timetable, score
            if self.better is not None:
                self.better(timetable)
