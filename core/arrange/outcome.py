"""What an arrangement came to, as a value: 'nothing fits' is an answer, not an error."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.timetable.clash import Clash
from core.timetable.timetable import Timetable


class Fit(StrEnum):
    """Whether everything meets."""

    MEETS = "everything meets"
    IMPOSSIBLE = "cannot meet"
    NOT_FOUND = "nothing found in the time given"


class WishKind(StrEnum):
    """What makes one clash-free day better than another."""

    FRESH = "fresh"
    CALM = "calm"
    OVEN = "oven"
    SLEEP = "sleep"
    KEEP = "keep"


@dataclass(frozen=True, slots=True)
class WishReached:
    """What a timetable reached of one wish and what no timetable can beat (`bound` None: not worked out).

    Units: fresh in minutes of waiting weighed by how little the food bears; calm in hands-on minutes of the
    last three quarters of an hour; oven in degrees off the recipes, a heating from cold counting as twenty and
    another temperature as eight; sleep in minutes by which work begins too early, over all mornings; keep in
    minutes moved. core.arrange.quality says the same in the cook's words.
    """

    wish: WishKind
    reached: int
    bound: int | None = None


@dataclass(frozen=True, slots=True)
class Outcome:
    """The answer to one request: `score` is the weighed sum made small, `bound` is proven not above it.

    With IMPOSSIBLE or NOT_FOUND the timetable is the best that was found with lateness and long waits allowed:
    its `clashes` (from the validator, never from the solver) say what gives.
    """

    fit: Fit
    timetable: Timetable
    clashes: tuple[Clash, ...] = ()
    score: int = 0
    bound: int | None = None
    wishes: tuple[WishReached, ...] = ()
    stopped: bool = False
    rounds: int = 0
