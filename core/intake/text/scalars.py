"""Single values of a written plan: lengths, offsets from plating, temperatures, windows, quantities.

Each has a reader that takes what a person types and a writer whose text reads back as the same value;
where no text does, the writer falls back on bare numbers.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any, TypeVar
from uuid import UUID

from pydantic import BeforeValidator, PlainValidator, WithJsonSchema

from core.measures.clock import Moment, parse_moment
from core.measures.minutes import parse_minutes, parse_span, parse_tminus, show_minutes, show_span
from core.measures.number import exact_text, read_number
from core.measures.quantity import TO_TASTE, Quantity, parse_quantity
from core.measures.refusal import Refusal, quoted
from core.plan.step import Span

T = TypeVar("T")
Plain = dict[str, Any]


def wrong(value: object, wanted: str) -> Refusal:
    """Return the refusal of a value of the wrong sort."""
    return Refusal(f"{_named(value)} is not {wanted}.")


def _named(value: object) -> str:
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return "A list"
    if isinstance(value, dict):
        return "A table"
    return quoted(str(value))


def is_whole(value: object) -> bool:
    """Tell whether a value is a whole number (true and false are not)."""
    return isinstance(value, int) and not isinstance(value, bool)


def told(value: T, show: Callable[[T], Any], read: Callable[[Any], T], bare: Any) -> Any:
    """Return the text of a value if it reads back as the same value, else the bare form."""
    text = show(value)
    try:
        return text if read(text) == value else bare
    except Refusal:
        return bare


# ---------------------------------------------------------------- lengths


def minutes_in(value: object) -> int:
    """Return minutes from a whole number or a text such as "1 h 20 min"; raise Refusal below 0."""
    if is_whole(value):
        minutes = int(str(value))
    elif isinstance(value, str):
        minutes = parse_minutes(value)
    else:
        raise wrong(value, 'a length of time; write 45, "45 min" or "1 h 20 min"')
    if minutes < 0:
        raise Refusal(f"{_named(value)}: a length of time cannot be less than 0; leave the minus out.")
    return minutes


def minutes_out(minutes: int) -> str | int:
    """Return minutes as people write them."""
    return told(minutes, show_minutes, minutes_in, minutes)  # type: ignore[no-any-return]  # str or the int itself


def span_in(value: object) -> Span:
    """Return a span from 25, "25", "20/25/30" or a table of low, likely and high."""
    if is_whole(value):
        return Span.of(minutes_in(value))
    if isinstance(value, str):
        return Span(*parse_span(value))
    if isinstance(value, dict) and set(value) == {"low", "likely", "high"}:
        return Span(*(minutes_in(value[key]) for key in ("low", "likely", "high")))
    raise wrong(value, 'a length; write 25, "25 min" or quick, likely and slow as "20/25/30"')


def span_out(span: Span) -> Any:
    """Return a span as people write it."""
    bare = {"low": span.low, "likely": span.likely, "high": span.high}
    return told(span, lambda it: show_span(it.low, it.likely, it.high), span_in, bare)


_PER_CENT = re.compile(r"(\d{1,6}) ?%?")


def per_cent_in(value: object) -> int:
    """Return per cent from 10 or "10 %"."""
    if is_whole(value):
        return int(str(value))
    met = _PER_CENT.fullmatch(value.strip()) if isinstance(value, str) else None
    if met is None:
        raise wrong(value, "a number of per cent; write 10")
    return int(met[1])


def share_in(value: object) -> Fraction:
    """Return an exact number from 2, 1.5, "1 2/3" or "85 %"."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        value = str(value)
    if not isinstance(value, str):
        raise wrong(value, 'a number; write 1.5, "1 2/3" or "85 %"')
    plain = value.strip()
    number = read_number(plain.removesuffix("%"))
    if number is None:
        raise wrong(value, 'a number from 0 up; write 1.5, "1 2/3" or "85 %"')
    return number / 100 if plain.endswith("%") else number


def share_out(share: Fraction) -> str:
    """Return an exact number as typed."""
    return exact_text(share)


# ---------------------------------------------------------------- offsets from plating

_OFFSET = re.compile(r"(.+?) (before|after)(?: (?:plating|serving))?", re.IGNORECASE)


def offset_in(value: object) -> int:
    """Return minutes from plating from "48 h before", "15 min after", "at plating" or "T-2:17"."""
    if is_whole(value):
        return int(str(value))
    if not isinstance(value, str):
        raise wrong(value, 'a time from plating; write "48 h before", "15 min after" or "T-2:17"')
    plain = " ".join(value.split())
    if plain.casefold() in ("at plating", "plating", "0"):
        return 0
    if met := _OFFSET.fullmatch(plain):
        minutes = minutes_in(met[1])
        return -minutes if met[2].casefold() == "before" else minutes
    if plain[:1].casefold() == "t":
        return parse_tminus(plain)
    raise Refusal(
        f'{quoted(value)} is not a time from plating; write "48 h before", "15 min after", '
        '"at plating" or "T-2:17".'
    )


