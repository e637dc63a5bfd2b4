"""What a cook does to a recipe's lines: correct, split, join, move, leave out, tick. Each returns a new value."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from app.places.recipe.worked import MOST_ROWS, Reader, Row, Thing, Worked
from core.measures.refusal import Refusal
from core.plan.step import Attention, Span, Touch
from core.reading.line import with_chip
from core.reading.line_value import Line, Says

_PARTS = re.compile(r"(?:[,;.] +)?\bthen +|; +|\. +|, +and +| +and +|, +", re.IGNORECASE)
_MOST_FIRST = 4  # words by which the place of a half is found
_LEAD = re.compile(r"\A[\s,;.]*(?:(?:and )?then\b|and\b)?[\s,;.]*", re.IGNORECASE)


def changed(worked: Worked, key: int, **values: Any) -> Worked:
    """Return the recipe with other values of a row."""
    rows = tuple(replace(each, **values) if each.key == key else each for each in worked.rows)
    return replace(worked, rows=rows)


def thing_changed(worked: Worked, number: int, **values: Any) -> Worked:
    """Return the recipe with other values of an ingredient."""
    things = tuple(replace(each, **values) if each.number == number else each for each in worked.things)
    return replace(worked, things=things)


def with_length(worked: Worked, key: int, words: str, reader: Reader) -> Worked:
    """Return the recipe with a row's length written into its line; "" takes it out."""
    row = worked.row(key)
    chip = next((each for each in reader.line(row.line).chips if each.kind is Says.LENGTH and not each.implied), None)
    if chip is not None:
        line = with_chip(row.line, chip, words)
    else:
        line = f"{row.line.rstrip().rstrip(',')}, {words}" if words else row.line
    return changed(worked, key, line=line, guess=False)


def followers(worked: Worked, key: int) -> tuple[int, ...]:
    """Return the keys of the rows that follow a row."""
    return tuple(each.key for each in worked.rows if key in each.after)


def before_of(worked: Worked, key: int) -> tuple[int, ...]:
    """Return the keys of the kept rows that a row follows, through those that are left out."""
    found: list[int] = []
    for before in worked.row(key).after:
        found += before_of(worked, before) if worked.row(before).out else [before]
    return tuple(dict.fromkeys(found))


def with_after(worked: Worked, key: int, after: tuple[int, ...]) -> Worked:
    """Return the recipe in which a row follows others; only rows above it may be followed."""
    above = [each.key for each in worked.rows]
    above = above[: above.index(key)]
    if not set(after) <= set(above):
        raise Refusal("A step can follow only steps above it; move it down first.")
    return changed(worked, key, after=tuple(each for each in above if each in after))


# ---------------------------------------------------------------- what the text does not say


def with_step(worked: Worked, line: str) -> Worked:
    """Return the recipe with one more step, after the last one; the text has no place for it."""
    _require_room(len(worked.rows), "steps")
    key = max((each.key for each in worked.rows), default=-1) + 1
    last = [each.key for each in worked.rows if not each.out][-1:]
    nowhere = len(worked.recipe.text)
    return replace(worked, rows=(*worked.rows, Row(key, line, nowhere, nowhere, after=tuple(last))))


def with_thing(worked: Worked, line: str) -> Worked:
    """Return the recipe with one more ingredient, which goes into no step that is known."""
    _require_room(len(worked.things), "ingredients")
    return replace(worked, things=(*worked.things, Thing(len(worked.things), line)))


def _require_room(count: int, what: str) -> None:
    if count >= MOST_ROWS:
        raise Refusal(f"There are {count} {what} already; a recipe has no more than {MOST_ROWS}.")


# ---------------------------------------------------------------- split and join


def split(worked: Worked, key: int, at: int | None, reader: Reader) -> tuple[Worked, int]:
    """Return the recipe with a row in two, and the key of the second.

    `at` is the place in the line; None, or one at an end: where the words themselves part. What the line says
    besides the words goes with the half it stands in.
    """
    row = worked.row(key)
    first, second = _halves(row.line, at, reader.line(row.line))
    if not all(reader.line(each).step_values.get("does") for each in (first, second)):
        raise Refusal("Each half must say what is done; put the cursor where the second step begins.")
    new = max(each.key for each in worked.rows) + 1
    between = _between(worked, row, second)
    halves = (
        replace(row, line=first, end=between or row.end, understood=False, guess=False),
        replace(
            row, key=new, line=second, start=between or row.start, after=(key,), understood=False, guess=False
        ),
    )
    rows: list[Row] = []
    for each in worked.rows:
        if each.key == key:
            rows += halves
        else:
            rows.append(replace(each, after=tuple(new if before == key else before for before in each.after)))
    return replace(worked, rows=tuple(rows)), new


def _halves(text: str, at: int | None, line: Line) -> tuple[str, str]:
    if at is None or not text[:at].strip(' "') or not text[at:].strip(' ",.'):
        chips = [each for each in line.chips if not each.implied]
        end = min((each.start for each in chips if each.kind is not Says.LABEL), default=len(text))
        met = next((each for each in _PARTS.finditer(text, 1, end) if text[each.end() : end].strip(' ",')), None)
        if met is None:
            raise Refusal("Put the cursor where the second step begins, and split again.")
        at = met.start()
    first, second = text[:at].rstrip(" ,;."), text[at:]
    second = second[_lead_end(second) :]
    if not first.strip(' "') or not second.strip(' "'):
        raise Refusal("Put the cursor where the second step begins, and split again.")
    return _even(first), _even(second[:1].upper() + second[1:])


