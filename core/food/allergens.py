"""Guests and dishes: who cannot eat what, and why, as far as the plan knows. Cautions, never guarantees.

What is noted on an ingredient or a dish counts as noted; what comes over a link from another dish's step comes with
it, or may where the plan does not say that food passes on. A table of common foods adds what is usual of an item but
not noted, always as a proposal. Labels and the guests themselves have the last word.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from core.food.allergen_groups import GROUPS, NAMES, Allergen, groups_of
from core.food.allergen_words import foods_in, has_words
from core.measures.refusal import quoted
from core.measures.words import join_words
from core.plan.check_words import short
from core.plan.ids import DishId
from core.plan.menu import Dish, Guest, LinkKind
from core.plan.plan import Plan

__all__ = [
    "GROUPS",
    "NAMES",
    "REMARK",
    "Allergen",
    "Conflict",
    "Why",
    "conflicts",
    "groups_of",
    "guest_cautions",
    "likely_allergens",
    "say_conflict",
    "strange_words",
]

REMARK = "A list knows only what it was told: ask every guest, and check every label."


class Why(StrEnum):
    """What speaks against a dish for a guest, the gravest first."""

    NOTED = "noted"
    LIKELY = "likely"
    DISLIKED = "disliked"


@dataclass(frozen=True, slots=True)
class Conflict:
    """A guest, a dish that is served, what of it they cannot or will not eat, and in what it is.

    `follows`: it is only in a dish that another one follows, and the plan does not say whether food passes on
    (water that is used again, a grill).
    """

    guest: str
    dish: DishId
    what: str
    why: Why
    because: tuple[str, ...] = ()
    follows: bool = False


@dataclass(frozen=True, slots=True)
class _Part:
    """Something in a dish: its item (""; the dish as a whole), allergens noted, the dish it came from ("": its own).

    `sure`: it is known that food of that dish goes into this one.
    """

    item: str
    noted: tuple[str, ...]
    through: str = ""
    sure: bool = True


_ANY_NUT = frozenset({"nut", "nuts"})
"""Words of guests that may mean peanuts as well, though the Annex tells them apart: common practice."""


def likely_allergens(item: str) -> tuple[str, ...]:
    """Return the groups that an item of this name usually belongs to, in the Annex's order: a proposal to confirm."""
    found = foods_in(item)
    return tuple(each for each in NAMES if each in found)


def conflicts(plan: Plan) -> tuple[Conflict, ...]:
    """Return what speaks against dishes that are served, guest by guest in their order, allergies first."""
    parts = {dish.id: tuple(_parts(plan, dish)) for dish in plan.menu.dishes if dish.served}
    return tuple(
        each for guest in plan.menu.guests for dish in parts for each in _of_guest(guest, dish, parts[dish])
    )


def _of_guest(guest: Guest, dish: DishId, parts: tuple[_Part, ...]) -> Iterator[Conflict]:
    for what in guest.allergies:
        noted = [part for part in parts if _is_noted(part, what)]
        likely = [part for part in parts if part.sure and _is_likely(part, what)]
        if any(part.sure for part in noted):
            yield Conflict(guest.name, dish, what, Why.NOTED, _all_because(part for part in noted if part.sure))
        elif likely:
            yield Conflict(guest.name, dish, what, Why.LIKELY, _all_because(likely))
        elif noted:
            yield Conflict(guest.name, dish, what, Why.LIKELY, _all_because(noted), follows=True)
    for what in guest.aversions:
        found = [part for part in parts if part.sure and (_is_noted(part, what) or _is_likely(part, what))]
        if found:
            yield Conflict(guest.name, dish, what, Why.DISLIKED, _all_because(found))


def _all_because(parts: Iterable[_Part]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(filter(None, (_because(part) for part in parts))))


def _is_noted(part: _Part, what: str) -> bool:
    """Tell whether what a guest names is noted on a part, or is what the part is called."""
    groups = groups_of(what)
    for noted in part.noted:
        if noted.casefold().strip() == what.casefold().strip() or set(groups) & set(groups_of(noted)):
            return True
    return not groups and has_words(part.item, what)


