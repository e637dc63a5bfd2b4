"""What is on the timetable: every load once, in one way that is open, with its true length, where it was pinned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from core.plan.decisions import Pin
from core.plan.ids import StepId
from core.plan.meaning import ways_open
from core.timetable import sentences
from core.timetable.book import Book, Oddity
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes_length import length_clashes
from core.timetable.naming import load
from core.timetable.timetable import Placed


def placed_clashes(book: Book, steps: Iterable[StepId]) -> Iterator[Clash]:
    """Find what is missing, unknown, doubled, of wrong length or moved from its pin, for these steps."""
    wanted = dict.fromkeys(steps)
    yield from _odd(book, wanted)
    for step in wanted:
        if step in book.facts.plan.steps:
            yield from _missing(book, step)
            for placed in book.loads.get(step, ()):
                yield from _way(book, placed)
                yield from length_clashes(book, placed)
                pin = book.facts.plan.pins.get(placed.key)
                if pin is not None and placed.key not in book.facts.known:
                    yield from _pinned(book, placed, pin)


def _odd(book: Book, steps: dict[StepId, None]) -> Iterator[Clash]:
    for placed, oddity in book.odd:
        if placed.step not in steps:
            continue
        if oddity is Oddity.NOT_IN_MENU:
            sentence = sentences.not_in_menu(book.facts, placed.step)
        elif oddity is Oddity.NO_SUCH_LOAD:
            loads = book.facts.need(placed.step).loads
            sentence = sentences.no_such_load(book.facts, placed.step, placed.load, loads)
        elif oddity is Oddity.TWICE:
            sentence = sentences.twice(book.facts, placed.step, placed.load)
        elif oddity is Oddity.DROPPED:
            sentence = sentences.dropped(book.facts, placed.step, placed.load)
        else:
            sentence = sentences.far_off(book.facts, placed.step, placed.load)
        start, end = sorted((placed.start, placed.end))
        yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, (placed.step,))


def _missing(book: Book, step: StepId) -> Iterator[Clash]:
    need, dropped = book.facts.need(step), book.facts.dropped
    away = [placed for placed, oddity in book.odd if oddity is Oddity.FAR_OFF and placed.step == step]
    there = {placed.load for placed in [*book.loads.get(step, ()), *away]}
    wanted = need.loads
    if dropped:
        wanted -= sum(key[0] == step and 0 <= key[1] < need.loads for key in dropped)
    if len(there) < wanted:
        missing = wanted - len(there)
        sentence = sentences.missing(book.facts, step, missing, wanted)
        at = need.dish.course
        yield Clash(ClashKind.MISSING, sentence, at, at, (step,), by=missing)


def _way(book: Book, placed: Placed) -> Iterator[Clash]:
    """Judge that a load is done in a way that the plan leaves open, the same for all loads of its step."""
    facts, step = book.facts, book.facts.plan.steps[placed.step]
    if placed.way == 0 and not step.alternatives:
        return
    first = book.loads[placed.step][0]
    name, ways_there = load(facts, placed.step, placed.load), ways_open(facts.plan, step)
    if not 0 <= placed.way <= len(step.alternatives):
        sentence = sentences.no_such_way(facts, name, step.id, placed.way)
    elif placed.way not in ways_there and placed.key not in facts.known:
        sentence = sentences.not_chosen(facts, name, step.id, (placed.way, ways_there[0]))
    elif placed.way != first.way and 0 <= first.way <= len(step.alternatives):
        sentence = sentences.other_way(facts, name, step.id, (placed.way, first.way))
    else:
        return
    start, end = sorted((placed.start, placed.end))
    yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, (step.id,))


def _pinned(book: Book, placed: Placed, pin: Pin) -> Iterator[Clash]:
    facts, steps = book.facts, (placed.step,)
    name = load(facts, placed.step, placed.load)  # pins are few
    start, end = sorted((placed.start, placed.end))
    if pin.start is not None and facts.now <= pin.start != placed.start:  # one before now is void
        sentence = sentences.pinned_start(facts, name, placed.start, pin.start)
        first, last = sorted((placed.start, pin.start))
        yield Clash(ClashKind.PIN_MOVED, sentence, first, last, steps, by=last - first)
    if pin.station is not None and all(spot.station != pin.station for spot in placed.spots):
        sentence = sentences.pinned_station(facts, name, pin.station)
        yield Clash(ClashKind.PIN_MOVED, sentence, start, end, steps, (pin.station,))
    if pin.cook is not None and any(hand.cook != pin.cook for hand in placed.hands):
        sentence = sentences.pinned_cook(facts, name, pin.cook)
        yield Clash(ClashKind.PIN_MOVED, sentence, start, end, steps, cooks=(pin.cook,))
