"""A step in words: named after the way in which it is done, and the parts it is done in."""

from __future__ import annotations

from core.plan.ids import StepId
from core.plan.step import Attention, Step
from core.sheets.words import plain
from core.timetable.timetable import Hand, Placed, Timetable


def done_as(step: Step, way: int = 0) -> str:
    """Return what is done in a way: "Thaw the bird", "Thaw the bird: in cold water", "Thaw in cold water".

    An alternative whose name begins with the step's own verb says all by itself.
    """
    does = plain(step.does) or step.id
    if not 0 < way <= len(step.alternatives):
        return does
    name = plain(step.alternatives[way - 1].name) or f"other way, number {way}"
    same_verb = name.split()[0].casefold() == does.split()[0].casefold()
    return name if same_verb and len(name.split()) > 1 else f"{does}: {name}"


def way_done(timetable: Timetable, step: StepId) -> int:
    """Return the way in which a step is done on a timetable, as written (0) where it is not placed."""
    loads = timetable.loads_of.get(step, ())
    return loads[0].way if loads else 0


def parts_of(step: Step, placed: Placed) -> tuple[Hand, ...]:
    """Return the pieces in which a load is done, in order of time; () where it is done in one go."""
    if step.least_piece is None or step.attention is not Attention.HANDS_ON or step.hands != 1:
        return ()
    parts = sorted((hand for hand in placed.hands if hand.minutes > 0), key=lambda hand: hand.start)
    return tuple(parts) if len(parts) > 1 else ()


def part_words(number: int, count: int) -> str:
    """Return "part 1 of 2" of the first (0) of two."""
    return f"part {number + 1} of {count}"
