"""Who stands in which row: racks and rings given out, and loose packing. Minutes and rows only."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.timeline.bars import Bar, BarKind


@dataclass(frozen=True, slots=True)
class Claim:
    """Something that needs `units` rows from start to end."""

    start: int
    end: int
    units: int = 1


def racked(claims: Sequence[Claim], room: int) -> tuple[list[list[tuple[int, int]]], int]:
    """Give each claim rows of a station with `room` of them.

    Return for each claim its runs of neighbouring rows as (first row, rows), and how many rows are needed
    in all: more than `room` where the station is over-full. Rows side by side are taken where there are any.
    """
    given: list[list[tuple[int, int]]] = [[] for _ in claims]
    busy: list[int] = [_NEVER] * max(room, 1)
    order = sorted(range(len(claims)), key=lambda at: (claims[at].start, -claims[at].end, at))
    for at in order:
        claim = claims[at]
        units = max(1, claim.units)
        free = [row for row, until in enumerate(busy) if until <= claim.start]
        while len(free) < units:
            free.append(len(busy))
            busy.append(_NEVER)
        rows = _neighbours(free, units)
        for row in rows:
            busy[row] = max(claim.end, claim.start + 1)
        given[at] = _runs(rows)
    return given, len(busy)


def packed(claims: Sequence[Claim], wants: Sequence[int | None] = ()) -> tuple[list[int], int]:
    """Give each claim one row so that none overlap; `wants` names the claim in whose row it would follow.

    Return the rows and how many there are (at least 1).
    """
    rows = [0] * len(claims)
    busy: list[int] = []
    order = sorted(range(len(claims)), key=lambda at: (claims[at].start, claims[at].end, at))
    placed: set[int] = set()
    for at in order:
        claim = claims[at]
        free = [row for row, until in enumerate(busy) if until <= claim.start]
        wanted = wants[at] if at < len(wants) else None
        if wanted is not None and wanted in placed and rows[wanted] in free:
            row = rows[wanted]
        elif free:
            row = free[0]
        else:
            row = len(busy)
            busy.append(_NEVER)
        rows[at] = row
        busy[row] = max(claim.end, claim.start + 1)
        placed.add(at)
    return rows, max(1, len(busy))


def in_order(bars: Sequence[Bar]) -> tuple[Bar, ...]:
    """Return bars sorted by start, each knowing when the next one in its rows begins."""
    ordered = sorted(bars, key=lambda bar: (bar.start, bar.row, bar.end))
    next_in: dict[int, int] = {}
    found = []
    for bar in reversed(ordered):
        rows = range(bar.row, bar.row + bar.rows)
        after = [next_in[row] for row in rows if row in next_in]
        found.append(replace(bar, until=min(after, default=None)))
        if bar.kind is not BarKind.HEATING or bar.full:  # heating up lies behind; switching on takes a hand
            next_in.update(dict.fromkeys(rows, bar.start))
    return tuple(reversed(found))


_NEVER = -(10**9)


def _neighbours(free: list[int], units: int) -> list[int]:
    for at in range(len(free) - units + 1):
        if free[at + units - 1] - free[at] == units - 1:
            return free[at : at + units]
    return free[:units]


def _runs(rows: list[int]) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    for row in rows:
        if runs and row == runs[-1][0] + runs[-1][1]:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        else:
            runs.append((row, 1))
    return runs
