"""Washing up: each washing is of a run's vessels, once, after they are empty, for as long as it takes.

Who washes is judged with the hands. A washing that nobody needed is work for a cook and no clash.
"""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from core.plan.ids import StepId, VesselId
from core.plan.kitchen import Vessel
from core.plan.runs import Run
from core.timetable import sentences_vessel as sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes_vessel import run_stretch
from core.timetable.facts import FAR
from core.timetable.timetable import Washing


def washing_clashes(book: Book, steps: AbstractSet[StepId], everything: bool) -> Iterator[Clash]:
    """Find washings of nothing, second ones, and those at the wrong time, after these steps."""
    counted: set[tuple[VesselId, StepId]] = set()
    for washing in book.timetable.washings:
        run = book.facts.run_of.get((washing.vessel, washing.after))
        involved = (washing.after,) if run is None else run.steps
        if not everything and steps.isdisjoint(involved):
            continue
        key = (washing.vessel, washing.after)
        counts = book.washings.get(key) == washing and key not in counted
        if counts:
            counted.add(key)
        if max(washing.start, washing.end) <= book.facts.now:
            continue
        if run is None or not counts:
            yield _useless(book, washing, involved, run is not None)
        else:
            yield from _timed(book, washing, run)


def _useless(book: Book, washing: Washing, steps: tuple[StepId, ...], known: bool) -> Clash:
    """Say that a washing belongs to no run, is years away or a second one."""
    start, end = sorted((washing.start, washing.end))
    far = max(abs(washing.start), abs(washing.end)) > FAR
    why = "of no run" if not known else "far off" if far else "again"
    sentence = sentences.useless_washing(book.facts, washing, why)
    return Clash(ClashKind.WRONG_PLACE, sentence, start, end, steps, vessels=(washing.vessel,))


def _timed(book: Book, washing: Washing, run: Run) -> Iterator[Clash]:
    """Judge that a washing begins when the vessels are empty and takes its minutes."""
    facts, vessels = book.facts, (washing.vessel,)
    vessel: Vessel = facts.plan.kitchen.vessel[washing.vessel]
    stretch = run_stretch(book, run)
    if stretch is None:
        sentence = sentences.useless_washing(facts, washing, "unused")
        start, end = sorted((washing.start, washing.end))
        yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, run.steps, vessels=vessels)
        return
    emptied = stretch[1]
    if washing.start < emptied:
        sentence = sentences.washed_too_soon(facts, washing, emptied)
        by = emptied - washing.start
        yield Clash(
            ClashKind.OUT_OF_ORDER, sentence, washing.start, emptied, run.steps, vessels=vessels, by=by
        )
    if washing.minutes != vessel.washing:
        sentence = sentences.washing_length(facts, washing, vessel.washing)
        start, end = sorted((washing.end, washing.start + vessel.washing))
        yield Clash(ClashKind.LENGTH, sentence, start, end, run.steps, vessels=vessels, by=end - start)
