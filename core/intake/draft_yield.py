"""How many a recipe serves, out of the words of its yield."""

from __future__ import annotations

import re

_NUMBERS = {
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "twelve": 12,
    "dozen": 12,
}
_NUMBER = rf"(?:[0-9]{{1,5}}|\b(?:{'|'.join(_NUMBERS)})\b)"
_RANGE = re.compile(
    rf"(?P<low>{_NUMBER})(?:\s*(?:-|–|—|to|or)\s*(?P<high>{_NUMBER}))?(?P<after>.*)",
    re.IGNORECASE | re.DOTALL,
)
_PEOPLE = re.compile(
    r"\b(?:serv\w*|portions?|people|persons?|guests|feeds|enough for|adults?|slices)\b", re.IGNORECASE
)
_MAYBE = "which may not be servings"
_OF_PEOPLE = re.compile(
    rf"(?P<low>{_NUMBER})(?:\s*(?:-|–|—|to|or)\s*(?P<high>{_NUMBER}))?"
    r"(?= (?:\w+ )?(?:slices|portions|servings|people)\b)"
    r"(?P<after>.*)",
    re.IGNORECASE | re.DOTALL,
)
_PIECES = re.compile(r"\bmakes?\b|\byields?\b", re.IGNORECASE)


def servings_in(words: str) -> tuple[int | None, str]:
    """Return the number of servings in a yield's words, and a sentence where it is not plain ("" where it is).

    Of "4 to 6" the smaller number is kept: more for each, not less. What is counted in pieces ("12 rolls") is kept
    as the number of them.
    """
    if not words.strip():
        return None, "The page does not say how many the recipe serves."
    met = _OF_PEOPLE.search(words) or _RANGE.search(words)
    low = 0 if met is None else _value(met["low"])
    if met is None or low < 1:
        return None, f"The page says “{_short(words)}”, not how many the recipe serves."
    if met["high"] and _value(met["high"]) > low:
        return low, f"The page says “{_short(words)}”: {low} is written down."
    rest = met["after"].strip(" .,;:()")
    if _PEOPLE.search(words) or (not rest and not _PIECES.search(words)):
        return low, ""
    return low, f"The page says “{_short(words)}”, {_MAYBE}: {low} is written down."


def how_unsure(words: str) -> int:
    """Return how little the words of a yield say of servings: 0 one number of them, 1 two, 2 pieces, 3 nothing."""
    servings, sentence = servings_in(words)
    if servings is None:
        return 3
    return 0 if not sentence else 2 if _MAYBE in sentence else 1


def _value(token: str) -> int:
    return int(token) if token.isdigit() else _NUMBERS[token.casefold()]


def _short(words: str) -> str:
    return words if len(words) <= 40 else words[:39].rstrip() + "…"
