"""Which hand on the timetable answers which visit that a load asks for. Of what lies before now nothing is asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations
from typing import NamedTuple

from core.plan.meaning import HandsAt
from core.timetable.book import Book
from core.timetable.facts import Facts
from core.timetable.lengths import length_of
from core.timetable.pieces import pieces_of
from core.timetable.timetable import Hand, Placed

_MOST_TRIED = 6


class Asked(NamedTuple):
    """One person wanted by a load, and the hand that answers (None: none does)."""

    want: HandsAt
    hand: Hand | None


def answers(book: Book, placed: Placed) -> tuple[list[Asked], list[Hand]]:
    """Return who answers each person that a load asks for, and the hands that answer nobody.

    A step that may be done in pieces asks for the hands it has: whether they will do is a matter of its length.
    """
    facts = book.facts
    if facts.plan.steps[placed.step].least_piece is not None:
        pieces = pieces_of(facts, placed, length_of(book, placed).minutes)
        if pieces is not None:
            left = _hands_from(facts.now, pieces)
            return [Asked(_piece(facts, placed, hand), hand) for hand in left], []
    wants: Sequence[HandsAt] = facts.people(placed.step, placed.length, placed.way)
    hands = [hand for hand in placed.hands if hand.minutes > 0]
    if placed.start < facts.now:
        wants, hands = _from_now(facts.now, placed, wants, hands)
    if _in_order(facts, placed, wants, hands):
        return [Asked(*pair) for pair in zip(wants, hands, strict=True)], []
    pool: dict[tuple[int, int], list[Hand]] = {}
    for hand in hands:
        pool.setdefault((hand.start - placed.start, hand.minutes), []).append(hand)
    asked: list[Asked] = []
    over: list[Hand] = []
    for key in dict.fromkeys((want.start, want.minutes) for want in wants):
        some = [want for want in wants if (want.start, want.minutes) == key]
        chosen, left = _matched(facts, some, pool.pop(key, []))
        asked += (Asked(want, hand) for want, hand in zip(some, chosen, strict=True))
        over += left
    over += (hand for left in pool.values() for hand in left)
    return asked, over


def _in_order(facts: Facts, placed: Placed, wants: Sequence[HandsAt], hands: list[Hand]) -> bool:
    """Return whether the hands answer the wants one by one, as a sound timetable lists them."""
    if len(wants) != len(hands):
        return False
    for want, hand in zip(wants, hands, strict=True):
        if want.minutes != hand.minutes or placed.start + want.start != hand.start:
            return False
        if _fault(facts, want, hand):
            return False
    return True


def _matched(
    facts: Facts, wants: list[HandsAt], hands: list[Hand]
) -> tuple[Sequence[Hand | None], list[Hand]]:
    """Return a hand for each of several wants of the same minutes, the order that serves best, and the rest."""
    given: list[Hand | None] = [*hands, *[None] * (len(wants) - len(hands))]
    chosen: Sequence[Hand | None] = given[: len(wants)]
    if len(given) <= _MOST_TRIED:
        chosen = min(
            permutations(given, len(wants)),
            key=lambda some: sum(_fault(facts, want, hand) for want, hand in zip(wants, some, strict=True)),
        )
    left = list(hands)
    for hand in chosen:
        if hand is not None:
            left.remove(hand)
    return chosen, left


def _fault(facts: Facts, want: HandsAt, hand: Hand | None) -> int:
    """Return 0 where a hand serves a want, 1 where its cook lacks the skill, 2 where there is no such cook."""
    cook = None if hand is None or hand.cook is None else facts.plan.kitchen.cook.get(hand.cook)
    if cook is None:
        return 2
    return 1 if want.skill and want.skill not in cook.skills else 0


def _piece(facts: Facts, placed: Placed, hand: Hand) -> HandsAt:
    step = facts.plan.steps[placed.step]
    return HandsAt(hand.start - placed.start, hand.minutes, 1, step.skill, step.does)


def _from_now(
    now: int, placed: Placed, wants: Sequence[HandsAt], hands: list[Hand]
) -> tuple[list[HandsAt], list[Hand]]:
    """Return what of wants and hands lies before now left out, and what goes on now as if it began now."""
    begins = now - placed.start
    left = [
        want
        if want.start >= begins
        else replace(want, start=begins, minutes=want.start + want.minutes - begins)
        for want in wants
        if want.start + want.minutes > begins
    ]
    return left, _hands_from(now, hands)


def _hands_from(now: int, hands: Sequence[Hand]) -> list[Hand]:
    return [
        hand if hand.start >= now else replace(hand, start=now, minutes=_end(hand) - now)
        for hand in hands
        if _end(hand) > now
    ]


def _end(hand: Hand) -> int:
    return hand.start + hand.minutes
