"""Words and times as the sheets print them, in English whatever the machine speaks."""

from __future__ import annotations

import unicodedata
from datetime import date, datetime, timedelta

from core.measures.clock import days_before, show_clock, show_dminus
from core.measures.minutes import show_minutes
from core.measures.words import plural
from core.plan.plan import Plan

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip
_HIDDEN = frozenset({"Cc", "Cs", "Co", "Cn"})
_TURNING = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
_NEAR = 6


def plain(text: str) -> str:
    """Return what was typed on one line, without signs that hide or turn the text around them."""
    signs = (sign for sign in " ".join(text.split()) if unicodedata.bidirectional(sign) not in _TURNING)
    return "".join(
        "\N{REPLACEMENT CHARACTER}" if unicodedata.category(sign) in _HIDDEN else sign for sign in signs
    )


def shortened(text: str, most: int) -> str:
    """Return plain text of at most so many characters, the cut marked."""
    line = plain(text)
    if len(line) <= most:
        return line
    cut = line[: most - 1]
    word = cut.rfind(" ")
    return (cut[:word] if word > most // 2 else cut).rstrip(" ,;:-") + "…"


def capital(text: str) -> str:
    """Return text that begins with a capital."""
    return text[:1].upper() + text[1:]


def lowered(text: str) -> str:
    """Return a name as it stands inside a sentence: "saucepan, 3 l"; what is written in capitals stays so."""
    word = text.split(" ", 1)[0]
    return text[:1].lower() + text[1:] if len(word) > 1 and word[1:].islower() else text


def day_name(day: date) -> str:
    """Return "Saturday 26 September"."""
    return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]}"


def full_date(at: datetime) -> str:
    """Return "Saturday 26 September 2026, 19:30"."""
    return f"{day_name(at)} {at.year}, {show_clock(at)}"


def day_about(plan: Plan, day: date) -> str:
    """Return where a day stands to plating's: "D-2, two days before" said short."""
    before = (plan.plating.local.date() - day).days
    if before == 0:
        return "D, the day itself"
    side = "before" if before > 0 else "after"
    days = "the day" if abs(before) == 1 else plural(abs(before), "day")
    return f"{show_dminus(before)}, {days} {side}"


def clock_at(plan: Plan, offset: int) -> str:
    """Return "01:30", or "01:30 GMT" where the clock shows that time twice."""
    at = plan.wall(offset)
    twice = at.replace(fold=0).utcoffset(), at.replace(fold=1).utcoffset()
    if twice[0] == twice[1]:
        return show_clock(at)
    return f"{show_clock(at)} {at.tzname()}"


def mark_at(plan: Plan, offset: int) -> str:
    """Return what a ruler of time writes, hour by hour: "01:00", or "01 BST" where the clock shows that hour twice.

    Where the clock goes back by half an hour the ruler goes on with "01:30", which fits it without the zone.
    """
    clock, _, zone = clock_at(plan, offset).partition(" ")
    return f"{clock[:2]} {zone}" if zone and clock.endswith(":00") else clock


def when(plan: Plan, offset: int, now: int) -> str:
    """Return a time as it is said at another one: "18:28", "Fri 15:00", a week away "Fri 4 Sep 15:00"."""
    at, today = plan.wall(offset).date(), plan.wall(now).date()
    clock = clock_at(plan, offset)
    if at == today:
        return clock
    far = abs((at - today).days) > _NEAR
    about = (
        f"{_DAYS[at.weekday()][:3]} {at.day} {_MONTHS[at.month - 1][:3]}" if far else _DAYS[at.weekday()][:3]
    )
    return f"{about} {clock}"


def clock_change(plan: Plan, day: date) -> str:
    """Return what the clocks do on a day: a sentence, or "" where they do nothing."""
    zone = plan.wall(0).tzinfo
    begins = datetime.combine(day, datetime.min.time(), zone)
    ends = datetime.combine(day + timedelta(days=1), datetime.min.time(), zone)
    before, after = begins.utcoffset(), ends.utcoffset()
    if before is None or after is None or before == after:
        return ""
    by = show_minutes(int(abs((after - before).total_seconds()) // 60))
    if after < before:
        return f"The clocks go back by {by} on this day; a time that comes twice bears its zone."
    return (
        f"The clocks go forward by {by} on this day; the times below are those of the new clock from then on."
    )


def same_day(plan: Plan, one: int, other: int) -> bool:
    """Return whether two offsets fall on one calendar day."""
    return days_before(plan.plating, one) == days_before(plan.plating, other)
