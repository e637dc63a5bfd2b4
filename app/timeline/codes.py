"""Short letter codes of dishes, so that colour never carries meaning alone."""

from __future__ import annotations

import re
from collections.abc import Iterator

from core.plan.ids import DishId
from core.plan.plan import Plan

_LESS_TELLING = frozenset({"and", "with", "in", "of", "the", "a", "an", "on", "for", "to"})


def dish_codes(plan: Plan) -> dict[DishId, str]:
    """Return a code for each dish: its own where the cook gave one, else two letters of its name, all different."""
    codes = {dish.id: dish.code for dish in plan.menu.dishes if dish.code}
    taken = set(codes.values())
    for dish in plan.menu.dishes:
        if dish.id in codes:
            continue
        code = next(each for each in _candidates(dish.name or dish.id) if each not in taken)
        codes[dish.id] = code
        taken.add(code)
    return {dish.id: codes[dish.id] for dish in plan.menu.dishes}


def _candidates(name: str) -> Iterator[str]:
    words = [word for word in re.findall(r"\w+", name) if word.casefold() not in _LESS_TELLING] or ["x"]
    letters = "".join(words)
    if len(words) > 1:
        for other in words[1:]:
            yield (words[0][0] + other[0]).upper()
    for other in letters[1:]:
        yield letters[0].upper() + other.lower()
    number = 1
    while True:
        yield f"{letters[0].upper()}{number}"
        number += 1
