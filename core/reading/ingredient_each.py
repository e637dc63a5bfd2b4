"""A line that gives one amount for several things, as one line for each: "100 g each butter and sugar"."""

from __future__ import annotations

import re
from dataclasses import replace

from core.reading.ingredient import IngredientLine, Part, plain_of, read_ingredient
from core.reading.ingredient_words import DONE_FIRST

_EACH = re.compile(r"each(?: of)?:? +", re.IGNORECASE)
_APART = re.compile(r", and |, | and | & ")


def read_ingredients(line: str, system: str = "us") -> tuple[IngredientLine, ...]:
    """Return what a line says (see read_ingredient), once for each thing of which it gives the amount."""
    read = read_ingredient(line, system)
    each = _EACH.match(read.item)
    span = read.span_of("item")
    if each is None or span is None or read.quantity is None:
        return (read,)
    done = DONE_FIRST.match(f"{read.preparation} x") is not None
    listed = read.span_of("preparation") if read.preparation and not done else None
    words = plain_of(line)
    start, end = span[0] + each.end(), span[1] if listed is None else listed[1]
    parts = _parts(words, start, end)
    if len(parts) < 2:
        return (read,)
    kept = tuple(
        one for one in read.spans if one.what != "item" and (listed is None or one.what != "preparation")
    )
    return tuple(
        replace(
            read,
            item=line[low:high],
            preparation=read.preparation if done else "",
            doubts=(),
            spans=tuple(sorted((*kept, Part("item", low, high)), key=lambda one: one.start)),
        )
        for low, high in parts
    )


def _parts(words: str, start: int, end: int) -> list[tuple[int, int]]:
    cuts = [start]
    ends: list[int] = []
    for gap in _APART.finditer(words, start, end):
        ends.append(gap.start())
        cuts.append(gap.end())
    return [(low, high) for low, high in zip(cuts, [*ends, end], strict=True) if words[low:high].strip()]
