"""What a row file gives: `rows(seconds)` yields rows one by one, as they are measured.

A file `bench/row_NAME.py` needs nothing else: it is found by its name, and `--only NAME` picks it. `seconds` is the
time that one long measurement of the file may take, such as one run of arranging.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: what was measured, on what, the figure with its unit, and the figure to reach.

    `line` is the key of the line of "To reach" that it answers (bench/reach.py); `met` where comparing the two
    figures does not tell; `remark` is told where the figure is missed.
    """

    what: str
    size: str
    figure: str
    target: str = ""
    line: str = ""
    met: bool | None = None
    remark: str = ""


MOVE_TARGET = {12: "2 ms", 29: "3 ms", 57: "5 ms"}
"""What one pointer move may take at the 95th percentile, by dishes of the feast."""


def timed(work: Callable[[], object]) -> float:
    """Return how many seconds a piece of work takes."""
    before = time.perf_counter()
    work()
    return time.perf_counter() - before


def repeated(work: Callable[[], object], times: int) -> list[float]:
    """Return the seconds of each of so many repetitions, sorted."""
    return sorted(timed(work) for _ in range(times))


def timed_twice(work: Callable[[], object]) -> tuple[float, float]:
    """Return the seconds of the clock that a piece of work takes, and those that this process worked for.

    On a busy machine the second figure is what counts.
    """
    before, worked = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - before, time.process_time() - worked


def share(sorted_values: list[float], percent: int) -> float:
    """Return the value below which so many percent of sorted values lie (nearest rank)."""
    return sorted_values[max(0, -(-len(sorted_values) * percent // 100) - 1)]


def show(seconds: float) -> str:
    """Return seconds with the unit that suits: µs, ms or s."""
    if seconds < 1e-4:
        return f"{seconds * 1e6:.1f} µs"
    if seconds < 1:
        return f"{seconds * 1e3:.2f} ms" if seconds < 0.01 else f"{seconds * 1e3:.0f} ms"
    return f"{seconds:.1f} s"
