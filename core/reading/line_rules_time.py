"""Rules for lengths and times: how long, in pieces, not before, done by, at what o'clock."""

from __future__ import annotations

import re
from fractions import Fraction

from core.measures.clock import parse_clock
from core.measures.minutes import parse_minutes, parse_span, parse_tminus, show_minutes
from core.measures.number import round_half_up
from core.measures.refusal import Refusal, quoted
from core.plan.step import ClockTime, Span
from core.reading.line_patterns import COUNT, TIME, TIMES, count_in, pattern, word_set
from core.reading.line_rules_work import TURN
from core.reading.line_scan import Met, Scan, chip, faulty
from core.reading.line_value import Chip, Says

OVERNIGHT = Span(8 * 60, 10 * 60, 14 * 60)
"""From the evening to the next day: common practice."""
ABOUT = Fraction(1, 10)
"""How far "about" reaches to either side, at least a minute: our own reading of the word."""

_LABEL = pattern(r"(?P<label>[a-z0-9][a-z0-9_-]{0,63}):(?= +\S)")
_LENGTH = pattern(
    rf"(?:for )?(?:at least )?(?P<about>(?:about |around |roughly |"
    rf"approx(?:\.|imately)? |ca?\. ?|~ ?))?(?P<time>{TIMES})"
)
_OVERNIGHT = pattern(r"over ?night\b")
_HAS_UNIT = pattern(r"[a-z':±]|\+/?-")
_PER_SIDE = pattern(r" (?:per|a|each|on each|on either|both|on both) sides?\b")
_PER_LOAD = pattern(r" (?:each|per (?:batch|load|lot)|a (?:batch|load))(?= *(?:,|$))")
_BEFORE_WHAT = pattern(r" (?:before|after)(?: (?:plating|serving)\b|(?= *(?:,|$)))")
_ONE_ENDED = pattern(rf"(?:at most|up to|no more than|not more than) (?P<time>{TIME})")
_NO_LENGTH_AFTER = word_set(
    "first last next every after within further another than over under before previous final remaining"
)
_GOES_ON = pattern(
    r" *(?:$|[,\d\"½¼¾]|(?:in|on|at|until|till|hands|tended|oven|grill|burner|fridge|gas|fan|by|with|core|for"
    r"|over|no)\b)"
)
_PIECE = pattern(rf"in pieces(?:,)? (?:of )?(?:at least )?(?P<time>{TIME})")
_RESTED = pattern(rf"rested (?:for )?(?P<time>{TIME})")
_FROM_PLATING = (
    rf"(?:(?P<time>{TIME}) (?P<side>before|after)(?: (?:plating|serving)\b)?|(?P<plating>(?:at )?plating\b)"
    r"|(?P<minus>T ?[+-] ?\d[\d:]*(?:d(?: ?[\d:]+)?)?))"
)
_BY_CLOCK = pattern(
    r"(?:done|ready|finished|out|served?) (?:by|before|at|for) "
    r"(?P<hour>\d{1,2}(?:[:.]\d\d)?(?: ?[ap]\.?m\b\.?)?)(?= *(?:,|$))"
)
_EARLIEST = pattern(r"(?:not before|not earlier than|no earlier than|not sooner than|no sooner than) ")
_LATEST = pattern(r"(?:done|ready|finished) (?:by|before) |not after ")
_OFFSET = pattern(_FROM_PLATING)
_REST = pattern(r"[^,]*")
_DAY = rf"(?:the day before|the day after|on the day|the day|(?:{COUNT}) days? (?:before|after)|day ?[+-]?\d{{1,3}})"
_HOUR = r"(?:\d{1,2}[:.]\d\d(?: ?[ap]\.?m\b\.?)?|\d{1,2} ?[ap]\.?m\b\.?|noon|midday|midnight)"
_CLOCK = pattern(
    rf"(?:(?P<day>{_DAY}),? )?at (?P<hour>{_HOUR})(?![\w:])(?:,? (?P<after>(?!on the day before){_DAY}))?(?!\w)"
)


