"""Hands: a cook for everything, who is there and able and has one thing to do at a time."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from core.plan.check_words import short
from core.plan.ids import CookId, StationId, StepId
from core.timetable import sentences
from core.timetable.answers import answers
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.facts import Facts
from core.timetable.naming import load, place
from core.timetable.sweep import Held, crowds
from core.timetable.timetable import Hand, Heating, Placed


class Duty(NamedTuple):
    """Something a cook does: a visit to a load, or switching a station on for the steps that come first."""

    steps: tuple[StepId, ...]
    load: int = 0
    does: str = ""
    station: StationId | None = None


Working = dict[CookId, list[Held[Duty]]]


def hands_clashes(book: Book, steps: AbstractSet[StepId], everything: bool) -> Iterator[Clash]:
    """Find what these steps lack in hands, and their cooks (all: every cook) doubled or away."""
    facts = book.facts
    working: Working = {}
    heatings = _heatings(book)
    own = [each for each in heatings if everything or not steps.isdisjoint(each[1].steps)]
    for heating, duty in own:
        yield from _found(facts, duty, heating.cook, (heating.start, heating.start + 1), "")
        _note_switch(facts, working, heating, duty)
    for step in book.loads.keys() & steps:
        for placed in book.loads[step]:
            yield from _lacking(facts, placed, working)
    if not everything:
        _beside(book, steps, [each for each in heatings if each not in own], working)
    for cook, held in working.items():
        yield from _at_once(facts, cook, held)
        yield from _away(facts, cook, held)


def _heatings(book: Book) -> list[tuple[Heating, Duty]]:
    """Return the heatings of the kitchen's stations with the steps for which they heat up."""
    found = []
    for heating in book.heatings:
        bakes = [thing for thing in book.bakes(heating.station) if thing.start == heating.end]
        steps = tuple(dict.fromkeys(step for thing in bakes for step in thing.steps))
        found.append((heating, Duty(steps, station=heating.station)))
    return found


def _note_switch(facts: Facts, working: Working, heating: Heating, duty: Duty) -> None:
    if heating.cook is not None and heating.cook in facts.plan.kitchen.cook:
        working.setdefault(heating.cook, []).append(Held(heating.start, heating.start + 1, 1, duty))


def _note(facts: Facts, working: Working, hand: Hand | None, duty: Duty) -> None:
    if hand is not None and hand.cook is not None and hand.cook in facts.plan.kitchen.cook:
        working.setdefault(hand.cook, []).append(Held(hand.start, hand.start + hand.minutes, 1, duty))


def _beside(
    book: Book, steps: AbstractSet[StepId], heatings: list[tuple[Heating, Duty]], working: Working
) -> None:
    """Add what else the cooks do during the stretch in which they work on these steps."""
    during = {
        cook: (min(each.start for each in held), max(each.end for each in held))
        for cook, held in working.items()
    }
    for step, loads in book.loads.items():
        if step in steps:
            continue
        for placed in loads:
            for hand in placed.hands:
                if _within(hand, during):
                    _note_within(book.facts, placed, during, working)
                    break
    for heating, duty in heatings:
        if heating.cook in during:
            _note_switch(book.facts, working, heating, duty)


def _note_within(
    facts: Facts, placed: Placed, during: dict[CookId, tuple[int, int]], working: Working
) -> None:
    for want, hand in answers(facts, placed)[0]:
        if hand is not None and _within(hand, during):
            _note(facts, working, hand, Duty((placed.step,), placed.load, want.does))


def _within(hand: Hand, during: dict[CookId, tuple[int, int]]) -> bool:
    stretch = during.get(hand.cook) if hand.cook is not None else None
    return stretch is not None and hand.start < stretch[1] and hand.start + hand.minutes > stretch[0]


def _name(facts: Facts, duty: Duty) -> str:
    if duty.station is not None:
        return f"switching on {place(facts, duty.station)}"
    name = load(facts, duty.steps[0], duty.load)
    own = facts.plan.steps[duty.steps[0]].does
    return f"{name} ({short(duty.does)})" if duty.does and duty.does != own else name


def _lacking(facts: Facts, placed: Placed, working: Working) -> Iterator[Clash]:
    """Judge that a load has the hands it asks for, and no others; note what its cooks do."""
    asked, over = answers(facts, placed)
    for want, hand in asked:
        duty = Duty((placed.step,), placed.load, want.does)
        when = (placed.start + want.start, placed.start + want.start + want.minutes)
        yield from _found(facts, duty, None if hand is None else hand.cook, when, want.skill)
        _note(facts, working, hand, duty)
    for hand in over:
        when = (hand.start, hand.start + hand.minutes)
        sentence = sentences.idle(facts, load(facts, placed.step, placed.load), hand.cook, when)
        cooks = () if hand.cook is None else (hand.cook,)
        yield Clash(ClashKind.HANDS_SHORT, sentence, *when, (placed.step,), cooks=cooks)


def _found(
    facts: Facts, duty: Duty, cook: CookId | None, when: tuple[int, int], skill: str
) -> Iterator[Clash]:
    """Judge that somebody is found for a duty, who is one of the cooks and can do it."""
    if cook is None:
        sentence = sentences.nobody(facts, _name(facts, duty), when)
    elif cook not in facts.plan.kitchen.cook:
        sentence = sentences.stranger(facts, _name(facts, duty), cook)
    elif skill and skill not in facts.plan.kitchen.cook[cook].skills:
        sentence = sentences.unskilled(facts, _name(facts, duty), cook, skill)
    else:
        return
    cooks = () if cook is None else (cook,)
    yield Clash(ClashKind.HANDS_SHORT, sentence, *when, duty.steps, cooks=cooks, by=1)


def _rank(duty: Duty) -> tuple[object, ...]:
    return duty.steps, duty.load, duty.does, duty.station or ""


def _at_once(facts: Facts, cook: CookId, held: list[Held[Duty]]) -> Iterator[Clash]:
    """Judge that a cook does one thing at a time."""
    for crowd in crowds(held, 1, _rank):
        when = (crowd.start, crowd.end)
        sentence = sentences.two_at_once(facts, cook, when, [_name(facts, duty) for duty in crowd.what])
        steps = tuple(dict.fromkeys(step for duty in crowd.what for step in duty.steps))
        yield Clash(ClashKind.HANDS_SHORT, sentence, *when, steps, cooks=(cook,), by=crowd.amount - 1)


def _away(facts: Facts, cook: CookId, held: list[Held[Duty]]) -> Iterator[Clash]:
    """Judge that a cook is there for everything."""
    away = facts.absences(cook, min(each.start for each in held), max(each.end for each in held))
    for begin, until in away:
        for each in held:
            start, end = max(begin, each.start), min(until, each.end)
            if start < end:
                sentence = sentences.absent(facts, _name(facts, each.what), cook, (start, end))
                by = end - start
                yield Clash(
                    ClashKind.COOK_ABSENT, sentence, start, end, each.what.steps, cooks=(cook,), by=by
                )
