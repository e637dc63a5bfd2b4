"""What a row of a recipe shows of its line."""

from __future__ import annotations

import re

from app.places.recipe.kinds import SAID
from app.places.recipe.line_row import Chip
from app.places.recipe.worked import GUESS, Reader, Row, Thing, Worked
from core.measures.minutes import parse_span, show_minutes, show_span
from core.measures.quantity_show import show_quantity
from core.measures.refusal import Refusal, quoted
from core.plan.step import Span
from core.reading.ingredient import read_ingredient
from core.reading.line_value import Says

_NUMBERS = re.compile(r"\d+(?:\s*(?:,|and|&|\s)\s*\d+)*\Z")


def step_chips(row: Row, reader: Reader) -> tuple[Chip, ...]:
    """Return what is understood of a step's line, but the length, which stands beside it."""
    found = (
        Chip(each.words, each.start, each.end, SAID.get(each.kind, ""), each.implied)
        for each in reader.line(row.line).chips
        if each.kind is not Says.LENGTH
    )
    return tuple(sorted(found, key=lambda each: each.plain))


def step_wrong(row: Row, reader: Reader) -> str:
    """Return what cannot be read of a step's line."""
    return " ".join(each.sentence for each in reader.line(row.line).faults)


def length_of(row: Row, reader: Reader) -> str:
    """Return a step's length as typed; a question mark for a guess."""
    length = reader.line(row.line).step_values.get("length")
    if isinstance(length, Span):
        return _show_length(length)
    return "?" if row.guess else ""


def _show_length(length: Span) -> str:
    """Return a length as a recipe has it, "30-35 min", where the likely one is the usual one between the two."""
    low, likely, high = length.low, length.likely, length.high
    plain = f"{low}-{high} min" if high < 120 else f"{show_minutes(low)} to {show_minutes(high)}"
    return plain if low < high and parse_span(plain) == (low, likely, high) else show_span(low, likely, high)


def read_length(text: str) -> str:
    """Return a length as a line has it, "?" for a guess, "" for none."""
    words = " ".join(text.split())
    if words in ("", "?"):
        return words
    low, likely, high = parse_span(words)
    if high < 1:
        raise Refusal(f"{quoted(words)} is no time at all; write how long it takes, such as 5 min.")
    if low == likely == high:
        return show_span(low, low, low)
    return f"{low}/{likely}/{high} min"


def read_after(text: str) -> tuple[int, ...]:
    """Return the numbers of steps."""
    plain = text.strip().casefold().replace("nothing", "")
    if plain in ("", "-", "–"):
        return ()
    if not _NUMBERS.match(plain):
        raise Refusal(f"{quoted(text)}: write the numbers of the steps it follows, such as 2 or 1, 3, or nothing.")
    return tuple(dict.fromkeys(int(each) for each in re.findall(r"\d+", plain)))


def show_after(numbers: tuple[int, ...]) -> str:
    """Return the numbers of the steps that one follows."""
    return ", ".join(map(str, numbers))


def read_step(text: str) -> str:
    """Return a step's line on one line."""
    words = " ".join(text.split())
    if not words:
        raise Refusal("This is empty; write what is done, or leave the step out (Alt+X).")
    return words


def read_thing(text: str) -> str:
    """Return an ingredient's line on one line."""
    words = " ".join(text.split())
    if not words:
        raise Refusal("This is empty; write the ingredient, or leave it out (Alt+X).")
    read_ingredient(words)
    return words


def thing_chips(thing: Thing, worked: Worked) -> tuple[Chip, ...]:
    """Return what is understood of an ingredient: how much, of what, how prepared, for which step."""
    line = read_ingredient(thing.line, worked.system)
    found = []
    for what, words in (
        ("quantity", "" if line.quantity is None else show_quantity(line.quantity)),
        ("item", line.item),
        ("preparation", line.preparation),
        ("comment", line.comment),
    ):
        if words:
            start, end = line.span_of(what) or (0, 0)
            found.append(Chip(words, start, end, what))
    if line.optional:
        found.append(Chip("optional", *(line.span_of("optional") or (0, 0)), "optional"))
    number = next((at for at, row in enumerate(worked.rows, 1) if row.key == thing.step and not row.out), None)
    if number is not None:
        found.append(Chip(f"into step {number}", 0, 0, plain=True))
    return tuple(found)


def thing_wrong(thing: Thing, worked: Worked) -> str:
    """Return what an ingredient's line leaves open, where the cook has changed it since it was read."""
    read = worked.draft.ingredients[thing.number : thing.number + 1]  # none: the cook has added it
    if any(thing.line == worked.draft.words(each.start, each.end) for each in read):
        return ""
    return " ".join(read_ingredient(thing.line, worked.system).doubts)


def guess_words() -> str:
    """Return the length that is guessed."""
    return show_span(GUESS.low, GUESS.likely, GUESS.high)
