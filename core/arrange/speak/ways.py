"""Ways out in words: what to change, and what comes of it. All from fields; a translation replaces this file."""

from __future__ import annotations

from collections.abc import Callable

from core.arrange.ways.way import Change, Unit, WayKind, WayOut
from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural
from core.plan.check_words import unit_word
from core.plan.ids import StationId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.timetable.facts import Facts
from core.timetable.naming import beside, clock, number, place, span

_MOST_NAMED = 3


def say_way(plan: Plan, way: WayOut) -> str:
    """Return what to do, for the plan as it was before: "Let Gratin wait 30 min instead of 20."."""
    facts = Facts(plan)
    return _SAID[way.kind](facts, way.changes)


def say_effect(plan: Plan, way: WayOut) -> str:
    """Return what comes of it: by when all is served, what moves, what must be bought."""
    facts = Facts(plan)
    effect = way.effect
    said = [f"All meets by {clock(facts, effect.served)}."]
    moved = [step for step in effect.moved if step in plan.steps]
    if moved:
        few = len(moved) <= _MOST_NAMED
        names = join_words([facts.words.step(step) for step in moved]) if few else plural(len(moved), "step")
        said.append(f"{names} {'begins' if len(moved) == 1 else 'begin'} at another time than before.")
    if effect.lost:
        said.append(f"{plural(len(effect.lost), 'step')} {'is' if len(effect.lost) == 1 else 'are'} saved.")
    if effect.wanted:
        said.append(f"Then {join_words(effect.wanted)} must come from elsewhere.")
    return " ".join(said)


def _later(facts: Facts, changes: tuple[Change, ...]) -> str:
    minutes = changes[0].now or 0
    return f"Serve everything {show_minutes(minutes)} later, at {clock(facts, minutes)}."


