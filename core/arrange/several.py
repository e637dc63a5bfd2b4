"""Two or three truly different good plans, each by weights of its own, with what each reached side by side."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from threading import Event

from core.arrange.arranging import arrange
from core.arrange.effort import Effort
from core.arrange.outcome import Fit, WishKind
from core.arrange.quality import Quality, reached_of
from core.arrange.quality_again import again, weighed
from core.arrange.quality_measure import measure
from core.arrange.watch import Watch
from core.plan.decisions import Wishes
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

FAR = 20
"""Minutes by which a load begins at another time, so that the cook would notice."""
MUCH = 0.15
"""Share of the loads of which so many elsewhere make another plan."""
CLEARLY = {WishKind.FRESH: 20, WishKind.CALM: 8, WishKind.OVEN: 1, WishKind.SLEEP: 20, WishKind.KEEP: 60}
"""How much less of each (core.arrange.quality_parts.reached) a cook would call clearly better; by judgement."""
MOST = 3
"""Plans to choose among."""

_FAVOURS = (WishKind.FRESH, WishKind.CALM, WishKind.SLEEP)
_FAVOURED, _ELSE = 10, 2  # weights of the favoured wish and, at most, of the others
_FOR_FIRST = 0.4  # of the work, to find a good plan by the cook's own weights


@dataclass(frozen=True, slots=True)
class Several:
    """One of the plans to choose among: what it favours (None: as the cook weighed it), by which weights, how good.

    `clearly`: the wishes of which it reaches clearly more than each other plan offered.
    """

    favours: WishKind | None
    wishes: Wishes
    timetable: Timetable
    quality: Quality
    clearly: tuple[WishKind, ...] = ()


Hear = Callable[[tuple[Several, ...]], None]


def several(
    plan: Plan,
    effort: Effort | None = None,
    *,
    seen: Timetable | None = None,
    better: Hear | None = None,
    stop: Event | None = None,
) -> tuple[Several, ...]:
    """Return up to three clash-free timetables that differ truly and of which none beats another in everything.

    () where the plan cannot be met, or nothing was found. Only one where all that was found is much the same.
    `better` hears what there is to choose among each time that changes. Pure and blocking, any thread.
    """
    effort, stop = effort or Effort(), stop or Event()
    first = arrange(plan, replace(effort, work=effort.work * _FOR_FIRST), seen=seen, stop=stop)
    if first.fit is not Fit.MEETS:
        return ()
    found = [_one(plan, None, plan.decisions.wishes, first.timetable, seen)]
    offered = chosen(found)
    if better is not None:
        better(offered)
    left = effort.work * (1 - _FOR_FIRST)
    for number, favour in enumerate(_FAVOURS):
        if stop.is_set():
            break
        if not _amounts(found[0])[favour]:
            continue  # nothing can be had more of
        watch = Watch(replace(effort, work=left / (len(_FAVOURS) - number)), stop)
        wishes = favouring(plan.decisions.wishes, favour)
        start = _best_start(plan, wishes, found, seen)
        timetable = again(_weighing(plan, wishes), start, watch, seen=seen)
        left -= watch.work
        found.append(_one(plan, favour, wishes, timetable, seen))
        now = chosen(found)
        if better is not None and [each.timetable for each in now] != [each.timetable for each in offered]:
            better(now)
        offered = now
    return offered


def favouring(wishes: Wishes, favour: WishKind) -> Wishes:
    """Return weights by which one wish comes before the others, which keep a little of theirs."""
    some = (WishKind.FRESH, WishKind.CALM, WishKind.OVEN, WishKind.SLEEP)
    weights = {wish.value: min(getattr(wishes, wish.value), _ELSE) for wish in some}
    return replace(wishes, **{**weights, favour.value: _FAVOURED})


def chosen(found: list[Several]) -> tuple[Several, ...]:
    """Return which to offer: those that favour a wish first, no one beaten by another, no two much the same.

    What favours a wish must reach less of it than the plan by the cook's own weights (the first found).
    """
    own = _amounts(found[0])
    order = [each for each in found[1:] if each.favours is None or _amounts(each)[each.favours] < own[each.favours]]
    order.append(found[0])
    best = [each for each in order if not any(dominates(other, each) for other in order if other is not each)]
    kept: list[Several] = []
    for each in best:
        if len(kept) < MOST and all(differ(each, other) for other in kept):
            kept.append(each)
    return tuple(replace(each, clearly=_clearly(each, [o for o in kept if o is not each])) for each in kept)


def dominates(one: Several, other: Several) -> bool:
    """Tell whether a plan is no worse than another in any wish and better in some, in the cook's units."""
    mine, theirs = _amounts(one), _amounts(other)
    return all(mine[wish] <= theirs[wish] for wish in mine) and mine != theirs


def differ(one: Several, other: Several) -> bool:
    """Tell whether two plans truly differ: much of the work lies elsewhere, or some wish is clearly better met.

    Two that reach the same of every wish do not differ in anything a cook would choose by.
    """
    mine, theirs = _amounts(one), _amounts(other)
    if mine == theirs:
        return False
    apart = share_moved(one.timetable, other.timetable) >= MUCH
    return apart or any(abs(mine[wish] - theirs[wish]) >= CLEARLY[wish] for wish in mine)


def share_moved(one: Timetable, other: Timetable) -> float:
    """Return the share of loads that begin more than FAR minutes apart in two timetables; of one only: moved."""
    keys = {*one.at, *other.at}
    if not keys:
        return 0.0
    both = [key for key in keys if key in one.at and key in other.at]
    near = sum(abs(one.at[key].start - other.at[key].start) <= FAR for key in both)
    return 1 - near / len(keys)


def _clearly(each: Several, others: list[Several]) -> tuple[WishKind, ...]:
    mine = _amounts(each)
    return tuple(
        wish
        for wish in mine
        if others and all(_amounts(other)[wish] - mine[wish] >= CLEARLY[wish] for other in others)
    )


def _amounts(each: Several) -> dict[WishKind, int]:
    return {wish.wish: wish.reached for wish in each.quality.wishes}


def _one(
    plan: Plan, favours: WishKind | None, wishes: Wishes, timetable: Timetable, seen: Timetable | None
) -> Several:
    return Several(favours, wishes, timetable, reached_of(plan, timetable, seen))


def _weighing(plan: Plan, wishes: Wishes) -> Plan:
    return replace(plan, decisions=replace(plan.decisions, wishes=wishes))


def _best_start(plan: Plan, wishes: Wishes, found: list[Several], seen: Timetable | None) -> Timetable:
    """Return the timetable found so far that is best by some weights."""
    other = _weighing(plan, wishes)
    return min((each.timetable for each in found), key=lambda each: weighed(other, measure(other, each, seen)))
