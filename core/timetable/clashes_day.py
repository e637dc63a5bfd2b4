"""The day: what has happened stands as a fact, and nothing else begins before now."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from core.plan.day import Fact, State
from core.plan.ids import StationId, StepId, VesselId
from core.timetable import sentences_day as sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.fires import lights, served_by
from core.timetable.lengths import length_of
from core.timetable.naming import load
from core.timetable.timetable import Placed


def day_clashes(book: Book, steps: AbstractSet[StepId], everything: bool) -> Iterator[Clash]:
    """Find facts that the timetable does not keep to, and what begins before now without being one."""
    facts = book.facts
    for step in book.loads.keys() & steps:
        for placed in book.loads[step]:
            fact = facts.known.get(placed.key)
            if fact is not None:
                yield from _as_it_was(book, placed, fact)
            elif placed.start < facts.now:
                name = load(facts, step, placed.load)
                sentence = sentences.not_begun(facts, name, placed.start)
                yield _before_now(facts.now, placed.start, sentence, (step,))
    for heating in book.heatings:
        known = (heating.station, heating.start) in facts.lit
        if heating.start < facts.now < heating.end and not known:
            served = served_by(book, heating)
            if everything or not steps.isdisjoint(served):
                fire = lights(facts.plan.kitchen.station[heating.station], heating)
                sentence = sentences.not_heating(facts, heating.station, heating.start, fire)
                yield _before_now(facts.now, heating.start, sentence, served, stations=(heating.station,))
    for washing in book.washings.values():
        run = facts.run_of[washing.vessel, washing.after]
        known = (washing.vessel, washing.after, washing.start) in facts.washed
        late = washing.start < facts.now < washing.end and not known
        if late and (everything or not steps.isdisjoint(run.steps)):
            sentence = sentences.not_washing(facts, washing.vessel, washing.start)
            yield _before_now(facts.now, washing.start, sentence, run.steps, vessels=(washing.vessel,))


def _as_it_was(book: Book, placed: Placed, fact: Fact) -> Iterator[Clash]:
    """Judge that a load that has begun starts and ends as it did or will."""
    facts, end = book.facts, _true_end(book, placed, fact)
    starts_right, ends_right = placed.start == fact.start, end is None or placed.end == end
    if starts_right and ends_right:
        return
    name = load(facts, placed.step, placed.load)
    if not starts_right:
        sentence, given, true = (
            sentences.began(facts, name, placed.start, fact.start),
            placed.start,
            fact.start,
        )
    else:
        true = placed.end if end is None else end
        given, sentence = placed.end, sentences.ended(facts, name, placed.end, true, fact.state is State.DONE)
    start, until = sorted((given, true))
    yield Clash(ClashKind.NOT_AS_IT_WAS, sentence, start, until, (placed.step,), by=until - start)


def _true_end(book: Book, placed: Placed, fact: Fact) -> int | None:
    """Return when a load that has begun ended or is to end; None where that is not known."""
    if fact.state is State.DONE:
        return fact.end
    if fact.end is not None:
        return max(book.facts.now, fact.end)
    return max(book.facts.now, fact.start + length_of(book, placed).minutes)


def _before_now(
    now: int,
    start: int,
    sentence: str,
    steps: tuple[StepId, ...],
    stations: tuple[StationId, ...] = (),
    vessels: tuple[VesselId, ...] = (),
) -> Clash:
    return Clash(ClashKind.BEFORE_NOW, sentence, start, now, steps, stations, vessels, by=now - start)
