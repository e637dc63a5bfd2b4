"""Reads the single-mode files of PSPLIB (`.sm`): renewable resources, finish-to-start precedence.

Source of the format: Kolisch and Sprecher, PSPLIB - a project scheduling problem library, EJOR 96 (1996), as their
generator ProGen writes it (from memory of the published files). Headings in capitals tell the parts; activities are
counted from 1, the first and the last are the beginning and the end.
"""

from __future__ import annotations

import re
from pathlib import Path

from bench.project import Activity, Lag, Project
from bench.project_text import Lines

_MOST_ACTIVITIES, _MOST_RESOURCES, _MOST_MINUTES = 5000, 50, 100_000


def read_sm(path: Path) -> Project:
    """Return the project of a file; a malformed file is a Refusal that names the line and the mend."""
    lines = Lines.of(path)
    count = _counted(lines, "JOBS", 2, _MOST_ACTIVITIES)
    lines.to("RESOURCES")
    renewable = _counted(lines, "- RENEWABLE", 1, _MOST_RESOURCES)
    for kind in ("- NONRENEWABLE", "- DOUBLY CONSTRAINED"):
        if _counted(lines, kind, 0, _MOST_RESOURCES):
            lines.refuse("resources that are used up are not read", "give a file with renewable ones only")
    lines.to("PRECEDENCE RELATIONS")
    lines.next("the heading of the columns")
    followers = [_followers(lines, number, count) for number in range(1, count + 1)]
    lines.to("REQUESTS/DURATIONS")
    lines.next("the heading of the columns")
    activities = [_activity(lines, number, renewable) for number in range(1, count + 1)]
    lines.to("RESOURCEAVAILABILITIES")
    lines.next("the heading of the columns")
    capacities = lines.numbers(f"the amount there is of {renewable} resources", renewable)[:renewable]
    _fit(lines, activities, capacities)
    lags = [
        Lag(number, follower - 1, activities[number].length)
        for number, those in enumerate(followers)
        for follower in those
    ]
    return Project(path.stem, tuple(activities), tuple(capacities), tuple(lags))


def _counted(lines: Lines, heading: str, least: int, most: int) -> int:
    """Return the number after the colon of the line that begins with a heading."""
    lines.to(heading)
    found = re.match(r"[^:]*:\s*(\d+)", lines.lines[lines.at - 1])
    if found is None:
        lines.refuse("no number stands after the colon", "write how many there are")
    return lines.checked(int(found[1]), least, most, "the number after the colon")


def _followers(lines: Lines, number: int, count: int) -> list[int]:
    wanted = f"activity {number} with its modes, its number of successors and these"
    row = lines.numbers(wanted, 3)
    if row[0] != number:
        lines.refuse(f"activity {row[0]} stands where {number} should", "write the activities in order")
    if row[1] != 1:
        lines.refuse(f"activity {number} has {row[1]} modes", "give a single-mode file")
    if row[2] != len(row) - 3:
        lines.refuse(f"{row[2]} successors are announced and {len(row) - 3} given", "make the two agree")
    return [lines.checked(each, number + 1, count, "a successor") for each in row[3:]]


def _activity(lines: Lines, number: int, resources: int) -> Activity:
    wanted = f"activity {number} with its mode, its length and {resources} demands"
    row = lines.numbers(wanted, 3 + resources)
    if row[0] != number or row[1] != 1:
        lines.refuse(f"activity {row[0]} in mode {row[1]} stands where {number} in mode 1 should", f"write {wanted}")
    length = lines.checked(row[2], 0, _MOST_MINUTES, "the length")
    demands = tuple(lines.checked(each, 0, _MOST_MINUTES, "a demand") for each in row[3 : 3 + resources])
    return Activity(length, demands)


def _fit(lines: Lines, activities: list[Activity], capacities: list[int]) -> None:
    for resource, capacity in enumerate(capacities):
        lines.checked(capacity, 1, _MOST_MINUTES, f"the amount of resource {resource + 1}")
        most = max(each.demands[resource] for each in activities if each.demands)
        if most > capacity:
            lines.refuse(
                f"there are {capacity} of resource {resource + 1} and an activity takes {most}",
                "give it as many at least",
            )
