"""Labels for what is made ahead and waits in the cold: what, made when, for what and when, use by, allergens.

Use by: the plan's own limit, and in a fridge not after seven days with the day of making as the first (US FDA Food
Code 2022, 3-501.17, for ready-to-eat food at 5 °C or less; `date_marks`); whichever is sooner. Raw food has the plan's
limit only. That limit holds also where the plan lets the food go on in the minute in which it is done.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from core.measures.clock import offset_of
from core.plan import meaning
from core.plan.ids import StepId
from core.plan.kitchen import COLD, StationKind
from core.plan.menu import Link
from core.plan.plan import Plan
from core.plan.step import Holding, Use
from core.sheets.contents import allergens_in
from core.sheets.date_marks import DateMarks, InCold
from core.sheets.following import go_in_pairs, goes_on
from core.sheets.places import kinds_of, station_name
from core.sheets.step_words import done_as, way_done
from core.sheets.words import clock_at, day_name, plain, shortened
from core.timetable.timetable import Placed, Spot, Timetable

AHEAD = 120
"""Minutes in the cold from which on a box needs a label."""
SOURCE = (
    "Use by: the plan's own limit, in a fridge at 5 °C or less not after seven days with the day of making as the "
    "first (US FDA Food Code 2022, 3-501.17, for ready-to-eat food), whichever is sooner. Your own food code comes "
    "before it."
)
_COLD_WAITS = {Holding.FRIDGE: "fridge", Holding.FREEZER: "freezer"}


@dataclass(frozen=True, slots=True)
class Label:
    """A box: dish, what is in it, made, planned for, use by ("" where nothing limits it), kept how, raw, allergens."""

    code: str
    dish: str
    what: str
    made: str
    wanted: str
    use_by: str
    kept: str
    raw: bool
    allergens: tuple[str, ...]
    step: StepId
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class _Cold:
    """Food in the cold during [start, end): after which step it comes, before which it goes, how long it may, where.

    `load`: which of several loads that each go on by themselves; `way` in which the step is done.
    """

    start: int
    end: int
    before: StepId
    after: StepId | None
    how: str
    latest: int | None
    raw: bool
    where: tuple[str, ...] = ()
    load: int = 0
    way: int = 0


def labels(plan: Plan, timetable: Timetable) -> tuple[Label, ...]:
    """Return a label for each box of food that waits in the cold for two hours or longer, in order of making.

    Food of one step that waits for two others is in two boxes, and both are as old as it is.
    """
    colds = sorted(_colds(plan, timetable), key=lambda one: (one.start, one.end))
    chained: list[list[_Cold]] = []
    for each in colds:
        chain = next((one for one in chained if _goes_on(one[-1], each)), None)
        if chain is not None:
            chain.append(each)
            continue
        stem = next((one[:at] for one in chained for at in range(1, len(one)) if _goes_on(one[at - 1], each)), [])
        if not stem or each.end - each.start >= AHEAD:
            chained.append([*stem, each])
    marks = DateMarks(plan, timetable, [_by_day(plan, each) for each in colds])
    long = [chain for chain in chained if chain[-1].end - chain[0].start >= AHEAD]
    return tuple(_label(plan, timetable, chain, marks) for chain in sorted(long, key=lambda one: one[0].start))


def _by_day(plan: Plan, each: _Cold) -> InCold:
    days = plan.wall(each.start).date(), plan.wall(each.end).date()
    return InCold(days, each.before, each.after, each.how == "freezer", each.raw)


def _goes_on(before: _Cold, after: _Cold) -> bool:
    same = after.before in {before.before, before.after} and after.load == before.load
    return before.end == after.start and same and before.how == after.how


def _colds(plan: Plan, timetable: Timetable) -> Iterable[_Cold]:
    for placed in (each for each in timetable.placed if each.step in plan.steps):
        step, kinds = plan.steps[placed.step], kinds_of(plan, placed)
        onward = [
            (link, after)
            for link, after in goes_on(plan, timetable, placed)
            if not placed.load or go_in_pairs(timetable, link)  # else it joins the first load's food
        ]
        if kinds & COLD and (onward or not placed.load):
            how = "freezer" if kinds == {StationKind.FREEZER} else "fridge"
            raw, where = any(use.raw for use in step.uses), _places(plan, placed.spots)
            latest = _soonest(plan, placed, onward, how)
            yield _Cold(
                placed.start, placed.end, step.id, step.id, how, latest, raw, where, placed.load, placed.way
            )
        for link, after in onward:
            if link.wait.how in _COLD_WAITS and after.start > placed.end:
                latest = None if link.most is None else _done(plan, placed) + link.most
                how, raw = _COLD_WAITS[link.wait.how], _raw(link.wait.use)
                where = _waits_at(plan, timetable, step.id, link.after, placed.load)
                yield _Cold(
                    placed.end, after.start, step.id, link.after, how, latest, raw, where, placed.load, placed.way
                )
        if not placed.load:
            yield from _kept(plan, timetable, placed)


def _soonest(plan: Plan, placed: Placed, onward: list[tuple[Link, Placed]], how: str) -> int | None:
    """Return the plan's limit of what comes out of the cold and goes on at once: how long it could stay there."""
    waits = [(link.wait, link.most) for link, after in onward if after.start <= placed.end]
    keep, dish = meaning.keep_of(plan, plan.steps[placed.step]), plan.dish_of[placed.step]
    if keep is not None and dish.served and dish.course <= placed.end:
        waits.append((keep.wait, keep.most))
    limits = [most for wait, most in waits if most is not None and _COLD_WAITS.get(wait.how) == how]
    return _done(plan, placed) + min(limits) if limits else None


