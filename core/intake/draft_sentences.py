"""Cuts the method of a recipe into sentences, each with its place in the text."""

from __future__ import annotations

import re
from collections.abc import Iterator

from core.reading.sentence_verbs import BEGINS

_END = re.compile(r"[.!?]+[\"'”’)\]]*(?=\s+\S)")
_BEGINS = re.compile(r"\s+[\"'“‘(\[]*(?:[^\W\d_]|[0-9])")
_SHORT_WORDS = (
    "approx c ca deg dia e.g etc f fl g gal hr hrs i.e in kg l lb lbs max med min mins ml mm cm no oz pt qt sec secs"
    " tbs tbsp temp tsp vs pkg pkt mr mrs st dr"
)
_SHORTENED = frozenset(_SHORT_WORDS.split())
_TIMES = frozenset(["min", "mins", "hr", "hrs", "sec", "secs", "h"])
_WORK = re.compile(BEGINS)  # "for 30 mins. chill overnight", all in small letters
_WORD_BEFORE = re.compile(r"[^\s(]+\Z")


def sentences(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """Yield where the sentences between two places of a text begin and end."""
    at = start
    for met in _END.finditer(text, start, end):
        if met.end() < end and _parts(text, at, met.start(), met.end()):
            yield from _trimmed(text, at, met.end())
            at = met.end()
    yield from _trimmed(text, at, end)


def _parts(text: str, start: int, stop: int, after: int) -> bool:
    """Tell whether the stop at a place ends a sentence, not only a shortened word."""
    begins = _BEGINS.match(text, after)
    if begins is None:
        return False
    following = text[begins.end() - 1]
    word = _WORD_BEFORE.search(text[max(start, stop - 20) : stop])
    shortened = word is not None and word[0].casefold() in _SHORTENED
    if following.isupper():
        # "for 20 min. Then" ends, "approx. Gas 4" does not
        return not shortened or (
            word is not None and word[0].casefold() not in ("approx", "ca", "e.g", "i.e", "no", "vs")
        )
    timed = (
        word is not None and word[0].casefold() in _TIMES and _WORK.match(text, begins.end() - 1) is not None
    )
    return (not shortened and not following.isdigit()) or timed


def _trimmed(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    while start < end and text[start].isspace():
        start += 1
    while start < end and text[end - 1].isspace():
        end -= 1
    if start < end:
        yield start, end
