"""Hours of the clock that cover minutes from plating."""

from __future__ import annotations

from core.measures.clock import days_before
from core.plan.kitchen import Window
from core.plan.plan import Plan


def window_of(plan: Plan, start: int, end: int) -> Window:
    """Return the window from one offset to another; it may run past midnight."""
    first, last = plan.wall(start), plan.wall(end)
    day, last_day = days_before(plan.plating, start), days_before(plan.plating, end)
    to_minute = last.hour * 60 + last.minute + (day - last_day) * 24 * 60
    return Window(day, first.hour * 60 + first.minute, to_minute)
