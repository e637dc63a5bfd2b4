"""Lines of a benchmark file, and what both formats write alike; refusals name the line and say the mend."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import NoReturn

from bench.project import Activity
from core.measures.refusal import Refusal, quoted

MOST_ACTIVITIES, MOST_RESOURCES, MOST_MINUTES = 5000, 50, 100_000


@dataclass(slots=True)
class Lines:
    """A file's lines with a place in them; lines are counted from 1."""

    name: str
    lines: list[str]
    at: int = field(default=0)

    @classmethod
    def of(cls, path: Path) -> Lines:
        """Return the lines of a file; a Refusal where it is not to be read as text."""
        try:
            text = path.read_text(encoding="latin-1")
        except OSError as fault:
            raise Refusal(f"{path.name} cannot be read ({fault.strerror}); give another file.") from fault
        return cls(path.name, text.splitlines())

    def refuse(self, what: str, mend: str, line: int | None = None) -> NoReturn:
        """Say what is wrong with a line (the one read last unless said) and what to do."""
        number = self.at if line is None else line
        raise Refusal(f"{self.name}, line {number}: {what}; {mend}.")

    def next(self, wanted: str) -> str:
        """Return the next line that holds something other than a rule of dashes or stars."""
        while self.at < len(self.lines):
            self.at += 1
            line = self.lines[self.at - 1]
            if line.strip(" \t*-"):
                return line
        return self.refuse(f"the file ends where {wanted} should stand", "give the whole file", len(self.lines))

    def to(self, heading: str) -> None:
        """Go to the line after the one that begins with a heading."""
        while self.at < len(self.lines):
            self.at += 1
            if self.lines[self.at - 1].strip().upper().startswith(heading):
                return
        self.refuse(f"the heading {heading} is missing", "give the whole file", len(self.lines))

    def numbers(self, wanted: str, least: int = 1) -> list[int]:
        """Return the whole numbers of the next line, at least so many."""
        found = []
        for word in self.next(wanted).split():
            if not re.fullmatch(r"-?\d{1,9}", word):
                self.refuse(f"{quoted(word)} is no whole number", f"write {wanted}")
            found.append(int(word))
        if len(found) < least:
            self.refuse(f"{len(found)} numbers where {least} should stand", f"write {wanted}")
        return found

    def checked(self, value: int, low: int, high: int, what: str) -> int:
        """Return a number of the line read last that lies between two others."""
        if not low <= value <= high:
            self.refuse(f"{what} is {value}", f"give {low} to {high}")
        return value


def activity(lines: Lines, number: int, resources: int) -> Activity:
    """Return the activity of the next line: its number, mode, length, and what it takes of each resource."""
    wanted = f"activity {number} with its mode, its length and {resources} demands"
    row = lines.numbers(wanted, 3 + resources)
    if row[0] != number or row[1] != 1:
        lines.refuse(f"activity {row[0]} in mode {row[1]} stands where {number} in mode 1 should", f"write {wanted}")
    length = lines.checked(row[2], 0, MOST_MINUTES, "the length")
    demands = tuple(lines.checked(each, 0, MOST_MINUTES, "a demand") for each in row[3 : 3 + resources])
    return Activity(length, demands)


def capacities(lines: Lines, resources: int, activities: list[Activity]) -> tuple[int, ...]:
    """Return what the next line says there is of each resource: no less than any activity takes."""
    found = lines.numbers(f"the amount there is of {resources} resources", resources)[:resources]
    for resource, capacity in enumerate(found):
        lines.checked(capacity, 1, MOST_MINUTES, f"the amount of resource {resource + 1}")
        most = max(each.demands[resource] for each in activities)
        if most > capacity:
            lines.refuse(
                f"there are {capacity} of resource {resource + 1} and an activity takes {most}",
                "give it as many at least",
            )
    return tuple(found)
