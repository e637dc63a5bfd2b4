"""Clashes in words: lengths, full places, pieces."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.measures.minutes import show_minutes
from core.measures.words import join_words
from core.plan.ids import StepId
from core.timetable.facts import Facts
from core.timetable.naming import beside, capital, number, place, span

if TYPE_CHECKING:
    from core.timetable.lengths import Length


def wrong_length(name: str, given: int, needs: int, setting: int | None) -> str:
    """Say that a load has more or fewer minutes than it needs."""
    at = "" if setting is None else f" at {setting} °C"
    return f"{capital(name)} is given {show_minutes(given)}{at} and needs {show_minutes(needs)}."


def longer_when_full(facts: Facts, name: str, given: int, true: Length, own: StepId) -> str:
    """Say that a load is not given what it takes in a place that is full with other dishes."""
    first = true.full[0]
    others = [facts.words.step(step) for step in first.steps if step != own]
    where, when = place(facts, first.station), span(facts, first.start, first.end)
    more = true.minutes - given
    mend = f"Give it {show_minutes(more)} more" if more > 0 else f"Take {show_minutes(-more)} off"
    return (
        f"{capital(name)} is given {show_minutes(given)} and needs {show_minutes(true.minutes)}: {where} is full"
        f" from {when}, with {join_words(others)} in it too. {mend}."
    )


def not_full(name: str, given: int, needs: int) -> str:
    """Say that a load is given what it would take in a full place, and its place is not full."""
    return (
        f"{capital(name)} is given {show_minutes(given)}, as in a full place, and needs {show_minutes(needs)}:"
        " the place is not full meanwhile."
    )


def pieces_together(name: str, pieces: int, given: int, needs: int) -> str:
    """Say that the pieces of a step are too short or too long together."""
    more = needs - given
    mend = f"give it {show_minutes(more)} more" if more > 0 else f"take {show_minutes(-more)} off"
    return (
        f"{capital(name)} is done in {number(pieces)} pieces of {show_minutes(given)} together and needs"
        f" {beside(needs, given)}; {mend}."
    )


def short_piece(facts: Facts, name: str, when: tuple[int, int], least: int) -> str:
    """Say that a piece is shorter than pieces may be."""
    minutes = when[1] - when[0]
    return (
        f"A piece of {name}, {span(facts, *when)}, is {show_minutes(minutes)} long; a piece takes at least"
        f" {beside(least, minutes)}."
    )


def two_pieces(facts: Facts, name: str, when: tuple[int, int]) -> str:
    """Say that two pieces of a step are done at once."""
    return f"Two pieces of {name} are done at once, {span(facts, *when)}; do one after the other."


def pieces_span(facts: Facts, name: str, given: tuple[int, int], hull: tuple[int, int]) -> str:
    """Say that a step does not last from its first piece to its last."""
    return (
        f"{capital(name)} stands on the timetable from {span(facts, *given)} and is done in pieces from"
        f" {span(facts, *hull)}."
    )
