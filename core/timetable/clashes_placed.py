"""What is on the timetable: every load once, with its true length, where it was pinned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from core.plan.decisions import Pin
from core.plan.ids import StepId
from core.timetable import sentences
from core.timetable.book import Book, Oddity
from core.timetable.clash import Clash, ClashKind
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
                yield from _length(book, placed)
                pin = book.facts.plan.pins.get(placed.key)
                if pin is not None:
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
        else:
            sentence = sentences.far_off(book.facts, placed.step, placed.load)
        start, end = sorted((placed.start, placed.end))
        yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, (placed.step,))


def _missing(book: Book, step: StepId) -> Iterator[Clash]:
    need = book.facts.need(step)
    away = [placed for placed, oddity in book.odd if oddity is Oddity.FAR_OFF and placed.step == step]
    there = len({placed.load for placed in [*book.loads.get(step, ()), *away]})
    if there < need.loads:
        sentence = sentences.missing(book.facts, step, need.loads - there, need.loads)
        at = need.dish.course
        yield Clash(ClashKind.MISSING, sentence, at, at, (step,), by=need.loads - there)


def _length(book: Book, placed: Placed) -> Iterator[Clash]:
    true = book.length(placed)
    if placed.length != true:
        name = load(book.facts, placed.step, placed.load)
        setting = placed.setting if true != book.facts.need(placed.step).length else None
        sentence = sentences.wrong_length(name, placed.length, true, setting)
        start, end = sorted((placed.end, placed.start + true))
        yield Clash(ClashKind.LENGTH, sentence, start, end, (placed.step,), by=end - start)


def _pinned(book: Book, placed: Placed, pin: Pin) -> Iterator[Clash]:
    facts, steps = book.facts, (placed.step,)
    name = load(facts, placed.step, placed.load)  # pins are few
    start, end = sorted((placed.start, placed.end))
    if pin.start is not None and pin.start != placed.start:
        sentence = sentences.pinned_start(facts, name, placed.start, pin.start)
        first, last = sorted((placed.start, pin.start))
        yield Clash(ClashKind.PIN_MOVED, sentence, first, last, steps, by=last - first)
    if pin.station is not None and all(spot.station != pin.station for spot in placed.spots):
        sentence = sentences.pinned_station(facts, name, pin.station)
        yield Clash(ClashKind.PIN_MOVED, sentence, start, end, steps, (pin.station,))
    if pin.cook is not None and any(hand.cook != pin.cook for hand in placed.hands):
        sentence = sentences.pinned_cook(facts, name, pin.cook)
        yield Clash(ClashKind.PIN_MOVED, sentence, start, end, steps, cooks=(pin.cook,))
