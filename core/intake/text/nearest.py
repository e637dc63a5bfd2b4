"""The word that was probably meant, for what is misspelt."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from difflib import get_close_matches

from core.measures.refusal import Refusal, quoted
from core.measures.words import join_words

_FEW = 12


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word most like another, None when none is near."""
    by_fold = {each.casefold().replace("-", "_"): each for each in known}
    near = get_close_matches(word.casefold().replace("-", "_"), list(by_fold), n=1, cutoff=0.6)
    return by_fold[near[0]] if near else None


def did_you_mean(word: str, known: Collection[str]) -> str:
    """Return the mend for an unknown word: the one probably meant, else the few there are."""
    near = nearest(word, known)
    if near is not None:
        return f"did you mean {near}?"
    if not known:
        return "there is none."
    if len(known) <= _FEW:
        return f"write {_or(sorted(known))}."
    return "check how it is spelt."


def _or(words: list[str]) -> str:
    return join_words(words).replace(" and ", " or ") if len(words) > 1 else words[0]


def one_of(value: object, known: Collection[str], what: str) -> str:
    """Return the known word that a value is, whatever its case; else raise Refusal naming a near one."""
    by_fold = {each.casefold(): each for each in known}
    if isinstance(value, str) and " ".join(value.split()).casefold() in by_fold:
        return by_fold[" ".join(value.split()).casefold()]
    if isinstance(value, str):
        raise Refusal(f"{quoted(value)} is not {what}; {did_you_mean(value, known)}")
    raise Refusal(f"This is not {what}; write {_or(sorted(known))} in quotes.")
