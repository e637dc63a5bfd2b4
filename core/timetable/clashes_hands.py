"""Hands: a cook for everything, who is there and able, has one thing to do at a time and time to walk.

What takes a cook and has nobody is a clash, switching on and lighting too: without cooks nothing can be heated.
"""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from core.plan.ids import CookId, StepId
from core.timetable import sentences
from core.timetable.answers import answers
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes_walk import walk_clashes
from core.timetable.duties import Duty, Job, Working, duty_name, jobs, place_of
from core.timetable.facts import Facts
from core.timetable.naming import load
from core.timetable.sweep import Held, crowds
from core.timetable.timetable import Placed

Stretches = dict[CookId | None, tuple[int, int]]
"""From when to when a cook's work matters."""


def hands_clashes(book: Book, steps: AbstractSet[StepId], everything: bool) -> Iterator[Clash]:
    """Find what these steps lack in hands, and their cooks (all: every cook) doubled, away or too far off."""
    facts = book.facts
    working: Working = {}
    beside: list[Job] = []
    for job in jobs(book):
        if everything or not steps.isdisjoint(job.duty.steps):
            yield from _found(facts, job.duty, job.cook, (job.start, job.end), "")
            _note(facts, working, job.cook, (job.start, job.end), job.duty)
        else:
            beside.append(job)
    for step in book.loads.keys() & steps:
        for placed in book.loads[step]:
            yield from _lacking(book, placed, working)
    if not everything:
        _beside(book, steps, beside, working)
    for cook, held in working.items():
        yield from _at_once(facts, cook, held)
        yield from _away(facts, cook, held)
        yield from walk_clashes(facts, cook, held)


def _note(facts: Facts, working: Working, cook: CookId | None, when: tuple[int, int], duty: Duty) -> None:
    if cook is not None and cook in facts.plan.kitchen.cook:
        working.setdefault(cook, []).append(Held(*when, 1, duty))


def _beside(book: Book, steps: AbstractSet[StepId], others: list[Job], working: Working) -> None:
    """Add what else the cooks do during the stretch in which they work on these steps, and a walk before or after."""
    walk = book.facts.walk
    during: Stretches = {
        cook: (min(each.start for each in held) - walk, max(each.end for each in held) + walk)
        for cook, held in working.items()
    }
    stretch_of = during.get
    for step, loads in book.loads.items():
        if step in steps:
            continue
        for placed in loads:
            for hand in placed.hands:
                stretch = stretch_of(hand.cook)
                if stretch and hand.start < stretch[1] and hand.start + hand.minutes > stretch[0]:
                    _note_within(book, placed, during, working)
                    break
    for job in others:
        if _within(job.cook, job.start, job.end, during):
            _note(book.facts, working, job.cook, (job.start, job.end), job.duty)


def _note_within(book: Book, placed: Placed, during: Stretches, working: Working) -> None:
    place = place_of(book.facts, placed)
    for want, hand in answers(book, placed)[0]:
        if hand is not None and _within(hand.cook, hand.start, hand.start + hand.minutes, during):
            duty = Duty((placed.step,), placed.load, want.does, place=place)
            _note(book.facts, working, hand.cook, (hand.start, hand.start + hand.minutes), duty)


def _within(cook: CookId | None, start: int, end: int, during: Stretches) -> bool:
    stretch = during.get(cook)
    return stretch is not None and start < stretch[1] and end > stretch[0]


def _lacking(book: Book, placed: Placed, working: Working) -> Iterator[Clash]:
    """Judge that a load has the hands it asks for, and no others; note what its cooks do."""
    facts = book.facts
    asked, over = answers(book, placed)
    place = place_of(facts, placed)
    for want, hand in asked:
        duty = Duty((placed.step,), placed.load, want.does, place=place)
        when = (placed.start + want.start, placed.start + want.start + want.minutes)
        yield from _found(facts, duty, None if hand is None else hand.cook, when, want.skill)
        if hand is not None:
            _note(facts, working, hand.cook, (hand.start, hand.start + hand.minutes), duty)
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
        sentence = sentences.nobody(facts, duty_name(facts, duty), when)
    elif cook not in facts.plan.kitchen.cook:
        sentence = sentences.stranger(facts, duty_name(facts, duty), cook)
    elif skill and skill not in facts.plan.kitchen.cook[cook].skills:
        sentence = sentences.unskilled(facts, duty_name(facts, duty), cook, skill)
    else:
        return
    cooks = () if cook is None else (cook,)
    yield Clash(ClashKind.HANDS_SHORT, sentence, *when, duty.steps, cooks=cooks, by=1)


def _rank(duty: Duty) -> tuple[object, ...]:
    return duty.steps, duty.load, duty.does, duty.station or "", duty.vessel or ""


def _at_once(facts: Facts, cook: CookId, held: list[Held[Duty]]) -> Iterator[Clash]:
    """Judge that a cook does one thing at a time."""
    for crowd in crowds(held, 1, _rank):
        when = (crowd.start, crowd.end)
        sentence = sentences.two_at_once(facts, cook, when, [duty_name(facts, duty) for duty in crowd.what])
        steps = tuple(dict.fromkeys(step for duty in crowd.what for step in duty.steps))
        yield Clash(ClashKind.HANDS_SHORT, sentence, *when, steps, cooks=(cook,), by=crowd.amount - 1)


def _away(facts: Facts, cook: CookId, held: list[Held[Duty]]) -> Iterator[Clash]:
    """Judge that a cook is there for everything."""
    away = facts.absences(cook, min(each.start for each in held), max(each.end for each in held))
    for begin, until in away:
        for each in held:
            start, end = max(begin, each.start), min(until, each.end)
            if start < end:
                sentence = sentences.absent(facts, duty_name(facts, each.what), cook, (start, end))
                by = end - start
                yield Clash(
                    ClashKind.COOK_ABSENT, sentence, start, end, each.what.steps, cooks=(cook,), by=by
                )
