"""Which hand on the timetable answers which visit that a load asks for."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations
from typing import NamedTuple

from core.plan.meaning import HandsAt
from core.timetable.facts import Facts
from core.timetable.timetable import Hand, Placed

_MOST_TRIED = 6


class Asked(NamedTuple):
    """One person wanted by a load, and the hand that answers (None: none does)."""

    want: HandsAt
    hand: Hand | None


def answers(facts: Facts, placed: Placed) -> tuple[list[Asked], list[Hand]]:
    """Return who answers each person that a load asks for, and the hands that answer nobody."""
    wants = facts.people(placed.step, placed.length)
    hands = [hand for hand in placed.hands if hand.minutes > 0]
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
