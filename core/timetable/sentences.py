"""Clashes in words, first part: what is missing or pinned, time, hands. Clock times, and by how much."""

from __future__ import annotations

from collections.abc import Sequence

from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural
from core.plan.check_words import short
from core.plan.ids import CookId, StationId, StepId
from core.plan.menu import LinkKind
from core.timetable.facts import Facts
from core.timetable.naming import at_place, beside, capital, clock, load, number, span, way_words

# ---- what is on the timetable


def missing(facts: Facts, step: StepId, loads: int, of: int) -> str:
    """Say that loads of a step are not on the timetable."""
    name = facts.words.step(step)
    if loads == of:
        return f"{name} is not on the timetable."
    some = f"{number(loads).capitalize()} of the {number(of)} loads"
    return f"{some} of {name} {_is(loads)} not on the timetable."


def not_in_menu(facts: Facts, step: StepId) -> str:
    """Say that the timetable names a step that the menu does not have."""
    return f"The timetable has {facts.words.step(step)}, which is no step of the menu."


def no_such_load(facts: Facts, step: StepId, which: int, of: int) -> str:
    """Say that a load is one too many."""
    come = "1 load" if of == 1 else f"{of} loads"
    return f"The timetable has load {which + 1} of {facts.words.step(step)}, which comes to {come}."


def twice(facts: Facts, step: StepId, which: int) -> str:
    """Say that a load is placed more than once."""
    return f"{capital(load(facts, step, which))} is on the timetable twice."


def far_off(facts: Facts, step: StepId, which: int) -> str:
    """Say that a time is nonsense."""
    return f"{capital(load(facts, step, which))} is placed more than ten years from plating."


def dropped(facts: Facts, step: StepId, which: int) -> str:
    """Say that something dropped is still on the timetable."""
    return f"{capital(load(facts, step, which))} was dropped and is still on the timetable; take it off."


def no_such_way(facts: Facts, name: str, step: StepId, way: int) -> str:
    """Say that a load is done in a way that its step does not have."""
    others = len(facts.plan.steps[step].alternatives)
    has = "has no other way" if others == 0 else f"has {plural(others, 'other way')}"
    return f"{capital(name)} is done in way {way} besides the written one, and {has}."


def not_chosen(facts: Facts, name: str, step: StepId, ways: tuple[int, int]) -> str:
    """Say that a load is done in another way than the cook chose. `ways`: given, chosen."""
    given, chosen = (way_words(facts, step, way) for way in ways)
    return f"{capital(name)} is done {given}; you chose to do it {chosen}."


def other_way(facts: Facts, name: str, step: StepId, ways: tuple[int, int]) -> str:
    """Say that a load is done in another way than the first one. `ways`: here, there."""
    here, there = (way_words(facts, step, way) for way in ways)
    return f"{capital(name)} is done {here}, the first load {there}; all loads of a step are done in one way."


def pinned_start(facts: Facts, name: str, start: int, pinned: int) -> str:
    """Say that a load does not start where it was pinned."""
    return f"{capital(name)} starts at {clock(facts, start)}; you pinned it to {clock(facts, pinned)}."


def pinned_station(facts: Facts, name: str, station: StationId) -> str:
    """Say that a load does not stand where it was pinned."""
    return f"{capital(name)} does not stand {at_place(facts, station)}, where you pinned it."


def pinned_cook(facts: Facts, name: str, cook: CookId) -> str:
    """Say that a load is not done by the cook it was pinned to."""
    return f"{capital(name)} is not all done by {facts.words.cook(cook)}, to whom you pinned it."


def _is(count: int) -> str:
    return "is" if count == 1 else "are"


# ---- time


def next_load(facts: Facts, step: StepId, which: int, start: int, gap: int, change_over: int) -> str:
    """Say that a load starts before the load before it is out, or the place is ready again."""
    what = f"Load {which + 1} of {facts.words.step(step)} starts at {clock(facts, start)}"
    if gap < 0:
        return f"{what}, {show_minutes(-gap)} before load {which} is done."
    return (
        f"{what}, {show_minutes(gap)} after load {which} is done; the change-over takes"
        f" {beside(change_over, gap)}."
    )


_DOES = {
    LinkKind.END_TO_START: ("starts", "is done"),
    LinkKind.START_TO_START: ("starts", "starts"),
    LinkKind.END_TO_END: ("is done", "is done"),
}


def too_soon(facts: Facts, kind: LinkKind, names: tuple[str, str], at: int, gap: int, least: int) -> str:
    """Say that the later step of a link follows the earlier one too soon. `names`: before, after."""
    before, after = names
    does, done = _DOES[kind]
    what = f"{capital(after)} {does} at {clock(facts, at)}"
    if gap < 0:
        must = f", and must wait {show_minutes(least)} after that" if least > 0 else ""
        may = f"; {show_minutes(-least)} is allowed" if least < 0 else ""
        return f"{what}, {show_minutes(-gap)} before {before} {done}{must}{may}."
    return f"{what}, {show_minutes(gap)} after {before} {done}; it must wait {beside(least, gap)}."


