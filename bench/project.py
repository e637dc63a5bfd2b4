"""A project of activities on renewable resources with time lags, as the benchmark sets of the literature have them.

RCPSP (Kolisch and Sprecher 1996) and RCPSP/max (Schwindt 1998): the makespan is to be as short as can be.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Activity:
    """So many minutes (0: a mere moment), and how much of each resource it takes all the while."""

    length: int
    demands: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Lag:
    """`after` starts at least so many minutes after `before` starts; negative: at most so many before it."""

    before: int
    after: int
    minutes: int


@dataclass(frozen=True, slots=True)
class Project:
    """The first activity is the beginning and the last the end, both 0 min long; all start sums are from there."""

    name: str
    activities: tuple[Activity, ...]
    capacities: tuple[int, ...]
    lags: tuple[Lag, ...]

    @property
    def end(self) -> int:
        """Return the number of the last activity."""
        return len(self.activities) - 1

    @property
    def horizon(self) -> int:
        """Return minutes in which the project can be done if it can be done at all: one thing after the other."""
        longest = [activity.length for activity in self.activities]
        for lag in self.lags:
            longest[lag.before] = max(longest[lag.before], lag.minutes)
        return sum(longest)


def broken(project: Project, starts: tuple[int, ...]) -> list[str]:
    """Return what starts (from 0, one for each activity) break, in words. It knows nothing of any solver."""
    found = [
        f"activity {lag.after} starts {starts[lag.before] + lag.minutes - starts[lag.after]} min too soon"
        for lag in project.lags
        if starts[lag.after] < starts[lag.before] + lag.minutes
    ]
    ends = [start + activity.length for start, activity in zip(starts, project.activities, strict=True)]
    found += [f"activity {number} starts before the beginning" for number, each in enumerate(starts) if each < 0]
    found += [f"activity {number} ends after the end" for number, each in enumerate(ends) if each > starts[-1]]
    for resource, capacity in enumerate(project.capacities):
        for minute in sorted(set(starts)):
            taken = sum(
                activity.demands[resource]
                for activity, start, end in zip(project.activities, starts, ends, strict=True)
                if start <= minute < end
            )
            if taken > capacity:
                found.append(f"resource {resource} is over-full by {taken - capacity} at {minute}")
    return found


def least_length(project: Project) -> int | None:
    """Return the makespan that the lags alone allow, None where they contradict each other."""
    at = [0] * len(project.activities)
    whole = [*project.lags, *(Lag(each, project.end, one.length) for each, one in enumerate(project.activities))]
    for _round in at:
        changed = False
        for lag in whole:
            if at[lag.before] + lag.minutes > at[lag.after]:
                at[lag.after] = at[lag.before] + lag.minutes
                changed = True
        if not changed:
            return at[-1] if at[0] == 0 else None
    return None
