"""Lengths and times as typed: 70/90/110, 19:27 or -30 min, 48 h before, day 0 15:00-24:00."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from app.fields.short_form import each_read, each_shown, shown
from app.fields.spec import Typed
from app.fields.typed_text import if_any, optional
from core.measures.clock import at_clock, parse_clock, show_clock
from core.measures.minutes import parse_minutes, parse_span, show_minutes, show_span
from core.measures.refusal import Refusal, quoted
from core.plan.plan import Plan
from core.plan.step import Span

_DAY = 24 * 60
_NEAR = 11 * 60  # within so many minutes a clock time can only mean one day
_EXAMPLES = "write a clock time such as 19:27, or minutes from plating such as -30 min or +75"


def read_length(text: str) -> Span:
    """Return quick, likely and slow minutes."""
    return Span(*parse_span(text))


def show_length(span: Span) -> str:
    """Return a length as typed."""
    return show_span(span.low, span.likely, span.high)


def read_minutes(text: str) -> int:
    """Return minutes from 0 up."""
    minutes = parse_minutes(text)
    if minutes < 0:
        raise Refusal(f"{quoted(text)}: a length of time cannot be less than 0; leave the minus out.")
    return minutes


def read_offset(text: str, plan: Plan) -> int:
    """Return minutes from plating, from a clock time (on the day that brings it nearest) or an offset."""
    plain = " ".join(text.replace("−", "-").split()).casefold()
    if not plain:
        raise Refusal(f"No time is written; {_EXAMPLES}.")
    if plain[0] in "+-":
        return parse_minutes(plain)
    if plain[0] == "t" or any(word in plain for word in ("before", "after", "plating")):
        from core.intake.text.scalars import offset_in

        return offset_in(plain)
    try:
        minute = parse_clock(plain)
    except Refusal as refusal:
        raise Refusal(f"{refusal} For minutes from plating, put + or - first.") from None
    return min((at_clock(plan.plating, days, minute) for days in (1, 0, -1)), key=abs)


def show_offset(offset: int, plan: Plan) -> str:
    """Return an offset as the clock time it comes to, or in words where that could be another day's."""
    if abs(offset) <= _NEAR:
        return show_clock(plan.wall(offset))
    from core.intake.text.scalars import offset_out

    return str(offset_out(offset))


def from_plating(offset: int) -> str:
    """Return an offset in words."""
    if offset == 0:
        return "at plating"
    return f"{show_minutes(abs(offset))} {'before' if offset < 0 else 'after'} plating"


def offset_of(plan: Callable[[], Plan]) -> Typed:
    """Return how a time is typed that a plan counts from plating; `plan` gives the plan of the moment."""
    return Typed(lambda text: read_offset(text, plan()), lambda offset: show_offset(offset, plan()))


def limit_of(plan: Callable[[], Plan]) -> Typed:
    """Return how a limit in time is typed, "48 h before" or "16:00", or nothing."""

    def show(offset: Any) -> str:
        from core.intake.text.scalars import offset_out

        return str(offset_out(offset))

    return Typed(optional(lambda text: read_offset(text, plan())), if_any(show))


def _read_clock(text: str) -> Any:
    from core.intake.text.windows import clock_in

    return clock_in(text)


def _show_clock(clock: Any) -> str:
    from core.intake.text.windows import clock_out

    return shown(clock_out(clock))


def _read_window(text: str) -> Any:
    from core.intake.text.windows import window_in

    return window_in(text)


def _show_window(window: Any) -> Any:
    from core.intake.text.windows import window_out

    return window_out(window)


def _read_night(text: str) -> Any:
    from core.intake.text.windows import night_in

    return night_in(text)


def _show_night(night: Any) -> str:
    from core.intake.text.windows import night_out

    return night_out(night)


def _read_time_of_day(text: str) -> int:
    minute = parse_clock(text)
    if minute >= _DAY:
        raise Refusal(f"{quoted(text)} is the end of the day; write a time from 00:00 to 23:59.")
    return minute


def show_time_of_day(minute: int) -> str:
    """Return a minute of the day as typed."""
    return f"{minute // 60:02}:{minute % 60:02}"


TIME_OF_DAY = Typed(_read_time_of_day, show_time_of_day)
LENGTH = Typed(read_length, show_length, wraps=True)
MINUTES = Typed(read_minutes, show_minutes)
MINUTES_IF_ANY = Typed(optional(read_minutes), if_any(show_minutes))
CLOCK_IF_ANY = Typed(optional(_read_clock), if_any(_show_clock))
WINDOWS = Typed(each_read(_read_window), each_shown(_show_window), joins="; ", wraps=True)
NIGHT = Typed(_read_night, _show_night)
