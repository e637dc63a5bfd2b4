"""Why not: seconds until a feast that was spoiled is explained, and how: by a sum or by the solver."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from random import Random

from bench.feasts import feast
from bench.row import Row, share, show, timed_twice
from core.arrange.outcome import Fit
from core.arrange.why.answer import why_not
from core.arrange.why.reason import ReasonKind, WhyNot
from core.plan.kitchen import StationKind
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Keep

SEEDS = (1, 2, 3)
_TARGET = {12: "500 ms", 29: "1.5 s", 57: "3 s"}
_WORK = {12: 2.0, 29: 4.0, 57: 8.0}


def rows(_seconds: float) -> Iterator[Row]:
    """Spoil feasts that can be met in several ways, and ask why not."""
    for dishes in (12, 29, 57):
        taken: list[float] = []
        worked: list[float] = []
        answers: list[WhyNot] = []
        for seed in SEEDS:
            drawn = feast(dishes, seed)
            for name, spoil in SPOILS.items():
                plan = spoil(drawn.plan, Random(f"{name}, {dishes}, {seed}"))  # noqa: S311  repeatable on purpose
                seconds = timed_twice(
                    lambda plan=plan, dishes=dishes, answers=answers: answers.append(
                        why_not(plan, work=_WORK[dishes])
                    )
                )
                taken.append(seconds[0])
                worked.append(seconds[1])
        size = feast(dishes, SEEDS[0]).size
        yield from _told(size, dishes, taken, answers)
        worked.sort()
        both = f"{show(share(worked, 50))}, {show(share(worked, 90))}"
        yield Row("   this process worked for, median, p90", size, both)


def _told(size: str, dishes: int, taken: list[float], answers: list[WhyNot]) -> Iterator[Row]:
    taken.sort()
    yield Row("why not: median", size, show(share(taken, 50)), _TARGET[dishes])
    yield Row("why not: p90", size, show(share(taken, 90)), _TARGET[dishes])
    impossible = [each for each in answers if each.fit is Fit.IMPOSSIBLE]
    by_sums = [each for each in impossible if all(reason.kind is not ReasonKind.WISHES for reason in each.reasons)]
    minimal = [each for each in impossible if all(reason.minimal for reason in each.reasons)]
    yield Row("   proven impossible, by a sum", size, f"{len(impossible)}, {len(by_sums)} of {len(answers)}")
    yield Row("   with nothing that could be left out", size, f"{len(minimal)} of {len(impossible)}")
    can = sum(each.fit is Fit.MEETS for each in answers)
    open_ = sum(each.fit is Fit.NOT_FOUND for each in answers)
    yield Row("   can be met after all, not found out", size, f"{can}, {open_} of {len(answers)}")
    mended = sum(each.fit is Fit.NOT_FOUND and each.repair is not None for each in answers)
    yield Row("   not found out, but with a repair that was tried", size, f"{mended} of {open_}")
    given = sorted(len(each.repair.demands) for each in answers if each.repair is not None)
    if given:
        yield Row("   wishes that a repair gives up, median, most", size, f"{given[len(given) // 2]}, {given[-1]}")
    bare = sum(not each.reasons for each in impossible)
    yield Row("   impossible without a reason", size, f"{bare} of {len(impossible)}")


def one_cook(plan: Plan, _chance: Random) -> Plan:
    """Return the feast with half of its cooks, those that can do everything."""
    cooks = tuple(cook for cook in plan.kitchen.cooks if cook.skills)
    return replace(plan, kitchen=replace(plan.kitchen, cooks=cooks))


def one_rack(plan: Plan, _chance: Random) -> Plan:
    """Return the feast with one rack in each oven."""
    stations = tuple(
        replace(each, units=1) if each.kind is StationKind.OVEN else each for each in plan.kitchen.stations
    )
    return replace(plan, kitchen=replace(plan.kitchen, stations=stations))


def keeps_less(plan: Plan, chance: Random) -> Plan:
    """Return the feast with a third of its dishes keeping for five minutes only."""
    dishes = tuple(
        _kept(dish, 5) if chance.random() < 0.33 else dish for dish in plan.menu.dishes
    )
    return replace(plan, menu=replace(plan.menu, dishes=dishes))


def _kept(dish: Dish, most: int) -> Dish:
    steps = tuple(replace(step, keeps=None) for step in dish.steps)
    return replace(dish, steps=steps, keep=Keep(most, dish.keep.wait))


def begins_late(plan: Plan, _chance: Random) -> Plan:
    """Return the feast begun a day before it is served instead of three."""
    return replace(plan, opens=-24 * 60)


def waits_less(plan: Plan, chance: Random) -> Plan:
    """Return the feast with some of its most waits cut to the least ones."""
    links = tuple(
        replace(link, most=link.least) if link.most is not None and chance.random() < 0.15 else link
        for link in plan.menu.links
    )
    return replace(plan, menu=replace(plan.menu, links=links))


SPOILS: dict[str, Callable[[Plan, Random], Plan]] = {
    "one cook": one_cook,
    "one rack": one_rack,
    "keeps less": keeps_less,
    "begins late": begins_late,
    "waits less": waits_less,
}
