"""The pieces of a hands-on step that may be interrupted: its hands, in order of time."""

from __future__ import annotations

from core.plan.meaning import most_pieces
from core.timetable.facts import Facts
from core.timetable.timetable import Hand, Placed


def pieces_of(facts: Facts, placed: Placed, length: int) -> tuple[Hand, ...] | None:
    """Return the pieces of a load that needs so many minutes; None where it may not be cut, or has no hands.

    What has begun is a fact: its pieces count if they are together as long as it must be, else it goes on whole.
    """
    step = facts.plan.steps[placed.step]
    if step.least_piece is None or most_pieces(step, length) < 2:
        return None
    pieces = tuple(sorted((hand for hand in placed.hands if hand.minutes > 0), key=_when))
    if placed.key in facts.known and sum(piece.minutes for piece in pieces) != length:
        return None
    return pieces or None


def _when(hand: Hand) -> tuple[int, int, str]:
    return hand.start, hand.minutes, hand.cook or ""
