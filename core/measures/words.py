"""Small grammar: lists joined in words, and plurals."""

from collections.abc import Sequence
from fractions import Fraction

_IRREGULAR = {
    "calf": "calves",
    "dozen": "dozen",
    "fish": "fish",
    "half": "halves",
    "knife": "knives",
    "leaf": "leaves",
    "loaf": "loaves",
    "potato": "potatoes",
    "shelf": "shelves",
    "tomato": "tomatoes",
}
_HISSING = ("s", "x", "z", "ch", "sh")


def join_words(words: Sequence[str]) -> str:
    """Join words as a sentence does: "a", "a and b", "a, b and c"; nothing gives ""."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def plural_of(word: str) -> str:
    """Return the English plural of a noun; of several words the last one changes."""
    *before, last = word.split(" ")
    if last in _IRREGULAR:
        many = _IRREGULAR[last]
    elif last.endswith(_HISSING):
        many = last + "es"
    elif last.endswith("y") and last[-2:-1] not in "aeiou":
        many = last[:-1] + "ies"
    else:
        many = last + "s"
    return " ".join([*before, many])


def counted(number: int | Fraction, word: str) -> str:
    """Return the word in the number it needs, without the number: one and less than one are singular."""
    return word if 0 < abs(Fraction(number)) <= 1 else plural_of(word)


def plural(number: int, word: str) -> str:
    """Return the number and its noun: "1 load", "2 loads", "0 loads"."""
    sign = "−" if number < 0 else ""
    return f"{sign}{abs(number)} {counted(number, word)}"
