"""What a field is, declared: which value it holds, how that is typed, picked, ticked, weighed or written."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

Take = Callable[[Any], str]
"""Takes a value; returns "" or the sentence why not."""
TakeKey = Callable[[str, Any], str]
"""Takes the value of a field by its key; returns "" or the sentence why not."""


@dataclass(frozen=True, slots=True)
class Typed:
    """One line of text: `read` makes the value of it or raises Refusal, `show` the text.

    `offers` lists texts that may be chosen instead of typed; `joins` (such as "; ") is put between several;
    `wraps`: it may be long, and takes as many lines of the screen as it needs.
    """

    read: Callable[[str], Any]
    show: Callable[[Any], str]
    offers: Callable[[], Sequence[str]] | None = None
    joins: str = ""
    wraps: bool = False


@dataclass(frozen=True, slots=True)
class Picked:
    """One of several values, each with its words."""

    options: Callable[[], Sequence[tuple[Any, str]]]


@dataclass(frozen=True, slots=True)
class Ticked:
    """Yes or no."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A weight from 0 to `most`, with a word for each stretch of it."""

    most: int
    words: Callable[[int], str]


@dataclass(frozen=True, slots=True)
class Written:
    """A text of several lines."""


How = Typed | Picked | Ticked | Weighed | Written


@dataclass(frozen=True, slots=True)
class Spec:
    """One field: its key, label and how it is filled in.

    `tip` says more, `empty` stands greyed in an empty line, `width` is the least width in pixels at a usual
    size of type, `grows` its share of the room that is left (0: none), `hint` says what a value comes to.
    """

    key: str
    label: str
    how: How
    tip: str = ""
    empty: str = ""
    width: int = 120
    grows: int = 1
    hint: Callable[[Any], str] | None = None
