"""Random sensible feasts, seeded and repeatable, each with a planted timetable that proves it can be done.

About seven steps a dish: 12 dishes have 84 steps, 29 have 203, 57 have 399, 143 have 1001. Each dozen dishes has an
oven of three racks, four burners, a grill, a fridge, a mixer and two cooks who sleep at night; three days in all.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from random import Random

from bench.feast_kitchen import kitchen_for
from bench.feast_shapes import DOZEN, drafted
from bench.planting import Ground, NoRoomError, Planted, heatings
from core.measures.clock import parse_moment
from core.plan.kitchen import Kitchen
from core.plan.menu import Dish, Link, Menu
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

SIZES = (12, 29, 57, 143)
"""Dishes of the feasts measured."""
PLATING = parse_moment("2026-09-26 19:30", "Europe/London")
OPENS, CLOSES = -3 * 24 * 60, 5 * 60
ATTEMPTS = 40
TRIES = 40
REDRAWN_EVERY = 10


@dataclass(frozen=True)
class Feast:
    """A plan, and a timetable of it without a clash."""

    plan: Plan
    planted: Timetable

    @property
    def size(self) -> str:
        """Return the number of steps in words."""
        return f"{len(self.plan.steps)} steps"


@cache
def feast(dishes: int, seed: int = 1) -> Feast:
    """Return the feast of so many dishes; the same numbers always give the same feast."""
    for attempt in range(ATTEMPTS):
        chance = Random(f"{dishes} dishes, {seed}, {attempt}")  # noqa: S311  it must be repeatable, not secret
        try:
            return _drawn(dishes, chance)
        except NoRoomError:
            continue
    raise NoRoomError(f"no feast of {dishes} dishes came out of seed {seed}")


def _drawn(dishes: int, chance: Random) -> Feast:
    kitchen = kitchen_for(dishes)
    ground = Ground(_plan(kitchen), OPENS, CLOSES)
    found: dict[int, tuple[Dish, tuple[Link, ...], Planted]] = {}
    # Dishes of one shape together, the least movable shapes first.
    for number in sorted(range(dishes), key=lambda each: (each % len(DOZEN), each)):
        found[number] = _planted_dish(ground, kitchen, number, chance)
    in_order = [found[number] for number in range(dishes)]
    links = tuple(link for _dish, own, _planted in in_order for link in own)
    plan = _plan(kitchen, tuple(dish for dish, _links, _planted in in_order), links)
    every = [planted for _dish, _links, planted in in_order]
    return Feast(
        plan,
        Timetable(
            tuple(load for one in every for loads in one.placed.values() for load in loads),
            tuple(stay for one in every for stay in one.stays),
            tuple(heatings(ground, plan)),
            tuple(washing for one in every for washing in one.washings),
        ),
    )


def _planted_dish(
    ground: Ground, kitchen: Kitchen, number: int, chance: Random
) -> tuple[Dish, tuple[Link, ...], Planted]:
    for trial in range(TRIES):
        if trial % REDRAWN_EVERY == 0:
            dish, links = drafted(number, chance, elsewhen=trial >= TRIES // 2)
            plan = _plan(kitchen, (dish,), links)
        try:
            return dish, links, ground.plant(plan, dish, chance)
        except NoRoomError:
            continue
    raise NoRoomError(f"dish {number} finds no place")


def _plan(kitchen: Kitchen, dishes: tuple[Dish, ...] = (), links: tuple[Link, ...] = ()) -> Plan:
    return Plan(f"{len(dishes)} dishes", PLATING, Menu(dishes, links), kitchen, opens=OPENS)
