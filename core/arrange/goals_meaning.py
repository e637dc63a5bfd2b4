"""What the wishes count: one meaning for the model, which makes it small, and for measuring, which reads it off."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.outcome import WishKind
from core.measures.clock import at_clock, days_before
from core.plan.decisions import Wishes
from core.plan.plan import Plan

RUSH = 45
"""Minutes before plating in which hands-on work is no longer calm."""
HEATING = 20
"""A heating from cold is as bad as so many degrees off a recipe."""
CHANGE = 8
"""Another temperature while the oven is hot is as bad as so many degrees off a recipe."""
PRICES = {
    WishKind.FRESH: 1,  # a minute's wait of what hardly minds
    WishKind.CALM: 36,  # a hands-on minute of the last three quarters of an hour
    WishKind.OVEN: 20,  # one degree off the recipe
    WishKind.SLEEP: 6,  # a minute of a morning
    WishKind.KEEP: 4,  # one minute moved from what was seen
}
"""What a unit of each wish costs; common practice, by judgement. Times the wish's weight it is its share of the sum."""
_DAWN = 4 * 60  # minute of the day; common practice, by judgement
_UNSAID = 5  # what is served with no limit said is judged as if it kept two hours


@dataclass(frozen=True, slots=True)
class Morning:
    """The hours of a day (so many calendar days before plating's) in which one would sleep: `dawn` to `until`."""

    day: int
    dawn: int
    until: int


def mornings(plan: Plan, low: int, high: int) -> tuple[Morning, ...]:
    """Return the mornings that lie, at least in part, between two offsets, the first first.

    A day is a calendar day of the plan's zone. Work before four in the morning, or before the first cook's night
    ends where that is sooner, belongs to the evening before.
    """
    until = plan.decisions.wishes.sleep_until
    dawn = min([_DAWN, *(cook.night[1] for cook in plan.kitchen.cooks if cook.night is not None)])
    found = []
    for day in range(days_before(plan.plating, low) + 1, days_before(plan.plating, high) - 2, -1):
        each = Morning(day, at_clock(plan.plating, day, dawn), at_clock(plan.plating, day, until))
        if each.dawn < each.until and each.until > low and each.dawn <= high:
            found.append(each)
    return tuple(found)


def weights_of(wishes: Wishes) -> dict[WishKind, int]:
    """Return what a unit of each wish weighs in the sum; some freshness always counts."""
    weights = {wish: getattr(wishes, wish.value) * price for wish, price in PRICES.items()}
    weights[WishKind.FRESH] = max(1, weights[WishKind.FRESH])
    return weights


def off_recipe(degrees: int) -> int:
    """Return the cost of a setting off the recipe; two dishes a little off are better than one far off."""
    return abs(degrees) + degrees * degrees // 15


def minds(most: int | None, *, served: bool) -> int:
    """Return how much food minds a minute's wait, of which it bears `most`: at its limit about 600 in all.

    1 is what hardly minds. `served`: it waits for its serving, and is not as good for having waited.
    """
    if most is None:
        return _UNSAID if served else 1
    return max(1, min(60, round(600 / max(1, most))))
