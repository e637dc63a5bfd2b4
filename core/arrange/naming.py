"""Gives cooks their names once the times stand: least skilled first, one cook for one dish if it can be."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator
from dataclasses import dataclass

from core.arrange.problem import Problem, Stretch
from core.arrange.solver import cp_model
from core.plan.ids import CookId


@dataclass(frozen=True, slots=True)
class Job:
    """Work for `people` cooks at fixed minutes in a place (None: anywhere); `number` and `key` are the labour's.

    `crew`: cooks of whom one could surely do it, as counted, but for walks and absences of some of them.
    """

    number: int
    key: str
    start: int
    minutes: int
    people: int
    skill: str
    dish: str
    pinned: CookId | None = None
    chosen: tuple[CookId, ...] = ()
    place: str | None = None
    crew: tuple[CookId, ...] = ()

    @property
    def end(self) -> int:
        """Return when it ends."""
        return self.start + self.minutes


class NobodyLeft(Exception):
    """Counts allowed what no naming can do; carries the keys of the labours around the trouble."""

    def __init__(self, keys: frozenset[str]) -> None:
        super().__init__(keys)
        self.keys = keys


def name_cooks(problem: Problem, jobs: list[Job]) -> dict[int, tuple[CookId, ...]]:
    """Return the cooks of every job; raise NobodyLeft where there is no way to name them."""
    named: dict[int, tuple[CookId, ...]] = {}
    of_dish: dict[str, CookId] = {}
    for stretch in _stretches(jobs, problem.plan.kitchen.walk):
        some = _in_turn(problem, stretch, of_dish)
        if some is None:
            some = _in_turn(problem, stretch, of_dish, by_crew=True)
        if some is None:
            some = _exactly(problem, stretch)
        if some is None:
            raise NobodyLeft(_around(problem, stretch))
        named |= some
        of_dish |= {job.dish: some[job.number][0] for job in stretch if some[job.number]}
    return named


def _stretches(jobs: list[Job], walk: int) -> Iterator[list[Job]]:
    """Return the jobs stretch by stretch: between two stretches everybody is free for longer than a walk."""
    stretch: list[Job] = []
    until = 0
    for job in sorted(jobs, key=_start):
        if stretch and job.start > until + walk:
            yield stretch
            stretch = []
        until = max(until, job.end) if stretch else job.end
        stretch.append(job)
    if stretch:
        yield stretch


def _able(problem: Problem, job: Job) -> list[CookId]:
    found = []
    for cook in sorted(problem.plan.kitchen.cooks, key=lambda each: len(each.skills)):
        if job.skill and job.skill not in cook.skills:
            continue
        if not _meets(problem.away[cook.id], job.start, job.end):
            found.append(cook.id)
    return found


def _start(job: Job) -> int:
    return job.start


def _free(busy: list[Job], job: Job, walk: int) -> bool:
    """Tell whether a cook with this work, in order of time, can do a job too; only neighbours can be too near."""
    at = bisect_left(busy, job.start, key=_start)
    for other in reversed(busy[max(0, at - 40) : at]):
        if not _apart(job, other, walk):
            return False
        if other.end + walk <= job.start:
            break
    for other in busy[at:]:
        if not _apart(job, other, walk):
            return False
        if job.end + walk <= other.start:
            break
    return True


def _apart(one: Job, other: Job, walk: int) -> bool:
    """Tell whether one cook can do both: one after the other, with time to walk between places."""
    gap = max(other.start - one.end, one.start - other.end)
    if one.place is None or other.place is None or one.place == other.place:
        return gap >= 0
    return gap >= walk


def _meets(stretches: tuple[Stretch, ...], start: int, end: int) -> bool:
    return any(begins < end and start < ends for begins, ends in stretches)


def _in_turn(
    problem: Problem, jobs: list[Job], of_dish: dict[str, CookId], *, by_crew: bool = False
) -> dict[int, tuple[CookId, ...]] | None:
    """Name cooks one job after the other; None where somebody is missing. `of_dish`: who was last at each dish."""
    busy: dict[CookId, list[Job]] = {cook.id: [] for cook in problem.plan.kitchen.cooks}
    walk = problem.plan.kitchen.walk
    named: dict[int, tuple[CookId, ...]] = {}
    of_dish = dict(of_dish)
    for job in sorted(
        jobs, key=lambda each: (not each.pinned and not each.chosen, each.start, -each.minutes)
    ):
        free = [
            cook
            for cook in _able(problem, job)
            if _free(busy[cook], job, walk) and (not by_crew or not job.crew or cook in job.crew)
        ]
        first = [job.pinned] if job.pinned else list(job.chosen)
        if not first and of_dish.get(job.dish) in free:
            first = [of_dish[job.dish]]
        order = [cook for cook in first if cook in free] + [cook for cook in free if cook not in first]
        if len(order) < job.people or (job.pinned and job.pinned not in order):
            return None
        named[job.number] = tuple(order[: job.people])
        for cook in named[job.number]:
            insort(busy[cook], job, key=_start)
        of_dish[job.dish] = named[job.number][0]
    return named


def _exactly(problem: Problem, jobs: list[Job]) -> dict[int, tuple[CookId, ...]] | None:
    model = cp_model.CpModel()
    choice: dict[tuple[int, CookId], cp_model.IntVar] = {}
    per_cook: dict[CookId, list[cp_model.IntervalVar]] = {cook.id: [] for cook in problem.plan.kitchen.cooks}
    for job in jobs:
        able = [cook for cook in _able(problem, job) if job.pinned in (None, cook) or job.people > 1]
        if len(able) < job.people:
            return None
        for cook in able:
            literal = model.new_bool_var("")
            choice[job.number, cook] = literal
            per_cook[cook].append(
                model.new_optional_fixed_size_interval_var(job.start, job.minutes, literal, "")
            )
        model.add(sum(choice[job.number, cook] for cook in able) == job.people)
        if job.pinned in able:
            model.add(choice[job.number, job.pinned] == 1)
    for intervals in per_cook.values():
        model.add_no_overlap(intervals)
    for one, other in _too_far(jobs, problem.plan.kitchen.walk):
        for cook in per_cook:
            if (one.number, cook) in choice and (other.number, cook) in choice:
                model.add_bool_or(choice[one.number, cook].negated(), choice[other.number, cook].negated())
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 2.0
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    named: dict[int, tuple[CookId, ...]] = {job.number: () for job in jobs}
    for (number, cook), literal in choice.items():
        if solver.value(literal):
            named[number] = (*named[number], cook)
    return named


def _too_far(jobs: list[Job], walk: int) -> Iterator[tuple[Job, Job]]:
    """Return pairs that follow each other too soon for a cook to walk from one to the other."""
    placed = sorted((job for job in jobs if job.place is not None), key=lambda job: job.start)
    for number, one in enumerate(placed):
        for other in placed[number + 1 :]:
            if other.start >= one.start + 24 * 60:
                break
            if other.place != one.place and not _apart(one, other, walk):
                yield one, other


def _around(problem: Problem, jobs: list[Job]) -> frozenset[str]:
    """Return the labours that fall together with one for which nobody was left, widest first."""
    ordered = sorted(jobs, key=lambda each: each.start)
    for last in range(1, len(ordered) + 1):
        if _exactly(problem, ordered[:last]) is None:
            trouble = ordered[last - 1]
            near = [
                job.key
                for job in jobs
                if job.start < trouble.end + 60 and trouble.start - 60 < job.end
            ]
            return frozenset(near)
    return frozenset(job.key for job in jobs)
