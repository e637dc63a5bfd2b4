"""Reads the files of ProGen/max (`.sch`): renewable resources, minimum and maximum lags between starts.

Source of the format: Schwindt, Generation of resource-constrained project scheduling problems subject to temporal
constraints, Report WIOR-543, Karlsruhe 1998 (from memory of the published files). First the numbers of activities
and of resources (renewable, used up, both); then for each activity its number, its modes, how many follow, these,
and for each the lag in brackets; then number, mode, length and demands; last what there is of each resource.
Activity 0 is the beginning, the last the end. A negative lag is a maximum lag the other way round.
"""

from __future__ import annotations

import re
from pathlib import Path

from bench.project import Activity, Lag, Project
from bench.project_text import Lines

_MOST_ACTIVITIES, _MOST_RESOURCES, _MOST_MINUTES = 5000, 50, 100_000


def read_sch(path: Path) -> Project:
    """Return the project of a file; a malformed file is a Refusal that names the line and the mend."""
    lines = Lines.of(path)
    head = lines.numbers("the numbers of activities and of resources (renewable, used up, both)", 4)
    end = lines.checked(head[0], 1, _MOST_ACTIVITIES, "the number of activities") + 1
    resources = lines.checked(head[1], 1, _MOST_RESOURCES, "the number of renewable resources")
    if head[2] or head[3]:
        lines.refuse("resources that are used up are not read", "give a file with renewable ones only")
    lags = [lag for number in range(end + 1) for lag in _lags(lines, number, end)]
    activities = [_activity(lines, number, resources) for number in range(end + 1)]
    capacities = lines.numbers(f"the amount there is of {resources} resources", resources)[:resources]
    for resource, capacity in enumerate(capacities):
        lines.checked(capacity, 1, _MOST_MINUTES, f"the amount of resource {resource + 1}")
        most = max(each.demands[resource] for each in activities)
        if most > capacity:
            lines.refuse(
                f"there are {capacity} of resource {resource + 1} and an activity takes {most}",
                "give it as many at least",
            )
    return Project(path.stem, tuple(activities), tuple(capacities), tuple(lags))


def _lags(lines: Lines, number: int, end: int) -> list[Lag]:
    wanted = f"activity {number} with its modes, how many follow, these, and their lags in brackets"
    line = lines.next(wanted)
    before, bracket, brackets = line.partition("[")
    words, groups = before.split(), re.findall(r"\[([^\[\]]*)\]", bracket + brackets)
    left = re.sub(r"\[[^\[\]]*\]", " ", bracket + brackets).split()
    if left or any(not re.fullmatch(r"-?\d{1,9}", word) for word in words):
        lines.refuse("there is something else than whole numbers and lags in brackets", f"write {wanted}")
    row = [int(word) for word in words]
    if len(row) < 3 or row[0] != number:
        lines.refuse(f"activity {number} should stand here", f"write {wanted}")
    if row[1] != 1:
        lines.refuse(f"activity {number} has {row[1]} modes", "give a single-mode file")
    if not row[2] == len(row) - 3 == len(groups):
        lines.refuse(
            f"{row[2]} followers are announced, {len(row) - 3} named and {len(groups)} lags given",
            "make the three agree",
        )
    found = []
    for other, group in zip(row[3:], groups, strict=True):
        lines.checked(other, 0, end, "a follower")
        if not re.fullmatch(r"\s*-?\d{1,9}\s*", group):
            lines.refuse(f"the lag [{group}] is not one whole number", "write one number for the one mode")
        lag = lines.checked(int(group), -_MOST_MINUTES, _MOST_MINUTES, "a lag")
        if other == number and lag > 0:
            lines.refuse(f"activity {number} is to start {lag} after itself", "take the lag out")
        found.append(Lag(number, other, lag))
    return found


def _activity(lines: Lines, number: int, resources: int) -> Activity:
    wanted = f"activity {number} with its mode, its length and {resources} demands"
    row = lines.numbers(wanted, 3 + resources)
    if row[0] != number or row[1] != 1:
        lines.refuse(f"activity {row[0]} in mode {row[1]} stands where {number} in mode 1 should", f"write {wanted}")
    length = lines.checked(row[2], 0, _MOST_MINUTES, "the length")
    demands = tuple(lines.checked(each, 0, _MOST_MINUTES, "a demand") for each in row[3 : 3 + resources])
    return Activity(length, demands)
