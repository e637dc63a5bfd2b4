"""Clashes in words: walks."""

from __future__ import annotations

from core.measures.minutes import show_minutes
from core.plan.check_words import short
from core.plan.ids import CookId
from core.timetable.facts import Facts
from core.timetable.naming import beside, clock


def no_walk(
    facts: Facts, cook: CookId, names: tuple[str, str], places: tuple[str, str], times: tuple[int, int]
) -> str:
    """Say that a cook has too little time from one place to another. `times`: done here, begins there."""
    done, begins = times
    here, there = (short(place) for place in places)
    gap = begins - done
    return (
        f"{facts.words.cook(cook)} has {show_minutes(gap)} between {names[0]} ({here}, until"
        f" {clock(facts, done)}) and {names[1]} ({there}, from {clock(facts, begins)}); the walk takes"
        f" {beside(facts.walk, gap)}: begin there at {clock(facts, done + facts.walk)}, or let somebody else."
    )
