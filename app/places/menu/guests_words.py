"""How a guest is typed on one line, and what is said of guests in short."""

from __future__ import annotations

import re
from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from core.measures.refusal import Refusal
from core.plan.ids import DishId
from core.plan.menu import Guest, Menu
from core.plan.plan import Plan

RISKS = ("pregnant", "under 5", "over 65", "weak immune system")
_NUMBERS = ("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_COUNTED = re.compile(rf"^(\d{{1,4}}|{'|'.join(_NUMBERS)})\s*[x×]?\s+(?=\S)", re.IGNORECASE)
_BEFORE = re.compile(r"^(?:allergic to|allergy to|no|not|without)\s+", re.IGNORECASE)
_NEEDS = re.compile(r"\s+(?=(?:allergic to|no|without)\s)", re.IGNORECASE)


def said(words: str) -> str:
    """Return words of this file in the cook's language."""
    return QCoreApplication.translate("guests", words)


def read_guest(text: str, taken: frozenset[str] = frozenset()) -> Guest:
    """Return the guest that a line such as "2 Reeds: milk, nuts, no coriander" stands for.

    Words that mean one of the fourteen groups are allergies, those of `RISKS` say why illness would be worse,
    all others are what the guest does not like. Without a name it is "a guest". `taken`: names in use.
    The colon may be forgotten ("Orla, milk", "Orla no nuts", "no nuts"): no need is lost inside a name.
    """
    from core.food.allergens import groups_of

    head, tail = _parted(text)
    head = " ".join(head.split())
    if not head and not tail.strip():
        raise Refusal(said("Nothing is written here yet; write a name, or a colon and what the guest must not have."))
    count = _COUNTED.match(head)
    name = head[count.end() :] if count else head
    if name.isdecimal():
        sentence = said("{number} says how many, not who: write a name after it, or the number at “How many sit down”.")
        raise Refusal(sentence.format(number=name))
    words = [_BEFORE.sub("", " ".join(part.split())) for part in tail.split(",")]
    words = [word for word in words if word]
    risk = [word for word in words if word.casefold() in RISKS]
    allergies = [_named(word) for word in words if groups_of(word)]
    other = [word for word in words if word not in risk and not groups_of(word)]
    return Guest(
        name or free_name(said("a guest"), taken),
        _number(count.group(1)) if count else 1,
        tuple(dict.fromkeys(allergies)),
        tuple(dict.fromkeys(other)),
        ", ".join(risk),
    )


def _parted(text: str) -> tuple[str, str]:
    """Return who it is, and what they must not have; the colon between them may be missing."""
    from core.food.allergens import groups_of

    head, colon, tail = text.partition(":")
    if colon:
        return head, tail
    first, _comma, rest = text.strip().partition(",")
    if _BEFORE.match(first) or groups_of(first):
        return "", text
    name, *needs = _NEEDS.split(first, maxsplit=1)
    return name, ", ".join(filter(None, (*needs, rest)))


def _number(word: str) -> int:
    return int(word) if word.isdecimal() else _NUMBERS.index(word.casefold()) + 2


def free_name(name: str, taken: frozenset[str]) -> str:
    """Return a name, with a number where others bear it already."""
    number, free = 1, name
    while free in taken:
        number += 1
        free = f"{name} {number}"
    return free


def _named(word: str) -> str:
    """Return the short name of a group for itself in the plural or with capitals; any other word as it is."""
    from core.food.allergens import NAMES

    plain = word.casefold()
    return next((name for name in NAMES if plain.removesuffix("s") == name.removesuffix("s")), word)


def with_other_allergies(guest: Guest, words: tuple[str, ...]) -> Guest:
    """Return a guest whose allergies in other words than the fourteen short names are these."""
    others = other_allergies(guest)
    kept = [each for each in guest.allergies if each not in others]
    return replace(guest, allergies=tuple(dict.fromkeys((*kept, *map(_named, words)))))


def other_allergies(guest: Guest) -> tuple[str, ...]:
    """Return a guest's allergies in other words than the fourteen short names ("almonds", "kiwi")."""
    from core.food.allergens import NAMES

    return tuple(each for each in guest.allergies if each not in NAMES)


def count_words(menu: Menu) -> str:
    """Return how many sit down and how many of them something is said of; "" where nothing is told."""
    named = sum(each.count for each in menu.guests)
    if menu.covers is None:
        return said("{number} told of").format(number=named) if named else ""
    sits = said("1 sits down") if menu.covers == 1 else said("{number} sit down").format(number=menu.covers)
    return said("{sits}, {number} told of").format(sits=sits, number=named) if named else sits


def button_words(menu: Menu) -> str:
    """Return what stands on the button that opens the guests."""
    number = menu.covers if menu.covers is not None else sum(each.count for each in menu.guests)
    return said("Guests") if not number else said("Guests: {number}").format(number=number)


def care_words(against: int) -> str:
    """Return of how many dishes there is something that somebody cannot eat; "" for none."""
    if against < 2:
        return said("1 dish is not for everybody") if against else ""
    return said("{number} dishes are not for everybody").format(number=against)


def too_many(menu: Menu) -> str:
    """Return the sentence about more guests told of than sit down; "" where they fit."""
    named = sum(each.count for each in menu.guests)
    if menu.covers is None or named <= menu.covers:
        return ""
    return said("{named} guests are told of below, but {covers} sit down; one of the numbers is wrong.").format(
        named=named, covers=menu.covers
    )


def unknown_words(plan: Plan) -> str:
    """Return which dishes nothing can be said of, because nothing is written of what is in them; "" for none."""
    if not any(guest.allergies for guest in plan.menu.guests):
        return ""
    dishes = [
        dish.name
        for dish in plan.menu.dishes
        if dish.served and not dish.ingredients and not dish.allergens and not _gets(plan, dish.id)
    ]
    if not dishes:
        return ""
    return said("No ingredients are written of {dishes}: nothing can be said of that.").format(dishes=", ".join(dishes))


def _gets(plan: Plan, dish: DishId) -> bool:
    return any(
        plan.dish_of[link.after].id == dish and plan.dish_of[link.before].id != dish for link in plan.menu.links
    )
