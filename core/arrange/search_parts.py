"""Large feasts in parts: dishes are placed a few at a time, then a few tasks at a time are freed and improved.

Each part is a small model of its own in which everything else is constant (decomposition; large neighbourhoods,
Shaw 1998), so that a feast of a thousand steps costs about as much a move as one of a hundred. A dish that finds no
place pushes out a few others and all of them are placed anew together (ejection; Nagata and Bräysy 2009).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Protocol

from core.arrange.found import Found, read_found
from core.arrange.freeze import frozen, hint, tell, without
from core.arrange.model import Model
from core.arrange.neighbourhoods import Neighbourhoods
from core.arrange.problem import Problem
from core.arrange.search import by_latest, without_goal
from core.arrange.search_rivals import UNKNOWN, Rivals, Solved
from core.arrange.solver import cp_model
from core.arrange.watch import Watch

LARGE = 150  # tasks from which a feast is worked on in parts
_FIRST_GROUP, _NEXT_GROUP = 70, 30
_QUICK, _LONGER = 0.3, 0.8
_TRIES, _TURNS = 8, 4  # sets of others pushed out for a dish in one turn, and its turns
_MENDS = 12  # sets moved in vain before limits are left stretched
_MOST_FREE = 100  # tasks freed at once for a dish
_PART = 0.07
_SMALL = 10  # tasks freed at once to begin with
_POLISH = 40  # every so many parts nothing moves but heatings and washings
_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)


class Make(Protocol):
    """Builds the model of a problem; None where its waits contradict each other.

    `asking`: without goals, every wish under a literal of its own. `giving`: limits may stretch, at a price. `aims`
    False: any timetable will do.
    """

    def __call__(
        self, problem: Problem, *, asking: bool = False, giving: bool = False, aims: bool = True
    ) -> Model | None:
        """Return the model of a problem."""
        ...


@dataclass(slots=True)
class Placing:
    """Places the dishes of a large feast group by group; what could not be placed is in `left`.

    `hopeless`: some dish has no place even in an empty kitchen.
    """

    problem: Problem
    make: Make
    watch: Watch
    solved: Solved | None = None
    placed: set[int] = field(default_factory=set)
    left: list[set[int]] = field(default_factory=list)
    hopeless: bool = False
    rivals: Rivals = field(init=False)

    def __post_init__(self) -> None:
        self.rivals = Rivals(self.problem, self.watch.effort.seed)

    def place(self) -> Solved | None:
        """Return a solution with all dishes, or None where some found no place (or work is spent)."""
        waiting = groups(self.problem)
        turns: Counter[str] = Counter()
        while waiting and not self.watch.over:
            group = waiting.pop(0)
            dishes = sorted({self.problem.tasks[index].dish.id for index in group})
            if self._held(group, eased=True):
                continue
            if len(dishes) > 1:
                waiting[:0] = [self.rivals.dish_tasks[dish] & group for dish in dishes]
                continue
            turns[dishes[0]] += 1
            if self.solved is not None and self._pushing(group, turns[dishes[0]]):
                continue
            if turns[dishes[0]] == 1 and self._hopeless(group):
                self.hopeless = True
                self.left.append(group)
            elif turns[dishes[0]] < _TURNS:
                waiting.append(group)  # what comes first may leave it a place
            else:
                self.left.append(group)
        self.left += waiting
        return self._weighed() if not self.left else None

    def _weighed(self) -> Solved | None:
        """Return the solution with its goals counted, which nobody asked about while dishes were placed."""
        if self.solved is None:
            return None
        model, found = self.solved
        part = self.make(frozen(model.about(self.problem), found, set()))
        if part is None:
            return None
        hint(part, model, found, ())
        solver, status = self.watch.solve(part.board.model, _LONGER, light=True, improving=True)
        if status not in _GOOD:
            return None
        self.solved = (part, read_found(part, solver))
        return self.solved

    def _held(self, group: set[int], *, eased: bool) -> bool:
        """Place a group while all others stay where they are."""
        part = self._part(group, set(), eased=eased)
        return self._take(group, solved_part(part, self.watch, _QUICK)[0])

    def _pushing(self, group: set[int], turn: int) -> bool:
        """Place a dish by moving some that are in its way; proofs say who they are, and then more are moved."""
        assert self.solved is not None
        if self._held(group, eased=False):
            return True
        free: set[int] = set()
        wanted, infeasible = UNKNOWN, True
        for number in range(_TRIES):
            if self.watch.over:
                return False
            if not infeasible or len(free) >= _MOST_FREE:
                free, wanted = set(), UNKNOWN
            if infeasible:
                wanted = self.rivals.wanted(self._asking(group, free), self.watch)
            free |= self.rivals.dishes(self.solved, group | free, self.placed, 2 + turn, wanted)
            part = self._part(group, free, eased=number % 2 == 0)
            solved, infeasible = solved_part(part, self.watch, _QUICK if number < 2 and turn < 2 else _LONGER)
            if self._take(group, solved):
                return True
        return False

    def _hopeless(self, group: set[int]) -> bool:
        absent = frozenset(task.index for task in self.problem.tasks) - group
        return solved_part(self.make(without(self.problem, absent), aims=False), self.watch, _LONGER)[1]

    def _take(self, group: set[int], solved: Solved | None) -> bool:
        if solved is None:
            return False
        self.solved = solved
        self.placed |= group
        return True

    def _absent(self, group: set[int]) -> frozenset[int]:
        return frozenset(task.index for task in self.problem.tasks) - self.placed - group

    def _asking(self, group: set[int], free: set[int]) -> Model | None:
        assert self.solved is not None
        model, found = self.solved
        part = frozen(model.about(self.problem), found, group | free, self._absent(group))
        return self.make(part, asking=True)

    def _part(self, group: set[int], free: set[int], *, eased: bool, giving: bool = False) -> Model | None:
        """Return the model in which a group and others are free; hinted with where those were."""
        absent = self._absent(group)
        if self.solved is None:
            problem = without(self.problem, absent)
        else:
            model, found = self.solved
            problem = frozen(model.about(self.problem), found, group | free, absent)
        if eased:
            self.rivals.ease(problem, group)
        else:
            problem.kept_crews.clear()
        part = self.make(problem, giving=giving, aims=giving)
        if part is not None and self.solved is not None:
            if eased:
                hint(part, model, found, free, group)
            else:  # what is switched on and washed when may move too
                tell(part, model, found, free)
        return part

    def squeeze(self) -> Solved | None:
        """Place what is left although limits must stretch for it; return a solution with all dishes."""
        left, self.left = self.left, []
        for group in left:
            for dish in sorted({self.problem.tasks[index].dish.id for index in group}):
                own = self.rivals.dish_tasks[dish] & group
                part = self._part(own, set(), eased=False, giving=True)
                if not self._take(own, _least_given(part, self.watch)):
                    self.left.append(own)
        return self.solved if not self.left else None

    def mend(self) -> Solved | None:
        """Move what is stretched, and dishes that contend with it, until nothing is; return that solution."""
        fruitless = 0
        while self.solved is not None and self.solved[1].given and fruitless < _MENDS and not self.watch.over:
            found = self.solved[1]
            stretched = stretched_tasks(self.problem, found)
            index = self.rivals.random.choice(sorted(stretched)) if stretched else 0
            group = self.rivals.dish_tasks[self.problem.tasks[index].dish.id]
            free = self.rivals.dishes(self.solved, group, self.placed, 2 + fruitless % _MENDS)
            part = self._part(set(), group | free, eased=False, giving=True)
            solved = _least_given(part, self.watch, found.given)
            fruitless += 1
            if solved is not None:
                fruitless = 0 if solved[1].given < found.given else fruitless
                self.solved = solved
        return self.solved if self.solved is not None and not self.solved[1].given else None


def stretched_tasks(problem: Problem, found: Found) -> set[int]:
    """Return the tasks at which a solution stretches a limit."""

    def at(index: int, end: bool) -> int:
        return found.ends[index] if end else found.starts[index]

    def early(index: int) -> int:
        return next(way.early for way in problem.tasks[index].ways if way.number == found.ways[index])

    stretched: set[int] = set()
    for arc in problem.arcs:
        lag = arc.lag + (early(arc.early) if arc.early is not None else 0)
        if arc.gives and at(arc.after, arc.after_end) < at(arc.before, arc.before_end) + lag:
            stretched |= {arc.before, arc.after}
    for bound in problem.bounds:
        low = None if bound.low is None else bound.low + (early(bound.task) if bound.early else 0)
        when = at(bound.task, bound.end)
        if (low is not None and when < low) or (bound.high is not None and when > bound.high):
            stretched.add(bound.task)
    return stretched


def groups(problem: Problem) -> list[set[int]]:
    """Return the tasks in groups of a few dishes, those that can wait least first."""
    dishes: dict[str, set[int]] = {}
    for task in problem.tasks:
        dishes.setdefault(task.dish.id, set()).add(task.index)

    def patience(dish: str) -> tuple[int, int]:
        limits = [
            bound.low
            for bound in problem.bounds
            if bound.low is not None and bound.end and bound.task in dishes[dish]
        ]
        heated = sum(bool(way.settings) for index in dishes[dish] for way in problem.tasks[index].ways)
        return -max(limits, default=-(10**6)), -heated

    found: list[set[int]] = []
    for dish in sorted(dishes, key=patience):
        size = _FIRST_GROUP if len(found) <= 1 else _NEXT_GROUP
        if found and len(found[-1]) + len(dishes[dish]) <= size:
            found[-1] |= dishes[dish]
        else:
            found.append(set(dishes[dish]))
    return found


def solved_part(part: Model | None, watch: Watch, work: float) -> tuple[Solved | None, bool]:
    """Return any solution of a part, and whether there is proven to be none."""
    if part is None:
        return None, True
    bare = without_goal(part)
    bare.add_decision_strategy(by_latest(part), cp_model.CHOOSE_HIGHEST_MAX, cp_model.SELECT_MAX_VALUE)
    solver, status = watch.solve(bare, min(work, _QUICK), light=True, fixed_search=True)
    if status in _GOOD:
        return (part, read_found(part, solver)), False
    if status == cp_model.INFEASIBLE or work <= _QUICK:
        return None, bool(status == cp_model.INFEASIBLE)
    bare = without_goal(part)
    hinted = set(bare.proto.solution_hint.vars)
    for index, start in enumerate(part.board.start):
        if start.index not in hinted:
            bare.add_hint(start, part.board.latest[index])
    solver, status = watch.solve(bare, work, light=True)
    if status in _GOOD:
        return (part, read_found(part, solver)), False
    return None, bool(status == cp_model.INFEASIBLE)


def _least_given(part: Model | None, watch: Watch, most: int | None = None) -> Solved | None:
    """Return a solution of a part in which limits stretch little, not more than `most` in all."""
    if part is None:
        return None
    if most is not None:
        part.board.model.add(part.goals.given <= most)
    part.board.model.minimize(part.goals.given)
    solver, status = watch.solve(part.board.model, _LONGER)
    return (part, read_found(part, solver)) if status in _GOOD else None


def improve_by_parts(
    problem: Problem,
    solved: Solved,
    make: Make,
    watch: Watch,
    better: Callable[[Solved], None],
) -> Solved:
    """Return the best solution found in the work left; `better` hears each.

    First every dish is moved alone, the one that waits dearest first: while dishes were placed nobody asked how long
    they wait.
    """
    parts = Neighbourhoods(problem, watch.effort.seed, _SMALL)
    number = 0
    alone = parts.dearest(solved[1])
    while not watch.over:
        model, found = solved
        first = bool(alone)
        free = alone.pop() if alone else parts.draw(found) if number % _POLISH else set()
        number += 1
        part = make(frozen(model.about(problem), found, free))
        if part is None:
            parts.judged(easy=False)
            continue
        if free:  # else what is switched on and washed when is worked out anew for all
            hint(part, model, found, free)
        part.board.model.add(part.goals.total <= found.score)
        solver, status = watch.solve(part.board.model, _PART, light=True, improving=True)
        if free and not first:
            parts.judged(easy=status in (cp_model.OPTIMAL, cp_model.INFEASIBLE))
        if status not in _GOOD:
            continue
        candidate = read_found(part, solver)
        if candidate.score <= found.score:
            solved = (part, candidate)
            if candidate.score < found.score:
                better(solved)
    return solved