def _dish_later(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    return f"Serve {_dish(facts, change)} at {_at(facts, change.now)} instead of {_at(facts, change.was)}."


def _wait(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    was, now = change.was or 0, change.now or 0
    instead = f"{show_minutes(now)} instead of {beside(was, now)}"
    if change.after is None:
        return f"Let {_dish(facts, change)} wait {instead} until it is served."
    after = _step_named(facts, change.after)
    if change.link is LinkKind.START_TO_START:
        return f"Let {after} begin up to {instead} after {_step(facts, change)} begins."
    if change.link is LinkKind.END_TO_END:
        return f"Let {after} be done up to {instead} after {_step(facts, change)} is done."
    return f"Let {_step(facts, change)} wait {instead} before {after}."


def _heat(facts: Facts, changes: tuple[Change, ...]) -> str:
    said = []
    for change in changes:
        was, now = change.was or 0, change.now or 0
        edge = "up to" if now > was else "down to"
        said.append(f"let {_step(facts, change)} bear {edge} {now} °C instead of {was}")
    return f"{_capital(join_words(said))}; the time changes by 1 % a degree."


def _order(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    return f"Lift the order: {_step_named(facts, change.after)} need not come after {_step(facts, change)}."


def _pin(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    if change.was is None or change.now is None:
        return f"Lift the pin of {_step(facts, change)}."
    if change.was == change.now:
        return f"Lift the pin of {_step(facts, change)}, which still begins at {_at(facts, change.now)}."
    return (
        f"Lift the pin of {_step(facts, change)}: it begins at {_at(facts, change.now)}"
        f" instead of {_at(facts, change.was)}."
    )


def _ahead(facts: Facts, changes: tuple[Change, ...]) -> str:
    said = [
        f"let {_step(facts, each)} begin from {_at(facts, each.now)} on instead of {_at(facts, each.was)}"
        if each.step is not None
        else f"let work begin at {_at(facts, each.now)} instead of {_at(facts, each.was)}"
        for each in changes
    ]
    return f"{_capital(join_words(said))}."


def _done_later(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    return f"Let {_step(facts, change)} be done by {_at(facts, change.now)} instead of {_at(facts, change.was)}."


def _clock(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    was, now = change.was or 0, change.now or 0
    by = f"{show_minutes(abs(now - was))} {'sooner' if now < was else 'later'}"
    return f"Begin {_step(facts, change)} {by}, at {_at(facts, now)} instead of {_at(facts, was)}."


def _bigger(facts: Facts, changes: tuple[Change, ...]) -> str:
    more, loads, *places = changes
    on = join_words([f"{_units(each, each.now)} instead of {each.was}" for each in places])
    of = f"{more.now} at a time instead of {more.was}"
    times = _units_of_loads(loads.now)
    return f"Do {_step(facts, more)} {of}{f', on {on}' if on else ''}: {times}."


def _smaller(facts: Facts, changes: tuple[Change, ...]) -> str:
    loads, units = changes
    rounds = f"{number(loads.now or 0)} rounds instead of {number(loads.was or 0)}"
    return f"Do {_step(facts, loads)} in {rounds}, on {_units(units, units.now)} at a time."


def _servings(facts: Facts, changes: tuple[Change, ...]) -> str:
    servings, *pieces = changes
    each = [f"{one.now} pieces instead of {one.was} at {_step(facts, one)}" for one in pieces]
    return (
        f"Cook {_dish(facts, servings)} for {servings.now} instead of {servings.was}"
        f"{f': {join_words(each)}' if each else ''}."
    )


def _waves(facts: Facts, changes: tuple[Change, ...]) -> str:
    when, first, second = changes
    return (
        f"Serve {_dish(facts, when)} in two waves: {_units_of_loads(first.now)} at {_at(facts, when.was)},"
        f" {_units_of_loads(second.now)} at {_at(facts, when.now)}."
    )


def _elsewhere(facts: Facts, changes: tuple[Change, ...]) -> str:
    return f"Move {join_words([_moved(facts, each) for each in changes])}."


def _moved(facts: Facts, change: Change) -> str:
    if change.unit is Unit.AREA:
        return f"{_step(facts, change)} onto a board on {_step_named(facts, change.after)}"
    to = f"the {change.name}" if change.station is None else _station(facts, change.station)
    return f"{_step(facts, change)} to {to}{_when(facts, change)}"


def _stack(facts: Facts, changes: tuple[Change, ...]) -> str:
    board, *others = changes
    on = f"Stand {_step(facts, board)} on a board on {_step_named(facts, board.after)}"
    return f"{on}{''.join(f', and move {_moved(facts, each)}' for each in others)}."


def _borrow(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    much = f" with a shelf of {change.now:,} cm²" if change.unit is Unit.AREA else ""
    return f"Borrow one more: {change.name}{much}{_when(facts, change)}."


def _fire(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    more = (change.now or 0) - (change.was or 0)
    what = "another fire" if more == 1 else f"{number(more)} more fires"
    on = f" for {facts.words.station(change.station)}" if change.station is not None else ""
    return f"Light {what}{on}{'' if change.begins is None else f' by {_at(facts, change.begins)}'}."


def _vessel(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    more = (change.now or 0) - (change.was or 0)
    name = "" if change.vessel is None else facts.words.vessel(change.vessel)
    return f"Borrow {number(more)} more of {name}: {change.now} instead of {change.was}."


def _helper(facts: Facts, changes: tuple[Change, ...]) -> str:
    said: list[str] = []
    for change in changes:
        able = f"who can do “{change.skill}”" if change.skill else "who needs no skill"
        who = "somebody" if not said else "somebody else"
        said.append(f"{who} {able} to help{_when(facts, change)}")
    return f"Ask {join_words(said)}."


def _hands(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    return f"Do {_step(facts, change)} with {plural(change.now or 0, 'cook')} instead of {change.was}."


def _novice(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    return f"Let anybody do {_step(facts, change)}; it asks for the skill “{change.skill}” now."


def _shorter(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    was, now = change.was or 0, change.now or 0
    instead = f"{show_minutes(now)} instead of {beside(was, now)}"
    return f"Reserve the likely length for {_step(facts, change)}: {instead}. Begin checking early."


def _way(facts: Facts, changes: tuple[Change, ...]) -> str:
    (change,) = changes
    assert change.step is not None
    others = facts.plan.steps[change.step].alternatives
    way = change.now or 0
    how = "as it is written" if way == 0 else f"the other way: {others[way - 1].name}"
    return f"Do {_step(facts, change)} {how}{_when(facts, change)}."


def _no_dish(facts: Facts, changes: tuple[Change, ...]) -> str:
    return f"Leave out {_dish(facts, changes[0])}."


def _no_step(facts: Facts, changes: tuple[Change, ...]) -> str:
    return f"Leave out {_step(facts, changes[0])}."


_SAID: dict[WayKind, Callable[[Facts, tuple[Change, ...]], str]] = {
    WayKind.SERVE_LATER: _later,
    WayKind.DISH_LATER: _dish_later,
    WayKind.WAIT_LONGER: _wait,
    WayKind.WIDER_HEAT: _heat,
    WayKind.LIFT_ORDER: _order,
    WayKind.LIFT_PIN: _pin,
    WayKind.MAKE_AHEAD: _ahead,
    WayKind.DONE_LATER: _done_later,
    WayKind.MOVE_CLOCK: _clock,
    WayKind.BIGGER_LOADS: _bigger,
    WayKind.SMALLER_LOADS: _smaller,
    WayKind.FEWER_SERVINGS: _servings,
    WayKind.WAVES: _waves,
    WayKind.ELSEWHERE: _elsewhere,
    WayKind.STACK: _stack,
    WayKind.BORROW_STATION: _borrow,
    WayKind.SECOND_FIRE: _fire,
    WayKind.BORROW_VESSEL: _vessel,
    WayKind.HELPER: _helper,
    WayKind.FEWER_HANDS: _hands,
    WayKind.NOVICE: _novice,
    WayKind.SHORTER: _shorter,
    WayKind.OTHER_WAY: _way,
    WayKind.LEAVE_OUT_DISH: _no_dish,
    WayKind.LEAVE_OUT_STEP: _no_step,
}


def _step(facts: Facts, change: Change) -> str:
    return _step_named(facts, change.step)


def _step_named(facts: Facts, step: StepId | None) -> str:
    return "" if step is None else facts.words.step(step)


def _station(facts: Facts, station: StationId) -> str:
    """Return "the grill" where a station is called what it is, else its name."""
    name = facts.words.station(station)
    found = facts.plan.kitchen.station.get(station)
    return place(facts, station) if found is not None and name.casefold() == found.kind.value else name


def _dish(facts: Facts, change: Change) -> str:
    return "" if change.dish is None else facts.words.dish(change.dish)


def _at(facts: Facts, offset: int | None) -> str:
    return "any time" if offset is None else clock(facts, offset)


def _when(facts: Facts, change: Change) -> str:
    if change.begins is None or change.ends is None:
        return ""
    return f", from {span(facts, change.begins, change.ends)}"


def _units(change: Change, count: int | None) -> str:
    return plural(count or 0, unit_word(StationKind(change.name)))


def _units_of_loads(count: int | None) -> str:
    return plural(count or 0, "load")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
