"""What becomes of a load when it ends: what follows, where the food waits, until when, how long it can."""

from __future__ import annotations

from collections.abc import Iterator

from core.plan import meaning
from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.sheets.places import kinds_of, place_of_stay, waits_at
from core.sheets.step_words import done_as
from core.sheets.words import shortened, when
from core.timetable.timetable import Placed, Stay, Timetable

_BRIEF = 50
_STANDING = frozenset({StationKind.ROOM})


def goes_on(plan: Plan, timetable: Timetable, placed: Placed) -> list[tuple[Link, Placed]]:
    """Return the loads that a load's food goes on to, each with its link, the soonest first."""
    found = []
    for link in plan.links_from[placed.step]:
        loads = timetable.loads_of.get(link.after, ())
        if link.kind is LinkKind.END_TO_START and loads:
            paired = go_in_pairs(timetable, link) and placed.load < len(loads)
            found.append((link, loads[placed.load] if paired else loads[0]))
    return sorted(found, key=lambda each: each[1].start)


def at_once(plan: Plan, timetable: Timetable, placed: Placed) -> list[Placed]:
    """Return the loads that a load's food goes on to in the minute in which it ends."""
    return [after for _link, after in goes_on(plan, timetable, placed) if after.start == placed.end]


def stays_there(plan: Plan, timetable: Timetable, placed: Placed) -> bool:
    """Return whether the food goes on at once at the station where it stands."""
    return any(_same_place(plan, placed, after) for after in at_once(plan, timetable, placed))


def waits_there(plan: Plan, timetable: Timetable, placed: Placed) -> bool:
    """Return whether the food waits, when its time is over, at the station where it stands."""
    if kinds_of(plan, placed) <= _STANDING:
        return False
    here = {spot.station for spot in placed.spots}
    return any(
        {spot.station for spot in stay.spots} == here
        for stay in timetable.stays
        if stay.before == placed.step
        and stay.start <= placed.end < stay.end
        and stay.load in (placed.load, 0)
    )


def came_with(plan: Plan, timetable: Timetable, placed: Placed) -> list[Placed]:
    """Return the loads that end in the minute in which this one begins, and whose food it goes on with."""
    return [
        before
        for link in plan.links_to[placed.step]
        if link.kind is LinkKind.END_TO_START
        for before in timetable.loads_of.get(link.before, ())
        if before.end == placed.start
    ]


def stood_there(plan: Plan, timetable: Timetable, placed: Placed) -> bool:
    """Return whether the food has been standing at this load's station until the minute it begins."""
    return any(_same_place(plan, before, placed) for before in came_with(plan, timetable, placed))


def waits(plan: Plan, timetable: Timetable, placed: Placed) -> tuple[str, ...]:
    """Return what a load's food does until it is used: "waits on the counter until 18:47, can wait to 19:05"."""
    return tuple(dict.fromkeys(_waits(plan, timetable, placed)))


def taken_from(plan: Plan, timetable: Timetable, placed: Placed) -> str:
    """Return the places from which a load's food is taken when it begins; "" where none is scarce."""
    places = [
        place_of_stay(plan, stay)
        for stay in timetable.stays
        if stay.after == placed.step
        and stay.start < placed.start <= stay.end
        and _for_load(timetable, stay, placed)
    ]
    return " + ".join(dict.fromkeys(place for place in places if place))


def _waits(plan: Plan, timetable: Timetable, placed: Placed) -> Iterator[str]:
    onward = goes_on(plan, timetable, placed)
    several = sum(after.start > placed.end for _link, after in onward) > 1
    for link, after in onward:
        paired = go_in_pairs(timetable, link)
        if after.start <= placed.end or not (paired or placed.load == 0):
            continue
        stay = _stay(timetable, placed.step, link.after, placed.load if paired else 0)
        latest = None
        if link.most is not None and (paired or len(timetable.loads_of[link.after]) == 1):
            latest = _counted_from(plan, timetable, placed, paired=paired) + link.most
        text = f"waits {waits_at(plan, link.wait, stay)} until {when(plan, after.start, placed.end)}"
        text += _can_wait(plan, latest, after.start, placed.end)
        if several:
            text += f", for: {shortened(done_as(plan.steps[link.after], after.way), _BRIEF)}"
        yield text
    yield from _kept(plan, timetable, placed)


def _kept(plan: Plan, timetable: Timetable, placed: Placed) -> Iterator[str]:
    """Tell how a finished dish is kept until it is served."""
    keep = meaning.keep_of(plan, plan.steps[placed.step])
    dish = plan.dish_of[placed.step]
    if keep is None or not dish.served or dish.course <= placed.end or placed.load > 0:
        return
    latest = None
    if keep.most is not None:
        latest = _counted_from(plan, timetable, placed, paired=False) + keep.most
    place = waits_at(plan, keep.wait, _stay(timetable, placed.step, None, 0))
    text = f"waits {place} until served {when(plan, dish.course, placed.end)}"
    yield text + _can_wait(plan, latest, dish.course, placed.end)


def _can_wait(plan: Plan, latest: int | None, until: int, now: int) -> str:
    if latest is None:
        return ""
    return f", can wait to {when(plan, latest, now)}" if latest > until else ", no longer"


def _counted_from(plan: Plan, timetable: Timetable, placed: Placed, *, paired: bool) -> int:
    """Return the minute from which the most wait counts: the end of the first load, as early as it may be done."""
    first = placed if paired else timetable.loads_of[placed.step][0]
    return first.end - meaning.reserved(plan, placed.step, first.way).early


def go_in_pairs(timetable: Timetable, link: Link) -> bool:
    """Return whether each load of the step before goes on to the load of its number, not all of them together."""
    before, after = timetable.loads_of.get(link.before, ()), timetable.loads_of.get(link.after, ())
    return len(before) == len(after) > 1


def _for_load(timetable: Timetable, stay: Stay, placed: Placed) -> bool:
    before, after = timetable.loads_of.get(stay.before, ()), timetable.loads_of.get(placed.step, ())
    return stay.load == placed.load if len(before) == len(after) > 1 else True


def _stay(timetable: Timetable, before: StepId, after: StepId | None, load: int) -> Stay | None:
    return next(
        (each for each in timetable.stays if (each.before, each.after, each.load) == (before, after, load)),
        None,
    )


def _same_place(plan: Plan, one: Placed, other: Placed) -> bool:
    if kinds_of(plan, one) <= _STANDING or kinds_of(plan, other) <= _STANDING:
        return False
    return {spot.station for spot in one.spots} == {spot.station for spot in other.spots}
