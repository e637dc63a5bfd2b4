"""Reads the single-mode files of PSPLIB (`.sm`): renewable resources, finish-to-start precedence.

Source of the format: Kolisch and Sprecher, PSPLIB - a project scheduling problem library, EJOR 96 (1996), as their
generator ProGen writes it (from memory of the published files). Headings in capitals tell the parts; activities are
counted from 1, the first and the last are the beginning and the end.
"""

from __future__ import annotations

import re
from pathlib import Path

from bench.project import Lag, Project
from bench.project_text import MOST_ACTIVITIES, MOST_RESOURCES, Lines, activity, capacities


def read_sm(path: Path) -> Project:
    """Return the project of a file; a malformed file is a Refusal that names the line and the mend."""
    lines = Lines.of(path)
    count = _counted(lines, "JOBS", 2, MOST_ACTIVITIES)
    lines.to("RESOURCES")
    renewable = _counted(lines, "- RENEWABLE", 1, MOST_RESOURCES)
    for kind in ("- NONRENEWABLE", "- DOUBLY CONSTRAINED"):
        if _counted(lines, kind, 0, MOST_RESOURCES):
            lines.refuse("resources that are used up are not read", "give a file with renewable ones only")
    lines.to("PRECEDENCE RELATIONS")
    lines.next("the heading of the columns")
    followers = [_followers(lines, number, count) for number in range(1, count + 1)]
    lines.to("REQUESTS/DURATIONS")
    lines.next("the heading of the columns")
    activities = [activity(lines, number, renewable) for number in range(1, count + 1)]
    lines.to("RESOURCEAVAILABILITIES")
    lines.next("the heading of the columns")
    there = capacities(lines, renewable, activities)
    lags = [
        Lag(number, follower - 1, activities[number].length)
        for number, those in enumerate(followers)
        for follower in those
    ]
    return Project(path.stem, tuple(activities), there, tuple(lags))


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