def too_late_after(facts: Facts, kind: LinkKind, names: tuple[str, str], at: int, gap: int, most: int) -> str:
    """Say that the later step of a start-to-start or end-to-end link follows too late."""
    before, after = names
    does, done = _DOES[kind]
    return (
        f"{capital(after)} {does} at {clock(facts, at)}, {show_minutes(gap)} after {before} {done};"
        f" at most {beside(most, gap)} is allowed."
    )


def waits(facts: Facts, name: str, done: int, until: str, wait: tuple[int, int], early: bool) -> str:
    """Say that food waits longer than it can. `wait`: how long, at most; `early`: it may be done so soon."""
    how, most = wait
    verb = "may be done" if early else "is done"
    then = "then waits" if early else "waits"
    return (
        f"{capital(name)} {verb} at {clock(facts, done)} and {then} {show_minutes(how)} until {until};"
        f" it can wait {beside(most, how)}."
    )


def ordered(facts: Facts, names: tuple[str, str], start: int, gap: int) -> str:
    """Say that an order the cook gave is not kept. `names`: first, then."""
    first, then = names
    return (
        f"{capital(then)} starts at {clock(facts, start)}, {show_minutes(gap)} before {first} is done;"
        " you put it after that."
    )


def late_at_table(facts: Facts, name: str, done: int, course: int, served: bool) -> str:
    """Say that a last step is done after its course."""
    needed = "it is served" if served else "it must be ready"
    by = show_minutes(done - course)
    return f"{capital(name)} is done at {clock(facts, done)}, {by} after {needed} at {clock(facts, course)}."


def too_early(facts: Facts, name: str, start: int, earliest: int) -> str:
    """Say that a step begins before it may."""
    by = show_minutes(earliest - start)
    return f"{capital(name)} starts at {clock(facts, start)}, {by} before it may at {clock(facts, earliest)}."


def before_opening(facts: Facts, name: str, start: int, opens: int) -> str:
    """Say that a step begins before the plan does."""
    by = show_minutes(opens - start)
    what = f"{capital(name)} starts at {clock(facts, start)}"
    return f"{what}, {by} before the plan opens at {clock(facts, opens)}."


def too_late(facts: Facts, name: str, end: int, latest: int) -> str:
    """Say that a step ends after it must."""
    by = show_minutes(end - latest)
    return f"{capital(name)} is done at {clock(facts, end)}, {by} after it must be at {clock(facts, latest)}."


def off_the_clock(facts: Facts, name: str, start: int, set_for: int) -> str:
    """Say that a step with a clock time of its own starts at another."""
    side = "early" if start < set_for else "late"
    by = show_minutes(abs(start - set_for))
    what = f"{capital(name)} starts at {clock(facts, start)}"
    return f"{what}, {by} too {side}: it is set for {clock(facts, set_for)}."


# ---- hands


def two_at_once(facts: Facts, cook: CookId, when: tuple[int, int], names: Sequence[str]) -> str:
    """Say that a cook has several things to do at the same time."""
    who = facts.words.cook(cook)
    if len(set(names)) == 1:
        return f"{who} is wanted for {names[0]} {number(len(names))} times at once from {span(facts, *when)}."
    things = f"{number(len(names))} things to do at once"
    return f"{who} has {things} from {span(facts, *when)}: {join_words(names)}."


def nobody(facts: Facts, name: str, when: tuple[int, int]) -> str:
    """Say that no cook is found for something."""
    return f"Nobody is found for {name} from {span(facts, *when)}."


def stranger(facts: Facts, name: str, cook: CookId) -> str:
    """Say that a hand belongs to no cook of the kitchen."""
    return f"{capital(name)} is given to {facts.words.cook(cook)}, who is not one of the cooks."


def idle(facts: Facts, name: str, cook: CookId | None, when: tuple[int, int]) -> str:
    """Say that somebody is written down for something that needs nobody then."""
    who = "Somebody" if cook is None else facts.words.cook(cook)
    return f"{who} is written down for {name} from {span(facts, *when)}, which needs nobody then."


def absent(facts: Facts, name: str, cook: CookId, when: tuple[int, int]) -> str:
    """Say that a cook is away while wanted."""
    return f"{facts.words.cook(cook)} is not there from {span(facts, *when)} for {name}."


def unskilled(facts: Facts, name: str, cook: CookId, skill: str) -> str:
    """Say that a cook lacks the skill a thing asks for."""
    return (
        f"{capital(name)} asks for the skill “{short(skill)}”, which {facts.words.cook(cook)} does not have."
    )
