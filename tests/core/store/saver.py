"""Save plans into a file for ever, saying which; a test kills this program in the middle of it."""

from __future__ import annotations

import sys
from dataclasses import replace
from itertools import count
from pathlib import Path

from core.plan.plan import Plan
from core.store.file import PlanFile
from tests.core.store.sample import full_plan


def numbered(number: int) -> Plan:
    """Return a plan whose number stands in many rows of many tables; every other one lacks a few."""
    plan = full_plan()
    mark = f" {number}"
    dishes = tuple(
        replace(
            dish,
            name=dish.name + mark,
            steps=tuple(replace(step, note=mark) for step in dish.steps),
            ingredients=dish.ingredients[: 3 - number % 2],
        )
        for dish in plan.menu.dishes
    )
    if number % 3 == 0:
        dishes = dishes[::-1]
    pins = tuple(replace(pin, start=-number) for pin in plan.decisions.pins[number % 2 :])
    return replace(
        plan,
        name=plan.name + mark,
        menu=replace(plan.menu, dishes=dishes),
        decisions=replace(plan.decisions, pins=pins),
    )


def main() -> None:
    """Save one plan after the other until killed; each number is said once its save has returned."""
    with PlanFile.open(Path(sys.argv[1])) as file:
        held = file.plan()
        for number in count(int(sys.argv[2])):
            after = numbered(number)
            file.save(held, after)
            held = after
            sys.stdout.write(f"{number}\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
