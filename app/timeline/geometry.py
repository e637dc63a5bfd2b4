"""Where things stand: minutes to points across (exactly, both ways), lanes down, bars, and what is hit."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from app.timeline.bars import Bar, BarKind, Lane

ROW = 26.0
"""Height of a row in points at the usual type size."""
LANE_GAP = 8.0
LANE_PAD = 3.0
CROWN = 0.62
"""Height of a row of a lane's crown as a share of a row."""
FOLD = 38.0
"""Width in points of a folded stretch."""
SLOP = 5.0
"""Points around a narrow bar that still count as hitting it."""
LINE = 0.42
"""Height of a lane folded to a line as a share of a row."""
STROKE = 2.0
"""Least height in points of a bar in a line."""


class Box(NamedTuple):
    """A rectangle in points."""

    x: float
    y: float
    w: float
    h: float

    @property
    def right(self) -> float:
        """Return the right edge."""
        return self.x + self.w

    @property
    def bottom(self) -> float:
        """Return the lower edge."""
        return self.y + self.h

    def holds(self, x: float, y: float, slop: float = 0.0) -> bool:
        """Tell whether a point lies inside; `slop` widens the box to both sides."""
        return self.x - slop <= x < self.right + slop and self.y <= y < self.bottom

    def meets(self, other: Box) -> bool:
        """Tell whether two boxes share any area."""
        across = self.x < other.right and other.x < self.right
        return across and self.y < other.bottom and other.y < self.bottom


class Axis:
    """Minutes from `low` to `high` across, `ppm` points a minute; folds take a fixed width at most."""

    def __init__(self, low: int, high: int, ppm: float, folds: Sequence[tuple[int, int]] = ()) -> None:
        self.low = low
        self.high = max(high, low + 1)
        self.ppm = ppm
        self.folds = tuple((max(start, low), min(end, self.high)) for start, end in folds)
        knots = [low, *(at for fold in self.folds for at in fold), self.high]
        self._times = sorted(set(knots))
        folded = set(self.folds)
        self._xs = [0.0]
        for start, end in zip(self._times, self._times[1:], strict=False):
            true = (end - start) * ppm
            self._xs.append(self._xs[-1] + (min(true, FOLD) if (start, end) in folded else true))
        ends = zip(self._times, self._times[1:], self._xs, self._xs[1:], strict=False)
        self._pieces = [(start, left, right - left, end - start) for start, end, left, right in ends]

    @property
    def width(self) -> float:
        """Return the points that all of it takes."""
        return self._xs[-1]

    def x(self, minute: float) -> float:
        """Return the points from the left edge of a minute; before and after the ends at the usual rate."""
        if minute <= self.low:
            return (minute - self.low) * self.ppm
        if minute >= self.high:
            return self.width + (minute - self.high) * self.ppm
        at = bisect_right(self._times, minute) - 1
        start, left, wide, long = self._pieces[at]
        return left + (minute - start) * wide / long

    def time(self, x: float) -> float:
        """Return the minute at a point, with its fraction."""
        if x <= 0:
            return self.low + x / self.ppm
        if x >= self.width:
            return self.high + (x - self.width) / self.ppm
        at = bisect_right(self._xs, x) - 1
        start, end = self._times[at], self._times[at + 1]
        left, right = self._xs[at], self._xs[at + 1]
        return start + (x - left) * (end - start) / (right - left)

    @property
    def open_minutes(self) -> float:
        """Return its width in minutes of its scale: a fold counts for as much as it is wide."""
        return self.width / self.ppm

    def pieces(self, start: float, end: float) -> list[tuple[float, float, float]]:
        """Return the stretches (start, end, points a minute) of one rate each that meet a stretch of time."""
        at = max(0, bisect_right(self._times, start) - 1)
        found = []
        while at < len(self._times) - 1 and self._times[at] < end:
            first, last = self._times[at], self._times[at + 1]
            rate = (self._xs[at + 1] - self._xs[at]) / (last - first)
            found.append((max(start, first), min(end, last), rate))
            at += 1
        return found

    def minute(self, x: float) -> int:
        """Return the whole minute nearest to a point."""
        return round(self.time(x))

    def folded(self, minute: float) -> bool:
        """Tell whether a minute lies inside a fold (its edges do not)."""
        return any(start < minute < end for start, end in self.folds)

    def zoomed(self, ppm: float) -> Axis:
        """Return the same axis at another scale."""
        return Axis(self.low, self.high, ppm, self.folds)

    def scale_for(self, width: float, start: float | None = None, end: float | None = None) -> float:
        """Return the points a minute at which start..end takes this width."""
        start = self.low if start is None else start
        end = self.high if end is None else end
        held = [(max(0, min(end, last) - max(start, first)), last - first) for first, last in self.folds]
        # the longest folds come to their width first; from then on they no longer grow with the scale
        growing, fixed = max(1e-6, end - start), 0.0
        for part, whole in sorted(((part, whole) for part, whole in held if part), key=lambda fold: -fold[1]):
            if fixed + growing * FOLD / whole >= width:
                break
            growing, fixed = growing - part, fixed + FOLD * part / whole
        return width if growing <= 0 else min(width, (width - fixed) / growing)


def quiet_stretches(
    events: Iterable[int], low: int, high: int, least: int = 120, margin: int = 15
) -> tuple[tuple[int, int], ...]:
    """Return stretches of `least` minutes or more without events, less `margin` minutes at either side."""
    found = []
    before = low
    for at in [*sorted({each for each in events if low < each < high}), high]:
        start, end = before + margin, at - margin
        if at - before >= least and end > start:
            found.append((start, end))
        before = at
    return tuple(found)


