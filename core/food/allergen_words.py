"""Words of an item compared with words of a table: whole words, singular or plural, capitals and accents aside."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from itertools import pairwise

from core.food.allergen_foods import FOODS

_WORD = re.compile(r"[^\W\d_]+")
_LONGEST = max(len(food) for food in FOODS)
_FREE = {
    "gluten": ("gluten",),
    "dairy": ("milk",),
    "milk": ("milk",),
    "egg": ("egg",),
    "nut": ("nuts", "peanuts"),
}
"""What "... free" takes off a proposal. Free of lactose is still milk."""


def words_of(text: str) -> tuple[str, ...]:
    """Return the words of a text in small letters, in the singular, without accents."""
    bare = "".join(each for each in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(each))
    return tuple(_singular(word) for word in _WORD.findall(bare.replace("'", "").replace("’", "")))


def has_words(text: str, wanted: str) -> bool:
    """Tell whether the words wanted stand in a text, one after the other."""
    words, sought = words_of(text), words_of(wanted)
    return bool(sought) and any(words[at : at + len(sought)] == sought for at in range(len(words)))


def foods_in(item: str, table: Mapping[tuple[str, ...], tuple[str, ...]] = FOODS) -> tuple[str, ...]:
    """Return the groups of the foods that an item's words name, the longest names first, each word used once."""
    words = list(words_of(item))
    found: dict[str, None] = {}
    free = {group for one, after in pairwise(words) if after == "free" for group in _FREE.get(one, ())}
    at = 0
    while at < len(words):
        for length in range(min(_LONGEST, len(words) - at), 0, -1):
            groups = table.get(tuple(words[at : at + length]))
            if groups is not None:
                found |= dict.fromkeys(groups)
                at += length
                break
        else:
            at += 1
    return tuple(each for each in found if each not in free)


def _singular(word: str) -> str:
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("sses", "shes", "ches", "xes", "toes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us")):
        return word[:-1]
    return word
