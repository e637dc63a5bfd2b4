"""Which step names which ingredient: the first whose words have the ingredient's noun."""

from __future__ import annotations

import re
from collections.abc import Sequence

_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")
_PARTS = re.compile(r" of | or | and | & |, ", re.IGNORECASE)
_ALL = re.compile(r"\beverything\b|\bthe (?:(?:remaining|other) )?ingredients\b", re.IGNORECASE)
_SHORTEST_END = 4  # signs: "crumb" of breadcrumb, not "pan" of marzipan
_NO_NOUN_WORDS = (
    "the a an fresh dried large small medium ripe plain good hot cold warm red green white black brown yellow dark"
    " light whole ground fine coarse sea raw cooked extra virgin free range unsalted salted sweet double single strong"
    " self raising baby new old day long thick thin mixed flat skinless boneless smoked table your taste piece pieces"
)
_NO_NOUNS = frozenset(_NO_NOUN_WORDS.split())


def singular(word: str) -> str:
    """Return the singular of a plain English noun, in lower case: "tomatoes" -> "tomato"."""
    word = word.casefold()
    if len(word) < 4 or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith("leaves"):
        return word[:-3] + "f"
    if word.endswith(("oes", "ches", "shes", "xes", "sses")):
        return word[:-2]
    return word.removesuffix("s")


def words_of(text: str) -> tuple[str, ...]:
    """Return the words of a text, singular and in lower case."""
    return tuple(singular(each) for each in _WORD.findall(text))


def nouns_of(item: str) -> frozenset[str]:
    """Return the nouns that an ingredient is called by: the last word of each of its parts."""
    parts = (words_of(each) for each in _PARTS.split(item))
    return frozenset(words[-1] for words in parts if words and words[-1] not in _NO_NOUNS)


def named_by(items: Sequence[tuple[str, str]], steps: Sequence[tuple[str, str]]) -> tuple[int | None, ...]:
    """Return for each ingredient the number of the first step that names it, None where none surely does.

    Items and steps come as (words, section). Where steps stand in the ingredient's section, only they are looked
    at. A noun that two ingredients share counts only with the word before it ("olive oil"). What no step names goes
    into the first that names its section ("Mix the rub"), else that takes "everything" or "the ingredients".
    """
    nouns = [nouns_of(item) for item, _section in items]
    words = [words_of(text) for text, _section in steps]
    found: list[int | None] = []
    for number, (item, section) in enumerate(items):
        own = [at for at, (_text, where) in enumerate(steps) if where == section] if section else []
        among = own or list(range(len(steps)))
        beside = [other == section or not own for _item, other in items]
        keys = _keys(
            number, item, [each if near else frozenset() for each, near in zip(nouns, beside, strict=True)]
        )
        found.append(_first(keys, among, words) if keys else None)
        if found[-1] is None:
            found[-1] = _first(_other_words(number, item, items), among, words)
        if found[-1] is None:
            found[-1] = _within(nouns[number], among, words)
        if found[-1] is None and not own:
            found[-1] = _first(_section_words(section), among, words)
        if found[-1] is None:
            found[-1] = next((at for at in among if _ALL.search(steps[at][0])), None)
    return tuple(found)


def _keys(number: int, item: str, nouns: Sequence[frozenset[str]]) -> tuple[tuple[str, ...], ...]:
    """Return what must stand in a step, as runs of words: one noun, or with the word before it where it is shared."""
    keys: list[tuple[str, ...]] = []
    for noun in sorted(nouns[number]):
        shared = any(noun in others for at, others in enumerate(nouns) if at != number)
        words = words_of(item)
        at = words.index(noun) if noun in words else 0
        if not shared:
            keys.append((noun,))
        elif at:
            keys.append(words[at - 1 : at + 1])
    return tuple(keys)


def _other_words(number: int, item: str, items: Sequence[tuple[str, str]]) -> tuple[tuple[str, ...], ...]:
    """Return the words of an ingredient that no other has and that tell things apart: "chicken" of chicken thighs."""
    others = {word for at, (other, _section) in enumerate(items) if at != number for word in words_of(other)}
    return tuple((word,) for word in words_of(item) if len(word) > 2 and word not in others | _NO_NOUNS)


def _section_words(section: str) -> tuple[tuple[str, ...], ...]:
    """Return what a section's ingredients are called together: "rub" of "For the rub"."""
    words = words_of(section)
    return ((words[-1],),) if words and len(words[-1]) > 2 else ()


def _within(nouns: frozenset[str], among: Sequence[int], words: Sequence[tuple[str, ...]]) -> int | None:
    """Return the first step with the end of a noun for it: "crumbs" are the breadcrumbs."""
    for at in among:
        if any(
            noun != word and len(word) >= _SHORTEST_END and noun.endswith(word)
            for noun in nouns
            for word in words[at]
        ):
            return at
    return None


def _first(
    keys: Sequence[tuple[str, ...]], among: Sequence[int], words: Sequence[tuple[str, ...]]
) -> int | None:
    for at in among:
        for key in keys:
            if any(
                words[at][start : start + len(key)] == key for start in range(len(words[at]) - len(key) + 1)
            ):
                return at
    return None
