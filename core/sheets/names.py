"""Names in little room: dishes' where they stand again, and how wide a column the cooks' want."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from unicodedata import east_asian_width

from core.sheets.words import shortened

_LEAST, _MOST = 4, 38
_SIGN, _PADDING = 2.05, 3.2
_NARROW, _WIDE = 13.0, 24.0
"""Millimetres: of a sign of a cook's name, of the padding of its column, of the column at least and at most."""


def brief_names(names: Iterable[str]) -> dict[str, str]:
    """Return for each name what may stand for it: up to its first comma and not too long, where that tells it apart."""
    wanted = list(dict.fromkeys(names))
    cut = {name: _cut(name) for name in wanted}
    often = Counter(cut.values())
    return {name: short if often[short] == 1 else name for name, short in cut.items()}


def _cut(name: str) -> str:
    head = name.partition(",")[0].strip()
    return shortened(head if len(head) >= _LEAST else name, _MOST)


def who_width(names: Iterable[str]) -> float:
    """Return the millimetres of a column of cooks in which each name has two lines, if it is not very long."""
    single = {name for several in names for name in several.split(", ")}
    return min(max(max(map(_halved, single), default=0) * _SIGN + _PADDING, _NARROW), _WIDE)


def _halved(name: str) -> int:
    """Return the signs of the longer of two lines that a name is best broken into."""
    words = name.split()
    breaks = ((" ".join(words[:at]), " ".join(words[at:])) for at in range(1, max(len(words), 1) + 1))
    return min((max(_signs(one), _signs(other)) for one, other in breaks), default=0)


def _signs(text: str) -> int:
    """Return how many letters wide a text is: some signs take the room of two (Chinese ones, that of none known)."""
    return sum(2 if east_asian_width(sign) in "WF" or sign == "\N{REPLACEMENT CHARACTER}" else 1 for sign in text)
