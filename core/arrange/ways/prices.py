"""What each kind of way out costs the cook, in one table. Common practice, by judgement; nothing is measured here.

The scale: 1 is about what a minute's lateness of one dish costs. `once` is paid at all, `each` for every unit of
`weight` (minutes, degrees, servings; for waits the per cent by which food waits beyond what it bears). The wishes
of the plan weigh: at their defaults a price is as it stands here; a wish at 0 makes it small, at 10 about double.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from core.arrange.ways.way import WayKind
from core.plan.decisions import Wishes


@dataclass(frozen=True, slots=True)
class Price:
    """What is paid once and for each unit; `wish` names the wish whose weight changes it."""

    once: float
    each: float = 0.0
    wish: str = ""


PRICES: dict[WayKind, Price] = {
    # what nobody at the table notices: the cook's own decisions, another place, another way
    WayKind.OTHER_WAY: Price(8),
    WayKind.LIFT_ORDER: Price(8, wish="keep"),
    WayKind.LIFT_PIN: Price(10, wish="keep"),
    WayKind.ELSEWHERE: Price(10, 2),
    WayKind.STACK: Price(14, 2),
    WayKind.SHORTER: Price(12, 0.5, wish="calm"),
    WayKind.MOVE_CLOCK: Price(10, 0.2, wish="keep"),
    WayKind.MAKE_AHEAD: Price(12, 0.03, wish="fresh"),
    WayKind.DONE_LATER: Price(14, 0.5, wish="keep"),
    WayKind.SECOND_FIRE: Price(15, 10),
    WayKind.BIGGER_LOADS: Price(15, 1),
    WayKind.SMALLER_LOADS: Price(16, 5, wish="calm"),
    WayKind.NOVICE: Price(18, 2),
    # what the food pays with
    WayKind.WIDER_HEAT: Price(10, 1.5, wish="oven"),
    WayKind.WAIT_LONGER: Price(10, 0.4, wish="fresh"),
    # what must be asked of others
    WayKind.BORROW_VESSEL: Price(20, 5),
    WayKind.BORROW_STATION: Price(45, 0.05),
    WayKind.HELPER: Price(40, 0.2),
    WayKind.FEWER_HANDS: Price(25, 10, wish="calm"),
    # what the guests notice
    WayKind.DISH_LATER: Price(15, 1),
    WayKind.SERVE_LATER: Price(25, 2),
    WayKind.WAVES: Price(30, 1),
    WayKind.FEWER_SERVINGS: Price(40, 4),
    WayKind.LEAVE_OUT_STEP: Price(90),
    WayKind.LEAVE_OUT_DISH: Price(150, 1),
}


def price_of(kind: WayKind, weight: float, wishes: Wishes) -> int:
    """Return the price of a way out of a kind whose size weighs so much; at least 1."""
    row = PRICES[kind]
    price = row.once + row.each * weight
    if row.wish:
        price *= (getattr(wishes, row.wish) + 1) / (getattr(Wishes(), row.wish) + 1)
    return max(1, ceil(price))
