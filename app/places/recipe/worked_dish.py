"""From a recipe's lines to a dish of the plan. A length nobody told is refused, or taken as a guess that is noted."""

from __future__ import annotations

from collections.abc import Iterator

from app.places.recipe.worked import GUESS, Reader, Row, Worked
from app.places.recipe.worked_ask import asked, untimed
from app.places.recipe.worked_change import before_of
from core.measures.minutes import show_span
from core.measures.refusal import Refusal, quoted
from core.plan.ids import DishId, StepId, fresh, step_id
from core.plan.menu import Dish, Ingredient, Link
from core.plan.step import Keep, Step
from core.reading.ingredient import read_ingredient
from core.reading.line_value import LineWait

_MOST_NAMED = 3


def dish_from(worked: Worked, dish: DishId, reader: Reader, wanted: int | None = None) -> tuple[Dish, tuple[Link, ...]]:
    """Return the dish under an id, and its links; raise Refusal while a step says not what, or not how long."""
    _require_whole(worked, reader)
    kept = [each for each in worked.rows if not each.out]
    ids = _ids(kept, dish, reader)
    before = {each.key: before_of(worked, each.key) for each in kept}
    followed = {key for keys in before.values() for key in keys}
    steps = tuple(_step(each, ids[each.key], reader, each.key not in followed) for each in kept)
    links = tuple(
        (reader.line(worked.row(one).line).wait or LineWait()).link(ids[one], ids[each.key])
        for each in kept
        for one in before[each.key]
    )
    serves = worked.servings or 1
    made = Dish(
        dish,
        worked.name,
        steps,
        written_for=serves,
        wanted=wanted if wanted is not None and worked.servings else serves,
        ingredients=tuple(_ingredients(worked, ids)),
        note=" ".join(left_open(worked, reader)),
    )
    return made, links


def left_open(worked: Worked, reader: Reader) -> tuple[str, ...]:
    """Return in sentences what a recipe leaves open as it stands."""
    guessed = [number for number, each in enumerate(_kept(worked), 1) if each.guess and not _timed(each, reader)]
    found = [each.sentence for each in asked(worked, reader)]
    if guessed:
        steps = ", ".join(str(number) for number in guessed)
        said = show_span(GUESS.low, GUESS.likely, GUESS.high)
        many = "steps" if len(guessed) > 1 else "step"
        found.insert(0, f"The length of {many} {steps} is a guess ({said}).")
    return tuple(found)


def _kept(worked: Worked) -> list[Row]:
    return [each for each in worked.rows if not each.out]


def _timed(row: Row, reader: Reader) -> bool:
    return "length" in reader.line(row.line).step_values


def _require_whole(worked: Worked, reader: Reader) -> None:
    if not worked.name.strip():
        raise Refusal("The dish has no name; write one.")
    for number, each in enumerate(worked.rows, 1):
        if not each.out and not reader.line(each.line).step_values.get("does"):
            raise Refusal(f"Step {number} does not say what is done; begin it with a verb, or leave it out.")
    missing = untimed(worked, reader)
    if missing:
        does = [str(reader.line(worked.row(key).line).step_values["does"]) for key in missing[:_MOST_NAMED]]
        more = f" and {len(missing) - _MOST_NAMED} more" if len(missing) > _MOST_NAMED else ""
        named = ", ".join(quoted(each) for each in does)
        raise Refusal(f"No length yet: {named}{more}. Give each one, or take them with a guess that is marked.")


def _ids(rows: list[Row], dish: DishId, reader: Reader) -> dict[int, StepId]:
    taken: set[str] = set()
    found = {}
    for number, row in enumerate(rows, 1):
        line = reader.line(row.line)
        words = " ".join(str(line.step_values["does"]).split()[:3])
        if not any(sign.isascii() and sign.isalnum() for sign in words):
            words = f"step {number}"
        local = fresh(line.label or words, taken)
        taken.add(local)
        found[row.key] = step_id(dish, local)
    return found


def _step(row: Row, name: StepId, reader: Reader, last: bool) -> Step:
    line = reader.line(row.line)
    values = dict(line.step_values)
    if "length" not in values:
        values["length"] = GUESS
        values["note"] = "Its length is a guess: the recipe does not tell it."
    if last and line.wait is not None and values.get("keeps") is None:
        values["keeps"] = Keep(line.wait.most, line.wait.wait)
    return Step(id=name, **values)


def _ingredients(worked: Worked, ids: dict[int, StepId]) -> Iterator[Ingredient]:
    for each in worked.things:
        if each.out or not each.line.strip():
            continue
        line = read_ingredient(each.line, worked.system)
        notes = (line.preparation if line.item else "", line.comment, "optional" if line.optional else "")
        yield Ingredient(
            item=line.item or line.preparation or " ".join(each.line.split()),
            quantity=line.quantity,
            preparation=", ".join(note for note in notes if note),
            step=ids.get(each.step) if each.step is not None else None,
            pieces=line.pieces,
        )