def _between(worked: Worked, row: Row, second: str) -> int | None:
    """Return where in the text the second half of a row begins, by its first words; None: not known."""
    said = worked.draft.text[row.start : row.end].casefold()
    if len(said) != row.end - row.start:
        return None  # signs that become two when folded: places would be off
    words = second.casefold().split()
    for count in range(min(_MOST_FIRST, len(words)), 0, -1):
        at = said.find(" ".join(words[:count]).rstrip(",;."))
        if at > 0:
            return row.start + at
    return None


def _lead_end(text: str) -> int:
    met = _LEAD.match(text)
    return met.end() if met else 0


def _even(text: str) -> str:
    """Return a text without a quotation mark that lost its partner."""
    return (text.replace('"', "") if text.count('"') % 2 else text).strip()


def join(worked: Worked, key: int, reader: Reader) -> Worked:
    """Return the recipe with a row and the kept one below it as a single one, done one after the other."""
    kept = [each for each in worked.rows if not each.out]
    at = next((number for number, each in enumerate(kept) if each.key == key), None)
    if at is None or at + 1 >= len(kept):
        raise Refusal("There is no step below to join with.")
    one, other = kept[at], kept[at + 1]
    first, second = reader.line(one.line), reader.line(other.line)
    values = _joined(first.step_values, second.step_values)
    # by way of rows that are left out and lie between the two
    after = dict.fromkeys((*one.after, *(each for each in before_of(worked, other.key) if each != one.key)))
    placed = [each for each in (one, other) if each.start < each.end]
    made = replace(
        one,
        line=reader.written(values, second.wait),
        start=min((each.start for each in placed), default=one.start),
        end=max((each.end for each in placed), default=one.end),
        steps=(*one.steps, *other.steps),
        after=tuple(after),
        understood=False,
        guess=False,
    )
    rows = []
    for each in worked.rows:
        if each.key == other.key:
            continue
        links = dict.fromkeys(key if before == other.key else before for before in each.after)
        rows.append(made if each.key == key else replace(each, after=tuple(links)))
    things = tuple(replace(each, step=key) if each.step == other.key else each for each in worked.things)
    return replace(worked, rows=tuple(rows), things=things)


def _joined(one: Mapping[str, Any], other: Mapping[str, Any]) -> dict[str, Any]:
    """Return the values of two steps done as one: lengths added, the attention of the longer, places of both."""
    first, second = str(one.get("does", "")), str(other.get("does", ""))
    does = f"{first}, then {second[:1].lower()}{second[1:]}" if first and second else first or second
    found: dict[str, Any] = {**other, **one, "does": does}
    lengths = [each["length"] for each in (one, other) if "length" in each]
    if lengths:
        found["length"] = Span(*(sum(getattr(each, name) for each in lengths) for name in ("low", "likely", "high")))
    kinds = {use.kind for use in one.get("uses", ())}
    found["uses"] = (*one.get("uses", ()), *(use for use in other.get("uses", ()) if use.kind not in kinds))
    found["vessels"] = tuple(dict.fromkeys((*one.get("vessels", ()), *other.get("vessels", ()))))
    longer = max((one, other), key=_likely)
    found["attention"] = longer.get("attention", Attention.HANDS_ON)
    found["touches"] = () if found["attention"] is Attention.HANDS_ON else _touches(one, other)
    if found["touches"]:
        found["attention"] = Attention.TENDED
    if "doneness" in other:
        found["doneness"] = other["doneness"]
    found.pop("keeps", None)
    return found | ({"keeps": other["keeps"]} if other.get("keeps") is not None else {})


def _likely(values: Mapping[str, Any]) -> int:
    length = values.get("length")
    return length.likely if isinstance(length, Span) else 0


def _touches(one: Mapping[str, Any], other: Mapping[str, Any]) -> tuple[Touch, ...]:
    length = one.get("length")
    later = length.low if isinstance(length, Span) else 0
    moved = (each if each.from_end else replace(each, at=each.at + later) for each in other.get("touches", ()))
    return (*(each for each in one.get("touches", ()) if not each.from_end), *moved)


# ---------------------------------------------------------------- order


def moved(worked: Worked, key: int, by: int) -> Worked:
    """Return the recipe with a row one place up (-1) or down (1); what follows what goes with it.

    The row leaves its place in the chain, so that what followed it follows what it followed, and comes in before or
    after the one that it passes.
    """
    keys = [each.key for each in worked.rows]
    at = keys.index(key)
    to = at + by
    if not 0 <= to < len(keys):
        return worked
    other = worked.rows[to]
    upper, lower = (key, other.key) if by > 0 else (other.key, key)
    rows = list(worked.rows)
    rows[at], rows[to] = rows[to], rows[at]
    swapped = replace(worked, rows=tuple(rows))
    if upper not in worked.row(lower).after:
        return swapped  # they did not follow each other, and still need not
    high, low = worked.row(upper), worked.row(lower)
    links = {
        lower: tuple(dict.fromkeys((*high.after, *(each for each in low.after if each != upper)))),
        upper: (lower,),
    }
    found = []
    for each in swapped.rows:
        if each.key in links:
            found.append(replace(each, after=links[each.key]))
            continue
        after = tuple(dict.fromkeys(upper if before == lower else before for before in each.after))
        found.append(replace(each, after=after))
    return replace(swapped, rows=tuple(found))
