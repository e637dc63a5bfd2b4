"""What is said of a dish that a guest cannot eat: in the list of dishes, over the dish, and on the guests' page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from app.places.menu.guests_words import said
from core.measures.words import join_words
from core.plan.ids import DishId
from core.plan.menu import Menu
from core.plan.plan import Plan

if TYPE_CHECKING:
    from core.food.allergens import Conflict

_MOST = 3  # ingredients, and guests with what they must not have, that are named


@dataclass(frozen=True, slots=True)
class Mark:
    """`words`: who and what, in short ("": only dislikes); `through`: with the ingredients; `sentences`: in full.

    `grave`: it is noted, not only likely.
    """

    words: str
    through: str
    grave: bool
    sentences: tuple[str, ...]


class _Last:
    """The marks of the menu last looked at: several parts of the place ask for the same."""

    menu: Menu | None = None
    marks: dict[DishId, Mark] = {}  # noqa: RUF012  it is replaced, never changed


def marks_of(plan: Plan) -> dict[DishId, Mark]:
    """Return the marks of the dishes that speak against a guest, in the menu's order."""
    if not plan.menu.guests:
        return {}
    if _Last.menu is not plan.menu:
        _Last.marks = _marks(plan)
        _Last.menu = plan.menu
    return _Last.marks


def remark() -> str:
    """Return what all that is said of allergens is worth."""
    return said("A caution, no guarantee: read the labels; traces are not known here.")


def _marks(plan: Plan) -> dict[DishId, Mark]:
    from core.food.allergens import Why, conflicts, say_conflict

    of_dish: dict[DishId, list[Conflict]] = {dish.id: [] for dish in plan.menu.dishes}
    for each in conflicts(plan):
        of_dish[each.dish].append(each)
    marks = {}
    for dish, found in of_dish.items():
        if not found:
            continue
        noted = [each for each in found if each.why is Why.NOTED]
        likely = [each for each in found if each.why is Why.LIKELY]
        short, full = (
            "; ".join(
                filter(
                    None,
                    (
                        _of_guests(said("not for {who}"), noted, through=through),
                        _of_guests(said("perhaps not for {who}"), likely, through=through),
                    ),
                )
            )
            for through in (False, True)
        )
        sentences = tuple(say_conflict(plan, each) for each in found)
        marks[dish] = Mark(short, full, bool(noted), sentences)
    return marks


def _of_guests(form: str, found: list[Conflict], *, through: bool) -> str:
    """Return who must not have what; `through`: with the ingredients, otherwise as short as a list needs it."""
    whats: dict[str, list[str]] = {}
    for each in found:
        whats.setdefault(each.guest, []).append(each.what + (_in(each.because) if through else ""))
    if not whats:
        return ""
    if through or len(whats) <= _MOST:
        return form.format(who="; ".join(f"{guest}: {', '.join(words)}" for guest, words in whats.items()))
    names = list(whats)
    more = said("{number} more").format(number=len(names) - _MOST)
    return form.format(who=join_words([*names[:_MOST], more]))


def _in(because: tuple[str, ...]) -> str:
    if not because:
        return ""
    more = "…" if len(because) > _MOST else ""
    return f" ({', '.join(because[:_MOST])}{more})"
