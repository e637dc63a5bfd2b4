"""Wall-clock times as typed, days counted from plating's day: "day 0 15:00-24:00", "day -1 16:00"."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from core.intake.text.scalars import is_whole, wrong
from core.measures.clock import parse_clock
from core.measures.refusal import Refusal, quoted
from core.plan.kitchen import Window
from core.plan.step import ClockTime

_DAY = 24 * 60
_BEFORE = r"(?P<{0}before>\d{{1,3}}|the) days? before"
_DAY_WORDS = r"(?P<{0}day>day ?(?P<{0}sign>[+-]?)(?P<{0}number>\d{{1,3}})|the day|" + _BEFORE + ")"
_TIME = r"(?P<{0}time>\d[\d:.h]*(?: ?[ap]m)?)"
_FIRST = f"(?:{_DAY_WORDS.format('')})[ ,]+{_TIME.format('')}"
_CLOCK = re.compile(_FIRST)
_WINDOW = re.compile(f"{_FIRST} ?(?:-|to) ?(?:(?:{_DAY_WORDS.format('to_')})[ ,]+)?{_TIME.format('to_')}")
_NIGHT = re.compile(f"{_TIME.format('')} ?(?:-|to) ?{_TIME.format('to_')}")
_DASHES = str.maketrans(dict.fromkeys("‐‑–—−", "-"))


def _tidy(text: str) -> str:
    return " ".join(text.translate(_DASHES).casefold().split())


def _day_of(met: re.Match[str], lead: str = "") -> int:
    """Return days before plating's day."""
    if met[f"{lead}number"]:
        day = int(met[f"{lead}number"])
        return day if met[f"{lead}sign"] == "-" else -day
    before = met[f"{lead}before"]
    if before:
        return 1 if before == "the" else int(before)
    return 0


def _whole_table(value: Any, keys: tuple[str, ...]) -> bool:
    """Tell whether a value is a table of whole numbers with just these keys."""
    return isinstance(value, dict) and set(value) == set(keys) and all(map(is_whole, value.values()))


def window_in(value: Any) -> Window:
    """Return a window from "day 0 15:00-24:00", "day -1 20:00 to day 0 02:00" or a table."""
    if _whole_table(value, ("days_before", "from_minute", "to_minute")):
        return Window(value["days_before"], value["from_minute"], value["to_minute"])
    if not isinstance(value, str):
        raise wrong(value, 'a span of the clock; write "day 0 15:00-24:00", day 0 being the day of plating')
    met = _WINDOW.fullmatch(_tidy(value))
    if met is None:
        raise Refusal(
            f'{quoted(value)} is not a span of the clock; write "day 0 15:00-24:00" for the day of plating, '
            '"day -1 08:00-12:00" for the day before it.'
        )
    day, start, end = _day_of(met), parse_clock(met["time"]), parse_clock(met["to_time"])
    if met["to_day"]:
        end += (day - _day_of(met, "to_")) * _DAY
    if end <= start:
        raise Refusal(
            f"{quoted(value)} ends before it begins; for a span past midnight write "
            '"day 0 20:00 to day 1 02:00".'
        )
    return Window(day, start, end)


def window_out(window: Window) -> Any:
    """Return a window as typed."""
    days, minute = divmod(window.to_minute, _DAY)
    if days and not (days == 1 and minute == 0):
        end = f" to {_day(window.days_before - days)} {_clock(minute)}"
    else:
        end = f"-{_clock(window.to_minute)}"
    text = f"{_day(window.days_before)} {_clock(window.from_minute)}{end}"
    try:
        if window_in(text) == window:
            return text
    except Refusal:
        pass
    return {
        "days_before": window.days_before,
        "from_minute": window.from_minute,
        "to_minute": window.to_minute,
    }


def _day(days_before: int) -> str:
    return f"day {-days_before}"


def _clock(minute: int) -> str:
    return f"{minute // 60:02}:{minute % 60:02}"


def clock_in(value: Any) -> ClockTime:
    """Return a clock time from "day 0 16:00" or a table."""
    if _whole_table(value, ("days_before", "minute")):
        return ClockTime(value["days_before"], value["minute"])
    met = _CLOCK.fullmatch(_tidy(value)) if isinstance(value, str) else None
    if not isinstance(value, str) or met is None:
        raise wrong(value, 'a time of the clock; write "day 0 16:00", day 0 being the day of plating')
    return ClockTime(_day_of(met), parse_clock(met["time"]))


def clock_out(clock: ClockTime) -> Any:
    """Return a clock time as typed."""
    text = f"{_day(clock.days_before)} {_clock(clock.minute)}"
    try:
        if clock_in(text) == clock:
            return text
    except Refusal:
        pass
    return {"days_before": clock.days_before, "minute": clock.minute}


def minute_of_day_in(value: object) -> int:
    """Return the minute of the day from "08:00"."""
    if not isinstance(value, str):
        raise wrong(value, 'a time of day in quotes; write "08:00"')
    return parse_clock(value)


def minute_of_day_out(minute: int) -> str:
    """Return a minute of the day as typed."""
    return _clock(minute)


def night_in(value: object) -> tuple[int, int] | None:
    """Return a night as minutes of the clock from "23:00-07:00", None for "none"."""
    if isinstance(value, str) and _tidy(value) in ("none", "no", ""):
        return None
    met = _NIGHT.fullmatch(_tidy(value)) if isinstance(value, str) else None
    if not isinstance(value, str) or met is None:
        raise wrong(value, 'a night; write "23:00-07:00" or "none"')
    return parse_clock(met["time"]), parse_clock(met["to_time"])


def night_out(night: tuple[int, int] | None) -> str:
    """Return a night as typed."""
    return "none" if night is None else f"{_clock(night[0])}-{_clock(night[1])}"


WindowText = Annotated[
    Window,
    PlainValidator(window_in),
    WithJsonSchema(
        {
            "type": ["string", "object"],
            "description": 'a span of the clock, day 0 being the day of plating: "day 0 15:00-24:00", '
            '"day -1 20:00 to day 0 02:00"',
        }
    ),
]
ClockText = Annotated[
    ClockTime,
    PlainValidator(clock_in),
    WithJsonSchema(
        {
            "type": ["string", "object"],
            "description": 'a time of the clock: "day 0 16:00" on the day of plating',
        }
    ),
]
MinuteOfDay = Annotated[
    int,
    PlainValidator(minute_of_day_in),
    WithJsonSchema({"type": "string", "description": 'a time of day: "08:00"'}),
]
NightText = Annotated[
    tuple[int, int] | None,
    PlainValidator(night_in),
    WithJsonSchema({"type": "string", "description": '"23:00-07:00", or "none"'}),
]