def _is_likely(part: _Part, what: str) -> bool:
    names = {each.name for each in groups_of(what)}
    if not names:
        return False
    if what.casefold().strip() in _ANY_NUT:
        names.add("peanuts")
        if any(each.name == "peanuts" for noted in part.noted for each in groups_of(noted)):
            return True
    return bool(names & set(likely_allergens(part.item))) or has_words(part.item, what)


def _because(part: _Part) -> str:
    item = short(part.item)
    if not part.through:
        return item
    return f"{item} in {part.through}" if item else part.through


def _parts(plan: Plan, dish: Dish) -> Iterator[_Part]:
    """Yield what is in a dish: its own, and all of every dish from which food comes over a link, however far.

    Food passes where the link brings some, or from a component, which is there for other dishes; of other links
    it is not known.
    """
    sure = _sources(plan, dish, known=True)
    every = _sources(plan, dish, known=False)
    for each in (dish, *every):
        through = "" if each is dish else short(each.name) or each.id
        certain = each is dish or each in sure
        yield _Part("", each.allergens, through, certain)
        yield from (_Part(one.item, one.allergens, through, certain) for one in each.ingredients)


def _sources(plan: Plan, dish: Dish, *, known: bool) -> tuple[Dish, ...]:
    found: dict[DishId, Dish] = {dish.id: dish}
    waiting = [dish]
    while waiting:
        steps = {step.id for step in waiting.pop().steps}
        for link in plan.menu.links:
            if link.kind is not LinkKind.END_TO_START or link.after not in steps:
                continue
            giver = plan.dish_of[link.before]
            if giver.id not in found and (not known or link.brings is not None or not giver.served):
                found[giver.id] = giver
                waiting.append(giver)
    return tuple(each for each in found.values() if each is not dish)


def say_conflict(plan: Plan, conflict: Conflict) -> str:
    """Return a conflict as a sentence of caution."""
    dish = short(plan.dishes[conflict.dish].name) or conflict.dish
    guest = next((each for each in plan.menu.guests if each.name == conflict.guest), Guest(conflict.guest))
    who = short(guest.name) + (f" ({guest.count})" if guest.count > 1 else "")
    what = short(conflict.what)
    where = join_words([short(each) for each in conflict.because])
    match conflict.why:
        case Why.NOTED:
            return f"{dish} is not for {who}: {what} noted{f', in {where}' if where else ''}."
        case Why.LIKELY if conflict.follows:
            has = f"{what} ({where})" if where else what
            return (
                f"{dish} may not be for {who}: it follows a dish with {has}, and it is not known whether any of it "
                "passes on."
            )
        case Why.LIKELY:
            has = f" ({where})" if where else ""
            return f"{dish} may not be for {who}: it likely has {what}{has}, which is not noted; check the label."
        case _:
            return f"{who} would not choose {dish}: {what}{f', in {where}' if where else ''}."


def strange_words(plan: Plan) -> tuple[str, ...]:
    """Return in sentences the allergens written in the plan that are none of the fourteen groups."""
    written = [
        *(each for guest in plan.menu.guests for each in guest.allergies),
        *(each for dish in plan.menu.dishes for each in dish.allergens),
        *(each for dish in plan.menu.dishes for item in dish.ingredients for each in item.allergens),
    ]
    strange = dict.fromkeys(each.strip().casefold() for each in written if each.strip() and not groups_of(each))
    return tuple(
        f"{quoted(each)} is none of the 14 groups of EU Regulation 1169/2011; it is looked for by that word only."
        for each in strange
    )


def guest_cautions(plan: Plan) -> tuple[str, ...]:
    """Return sentences about all guests and dishes, with what they are worth; none where no guest is told."""
    if not plan.menu.guests:
        return ()
    said = [say_conflict(plan, each) for each in conflicts(plan)]
    if not any(each.why is not Why.DISLIKED for each in conflicts(plan)):
        said.append("Nothing noted in the plan speaks against a dish for what the guests said they must not have.")
    at_risk = [f"{short(each.name)} ({short(each.at_risk)})" for each in plan.menu.guests if each.at_risk]
    if at_risk:
        said.append(
            f"At more risk from food: {join_words(at_risk)}. No raw or lightly cooked egg, fish, shellfish or meat and"
            " no raw-milk cheese without the word of who looks after their health and of your food code."
        )
    return (*said, *strange_words(plan), REMARK)
