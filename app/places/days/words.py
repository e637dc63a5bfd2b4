"""What is said of moves and of kept days that no longer fit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from PySide6.QtCore import QCoreApplication, QDate, QLocale

from app.look.words import clock_text, day_text
from app.places.clash_list import clashes_words
from app.places.gist import Gist
from app.timeline.moves import Move
from core.desk import Fits
from core.measures.minutes import show_minutes
from core.plan.edits.said import Said
from core.plan.ids import CookId, StationId, StepId
from core.plan.plan import Plan

_MOST_NAMED = 3
_WEEK = 7


def move_words(plan: Plan, move: Move) -> tuple[str, ...]:
    """Return lines: a step's name; from when to when it moved, by how much; to which other place or cook."""
    places = ", ".join(_places(plan, move))
    return (_name(plan, move), ", ".join(_times(plan, move)), *([places] if places else []))


def moves_words(moves: Sequence[Move]) -> str:
    """Return how many steps moved, and the most of it, on one short line."""
    if not moves:
        return _tr("Nothing moves.")
    count = len({move.key[0] for move in moves})
    most = max((abs(move.minutes) for move in moves), default=0)
    steps = _tr("1 step moves") if count == 1 else _tr("{count} steps move").format(count=count)
    return _tr("{steps}, at most {most}").format(steps=steps, most=show_minutes(most)) if most else steps


def fit_words(plan: Plan, name: str, fits: Fits) -> Gist:
    """Return that a kept day no longer fits, and line by line what of it does not."""
    said = []
    if fits.gone:
        said.append(_tr("No longer in the plan: {steps}.").format(steps=_steps(None, fits.gone)))
    if fits.new:
        said.append(_tr("New since, and without a place: {steps}.").format(steps=_steps(plan, fits.new)))
    if fits.clashes:
        first, many = fits.clashes[0].sentence, len(fits.clashes) > 1
        counted = _tr("{clashes}, first: {first}").format(clashes=clashes_words(len(fits.clashes)), first=first)
        said.append(counted if many else first)
    since = _tr("The plan has changed since “{name}” was kept; it no longer fits as it was.")
    anyhow = _tr("“{name}” does not all meet.")
    return Gist((anyhow if fits.same_plan else since).format(name=name), tuple(said))


def _times(plan: Plan, move: Move) -> list[str]:
    before, after = move.before, move.after
    if before is None or after is None:
        placed = after or before
        assert placed is not None
        new = _tr("new, at {clock}") if before is None else _tr("gone, was at {clock}")
        return [new.format(clock=_clock(plan, placed.start))]
    said = []
    if move.minutes:
        by = show_minutes(abs(move.minutes))
        turn = _tr("{by} later") if move.minutes > 0 else _tr("{by} earlier")
        clocks = _clock(plan, before.start), _clock(plan, after.start, before.start)
        said += [_tr("{one} to {other}").format(one=clocks[0], other=clocks[1]), turn.format(by=by)]
    else:
        said.append(_clock(plan, after.start))
    if move.length:
        by = show_minutes(abs(move.length))
        said.append((_tr("{by} longer") if move.length > 0 else _tr("{by} shorter")).format(by=by))
    return said


def _places(plan: Plan, move: Move) -> list[str]:
    said = []
    if move.station is not None:
        said.append(_from_to(_station(plan, each) for each in move.station))
    if move.cooks is not None:
        said.append(_from_to(_cooks(plan, each) for each in move.cooks))
    return said


def _from_to(names: Iterable[str]) -> str:
    one, other = names
    return _tr("from {one} to {other}").format(one=one, other=other)


def _name(plan: Plan, move: Move) -> str:
    step, load = move.key
    name = _steps(plan, (step,))
    return name if not load else _tr("{name}, load {number}").format(name=name, number=load + 1)


def _steps(plan: Plan | None, steps: Sequence[StepId]) -> str:
    """Return steps by name; those that the plan has no longer by what their ids say."""
    known, unknown = None if plan is None else Said(plan), Said()
    named = [
        (known if known is not None and plan is not None and step in plan.steps else unknown).step(step)
        for step in steps[:_MOST_NAMED]
    ]
    more = len(steps) - len(named)
    if more:
        named.append(_tr("and {count} more").format(count=more))
    return "; ".join(named)


def _clock(plan: Plan, offset: int, beside: int = 0) -> str:
    """Return a time of day, with its weekday where that is not the one of `beside` (plating where nothing is said).

    A week off and more it is the date.
    """
    at, other = plan.wall(offset), plan.wall(beside)
    days = abs((at.date() - other.date()).days)
    if days == 0:
        return clock_text(at)
    weekday = QLocale().toString(QDate(at.year, at.month, at.day), "ddd")
    return f"{weekday if days < _WEEK else day_text(at)} {clock_text(at)}"


def _station(plan: Plan, station: StationId | None) -> str:
    found = None if station is None else plan.kitchen.station.get(station)
    return _tr("Worktop") if station is None else found.name if found is not None else str(station)


def _cooks(plan: Plan, cooks: Sequence[CookId]) -> str:
    named = [found.name for each in cooks if (found := plan.kitchen.cook.get(each)) is not None]
    return " + ".join(named) if named else _tr("nobody")


def _tr(text: str) -> str:
    return QCoreApplication.translate("days", text)
