"""The table "To reach": what the design asks for, what was measured in this run, and what is missed by how much.

A row answers a line by its `line`; rows of the files named in `_OF_FILE` that have a figure to reach answer the line
given there without saying so.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bench.row import Row

SIZES = {84: "84 steps", 203: "200", 399: "400", 1001: "1,000"}


@dataclass(frozen=True, slots=True)
class Line:
    """One line: its key, its words, and the figures to reach at 84, 200 and 400 steps; who measures it."""

    key: str
    words: str
    targets: tuple[str, ...]
    measured_by: str


LINES = (
    Line("first", "first clash-free timetable of a solvable feast", ("0.3 s", "1 s", "5 s"), "arrange"),
    Line("best", "within 5 % of the best of the long run", ("5 s", "10 s", "30 s"), "arrange"),
    Line("drop", "drop to first valid re-flow, p90", ("100 ms", "250 ms", "500 ms"), "arrange"),
    Line("move", "pointer move, network and clashes, p95", ("2 ms", "3 ms", "5 ms"), "validator"),
    Line("why", "why not: smallest set, or a sound answer", ("0.5 s", "1.5 s", "3 s"), "why"),
    Line("chances", "10,000 chances", ("50 ms", "100 ms", "200 ms"), "chances"),
)
_OF_FILE = {"why": "why", "chances": "chances"}
_UNITS = {"µs": 1e-6, "ms": 1e-3, "s": 1.0, "min": 60.0}
_LINE = "{:<48} {:>22} {:>22} {:>22} {:>12}"

Measured = list[tuple[str, Row]]
"""Rows with the name of the file that gave each."""


def table(measured: Measured) -> Iterator[str]:
    """Give the lines of the table, then a sentence for each figure that is missed or was not measured."""
    yield _LINE.format("To reach", *SIZES.values()).rstrip()
    remarks: list[str] = []
    for line in LINES:
        cells = []
        for number, size in enumerate(SIZES):
            row = _worst([row for file, row in measured if _answers(line, file, row) and _steps(row) == size])
            target = line.targets[number] if number < len(line.targets) else ""
            cells.append(_cell(row, target))
            if target and (remark := _remark(line, size, row, target)):
                remarks.append(remark)
        yield _LINE.format(line.words, *cells).rstrip()
    for _file, row in measured:
        if row.line == "projects":
            told = "met" if row.met else "missed"
            words = f"projects {row.size}: no worse than the better of the two"
            yield f"{words:<48}   {row.figure} against {row.target}: {told}"
    yield from remarks


def seconds(figure: str) -> float | None:
    """Return the seconds of a figure such as "812 ms"; None where it is none."""
    found = re.fullmatch(r"([\d.,]+) (µs|ms|s|min)", figure)
    return None if found is None else float(found[1].replace(",", "")) * _UNITS[found[2]]


def _answers(line: Line, file: str, row: Row) -> bool:
    return row.line == line.key or (not row.line and bool(row.target) and _OF_FILE.get(file) == line.key)


def _steps(row: Row) -> int:
    found = re.match(r"\d+", row.size)
    return int(found[0]) if found else 0


def _worst(rows: list[Row]) -> Row | None:
    return max(rows, key=lambda row: _or_endless(row.figure), default=None)


def _or_endless(figure: str) -> float:
    found = seconds(figure)
    return float("inf") if found is None else found


def _cell(row: Row | None, target: str) -> str:
    if row is None:
        return "not measured" if target else "-"
    if not target:
        return row.figure
    return f"{row.figure} of {target} {'met' if _met(row, target) else 'MISSED'}"


def _met(row: Row, target: str) -> bool:
    wanted = seconds(target)
    return wanted is not None and _or_endless(row.figure) <= wanted


def _remark(line: Line, size: int, row: Row | None, target: str) -> str:
    if row is None:
        return f"{line.words}, {size} steps: not measured in this run; --only {line.measured_by} measures it."
    if _met(row, target):
        return ""
    found, wanted = seconds(row.figure), seconds(target)
    words = f"{line.words}, {size} steps: missed"
    if found is None or wanted is None:
        words = f"{words}, {row.figure} where {target} was to be reached"
    else:
        words = f"{words}, {found / wanted:.1f} times the {target} to be reached"
    return f"{words}{f'; {row.remark}' if row.remark else ''}."
