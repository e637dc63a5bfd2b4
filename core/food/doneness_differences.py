"""Where the sums differ from published tables: rows for the guide, made anew, never written by hand.

Panofsky's rule against USDA's turkey rows at 163 °C (325 F); the bath model against Baldwin's printed minutes; the oven
model against every row of the roasting charts.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from core.food.doneness import Roasting, by_model, chart_core
from core.food.doneness_lethality import in_bath
from core.food.roasting import ROWS, Roast, panofsky_minutes
from core.measures.quantity import Quantity

_BATHS = {"poultry": (57, 60, 63, 65), "meat": (55, 57, 60, 65)}
_BATH_MINUTES = {
    5: (135, 45, 18, 13, 120, 60, 30, 14),
    10: (135, 55, 30, 20, 120, 75, 40, 25),
    15: (150, 75, 40, 30, 135, 90, 55, 35),
    20: (165, 75, 50, 40, 150, 105, 75, 45),
    25: (180, 90, 75, 55, 165, 120, 90, 55),
    30: (195, 120, 90, 75, 180, 120, 90, 75),
    40: (240, 150, 120, 105, 210, 150, 120, 90),
    50: (285, 195, 150, 135, 270, 195, 150, 120),
    70: (420, 300, 255, 225, 390, 315, 240, 195),
}
"""Minutes from 5 °C by mm: poultry at 57, 60, 63, 65 °C, then meat at 55, 57, 60, 65 °C (Baldwin, v0.4k)."""


@dataclass(frozen=True, slots=True)
class Difference:
    """A row: what, the printed minutes low and high (the same where one is printed), and ours."""

    what: str
    low: int
    high: int
    ours: float

    @property
    def off(self) -> float:
        """Return by what share ours lies outside the printed range; 0 inside it, less than 0 below."""
        if self.ours < self.low:
            return self.ours / self.low - 1
        return max(0.0, self.ours / self.high - 1)

    @property
    def ratio(self) -> float:
        """Return ours over the middle of the printed range."""
        return self.ours * 2 / (self.low + self.high)


def turkey_differences() -> tuple[Difference, ...]:
    """Return Panofsky's minutes for whole unstuffed turkeys at both ends of each row."""
    rows = [row for row in ROWS if row.words == {"turkey"}]
    found = []
    for row in rows:
        for pounds in (row.least, row.most):
            low, high = row.takes(pounds)
            ours = panofsky_minutes(Quantity(pounds, "lb"))
            found.append(Difference(f"{pounds} lb in the row {row.least}-{row.most} lb", low, high, ours))
    return tuple(found)


def bath_differences() -> tuple[Difference, ...]:
    """Return the bath model's minutes for all printed ones."""
    columns = [(kind, bath) for kind, baths in _BATHS.items() for bath in baths]
    return tuple(
        Difference(f"{kind} {thick} mm at {bath} °C", printed, printed, in_bath(kind, thick, bath).minutes)
        for thick, row in _BATH_MINUTES.items()
        for (kind, bath), printed in zip(columns, row, strict=True)
    )


@dataclass(frozen=True, slots=True)
class Banded:
    """A chart's row at one weight beside the oven model's likely minutes and its quickest and slowest."""

    row: Difference
    band: tuple[int, int]

    @property
    def holds(self) -> bool:
        """Tell whether the middle of the printed range lies in the band."""
        return self.band[0] <= (self.row.low + self.row.high) / 2 <= self.band[1]


def chart_differences() -> tuple[Banded, ...]:
    """Return the oven model beside every row of the roasting charts at its lightest and its heaviest."""
    return tuple(_banded(row, pounds) for row in ROWS for pounds in sorted({row.least, row.most}))


def _banded(row: Roast, pounds: Fraction) -> Banded:
    cut = " ".join(sorted(row.words))
    core = chart_core(cut)
    assert core is not None, cut
    ours = by_model(Roasting(cut, Quantity(pounds, "lb"), sum(row.celsius) // 2, core))
    low, high = row.takes(pounds)
    return Banded(Difference(f"{cut} {float(pounds):g} lb", low, high, ours.likely), (ours.low, ours.high))