def label(here: Scan) -> Met | None:
    """Take the short name of a step, at the beginning: "slice: peel and slice"."""
    met = here.match(_LABEL) if here.begins and not here.chips else None
    return chip(Says.LABEL, f"called {met['label']}", met.span(), met["label"].casefold()) if met else None


def length(here: Scan) -> Met | None:
    """Take how long it takes: "45-50 min", "20/25/35", "1h20", "overnight", "about 1 hour"."""
    if met := here.match(_OVERNIGHT):
        return chip(Says.LENGTH, _span_words(OVERNIGHT, "overnight: "), met.span(), OVERNIGHT)
    if not here.fresh and (met := here.match(_ONE_ENDED)):
        return faulty(
            *met.span(),
            f"{quoted(met[0])} says one end only; write the least and the most, such as 20-30 min, "
            "or put the words in quotes.",
        )
    met = here.match(_LENGTH)
    if met is None or here.word_before() in _NO_LENGTH_AFTER:
        return None
    time = met["time"]
    if not _HAS_UNIT.search(time) and not _three(time) and not _two_and_on(here, met):
        return None
    if _BEFORE_WHAT.match(here.text, met.end()):
        sentence = (
            f'{quoted(met[0])} counts from something; write "not before 2 h before" or "done by 2 h before".'
        )
        return faulty(*met.span(), sentence)
    try:
        span = Span(*parse_span(time))
    except Refusal as refusal:
        return faulty(*met.span("time"), refusal.text, _turned(time))
    if met["about"] and span.low == span.high:
        span = _around(span.likely)
    if side := _PER_SIDE.match(here.text, met.end()):
        return _both_sides(span, met.start(), side)
    each = _PER_LOAD.match(here.text, met.end()) if here.has(Says.LOADS) else None
    return chip(Says.LENGTH, _span_words(span), (met.start(), each.end() if each else met.end()), span)


def _both_sides(span: Span, start: int, side: re.Match[str]) -> Met:
    """Return both sides of "10 minutes each side" together, with a turn half way."""
    both = Span(2 * span.low, 2 * span.likely, 2 * span.high)
    turn = Chip(Says.TOUCH, f"turn half way, {show_minutes(1)}", side.start() + 1, side.end(), TURN)
    return Met(side.end(), (Chip(Says.LENGTH, _span_words(both), start, side.start(), both), turn))


def _three(time: str) -> bool:
    return len(re.findall(r"\d+", time)) == 3


def _two_and_on(here: Scan, met: re.Match[str]) -> bool:
    """Tell whether two bare numbers end the line or a phrase follows them: "2-3 leeks" is no length."""
    return len(re.findall(r"\d+", met["time"])) == 2 and _GOES_ON.match(here.text, met.end()) is not None


def _around(minutes: int) -> Span:
    by = min(max(1, int(round_half_up(minutes * ABOUT))), max(0, minutes - 1))
    return Span(minutes - by, minutes, minutes + by)


def _turned(time: str) -> str:
    """Return a span with its ends in order, where turning them is the mend."""
    two = re.fullmatch(r"(\d+)( ?- ?| to )(\d+)(.*)", time)
    return f"{two[3]}{two[2]}{two[1]}{two[4]}" if two and int(two[1]) > int(two[3]) else ""


def _span_words(span: Span, lead: str = "takes ") -> str:
    if span.low == span.high:
        return f"{lead}{show_minutes(span.likely)}"
    low = str(span.low) if span.high < 60 else show_minutes(span.low)
    likely = "" if span.likely == (span.low + span.high + 1) // 2 else f", likely {show_minutes(span.likely)}"
    return f"{lead}{low} to {show_minutes(span.high)}{likely}"