def _kept(plan: Plan, timetable: Timetable, placed: Placed) -> Iterable[_Cold]:
    keep, dish = meaning.keep_of(plan, plan.steps[placed.step]), plan.dish_of[placed.step]
    if keep is not None and keep.wait.how in _COLD_WAITS and dish.served and dish.course > placed.end:
        latest = None if keep.most is None else _done(plan, placed) + keep.most
        how, raw = _COLD_WAITS[keep.wait.how], _raw(keep.wait.use)
        where = _waits_at(plan, timetable, placed.step, None, 0)
        yield _Cold(placed.end, dish.course, placed.step, None, how, latest, raw, where, way=placed.way)


def _waits_at(plan: Plan, timetable: Timetable, before: StepId, after: StepId | None, load: int) -> tuple[str, ...]:
    stays = (each for each in timetable.stays if (each.before, each.after, each.load) == (before, after, load))
    return tuple(name for stay in stays for name in _places(plan, stay.spots))


def _places(plan: Plan, spots: Iterable[Spot]) -> tuple[str, ...]:
    """Return the cold places by name where there are several, else none: a kitchen's one fridge needs no name."""
    cold = [each for each in plan.kitchen.stations if each.kind in COLD]
    if len({each.kind for each in cold}) == len(cold):
        return ()
    here = {spot.station for spot in spots}
    return tuple(station_name(each) for each in cold if each.id in here)


def _done(plan: Plan, placed: Placed) -> int:
    """Return the minute from which the most wait counts: as early as the food may be done."""
    return placed.end - meaning.reserved(plan, placed.step, placed.way).early


def _raw(use: Use | None) -> bool:
    return use is not None and use.raw


def _label(plan: Plan, timetable: Timetable, chain: list[_Cold], marks: DateMarks) -> Label:
    first, last = chain[0], chain[-1]
    step, dish = plan.steps[first.before], plan.dish_of[first.before]
    follows = None if last.after is None or last.after == last.before else plan.steps[last.after]
    wanted = f"{stamp(plan, last.end)}"
    if follows is not None:
        other = plan.dish_of[follows.id]
        whose = "" if other.id == dish.id else f"{shortened(other.name, 40)}: "
        wanted += f", {whose}{shortened(done_as(follows, way_done(timetable, follows.id)), 40)}"
    elif last.after is None:
        wanted += ", to serve"
    contains, likely = allergens_in(plan, dish)
    return Label(
        shortened(dish.code, 8),
        plain(dish.name) or dish.id,
        shortened(done_as(step, first.way), 60),
        stamp(plan, first.start),
        wanted,
        _use_by(plan, chain, marks),
        ", then ".join(dict.fromkeys(name for each in chain for name in each.where)) or first.how,
        any(each.raw for each in chain),
        (*contains, *(f"likely {each}" for each in likely)),
        first.before,
        first.start,
        last.end,
    )


def _use_by(plan: Plan, chain: list[_Cold], marks: DateMarks) -> str:
    limits = [each.latest for each in chain[-1:] if each.latest is not None]
    if chain[0].how == "fridge" and not any(each.raw for each in chain):
        last = marks.last_day(plan.wall(chain[0].start).date(), chain[0].before)
        next_day = datetime.combine(last + timedelta(days=1), datetime.min.time())
        limits.append(offset_of(plan.plating, next_day) - 1)
    return stamp(plan, min(limits)) if limits else ""


def stamp(plan: Plan, at: int) -> str:
    """Return a day and a clock time as they stand on a label: "Fri 25 Sep, 16:18"."""
    weekday, number, month = day_name(plan.wall(at)).split(" ")
    return f"{weekday[:3]} {number} {month[:3]}, {clock_at(plan, at)}"
