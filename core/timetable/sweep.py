"""Sweep over stretches of time: how much is asked for at every minute, and by whom."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import pairwise
from typing import Any, Generic, NamedTuple, TypeVar

T = TypeVar("T")


class Held(NamedTuple, Generic[T]):
    """Something takes `amount` of a thing during [start, end)."""

    start: int
    end: int
    amount: int
    what: T


class Level(NamedTuple):
    """So much is in use during [start, end)."""

    start: int
    end: int
    amount: int


class Crowd(NamedTuple, Generic[T]):
    """All that hold something during [start, end), in order of their starts; at the most so much together."""

    start: int
    end: int
    amount: int
    what: tuple[T, ...]


def crowds(held: Iterable[Held[T]], limit: int, rank: Callable[[T], Any]) -> list[Crowd[T]]:
    """Return each stretch in which the same things ask for more than `limit` together.

    `rank` orders those that begin and end together, so that the order of the list says nothing.
    """
    taken = sorted((each for each in held if each.end > each.start and each.amount > 0), key=_start)
    found: list[Crowd[T]] = []
    apart = all(one.end <= other.start for one, other in pairwise(taken))
    most = max if apart else sum
    if not taken or most(each.amount for each in taken) <= limit:
        return found
    taken.sort(key=lambda each: (each.start, each.end, rank(each.what)))
    times = sorted({each.start for each in taken} | {each.end for each in taken})
    active: list[Held[T]] = []
    arriving = 0
    for now, until in pairwise(times):
        active = [each for each in active if each.end > now]
        while arriving < len(taken) and taken[arriving].start == now:
            active.append(taken[arriving])
            arriving += 1
        together = sum(each.amount for each in active)
        if together > limit:
            _add(found, Crowd(now, until, together, tuple(each.what for each in active)))
    return found


def _start(held: Held[T]) -> int:
    return held.start


def _add(found: list[Crowd[T]], crowd: Crowd[T]) -> None:
    """Join a crowd to the one before when it goes on with the same things."""
    if found:
        last = found[-1]
        if last.end == crowd.start and _same(last.what, crowd.what):
            found[-1] = Crowd(last.start, crowd.end, max(last.amount, crowd.amount), last.what)
            return
    found.append(crowd)


def _same(one: tuple[T, ...], other: tuple[T, ...]) -> bool:
    return len(one) == len(other) and all(map(other.__contains__, one)) and all(map(one.__contains__, other))


def levels(held: Iterable[Held[T]]) -> tuple[Level, ...]:
    """Return how much is in use, as a step function; stretches of nothing are left out."""
    change: dict[int, int] = {}
    for each in held:
        if each.end > each.start:
            change[each.start] = change.get(each.start, 0) + each.amount
            change[each.end] = change.get(each.end, 0) - each.amount
    found: list[Level] = []
    amount, since = 0, 0
    for at in sorted(change):
        if change[at] == 0:
            continue
        if amount:
            found.append(Level(since, at, amount))
        amount, since = amount + change[at], at
    return tuple(found)


def peak(curve: Iterable[Level]) -> Level | None:
    """Return the first stretch with the most in use; None where nothing ever is."""
    return max(curve, key=lambda level: (level.amount, -level.start), default=None)