class Layout:
    """Lanes one below the other. All y in points from the top of the first lane."""

    def __init__(self, lanes: Sequence[Lane], row: float = ROW) -> None:
        self.lanes = tuple(lanes)
        self.row = row
        self.tops: list[float] = []
        self.heights: list[float] = []
        y = 0.0
        for lane in self.lanes:
            if not lane.joined and self.tops:
                y += LANE_GAP
            height = lane.rows * row * lane.row_share + 2 * LANE_PAD + CROWN * row * lane.crown
            height = LINE * row if lane.line else height
            self.tops.append(y)
            self.heights.append(height)
            y += height
        self.height = y

    def lane_box(self, at: int, axis: Axis) -> Box:
        """Return the whole strip of a lane."""
        return Box(0.0, self.tops[at], axis.width, self.heights[at])

    def row_height(self, at: int) -> float:
        """Return the height of one row of a lane; in a line all rows share its few points."""
        if self.lanes[at].line:
            return (self.heights[at] - 2) / self.lanes[at].rows
        return self.row * self.lanes[at].row_share

    def row_top(self, at: int, row: int) -> float:
        """Return the top of a row of a lane; below 0 of one of its crown, the last of which is -1."""
        if self.lanes[at].line:
            return self.tops[at] + 1 + max(row, 0) * self.row_height(at)
        if row < 0:
            return self.tops[at] + LANE_PAD + CROWN * self.row * (self.lanes[at].crown + row)
        crown = CROWN * self.row * self.lanes[at].crown
        return self.tops[at] + LANE_PAD + crown + row * self.row_height(at)

    def box(self, at: int, bar: Bar, axis: Axis) -> Box:
        """Return a bar's box."""
        left = axis.x(bar.start)
        if self.lanes[at].line:
            return self._stroke(at, bar, left, max(axis.x(bar.end) - left, 1.0))
        height = CROWN * self.row if bar.crowned else self.row_height(at)
        inset = 1.5 if height > 14 else 0.5
        return Box(
            left,
            self.row_top(at, bar.row) + inset,
            max(axis.x(bar.end) - left, 1.0),
            bar.rows * height - 2 * inset,
        )

    def _stroke(self, at: int, bar: Bar, left: float, width: float) -> Box:
        """Return a bar's box in a lane folded to a line: strokes below each other, side by side where too many."""
        rows = 1 if bar.crowned else bar.rows
        height = max(STROKE, rows * self.row_height(at) - 1)
        foot = self.tops[at] + self.heights[at] - 1
        return Box(left, min(self.row_top(at, bar.row) + 0.5, foot - height), width, height)

    def _hit_stroke(self, at: int, x: float, y: float, axis: Axis) -> tuple[int, Bar] | None:
        """Return the bar of a line under or next to a point: the whole height of the line counts."""
        found: list[tuple[float, float, int, Bar]] = []
        for number, bar in enumerate(self.between(at, axis.time(x - SLOP), axis.time(x + SLOP))):
            box = self.box(at, bar, axis)
            if box.holds(x, box.y, SLOP) and (bar.kind is not BarKind.HEATING or bar.full):
                beside = max(box.x - x, x - box.right, 0.0)
                found.append((beside, max(box.y - y, y - box.bottom, 0.0), number, bar))
        return (at, min(found)[3]) if found else None

    def lane_at(self, y: float) -> int | None:
        """Return the number of the lane at this height; between two lanes the one above."""
        at = bisect_right(self.tops, y) - 1
        return at if at >= 0 and y < self.height else None

    def between(self, at: int, start: float, end: float) -> list[Bar]:
        """Return the bars of a lane that show anything (tails too) between two minutes."""
        lane = self.lanes[at]
        first = bisect_left(lane.starts, start - lane.longest)
        last = bisect_right(lane.starts, end)
        return [bar for bar in lane.bars[first:last] if bar.reach >= start]

    def hit(self, x: float, y: float, axis: Axis) -> tuple[int, Bar] | None:
        """Return lane and bar under a point: the true hit first, else the nearest within the slop.

        Heating up lies behind everything else.
        """
        at = self.lane_at(y)
        if at is None:
            return None
        if self.lanes[at].line:
            return self._hit_stroke(at, x, y, axis)
        near: tuple[float, Bar] | None = None
        behind: Bar | None = None
        for bar in self.between(at, axis.time(x - SLOP), axis.time(x + SLOP)):
            box = self.box(at, bar, axis)
            if box.holds(x, y):
                if bar.kind is not BarKind.HEATING:
                    return at, bar
                behind = bar
            if box.holds(x, y, SLOP):
                away = max(box.x - x, x - box.right)
                if near is None or away < near[0]:
                    near = (away, bar)
        if behind is not None:
            return at, behind
        return None if near is None else (at, near[1])

    def boxes(self, axis: Axis) -> Iterator[tuple[int, Bar, Box]]:
        """Return every bar with its lane's number and its box."""
        for at, lane in enumerate(self.lanes):
            for bar in lane.bars:
                yield at, bar, self.box(at, bar, axis)


def roomy(lanes: Sequence[Lane], row: float, height: float) -> Layout:
    """Return the lanes laid out in rows as high as the view has room for: up to half as high again."""
    layout = Layout(lanes, row)
    if layout.height < height:
        share = layout.height - Layout(lanes, row - 1.0).height  # points that one more point of a row costs
        layout = Layout(lanes, min(1.5 * row, row + (height - layout.height) / max(share, 1.0)))
    return layout
