"""How good a timetable is, in the cook's words: what was reached, what none can beat, what better would cost."""

from __future__ import annotations

from dataclasses import dataclass, replace
from threading import Event

from core.arrange.bounds import Bound, bounds
from core.arrange.effort import Effort
from core.arrange.goals_meaning import PRICES
from core.arrange.outcome import WishKind
from core.arrange.quality_again import again
from core.arrange.quality_measure import measure
from core.arrange.quality_parts import Part, PartKind, parts_of, reached
from core.arrange.watch import Watch
from core.plan.ids import DishId
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

_ABOVE_ALL = 50
"""A wish that is to be had before all others weighs so many times its greatest weight."""
_FOR_BOUNDS = 0.4  # of the work; the rest goes to prices


@dataclass(frozen=True, slots=True)
class Difference:
    """What a wish reaches in the timetable asked about and in another one, in the cook's units."""

    wish: WishKind
    was: int
    now: int


@dataclass(frozen=True, slots=True)
class DishWaits:
    """Minutes by which a dish's food that minds waits longer than it must, in the one timetable and the other."""

    dish: DishId
    was: int
    now: int


@dataclass(frozen=True, slots=True)
class Price:
    """What more of a wish costs the others: another timetable without a clash, and how it differs.

    `best`: nothing can reach more of the wish (it is at its proven bound). `differences` are of all wishes, this one
    first; `dishes` those whose waits change, the greatest change first; `moved` loads begin at another minute.
    """

    wish: WishKind
    best: bool
    differences: tuple[Difference, ...]
    dishes: tuple[DishWaits, ...]
    moved: int
    timetable: Timetable


@dataclass(frozen=True, slots=True)
class WishQuality:
    """One wish: `reached` in the cook's units (core.arrange.quality_parts.reached), less being better.

    `counted` is the same in the units of the goals. `bound` None: nothing was proven. `price` None: nothing better
    was found in the work given, or there is none.
    """

    wish: WishKind
    reached: int
    counted: int
    bound: Bound | None = None
    parts: tuple[Part, ...] = ()
    price: Price | None = None

    @property
    def best(self) -> bool:
        """Tell whether it is proven that no timetable reaches more of this wish."""
        return self.bound is not None and self.bound.amount >= self.reached


@dataclass(frozen=True, slots=True)
class Quality:
    """How good a timetable is, wish by wish."""

    wishes: tuple[WishQuality, ...]

    def of(self, wish: WishKind) -> WishQuality:
        """Return one wish; raise KeyError where it was not looked at."""
        for each in self.wishes:
            if each.wish is wish:
                return each
        raise KeyError(wish)


def reached_of(plan: Plan, timetable: Timetable, seen: Timetable | None = None) -> Quality:
    """Return what a timetable reached, without bounds and prices: no solver, some milliseconds."""
    counted = measure(plan, timetable, seen)
    found = []
    for wish, parts in parts_of(plan, timetable, seen).items():
        found.append(WishQuality(wish, reached(wish, parts), counted[wish], None, parts))
    return Quality(tuple(found))


def quality(
    plan: Plan,
    timetable: Timetable,
    *,
    work: float = 10.0,
    seen: Timetable | None = None,
    stop: Event | None = None,
    seed: int = 0,
) -> Quality:
    """Return how good any timetable of the plan is; pure and blocking, any thread.

    `work` is the solver's (core.arrange.effort), shared by bounds and prices. A timetable with clashes is measured
    too; what it gains by breaking a limit no clash-free one can reach, so that it may lie below a bound. Prices then
    are those of the nearest timetables without a clash, where there are any.
    """
    found = reached_of(plan, timetable, seen)
    amounts = {each.wish: each.reached for each in found.wishes}
    watch = Watch(Effort(work * _FOR_BOUNDS, seed), stop)
    known = bounds(plan, watch, amounts, seen=seen, start=timetable)
    wishes = tuple(replace(each, bound=known.get(each.wish)) for each in found.wishes)
    worse = [each for each in wishes if not each.best]
    left = max(0.0, work - watch.work)
    priced: dict[WishKind, Price | None] = {}
    for number, each in enumerate(worse):
        if stop is not None and stop.is_set():
            break
        own = left / (len(worse) - number)
        part = Watch(Effort(own, seed), stop)
        priced[each.wish] = _price(plan, timetable, each, part, seen)
        left = max(0.0, left - part.work)
    return Quality(tuple(replace(each, price=priced.get(each.wish)) for each in wishes))


def price(
    plan: Plan,
    timetable: Timetable,
    wish: WishKind,
    *,
    work: float = 5.0,
    bound: Bound | None = None,
    seen: Timetable | None = None,
    stop: Event | None = None,
    seed: int = 0,
) -> Price | None:
    """Return what more of one wish costs the others: as much of it as can be had, then the others as they weigh.

    None where nothing better was found in the work given. KEEP has a price only where `seen` is given.
    """
    found = {each.wish: each for each in reached_of(plan, timetable, seen).wishes}
    if wish not in found:
        return None
    return _price(plan, timetable, replace(found[wish], bound=bound), Watch(Effort(work, seed), stop), seen)


def _price(
    plan: Plan, timetable: Timetable, now: WishQuality, watch: Watch, seen: Timetable | None
) -> Price | None:
    if now.best:
        return None
    better = again(above_all(plan, now.wish), timetable, watch, seen=seen, alone=now.wish)
    return _between(plan, now, timetable, better, seen)


def above_all(plan: Plan, wish: WishKind) -> Plan:
    """Return the plan with one wish before all others, which weigh as they did."""
    # in the model freshness is weighed by how little food bears; a minute of a morning must still outweigh it
    weight = _ABOVE_ALL * 10 * max(PRICES.values()) // PRICES[wish] if wish is not WishKind.FRESH else _ABOVE_ALL * 10
    wishes = replace(plan.decisions.wishes, **{wish.value: weight})
    return replace(plan, decisions=replace(plan.decisions, wishes=wishes))


def _between(
    plan: Plan, now: WishQuality, before: Timetable, after: Timetable, seen: Timetable | None
) -> Price | None:
    """Return the price read off two timetables, or None where the wish reached no more."""
    old, new = reached_of(plan, before, seen), reached_of(plan, after, seen)
    if new.of(now.wish).reached >= now.reached:
        return None
    changed = [Difference(each.wish, old.of(each.wish).reached, each.reached) for each in new.wishes]
    moved = sum(1 for each in after.placed if each.key in before.at and before.at[each.key].start != each.start)
    return Price(
        now.wish,
        now.bound is not None and new.of(now.wish).reached <= now.bound.amount,
        tuple(sorted(changed, key=lambda each: each.wish is not now.wish)),
        _dishes(old.of(WishKind.FRESH), new.of(WishKind.FRESH)),
        moved,
        after,
    )


def _dishes(old: WishQuality, new: WishQuality) -> tuple[DishWaits, ...]:
    was, now = _by_dish(old), _by_dish(new)
    found = [
        DishWaits(dish, was.get(dish, 0), now.get(dish, 0))
        for dish in dict.fromkeys([*was, *now])
        if was.get(dish, 0) != now.get(dish, 0)
    ]
    return tuple(sorted(found, key=lambda each: -abs(each.now - each.was)))


def _by_dish(wish: WishQuality) -> dict[DishId, int]:
    return {each.dish: each.amount for each in wish.parts if each.kind is PartKind.WAIT and each.dish is not None}
