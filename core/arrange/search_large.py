"""A large feast from nothing to its best: dishes placed in parts, limits stretched only for want of room, improved."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from core.arrange.claims import loaded_kinds
from core.arrange.freeze import frozen, hint
from core.arrange.model import Model, build
from core.arrange.naming import NobodyLeft
from core.arrange.problem import Problem
from core.arrange.search_parts import Placing, improve_by_parts, solved_part
from core.arrange.search_rivals import Solved
from core.arrange.watch import Watch
from core.plan.kitchen import StationKind

_NAMING = 2.0  # work to find a day near one for which no cooks could be named
_NAMINGS = 12  # how often
_EVERY = 0.03  # share of the work so far after which a better day is told: to settle and judge it takes a while


class Large:
    """Searches one large problem. `hear` settles, judges and tells a solution; it raises NobodyLeft."""

    def __init__(
        self, problem: Problem, seen: dict[int, int] | None, watch: Watch, hear: Callable[[Solved], None]
    ) -> None:
        self.problem = replace(problem, changes=True)
        self.seen = seen
        self.watch = watch
        self._tell = hear
        self.named: frozenset[str] = frozenset()
        self.explicit: frozenset[StationKind] = frozenset()
        self.giving = False
        self.heard: Solved | None = None
        self._next = 0.0

    def make(
        self, problem: Problem, *, asking: bool = False, giving: bool = False, aims: bool = True
    ) -> Model | None:
        """Build the model of a part."""
        return build(
            problem,
            giving=giving or self.giving,
            seen=self.seen,
            named=self.named,
            explicit=self.explicit,
            asking=asking,
            aims=aims,
        )

    def run(self) -> bool:
        """Search until the work is spent; return whether some dish has no place even in an empty kitchen."""
        placing = Placing(self.problem, self.make, self.watch)
        solved = placing.place()
        if solved is None and placing.hopeless and loaded_kinds(self.problem) and not self.watch.over:
            self.explicit = loaded_kinds(self.problem)
            placing = Placing(self.problem, self.make, self.watch)
            solved = placing.place()
        if solved is None:
            self.giving = True
            solved = placing.squeeze()
            if solved is not None:
                self._named_around(solved)
                solved = placing.mend() or placing.solved
                self.giving = bool(solved is not None and solved[1].given)
        if solved is not None:
            self._improved(solved)
        return placing.hopeless

    def _improved(self, solved: Solved) -> None:
        """Improve a solution; where cooks cannot be named for a better one, go on from the last that was told."""
        first = self._named_around(solved)
        while first is not None and not self.watch.over:
            try:
                self._hear(improve_by_parts(self.problem, first, self.make, self.watch, self._better))
            except NobodyLeft as trouble:
                if trouble.keys <= self.named:
                    return
                self.named |= trouble.keys
                first = self.heard
            else:
                return

    def _named_around(self, solved: Solved) -> Solved | None:
        """Tell a solution, or one near it for which cooks can be named; return the one told."""
        for _each in range(_NAMINGS):
            try:
                self._hear(solved)
            except NobodyLeft as trouble:
                self.named |= trouble.keys
                model, found = solved
                free = self._tasks_of(trouble.keys)
                part = self.make(frozen(model.about(self.problem), found, free), giving=bool(found.given))
                if part is not None:
                    hint(part, model, found, free)
                    if found.given:
                        part.board.model.add(part.goals.given <= found.given)
                near, _infeasible = solved_part(part, self.watch, _NAMING)
                if near is None:
                    return self.heard
                solved = near
            else:
                return solved
        return self.heard

    def _tasks_of(self, keys: frozenset[str]) -> set[int]:
        """Return the tasks of the dishes whose hands cannot be named; chores move of themselves."""
        own = {int(key.split("/")[0]) for key in keys if "/" in key}
        dishes = {self.problem.tasks[index].dish.id for index in own}
        return {task.index for task in self.problem.tasks if task.dish.id in dishes}

    def _better(self, solved: Solved) -> None:
        if self.watch.work >= self._next:
            self._hear(solved)

    def _hear(self, solved: Solved) -> None:
        if self.heard is None or solved is not self.heard:
            self._tell((solved[0].about(self.problem), solved[1]))
        self.heard = solved
        self._next = self.watch.work * (1 + _EVERY)