def piece(here: Scan) -> Met | None:
    """Take that it can be done in pieces: "in pieces of 5 min"."""
    met = here.match(_PIECE)
    if met is None:
        return None
    try:
        minutes = parse_minutes(met["time"])
    except Refusal as refusal:
        return faulty(*met.span("time"), refusal.text)
    return chip(Says.PIECE, f"in pieces of {show_minutes(minutes)} or more", met.span(), minutes)


def rested(here: Scan) -> Met | None:
    """Take the rest that belongs to a core temperature: "core 60C rested 30 min"."""
    met = here.match(_RESTED) if here.fresh else None
    if met is None:
        return None
    try:
        minutes = parse_minutes(met["time"])
    except Refusal as refusal:
        return faulty(*met.span("time"), refusal.text)
    return chip(Says.RESTED, f"rested {show_minutes(minutes)}", met.span(), minutes)


def limits(here: Scan) -> Met | None:
    """Take "not before 8 h before plating" and "done by 20 h before"."""
    if not here.begins and (met := here.match(_BY_CLOCK)) and not met["hour"].isdigit():
        sentence = f'{quoted(met[0])}: count from plating, such as "done by 8 h before"; a clock is only for the start.'
        return faulty(*met.span(), sentence)
    for lead, kind, words in ((_EARLIEST, Says.EARLIEST, "not before"), (_LATEST, Says.LATEST, "done by")):
        met = here.match(lead) if here.fresh else None
        if met is None:
            continue
        when = _OFFSET.match(here.text, met.end())
        if when is None or not here.ends_at(when.end()):
            end = _end_of_part(here, met.end())
            sentence = (
                f'{quoted(here.raw[here.pos : end])}: count from plating, such as "{words} 8 h before".'
            )
            return faulty(here.pos, end, sentence)
        try:
            offset = _offset(when)
        except Refusal as refusal:
            return faulty(*when.span(), refusal.text)
        return chip(kind, f"{words} {_offset_words(offset)}", (here.pos, when.end()), offset)
    return None


def _end_of_part(here: Scan, start: int) -> int:
    met = _REST.match(here.text, start)
    return met.end() if met else start


def _offset(met: re.Match[str]) -> int:
    if met["plating"]:
        return 0
    if met["minus"]:
        return parse_tminus(met["minus"])
    return parse_minutes(met["time"]) * (-1 if met["side"].casefold() == "before" else 1)


def _offset_words(offset: int) -> str:
    if not offset:
        return "plating"
    return f"{show_minutes(abs(offset))} {'before' if offset < 0 else 'after'} plating"


def clock(here: Scan) -> Met | None:
    """Take a start that the world sets: "at 18:40 the day before"."""
    met = here.match(_CLOCK)
    if met is None:
        return None
    day = met["day"] or met["after"]
    if day is None and not here.ends_at(met.end()) and not _GOES_ON.match(here.text, met.end()):
        return None
    if day is None and here.fresh and not here.ends_at(met.end()):
        return None
    try:
        minute = parse_clock(met["hour"])
    except Refusal as refusal:
        return faulty(*met.span("hour"), refusal.text)
    found = ClockTime(_days_before(day or ""), minute)
    return chip(Says.CLOCK, _clock_words(found), met.span(), found)


def _days_before(day: str) -> int:
    plain = day.casefold()
    number = re.search(r"[+-]?\d+", plain)
    if plain.startswith("day") and number:
        return -int(number[0])
    many = 1 if plain in ("the day before", "the day after") else 0
    if plain.endswith(("before", "after")) and not many:
        many = count_in(plain.split()[0])
    return -many if plain.endswith("after") else many


def day_words(days_before: int) -> str:
    """Return a day counted from plating's: "the day before", "3 days before", "on the day", "2 days after"."""
    if abs(days_before) == 1:
        return "the day before" if days_before > 0 else "the day after"
    if days_before:
        return f"{abs(days_before)} days {'before' if days_before > 0 else 'after'}"
    return "on the day"


def _clock_words(at: ClockTime) -> str:
    return f"starts at {at.minute // 60:02}:{at.minute % 60:02} {day_words(at.days_before)}"
