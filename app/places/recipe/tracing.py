"""From a value to the words of the recipe that it came from, and back."""

from __future__ import annotations

from app.places.recipe.bench import Bench
from app.places.recipe.dish_pane import DishPane
from app.places.recipe.text_pane import Span, TextPane
from app.places.recipe.worked import Worked
from core.intake.draft import Origin

_FIELDS = ("name", "servings")


class Tracing:
    """Ties the lines of a dish to the text that they were read of."""

    def __init__(self, bench: Bench, text: TextPane, dish: DishPane) -> None:
        self._bench, self._text, self._dish = bench, text, dish
        text.chosen.connect(self.go_from)
        dish.looked.connect(self.show_from)

    def show_from(self, kind: str, key: int, what: str) -> None:
        """Show in the text where a value came from."""
        worked = self._bench.worked
        if worked is None:
            return
        if kind in _FIELDS:
            self._text.mark(None, _origin(worked, (kind, None, None)))
        elif kind == "thing" and key >= len(worked.draft.ingredients):
            self._text.mark(None)  # the cook has added it
        elif kind == "thing":
            place = worked.draft.ingredients[key]
            self._text.mark((place.start, place.end), _origin(worked, (what, None, key)))
        else:
            row = next((each for each in worked.rows if each.key == key), None)
            if row is not None:
                phrases = (_origin(worked, (what, number, None)) for number in row.steps)
                self._text.mark((row.start, row.end), next((each for each in phrases if each), None))

    def go_from(self, at: int) -> None:
        """Go to the value that the words at a place of the text became."""
        worked = self._bench.worked
        if worked is None:
            return
        here = [each for each in worked.draft.origins if each.start <= at < max(each.end, each.start + 1)]
        here.sort(key=lambda each: (each.what == "step", each.end - each.start))
        if any(self._went(worked, each) for each in here):
            return
        places = enumerate(worked.draft.ingredients)
        number = next((number for number, each in places if each.start <= at <= each.end), None)
        if number is not None:
            self._dish.go_to(("thing", number))

    def _went(self, worked: Worked, origin: Origin) -> bool:
        if origin.step is not None:
            row = next((each for each in worked.rows if origin.step in each.steps), None)
            if row is not None:
                self._dish.go_to(("step", row.key), "" if origin.what == "step" else origin.what)
            return row is not None
        if origin.ingredient is not None:
            self._dish.go_to(("thing", origin.ingredient), origin.what)
            return True
        if origin.what in _FIELDS:
            self._dish.go_to_field(origin.what)
            return True
        return False


def _origin(worked: Worked, wanted: tuple[str, int | None, int | None]) -> Span | None:
    """Return where the words of a value stand: what it is, of which step, of which ingredient."""
    found = (each for each in worked.draft.origins if (each.what, each.step, each.ingredient) == wanted)
    return next(((each.start, each.end) for each in found), None)
