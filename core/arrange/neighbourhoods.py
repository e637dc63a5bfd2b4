"""Which tasks to free for a while: some dishes, some hours, or a dish with what shares its places nearby."""

from __future__ import annotations

from random import Random

from core.arrange.found import Found
from core.arrange.problem import Problem
from core.plan.step import Attention

_HOUR = 60


class Neighbourhoods:
    """Draws sets of tasks; `size` (tasks aimed at) grows while solving is easy and shrinks when it is not."""

    def __init__(self, problem: Problem, seed: int, size: int = 16) -> None:
        self.problem = problem
        self.random = Random(seed)  # noqa: S311  # repeatable on purpose, nothing secret
        self.size = float(min(len(problem.tasks), size))
        self._dish_tasks: dict[str, list[int]] = {}
        for task in problem.tasks:
            self._dish_tasks.setdefault(task.dish.id, []).append(task.index)

    @property
    def whole(self) -> bool:
        """Tell whether the size covers everything."""
        return self.size >= len(self.problem.tasks)

    def judged(self, *, easy: bool) -> None:
        """Adapt the size to how the last one went."""
        factor = 1.15 if easy else 0.85
        self.size = min(float(len(self.problem.tasks)), max(6.0, self.size * factor))

    def dearest(self, found: Found) -> list[set[int]]:
        """Return the tasks of each dish, the dish last whose waits cost most."""
        price: dict[str, int] = dict.fromkeys(self._dish_tasks, 0)
        for wait in self.problem.waits:
            until = found.starts[wait.after] if wait.after is not None else wait.until
            waited = until - found.ends[wait.before] - wait.least
            price[self.problem.tasks[wait.before].dish.id] += waited * wait.cost
        return [set(self._dish_tasks[dish]) for dish in sorted(price, key=lambda each: price[each])]

    def draw(self, found: Found) -> set[int]:
        """Return the tasks to free around a solution."""
        if self.whole:
            return set(range(len(self.problem.tasks)))
        kind = self.random.randrange(4)
        if kind == 0:
            return self._dishes()
        if kind == 1:
            return self._hours(found)
        if kind == 2:
            return self._sharing(found)
        return self._costly(found)

    def _dishes(self) -> set[int]:
        dishes = list(self._dish_tasks)
        self.random.shuffle(dishes)
        free: set[int] = set()
        for dish in dishes:
            if free and len(free) >= self.size:
                break
            free.update(self._dish_tasks[dish])
        return free

    def _hours(self, found: Found) -> set[int]:
        centre = found.starts[self.random.randrange(len(found.starts))]
        return self._nearest(found, centre)

    def _nearest(self, found: Found, centre: int) -> set[int]:
        def far(index: int) -> int:
            start = found.starts[index]
            end = start + self.problem.tasks[index].length
            return max(start - centre, centre - end, 0)

        return set(sorted(range(len(found.starts)), key=far)[: round(self.size)])

    def _sharing(self, found: Found) -> set[int]:
        dish = self.random.choice(list(self._dish_tasks))
        own = self._dish_tasks[dish]
        kinds = {use.kind for index in own for use in self.problem.tasks[index].uses}
        low = min(found.starts[index] for index in own) - _HOUR
        high = max(found.starts[index] for index in own) + _HOUR
        others = [
            task.index
            for task in self.problem.tasks
            if low <= found.starts[task.index] <= high
            and (task.step.attention is Attention.HANDS_ON or any(use.kind in kinds for use in task.uses))
            and task.dish.id != dish
        ]
        self.random.shuffle(others)
        return {*own, *others[: max(4, round(self.size) - len(own))]}

    def _costly(self, found: Found) -> set[int]:
        """Around one of the waits that cost most."""
        priced = []
        for wait in self.problem.waits:
            before = self.problem.tasks[wait.before]
            end = found.starts[before.index] + before.length
            until = found.starts[wait.after] if wait.after is not None else wait.until
            priced.append(((until - end - wait.least) * wait.cost, wait))
        priced.sort(key=lambda each: -each[0])
        if not priced:
            return self._dishes()
        _price, wait = priced[self.random.randrange(min(len(priced), 8))]
        free = set(self._dish_tasks[self.problem.tasks[wait.before].dish.id])
        if wait.after is not None:
            free.update(self._dish_tasks[self.problem.tasks[wait.after].dish.id])
        centre = found.starts[wait.after] if wait.after is not None else wait.until
        return free | set(list(self._nearest(found, centre))[: max(4, round(self.size) - len(free))])
