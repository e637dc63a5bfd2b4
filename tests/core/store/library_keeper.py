"""Keep and replace dishes in a library for ever, saying which; a test kills this program in the middle of it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import count
from pathlib import Path

from core.measures.refusal import Refusal
from core.plan.edits.library import OwnCopy, own_copy
from core.plan.ids import DishId
from core.store.library import Library
from core.store.library_values import OwnDish
from tests.core.store.sample import full_plan


def numbered(name: str, number: int) -> OwnCopy:
    """Return a copy whose number stands in many of its parts, over several pages of the file."""
    copy = own_copy(full_plan(), DishId("beans"))
    dish = copy.dish
    steps = tuple(replace(step, note=f"{number} " * 400) for step in dish.steps)
    return replace(copy, dish=replace(dish, name=name, note=str(number), steps=steps))


def insisted(act: Callable[[], OwnDish]) -> OwnDish:
    """Do something, again and again while another program is writing; that is refused after a while, and says so."""
    while True:
        try:
            return act()
        except Refusal as refusal:
            if "Try again in a moment" not in refusal.text:
                raise


def main() -> None:
    """Keep one dish after the other, each replaced once, until killed; each number is said once that has returned."""
    path, mark, first = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
    with Library.open(path) as library:
        for number in count(first):
            name = f"{mark} {number}"
            held = insisted(partial(library.keep_dish, numbered(name, number)))
            insisted(partial(library.replace, held, numbered(name, -number)))
            sys.stdout.write(f"{number}\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
