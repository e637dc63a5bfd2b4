"""Searching the library: words in any order, each must be found somewhere; times such as "under 40 min"."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from core.measures.minutes import parse_minutes, show_minutes
from core.measures.refusal import Refusal
from core.measures.words import plural_of
from core.plan.check_words import a_kind
from core.plan.edits.library import OwnCopy
from core.store.library_values import OwnDish

_NOT_ASKED = frozenset({"a", "all", "an", "and", "the", "with", "in", "on", "for", "of", "from", "is", "to"})
_AT_MOST = r"under|within|below|at most|up to|less than|no more than|not more than|<=|\u2264|<"
_AT_LEAST = r"over|above|at least|more than|longer than|>=|\u2265|>"
_LIMIT = re.compile(rf"(?:(hands[ -]?on|hands|work|busy)\s+)?(?P<most>{_AT_MOST})\s*(?=\d|half|an? )|"
                    rf"(?:(hands[ -]?on|hands|work|busy)\s+)?(?P<least>{_AT_LEAST})\s*(?=\d|half|an? )")  # fmt: skip
_LONGEST_LENGTH = 5
"""Words that a length may have: "1 hour and 20 minutes"."""


@dataclass(frozen=True, slots=True)
class TimeLimit:
    """So many minutes at most, or at least; of the whole time, or of the `hands` on it."""

    minutes: int
    most: bool = True
    hands: bool = False

    @property
    def text(self) -> str:
        """Return the limit in words."""
        side, hands = "at most" if self.most else "at least", " hands on" if self.hands else ""
        return f"{side} {show_minutes(self.minutes)}{hands}"


@dataclass(frozen=True, slots=True)
class Asked:
    """What was understood of a search: words, folded, and limits of time."""

    words: tuple[str, ...]
    limits: tuple[TimeLimit, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """A dish that has all that was asked; `why` says for each word and limit where, `weight` how well it fits."""

    own: OwnDish
    why: tuple[str, ...] = ()
    weight: int = 0


@dataclass(frozen=True, slots=True)
class _Place:
    """One text of a dish: its words, these and what each is in plural, how much one counts, what is said of it."""

    words: tuple[str, ...]
    alike: frozenset[str]
    counts: int
    said: str


def asked(text: str) -> Asked:
    """Return what a search asks for. Never fails: what is no length of time is taken as words."""
    plain = folded(text)
    limits = []
    at = 0
    while (met := _LIMIT.search(plain, at)) is not None:
        minutes, end = _length_at(plain, met.end())
        if minutes is None:
            at = met.end()
            continue
        hands = met.group(1) is not None or met.group(3) is not None
        limits.append(TimeLimit(minutes, met["most"] is not None, hands))
        plain = f"{plain[: met.start()]} {plain[end:]}"
        at = met.start()
    words = (each for each in re.findall(r"\w+", plain) if each not in _NOT_ASKED)
    return Asked(tuple(dict.fromkeys(words)), tuple(limits))


def found_in(dishes: Sequence[OwnDish], text: str) -> tuple[Found, ...]:
    """Return the dishes that have all that a text asks for, the best first, those alike by name."""
    wish = asked(text)
    found = [each for own in dishes if (each := _judged(own, wish)) is not None]
    return tuple(sorted(found, key=lambda each: (-each.weight, folded(each.own.name))))


def in_none(dishes: Sequence[OwnDish], text: str) -> tuple[str, ...]:
    """Return the words and limits of a search that no dish at all has: what to leave out or write otherwise."""
    wish = asked(text)
    words = (word for word in wish.words if not any(_best(places_of(own), word) for own in dishes))
    limits = (limit.text for limit in wish.limits if not any(_keeps(own, limit) for own in dishes))
    return (*words, *limits)


def folded(text: str) -> str:
    """Return a text for comparing: small letters, no accents."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def _judged(own: OwnDish, wish: Asked) -> Found | None:
    why: dict[str, None] = {}
    weight = 0
    places = places_of(own)
    for word in wish.words:
        best = _best(places, word)
        if best is None:
            return None
        weight += best[0]
        why[best[1].said] = None
    for limit in wish.limits:
        if not _keeps(own, limit):
            return None
        minutes = own.times.hands if limit.hands else own.times.whole
        why[f"{show_minutes(minutes)} {'hands on' if limit.hands else 'in all'}"] = None
    return Found(own, tuple(why), weight)


def _keeps(own: OwnDish, limit: TimeLimit) -> bool:
    minutes = own.times.hands if limit.hands else own.times.whole
    return minutes <= limit.minutes if limit.most else minutes >= limit.minutes


def _best(places: Sequence[_Place], word: str) -> tuple[int, _Place] | None:
    """Return how much a word counts where it counts most, and where that is."""
    many = plural_of(word)
    scored = ((_fit(place, word, many) * place.counts, place) for place in places)
    best = max(scored, key=lambda each: each[0], default=None)
    return best if best is not None and best[0] else None


def _fit(place: _Place, word: str, many: str) -> int:
    """Return 3 for the word itself, or its one or many, 2 for words that begin with it, 0 for none."""
    if word in place.alike or many in place.words:
        return 3
    return 2 if any(each.startswith(word) for each in place.words) else 0


def places_of(own: OwnDish) -> tuple[_Place, ...]:
    """Return the texts of a dish in which words are looked for; worked out once for each copy."""
    return _places(own.copy, own.origin)


@lru_cache(maxsize=4096)
def _places(copy: OwnCopy, origin: str) -> tuple[_Place, ...]:
    return tuple(_texts(copy, origin))


def _texts(copy: OwnCopy, origin: str) -> Iterator[_Place]:
    dish = copy.dish
    yield _place(dish.name, 8, "its name")
    for each in dish.ingredients:
        yield _place(f"{each.item} {each.preparation}", 5, f"{each.item} among the ingredients")
    for kind in copy.kinds:
        yield _place(kind.value, 4, f"needs {a_kind(kind)}")
    for vessel in copy.vessels:
        yield _place(f"{vessel.name} {vessel.size}", 4, f"needs: {vessel.name}")
    for _station, name in copy.stations:
        yield _place(name, 4, f"needs: {name}")
    for step in dish.steps:
        touches = " ".join(each.does for each in step.touches)
        yield _place(f"{step.does} {touches} {step.note} {step.skill}", 2, f"step “{step.does}”")
    yield _place(f"{dish.note} {dish.plating} {dish.pan}", 1, "its notes")
    yield _place(origin, 1, f"kept from “{origin}”")


def _place(text: str, counts: int, said: str) -> _Place:
    words = tuple(re.findall(r"\w+", folded(text)))
    return _Place(words, frozenset((*words, *(plural_of(each) for each in words))), counts, said)


def _length_at(text: str, start: int) -> tuple[int | None, int]:
    """Return the longest length of time that begins at a place, and where it ends; None: there is none."""
    ends = [each.end() for each in re.finditer(r"\S+", text[start:])][:_LONGEST_LENGTH]
    for end in reversed(ends):
        said = re.sub(r"\band\b|,", " ", text[start : start + end]).strip(" .;")
        try:
            minutes = parse_minutes(" ".join(said.split()))
        except Refusal:
            continue
        if minutes > 0:
            return minutes, start + end
    return None, start
