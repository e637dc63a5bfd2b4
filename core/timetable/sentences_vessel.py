"""Clashes in words: vessels in use, and washing up."""

from __future__ import annotations

from collections.abc import Sequence

from core.measures.minutes import show_minutes
from core.measures.words import join_words
from core.plan.check_words import short
from core.plan.kitchen import Station, Vessel
from core.timetable.facts import Facts
from core.timetable.naming import at_place, beside, capital, clock, number, span
from core.timetable.timetable import Washing

Party = tuple[str, int]
"""Somebody's name in a crowd and how much it takes."""


def vessel_short(
    facts: Facts,
    vessel: str,
    count: int,
    when: tuple[int, int],
    parties: Sequence[Party],
    mend: tuple[int, int] | None,
) -> str:
    """Say that more vessels of a kind are wanted than there are. `mend`: minutes to wash, from when on."""
    together = sum(amount for _name, amount in parties)
    many = vessel if together == len(parties) else f"{together} × {vessel}"
    there = "there is one" if count == 1 else f"there are {number(count)}"
    verb = "wants" if len(parties) == 1 else "want"
    names = join_words([name for name, _amount in parties])
    wash = ""
    if mend is not None:
        begin = max(mend[1], facts.now)
        wash = f"; it can be washed from {clock(facts, begin)}, which takes {show_minutes(mend[0])}"
    return f"From {span(facts, *when)} {names} {verb} {many} at once, and {there}{wash}."


def vessel_does_not_fit(facts: Facts, name: str, vessel: Vessel, station: Station) -> str:
    """Say that a vessel of a load does not go on or into where it stands."""
    size = f" ({short(vessel.size)})" if vessel.size else ""
    inside = f", which is {station.wide}x{station.deep} cm inside" if not vessel.fits else ""
    there = at_place(facts, station.id)
    return (
        f"{capital(name)} stands {there}{inside}, and {facts.words.vessel(vessel.id)}{size} does not fit there; put it"
        " elsewhere, or use another vessel."
    )


def useless_washing(facts: Facts, washing: Washing, why: str) -> str:
    """Say that a washing is of nothing. `why`: "of no run", "far off", "unused" or "again"."""
    vessel, step = facts.words.vessel(washing.vessel), facts.words.step(washing.after)
    because = {
        "of no run": "which is no first step with that vessel",
        "far off": "and that is more than ten years from plating",
        "unused": "which is not on the timetable",
        "again": "after which it is washed already",
    }[why]
    when = span(facts, *sorted((washing.start, washing.end)))
    return f"{capital(vessel)} is to be washed from {when} after {step}, {because}; leave it out."


def washed_too_soon(facts: Facts, washing: Washing, emptied: int) -> str:
    """Say that a vessel is washed while in use."""
    return (
        f"{capital(facts.words.vessel(washing.vessel))} is to be washed at {clock(facts, washing.start)} and is in"
        f" use until {clock(facts, emptied)}; wash it {show_minutes(emptied - washing.start)} later."
    )


def washing_length(facts: Facts, washing: Washing, needs: int) -> str:
    """Say that washing is given other minutes than it takes."""
    given, vessel = washing.minutes, facts.words.vessel(washing.vessel)
    if needs == 0:
        return f"{capital(vessel)} is given {show_minutes(given)} to be washed and needs none; leave it out."
    return (
        f"{capital(vessel)} is given {show_minutes(given)} to be washed and needs {beside(needs, given)}; wash it"
        f" until {clock(facts, washing.start + needs)}."
    )
