"""What a long sentence comes to: a short head to scan, and the rest to unfold."""

from __future__ import annotations

import re
from dataclasses import dataclass

SHORT = 90
"""Characters that are read at a glance; a text no longer than this is not folded."""
_ENDS = re.compile(r"(?<=[.!?])\s+(?=[^a-z])")  # a name that was cut short ends in "…" inside a sentence
_CLAUSES = 2


@dataclass(frozen=True, slots=True)
class Gist:
    """A head, and the lines under it (none: the head is all there is)."""

    head: str
    rest: tuple[str, ...] = ()

    @property
    def whole(self) -> str:
        """Return all of it, as it is spoken."""
        return " ".join((self.head, *self.rest))


def gist_of(text: str, lists: bool = False) -> Gist:
    """Return the first sentence as the head, or its first part where it is long; the rest as lines.

    `lists`: the first sentence may be a list. "These cannot all hold: a; b; c. That is 5 min too much." has then the
    words around the list as its head.
    """
    text = text.strip()
    if len(text) <= SHORT:
        return Gist(text)
    first, *others = _ENDS.split(text)
    listed = _listed(first) if lists else None
    if listed is not None:
        title, clauses = listed
        return Gist(" ".join([f"{title}.", *others]), clauses)
    before, semicolon, after = first.rpartition("; ")
    if semicolon and len(first) > SHORT:
        return Gist(f"{before}.", (_capital(after), *others))
    return Gist(first, tuple(others))


def titled(text: str) -> Gist:
    """Return what stands before the first colon as the head, and what follows it as one line."""
    title, colon, rest = text.strip().partition(": ")
    return Gist(title, (_capital(rest),)) if colon and rest and len(text) > SHORT else Gist(text.strip())


def _listed(sentence: str) -> tuple[str, tuple[str, ...]] | None:
    """Return the title and the clauses of a sentence that lists some after a colon."""
    title, colon, list_ = sentence.rstrip(".").partition(": ")
    clauses = tuple(_capital(each.strip()) for each in list_.split("; ") if each.strip())
    return (title, clauses) if colon and len(clauses) >= _CLAUSES and len(title) <= SHORT // 2 else None


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
