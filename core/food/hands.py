"""Who can do what: hands-on minutes against cooks' hours, by skill. It counts hours, not the order.

Whether hours suffice is Hall's condition: for every group of cooks, what only they can do must fit into
their minutes. It is exact for work that may be cut at any minute; the order is still to be checked.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from itertools import combinations

from core.measures.refusal import Refusal
from core.plan.check_words import short

MOST_KINDS = 12
"""Kinds of cooks, by skills, that are told apart: 4,095 groups are looked at."""


class Reach(StrEnum):
    """How far a task is within somebody's reach."""

    ALONE = "alone"
    GUIDED = "with a cook beside"
    NOT = "not"


@dataclass(frozen=True, slots=True)
class Task:
    """Hands-on work: what, minutes of one person, the skill asked ("" for anybody).

    `guided`: a novice does it only with a cook beside, whose minutes it takes all the same. `earlier`: it
    could be done before the time looked at.
    """

    name: str
    minutes: int
    skill: str = ""
    guided: bool = False
    earlier: bool = False


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who helps: minutes there, skills, and whether new to the kitchen."""

    name: str
    minutes: int
    skills: tuple[str, ...] = ()
    novice: bool = False

    def reach(self, task: Task) -> Reach:
        """Tell how far a task is within reach."""
        if task.skill and task.skill not in self.skills:
            return Reach.NOT
        return Reach.GUIDED if task.guided and self.novice else Reach.ALONE


@dataclass(frozen=True, slots=True)
class Overload:
    """People who alone can do these tasks, and by how many minutes these are more than their hours."""

    people: tuple[Person, ...]
    tasks: tuple[Task, ...]
    over: int


@dataclass(frozen=True, slots=True)
class Share:
    """What one person takes."""

    person: Person
    tasks: tuple[Task, ...]

    @property
    def minutes(self) -> int:
        """Return the hands-on minutes."""
        return total_minutes(self.tasks)


@dataclass(frozen=True, slots=True)
class Shares:
    """A proposal of who takes what, whole tasks; `left` found nobody with time or skill."""

    shares: tuple[Share, ...]
    left: tuple[Task, ...]


@dataclass(frozen=True)
class HandsBudget:
    """Tasks and people of one stretch of time."""

    tasks: tuple[Task, ...]
    people: tuple[Person, ...]

    @property
    def total(self) -> int:
        """Return the hands-on minutes."""
        return total_minutes(self.tasks)

    @property
    def there(self) -> int:
        """Return the minutes of all people."""
        return sum(person.minutes for person in self.people)

    @cached_property
    def overload(self) -> Overload | None:
        """Return the group of people whose own work exceeds their hours by most; None: hours suffice."""
        return _worst(self.tasks, self.people)

    @property
    def over(self) -> int:
        """Return by how many minutes the hours are exceeded at the worst group; 0: feasible on hours."""
        return self.overload.over if self.overload else 0

    @property
    def earlier(self) -> int:
        """Return how many of the minutes could be done before."""
        return total_minutes(task for task in self.tasks if task.earlier)

    def within_reach(self, person: Person, reach: Reach = Reach.ALONE) -> tuple[Task, ...]:
        """Return the tasks that are so far within a person's reach."""
        return tuple(task for task in self.tasks if person.reach(task) is reach)


def total_minutes(tasks: Iterable[Task]) -> int:
    """Return the minutes of tasks together."""
    return sum(task.minutes for task in tasks)


def hands(tasks: Sequence[Task], people: Sequence[Person]) -> HandsBudget:
    """Return the budget of tasks and people; refuse times below 0 and too many kinds of people."""
    for task in tasks:
        if task.minutes < 0:
            raise Refusal(f"{short(task.name)} takes {task.minutes} min; write 0 min or more.")
    for person in people:
        if person.minutes < 0:
            raise Refusal(f"{short(person.name)} is there for {person.minutes} min; write 0 min or more.")
    if len({_kind(person) for person in people}) > MOST_KINDS:
        raise Refusal(f"More than {MOST_KINDS} different sets of skills; leave the finest differences out.")
    return HandsBudget(tuple(tasks), tuple(people))


_Kind = tuple[frozenset[str], bool]
"""What people may differ in: their skills, and whether they are new."""


def _kind(person: Person) -> _Kind:
    return frozenset(person.skills), person.novice


def _worst(tasks: Sequence[Task], people: Sequence[Person]) -> Overload | None:
    """Return the overload of Hall's condition; of equals the one with the fewest kinds of people."""
    takers = [frozenset(_kind(each) for each in people if each.reach(task) is Reach.ALONE) for task in tasks]
    nobody = tuple(task for task, kinds in zip(tasks, takers, strict=True) if not kinds and task.minutes)
    if nobody:
        return Overload((), nobody, total_minutes(nobody))
    wanted: Counter[frozenset[_Kind]] = Counter()
    for task, can in zip(tasks, takers, strict=True):
        wanted[can] += task.minutes
    there: Counter[_Kind] = Counter()
    for person in people:
        there[_kind(person)] += person.minutes
    over, worst = 0, frozenset[_Kind]()
    for size in range(1, len(there) + 1):
        for group in map(frozenset, combinations(there, size)):
            own = sum(minutes for can, minutes in wanted.items() if can <= group)
            if own - sum(there[kind] for kind in group) > over:
                over, worst = own - sum(there[kind] for kind in group), group
    if not over:
        return None
    own_tasks = tuple(task for task, can in zip(tasks, takers, strict=True) if can <= worst)
    return Overload(tuple(person for person in people if _kind(person) in worst), own_tasks, over)


def shared(budget: HandsBudget) -> Shares:
    """Return a proposal of whole tasks, order and rests aside: the hardest to place first, then the longest.

    Each goes to who can do least else, of equals to who has most time left. Where tasks are left although
    hours suffice, they did not fit in one piece.
    """
    people, tasks = budget.people, budget.tasks
    can = [[who for who, each in enumerate(people) if each.reach(task) is Reach.ALONE] for task in tasks]
    choice = [len(budget.within_reach(person)) for person in people]
    free = [person.minutes for person in people]
    taker: dict[int, int] = {}
    for at in sorted(range(len(tasks)), key=lambda at: (len(can[at]), -tasks[at].minutes)):
        able = [who for who in can[at] if free[who] >= tasks[at].minutes]
        if able:
            taker[at] = min(able, key=lambda who: (choice[who], -free[who]))
            free[taker[at]] -= tasks[at].minutes
    shares = tuple(
        Share(person, tuple(task for at, task in enumerate(tasks) if taker.get(at) == who))
        for who, person in enumerate(people)
    )
    return Shares(shares, tuple(task for at, task in enumerate(tasks) if at not in taker))
