"""The order list and the pull list as text: a heading, then lines of the width of a page, each with a box to tick."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import timedelta
from textwrap import wrap

from core.food.pull_list import PullList
from core.food.shopping import Shopping
from core.food.speak_lists import pull_lines, shopping_lines
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.sheets.words import clock_at, day_name, full_date, plain
from core.timetable.timetable import Timetable

_WIDTH = 110
_WEEK = 6 * 24 * 60
ON_PAPER = "Times are counted back from serving; those of an arranged day go before them."
NOTHING = "No dish has ingredients yet, so there is nothing to buy."


def first_starts(timetable: Timetable | None) -> dict[StepId, int] | None:
    """Return when each step first begins, in minutes from plating; None without a timetable."""
    if timetable is None:
        return None
    return {step: min(each.start for each in loads) for step, loads in timetable.loads_of.items()}


def clock_of(plan: Plan) -> Callable[[int], str]:
    """Return what tells times as "Sat 18:20": the weekday always; a week away the date as well."""

    def clock(at: int) -> str:
        weekday, number, month = day_name(plan.wall(at)).split(" ")
        far = abs(at) > _WEEK
        return f"{weekday[:3]} {f'{number} {month[:3]} ' if far else ''}{clock_at(plan, at)}"

    return clock


def day_of(plan: Plan) -> Callable[[int], str]:
    """Return what names the day so many days before plating's: "Thursday 24 September"."""
    return lambda days: day_name(plan.plating.local.date() - timedelta(days=days))


def order_text(plan: Plan, shopping: Shopping, starts: Mapping[StepId, int] | None) -> str:
    """Return the order list; without `starts` it says how its times were found."""
    lines = shopping_lines(shopping, clock_of(plan), day_of(plan)) or (NOTHING,)
    paper = () if starts is not None else (ON_PAPER, "")
    return _text(plan, "Order list", (*paper, *lines))


def pull_text(plan: Plan, pulled: PullList) -> str:
    """Return the pull list."""
    return _text(plan, "Pull list", pull_lines(pulled, clock_of(plan)))


def _text(plan: Plan, what: str, lines: Iterable[str]) -> str:
    head = (f"{what}: {plain(plan.name)}, {full_date(plan.wall(0))}", "")
    return "\n".join(part for line in (*head, *lines) for part in page_lines(line)) + "\n"


def page_lines(line: str) -> list[str]:
    """Return a line in the width of a page; what runs over stands below its words, not below its box."""
    inside = " " * (len(line) - len(line.lstrip()))
    hang = inside + " " * 8 if line.lstrip().startswith("[ ]") else inside
    return wrap(line, _WIDTH, subsequent_indent=hang, break_long_words=False) or [""]
