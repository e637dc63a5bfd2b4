"""Serving in waves: what does not come out of the last loads in time is brought to the table a little later."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan import meaning
from core.plan.edits import AddDish, ChangeStep, Edit, Together
from core.plan.ids import DishId, StepId, fresh, local_part, step_id
from core.plan.menu import Dish, Link, LinkKind
from core.plan.step import Loads, Step
from core.timetable.timetable import Timetable

_MOST = 60  # minutes between the first wave and the second
_AFTER = "second wave"


def waves(case: Case) -> Family:
    """Propose a second wave for what is served straight from its loads: as many loads as may be in the first."""
    found: list[Easing] = []
    for each in case.steps:
        step = case.step(each)
        dish = case.plan.dish_of[each]
        if step.loads is None or each not in case.plan.last_steps or not dish.served or step.clock is not None:
            continue
        count = meaning.load_count(dish, step)
        found += [
            _wave(case, step, step.loads, first)
            for loads in range(count - 1, 0, -1)
            if (first := _pieces(dish, step.loads, loads))
        ]
    return Family(WayKind.WAVES, tuple(found), one_will_do=True)


def _pieces(dish: Dish, loads: Loads, count: int) -> int:
    """Return how many of the pieces written the first so many loads hold."""
    pieces = int(loads.per_load * count / dish.factor)
    return pieces if 0 < pieces < loads.pieces else 0


def _wave(case: Case, step: Step, loads: Loads, first: int) -> Easing:
    dish = case.plan.dish_of[step.id]
    new = DishId(fresh(f"{dish.id} {_AFTER}", case.plan.dishes))
    own = step_id(new, local_part(step.id))
    rest = replace(step, id=own, loads=replace(loads, pieces=loads.pieces - first))
    length = meaning.reserved(case.plan, step.id).length
    rounds = ceil((loads.pieces - first) * dish.factor / loads.per_load)
    behind = rounds * (length + loads.change_over)  # its loads go on as if it were one step
    links = (
        *(replace(link, after=own) for link in case.plan.links_to[step.id]),
        Link(step.id, own, behind, kind=LinkKind.END_TO_END),
    )

    def make(size: int) -> Edit:
        later = Dish(
            new, f"{dish.name}, {_AFTER}", (rest,), "", dish.written_for, dish.wanted, dish.course + size,
            keep=dish.keep, allergens=dish.allergens, plating=dish.plating,
        )  # fmt: skip
        fewer = ChangeStep(step.id, replace(step, loads=replace(loads, pieces=first)))
        return Together(f"Serve {dish.name} in waves", (fewer, AddDish(later, links, dish.id)))

    def needs(timetable: Timetable) -> int:
        return max((each.end for each in timetable.loads_of.get(own, ())), default=0) - dish.course

    def told(size: int, timetable: Timetable) -> tuple[Change, ...]:
        return _told(case, step.id, (new, own), size, timetable)

    left = ceil((loads.pieces - first) * dish.factor)
    return Easing(
        WayKind.WAVES, make, told, _MOST, min(_MOST, case.over((step.id,))), needs,
        weight=lambda size: size + left / 2,
    )  # fmt: skip


def _told(
    case: Case, step: StepId, second: tuple[DishId, StepId], size: int, timetable: Timetable
) -> tuple[Change, ...]:
    dish = case.plan.dish_of[step]
    when = Change(Unit.OFFSET, dish.course, dish.course + size, dish=dish.id, step=step)
    counts = (len(timetable.loads_of.get(each, ())) for each in (step, second[1]))
    return when, *(Change(Unit.LOADS, None, count, step=step) for count in counts)
