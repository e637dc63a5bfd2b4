"""Vessels: a run holds its own from its first start to its last end, then it is washed."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import NamedTuple

from core.plan.ids import StepId, VesselId
from core.plan.runs import Run
from core.plan.step import Holding
from core.timetable import sentences_places as sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.sweep import Crowd, Held, crowds


class Use(NamedTuple):
    """A run and the minute from which its vessel is only being washed."""

    run: Run
    emptied: int


def vessel_holds(book: Book, vessel: VesselId) -> list[Held[Use]]:
    """Return when each run of a vessel holds how many, washing included."""
    found = []
    washing = book.facts.plan.kitchen.vessel[vessel].washing
    for run in book.facts.runs.get(vessel, ()):
        loads = [placed for step in run.steps for placed in book.loads.get(step, ())]
        if loads:
            emptied = max(placed.end for placed in loads)
            for step in run.steps:
                keep = book.facts.need(step).keep
                if step in book.loads and keep is not None and keep.wait.how is Holding.VESSEL:
                    emptied = max(emptied, book.facts.need(step).dish.course)
            start = min(placed.start for placed in loads)
            found.append(Held(start, emptied + washing, run.count, Use(run, emptied)))
    return found


def vessel_clashes(book: Book, vessels: Collection[VesselId]) -> Iterator[Clash]:
    """Find vessels of which more are in use or being washed than there are."""
    for vessel in book.facts.plan.kitchen.vessels:
        if vessel.id in vessels:
            for crowd in crowds(vessel_holds(book, vessel.id), vessel.count, _rank):
                when, parties = (crowd.start, crowd.end), _parties(book, crowd)
                name = book.facts.words.vessel(vessel.id)
                sentence = sentences.vessel_short(book.facts, name, vessel.count, when, parties)
                steps = tuple(dict.fromkeys(step for use in crowd.what for step in use.run.steps))
                by = crowd.amount - vessel.count
                yield Clash(ClashKind.VESSEL_SHORT, sentence, *when, steps, vessels=(vessel.id,), by=by)


def _rank(use: Use) -> tuple[StepId, ...]:
    return use.run.steps


def _parties(book: Book, crowd: Crowd[Use]) -> list[tuple[str, int]]:
    found = []
    for use in crowd.what:
        washed = " (being washed)" if use.emptied <= crowd.start else ""
        name = book.facts.words.step(_holder(book, use.run, crowd.start))
        found.append((name + washed, use.run.count))
    return found


def _holder(book: Book, run: Run, at: int) -> StepId:
    """Return the step of a run that was the last to begin by a minute."""
    begun = [
        (placed.start, -number, step)
        for number, step in enumerate(run.steps)
        for placed in book.loads.get(step, ())
        if placed.start <= at
    ]
    return max(begun)[2]
