"""Vessels: a run holds its own from its first start to its last end; then they are washed before they are free."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import NamedTuple

from core.plan.ids import StepId, VesselId
from core.plan.runs import Run
from core.plan.step import Holding
from core.timetable import sentences_vessel as sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.sweep import Crowd, Held, crowds
from core.timetable.timetable import Washing


class Use(NamedTuple):
    """A run, the minute from which its vessels are empty, how they are washed (None: not at all), how many it has."""

    run: Run
    emptied: int
    washing: Washing | None
    many: int


def run_stretch(book: Book, run: Run) -> tuple[int, int] | None:
    """Return from when to when a run has its vessels in use; None while nothing of it is placed."""
    loads = [placed for step in run.steps for placed in book.loads.get(step, ())]
    if not loads:
        return None
    emptied = max(placed.end for placed in loads)
    for step in run.steps:
        keep = book.facts.need(step).keep
        if step in book.loads and keep is not None and keep.wait.how is Holding.VESSEL:
            emptied = max(emptied, book.facts.need(step).dish.course)
    return min(placed.start for placed in loads), emptied


def vessel_holds(book: Book, vessel: VesselId) -> list[Held[Use]]:
    """Return when each run of a vessel holds how many: in use, unwashed and being washed.

    What is never washed is held for as long as any vessel of the kind is in use: afterwards nobody asks.
    """
    uses: list[tuple[int, Use]] = []
    for run in book.facts.runs.get(vessel, ()):
        stretch = run_stretch(book, run)
        if stretch is not None:
            washed = book.washings.get((vessel, run.steps[0]))
            uses.append((stretch[0], Use(run, stretch[1], washed, run.count)))
    last = max((use.emptied for _start, use in uses), default=0)
    washing = book.facts.plan.kitchen.vessel[vessel].washing
    return [Held(start, _free(use, washing, last), use.many, use) for start, use in uses]


def _free(use: Use, washing: int, last: int) -> int:
    if washing == 0:
        return use.emptied
    return last if use.washing is None else max(use.emptied, use.washing.end)


def vessel_clashes(
    book: Book, vessels: Collection[VesselId], among: frozenset[StepId] | None = None
) -> Iterator[Clash]:
    """Find vessels of which more are in use or unwashed than there are; of clashes `among` steps all that hold one."""
    now = book.facts.now
    for vessel in book.facts.plan.kitchen.vessels:
        if vessel.id not in vessels:
            continue
        held = vessel_holds(book, vessel.id)
        if book.facts.has_day:
            held = [each._replace(start=max(each.start, now)) for each in _passed_on(held, vessel.count, now)]
        for crowd in crowds(held, vessel.count, _rank):
            if among is not None and all(among.isdisjoint(use.run.steps) for use in crowd.what):
                continue
            when, parties = (crowd.start, crowd.end), _parties(book, crowd)
            dirty = [use.emptied for use in crowd.what if _state(use, crowd.start) == _DIRTY]
            mend = (vessel.washing, min(dirty)) if dirty else None
            name = book.facts.words.vessel(vessel.id)
            sentence = sentences.vessel_short(book.facts, name, vessel.count, when, parties, mend)
            steps = tuple(dict.fromkeys(step for use in crowd.what for step in use.run.steps))
            by = crowd.amount - vessel.count
            yield Clash(ClashKind.VESSEL_SHORT, sentence, *when, steps, vessels=(vessel.id,), by=by)


def _passed_on(held: list[Held[Use]], count: int, now: int) -> list[Held[Use]]:
    """Return what may still hold vessels: of those emptied before now, the latest that there are vessels for."""
    kept = [each for each in held if each.what.emptied > now]
    room = count - sum(each.amount for each in kept if each.start < now)
    for each in sorted((each for each in held if each.what.emptied <= now), key=lambda each: -each.start):
        amount = min(each.amount, room)
        if amount > 0:
            room -= amount
            kept.append(each._replace(amount=amount, what=each.what._replace(many=amount)))
    return kept


def _rank(use: Use) -> tuple[StepId, ...]:
    return use.run.steps


_DIRTY, _WASHED = " (not washed)", " (being washed)"


def _state(use: Use, at: int) -> str:
    """Return what is to be said of a run's vessels beside whose they are."""
    if at < use.emptied:
        return ""
    return _DIRTY if use.washing is None or at < use.washing.start else _WASHED


def _parties(book: Book, crowd: Crowd[Use]) -> list[tuple[str, int]]:
    found = []
    for use in crowd.what:
        name = book.facts.words.step(_holder(book, use.run, crowd.start))
        found.append((name + _state(use, crowd.start), use.many))
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