def offset_out(offset: int) -> str | int:
    """Return an offset as people write it."""

    def show(minutes: int) -> str:
        if minutes == 0:
            return "at plating"
        return f"{show_minutes(abs(minutes))} {'before' if minutes < 0 else 'after'}"

    return told(offset, show, offset_in, offset)  # type: ignore[no-any-return]  # str or the int itself


# ---------------------------------------------------------------- moments and quantities


def moment_in(value: object) -> Moment:
    """Return plating's moment from "2026-09-26 19:30 Europe/London"; raise Refusal for anything else."""
    plain = " ".join(value.split()) if isinstance(value, str) else ""
    local, _, zone = plain.rpartition(" ")
    if not local or zone[:1].isdigit():
        raise wrong(value, 'a moment in quotes with its time zone; write "2026-09-26 19:30 Europe/London"')
    return parse_moment(local, zone)


def moment_out(moment: Moment) -> str:
    """Return a moment as it is typed, zone included."""
    return f"{moment.local.isoformat(sep=' ', timespec='minutes')} {moment.zone}"


_MARKED = {"to_taste": True}


def quantity_in(value: object) -> Quantity | None:
    """Return a quantity from "1 1/2 cups", a count, or None for "to taste".

    A plan says "to taste" by having no quantity; one that has the quantity so named is written as a table.
    """
    if value == _MARKED:
        return TO_TASTE
    if is_whole(value):
        value = str(value)
    if not isinstance(value, str):
        raise wrong(value, 'a quantity; write "700 ml", "1 1/2 cups", "4" or "to taste"')
    quantity = parse_quantity(value)
    return None if quantity.to_taste else quantity


def quantity_out(quantity: Quantity) -> Any:
    """Return a quantity as typed."""
    return dict(_MARKED) if quantity.to_taste else quantity.as_text()


# ---------------------------------------------------------------- marks


def mark_in(value: object) -> str:
    """Return a plan's mark from a UUID in one of its spellings; raise Refusal where it is none."""
    try:
        return str(UUID(value)) if isinstance(value, str) and value else _no_mark(value)
    except ValueError:
        return _no_mark(value)


def _no_mark(value: object) -> str:
    raise wrong(value, "a plan's mark, which is a UUID; leave the line out and the plan gets one when it is opened")


MarkText = Annotated[
    str,
    PlainValidator(mark_in),
    WithJsonSchema(
        {
            "type": "string",
            "format": "uuid",
            "description": "what calendars and phones know the plan by: a UUID; leave it out in a plan that begins",
        }
    ),
]
Minutes = Annotated[
    int,
    BeforeValidator(minutes_in),
    WithJsonSchema({"type": ["integer", "string"], "description": 'minutes: 45, "45 min", "1 h 20 min"'}),
]
PerCent = Annotated[
    int,
    BeforeValidator(per_cent_in),
    WithJsonSchema({"type": ["integer", "string"], "description": 'per cent: 10, "10 %"'}),
]
ShareText = Annotated[
    Fraction,
    PlainValidator(share_in),
    WithJsonSchema({"type": ["number", "string"], "description": 'a number: 2, 1.5, "1 2/3", "85 %"'}),
]
Offset = Annotated[
    int,
    BeforeValidator(offset_in),
    WithJsonSchema(
        {
            "type": ["integer", "string"],
            "description": 'from plating: "48 h before", "15 min after", "at plating", "T-2:17", or minutes',
        }
    ),
]
SpanText = Annotated[
    Span,
    PlainValidator(span_in),
    WithJsonSchema(
        {
            "anyOf": [
                {
                    "type": ["integer", "string"],
                    "description": '25, "25 min", or quick/likely/slow: "70/90/110"',
                },
                {
                    "type": "object",
                    "properties": {key: {"type": ["integer", "string"]} for key in ("low", "likely", "high")},
                    "required": ["low", "likely", "high"],
                    "additionalProperties": False,
                },
            ]
        }
    ),
]
MomentText = Annotated[
    Moment,
    PlainValidator(moment_in),
    WithJsonSchema(
        {"type": "string", "description": 'date, time and zone: "2026-09-26 19:30 Europe/London"'}
    ),
]
QuantityText = Annotated[
    Quantity | None,
    PlainValidator(quantity_in),
    WithJsonSchema(
        {"type": ["string", "integer"], "description": '"700 ml", "1 1/2 cups", "4", "to taste"'},
    ),
]
