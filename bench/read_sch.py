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

from bench.project import Lag, Project
from bench.project_text import MOST_ACTIVITIES, MOST_MINUTES, MOST_RESOURCES, Lines, activity, capacities


def read_sch(path: Path) -> Project:
    """Return the project of a file; a malformed file is a Refusal that names the line and the mend."""
    lines = Lines.of(path)
    head = lines.numbers("the numbers of activities and of resources (renewable, used up, both)", 4)
    end = lines.checked(head[0], 1, MOST_ACTIVITIES, "the number of activities") + 1
    resources = lines.checked(head[1], 1, MOST_RESOURCES, "the number of renewable resources")
    if head[2] or head[3]:
        lines.refuse("resources that are used up are not read", "give a file with renewable ones only")
    lags = [lag for number in range(end + 1) for lag in _lags(lines, number, end)]
    activities = [activity(lines, number, resources) for number in range(end + 1)]
    there = capacities(lines, resources, activities)
    return Project(path.stem, tuple(activities), there, tuple(lags))


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
        lag = lines.checked(int(group), -MOST_MINUTES, MOST_MINUTES, "a lag")
        if other == number and lag > 0:
            lines.refuse(f"activity {number} is to start {lag} after itself", "take the lag out")
        found.append(Lag(number, other, lag))
    return found
