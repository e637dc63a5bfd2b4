"""Takes what the cook types into the lines of a recipe; answers "" or why it is not taken."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from app.places.recipe.bench import Bench
from app.places.recipe.worked import Worked
from app.places.recipe.worked_change import (
    changed,
    thing_changed,
    with_after,
    with_length,
    with_step,
    with_thing,
)
from core.measures.refusal import Refusal

Spot = tuple[str, int]
"""A line of a recipe: "step" and its key, or "thing" and its number."""


def _tr(words: str) -> str:
    return QCoreApplication.translate("recipe", words)


class Takes:
    """One method for each kind of field."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def name(self, name: str) -> str:
        """Take the dish's name."""
        return self._take(lambda worked: replace(worked, name=name), _tr("name"))

    def servings(self, servings: int | None) -> str:
        """Take how many it serves; None: nobody knows."""
        return self._take(lambda worked: replace(worked, servings=servings), _tr("servings"))

    def thing(self, number: int, text: str) -> str:
        """Take an ingredient's line."""
        return self._take(lambda worked: thing_changed(worked, number, line=text), _tr("ingredient"))

    def new_thing(self, text: str) -> str:
        """Take one more ingredient."""
        return self._take(lambda worked: with_thing(worked, text), _tr("new ingredient"))

    def new_step(self, text: str) -> str:
        """Take one more step."""
        return self._take(lambda worked: with_step(worked, text), _tr("new step"))

    def step(self, key: int, text: str) -> str:
        """Take a step's line."""
        return self._take(lambda worked: changed(worked, key, line=text), _tr("step"))

    def length(self, key: int, words: str) -> str:
        """Take a step's length, "?" for a guess, "" for none."""

        def change(worked: Worked) -> Worked:
            if words == "?":
                return changed(with_length(worked, key, "", self._bench.reader), key, guess=True)
            return with_length(worked, key, words, self._bench.reader)

        return self._take(change, _tr("length"))

    def after(self, key: int, numbers: tuple[int, ...]) -> str:
        """Take which steps a step follows, by the numbers that are shown."""

        def change(worked: Worked) -> Worked:
            if any(not 1 <= each <= len(worked.rows) for each in numbers):
                raise Refusal(_tr("There are steps 1 to {number} here.").format(number=len(worked.rows)))
            return with_after(worked, key, tuple(worked.rows[each - 1].key for each in numbers))

        return self._take(change, _tr("order"))

    def tick(self, spot: Spot, ticked: bool) -> str:
        """Take that a line is understood."""
        change = changed if spot[0] == "step" else thing_changed
        return self._take(lambda worked: change(worked, spot[1], understood=ticked), _tr("tick"))

    def _take(self, change: Callable[[Worked], Worked], said: str) -> str:
        worked = self._bench.worked
        if worked is None:
            return ""
        try:
            self._bench.change(change(worked), said)
        except Refusal as refusal:
            return str(refusal)
        return ""
