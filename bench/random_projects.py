"""Random projects in the manner of the published generators, seeded: python -m bench.random_projects FOLDER.

After Kolisch, Sprecher and Drexl 1995 (ProGen) and Schwindt 1998 (ProGen/max), much simplified: resources are scarce
by their strength (0: as little as any activity takes, 1: never short) and each activity takes one with a
probability, the resource factor. Maximum lags are drawn around a schedule that holds, so every project can be done.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random

from bench.project import Activity, Lag, Project
from bench.write_project import written_sch, written_sm

RESOURCES = 4
LONGEST = 10
STRENGTHS, FACTORS, FOLLOWERS = (0.2, 0.5, 0.7), (0.25, 0.5, 0.75, 1.0), (1.5, 1.8, 2.1)
SLACK = (1.0, 1.3)
"""A maximum lag is so many times the distance in the schedule that holds."""


@dataclass(frozen=True, slots=True)
class Shape:
    """What a project is drawn by: activities, whether with maximum lags, and how scarce resources are."""

    activities: int
    lags: bool = False
    strength: float = 0.5
    factor: float = 0.5
    followers: float = 1.8


def shapes(activities: int, count: int, *, lags: bool = False) -> Iterator[Shape]:
    """Give so many shapes of one size, going through strengths, factors and followers in turn."""
    for number in range(count):
        strength = STRENGTHS[number % len(STRENGTHS)]
        factor = FACTORS[number % len(FACTORS)]
        yield Shape(activities, lags, strength, factor, FOLLOWERS[number // 2 % len(FOLLOWERS)])


def drawn(shape: Shape, seed: int) -> Project:
    """Return the project of a shape and a seed; the same two always give the same project."""
    chance = Random(f"{shape} {seed}")  # noqa: S311  it must be repeatable, not secret
    inner = [_activity(shape, chance) for _number in range(shape.activities)]
    nothing = Activity(0, (0,) * RESOURCES)
    activities = (nothing, *inner, nothing)
    pairs = _pairs(shape, chance)
    lags = [Lag(before, after, _lag(shape, activities[before], chance)) for before, after in pairs]
    end = len(activities) - 1
    followed, led = {lag.before for lag in lags}, {lag.after for lag in lags}
    lags += [Lag(0, number, 0) for number in range(1, end) if number not in led]
    lags += [Lag(number, end, activities[number].length) for number in range(1, end) if number not in followed]
    lags.sort(key=lambda lag: (lag.before, lag.after))
    capacities = _capacities(shape, activities, lags)
    kind = "lags" if shape.lags else "plain"
    name = f"{kind}{shape.activities}_{seed}"
    project = Project(name, activities, capacities, tuple(lags))
    return _with_limits(project, chance) if shape.lags else project


def _activity(shape: Shape, chance: Random) -> Activity:
    demands = [chance.randint(1, 10) if chance.random() < shape.factor else 0 for _resource in range(RESOURCES)]
    if not any(demands):
        demands[chance.randrange(RESOURCES)] = chance.randint(1, 10)
    return Activity(chance.randint(1, LONGEST), tuple(demands))


def _pairs(shape: Shape, chance: Random) -> list[tuple[int, int]]:
    """Return who follows whom: each but the first three follows one of the thirty before, and more by chance."""
    found: set[tuple[int, int]] = set()
    count = shape.activities
    for after in range(4, count + 1):
        found.add((chance.randint(max(1, after - 30), after - 1), after))
    while len(found) < shape.followers * (count - 3):
        before = chance.randint(1, count - 1)
        found.add((before, chance.randint(before + 1, min(count, before + 30))))
    return sorted(found)


def _lag(shape: Shape, before: Activity, chance: Random) -> int:
    return chance.randint(0, 2 * before.length) if shape.lags else before.length


def _capacities(shape: Shape, activities: tuple[Activity, ...], lags: list[Lag]) -> tuple[int, ...]:
    starts = _earliest(activities, lags)
    found = []
    for resource in range(RESOURCES):
        least = max(each.demands[resource] for each in activities)
        peak = max(
            sum(
                other.demands[resource]
                for at, other in zip(starts, activities, strict=True)
                if at <= minute < at + other.length
            )
            for minute in set(starts)
        )
        found.append(max(1, least + round(shape.strength * max(0, peak - least))))
    return tuple(found)


def _earliest(activities: tuple[Activity, ...], lags: list[Lag]) -> list[int]:
    starts = [0] * len(activities)
    for lag in lags:  # in order of what comes before
        starts[lag.after] = max(starts[lag.after], starts[lag.before] + lag.minutes)
    return starts


def _with_limits(project: Project, chance: Random) -> Project:
    """Add maximum lags along some of the minimum lags and across others, loose around a schedule that holds."""
    starts = serial(project)
    limits = []
    for lag in project.lags:
        if lag.before > 0 and lag.after < project.end and chance.random() < 0.2:
            apart = starts[lag.after] - starts[lag.before]
            limits.append(Lag(lag.after, lag.before, -round(apart * chance.uniform(*SLACK))))
    for _each in range(project.end // 10):
        one, other = chance.sample(range(1, project.end), 2)
        if starts[one] > starts[other]:
            one, other = other, one
        apart = starts[other] - starts[one]
        limits.append(Lag(other, one, -round(apart * chance.uniform(*SLACK))))
    known = {(lag.before, lag.after) for lag in project.lags}
    once = {(lag.before, lag.after): lag for lag in limits if (lag.before, lag.after) not in known}
    lags = sorted([*project.lags, *once.values()], key=lambda lag: (lag.before, lag.after))
    return Project(project.name, project.activities, project.capacities, tuple(lags))


def serial(project: Project) -> tuple[int, ...]:
    """Return starts that hold all minimum lags and resources: each activity as soon as may be, in their order."""
    starts = [0] * len(project.activities)
    taken = [[0] * (2 * project.horizon + 2) for _resource in project.capacities]
    for number, activity in enumerate(project.activities):
        leads = [starts[lag.before] + lag.minutes for lag in project.lags if lag.after == number]
        at = max([0, *leads])
        if number == project.end:
            at = max([at, *(start + each.length for start, each in zip(starts, project.activities, strict=True))])
        while not _room(project, activity, taken, at):
            at += 1
        starts[number] = at
        for row, units in zip(taken, activity.demands, strict=True):
            for minute in range(at, at + activity.length):
                row[minute] += units
    return tuple(starts)


def _room(project: Project, activity: Activity, taken: list[list[int]], at: int) -> bool:
    return all(
        max(row[at : at + activity.length], default=0) + units <= capacity
        for row, units, capacity in zip(taken, activity.demands, project.capacities, strict=True)
    )


def main(arguments: list[str] | None = None) -> None:
    """Write random projects into a folder."""
    parser = argparse.ArgumentParser(prog="python -m bench.random_projects", description="Write random projects.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--kind", choices=("sm", "sch"), default="sm")
    parser.add_argument("--activities", type=int, default=30)
    parser.add_argument("--count", type=int, default=10)
    chosen = parser.parse_args(arguments)
    chosen.folder.mkdir(parents=True, exist_ok=True)
    lags = chosen.kind == "sch"
    for seed, shape in enumerate(shapes(chosen.activities, chosen.count, lags=lags), 1):
        project = drawn(shape, seed)
        text = written_sch(project) if lags else written_sm(project)
        (chosen.folder / f"{project.name}.{chosen.kind}").write_text(text, encoding="ascii")
    print(f"{chosen.count} projects of {chosen.activities} activities were written to {chosen.folder}.")


if __name__ == "__main__":
    main()
