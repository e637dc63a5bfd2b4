"""The usual cautions that a plan's foods ask for by their names and by what is done with them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from core.measures.words import join_words
from core.plan.check_words import short
from core.plan.food import Effect
from core.safety.case import Case
from core.safety.foods import foods_of

_KIDNEY = re.compile(r"\bkidney beans?\b")
_SPROUTS = re.compile(
    r"\b(?:bean ?|alfalfa |clover |radish |mung ?(?:bean )?|lentil |seed )sprouts?\b|\bsprouted\b"
)
_INFANT = re.compile(r"\b(?:bab(?:y|ies)|infants?|toddlers?|months?|newborn)\b")
_UNDER_OIL = re.compile(
    r"\binfuse\b.*\boil\b|\b(?:garlic|herb|chilli) oil\b|\bunder oil\b|\bgarlic confit\b|\bconfit\b.*\bgarlic\b"
)
_RISKY = re.compile(
    r"\bsmoked (?:salmon|trout|mackerel|haddock|eel|fish)\b|\bgravlax\b|\bp[âa]t[ée]\b|\b(?:brie|camembert|roquefort|"
    r"gorgonzola|stilton|blue cheese|raw[- ]milk|unpasteuri[sz]ed|salami|prosciutto|parma ham)\b"
)
_STUFFED = re.compile(r"\bstuff(?:ed|ing)?\b")
_GAME = re.compile(r"\b(?:venison|rabbit|hare|wild boar)\b")
_TINNED = re.compile(r"\b(?:tinned|canned|tin|can|cooked|jar)\b")


def usual_cautions(case: Case) -> Iterator[str]:
    """Yield a caution each on used marinades, beans, sprouts, honey for infants, food under oil: what the plan has."""
    yield from _of_soaking(case)
    yield from _of_names(case)
    yield from _of_guests(case)
    yield from _of_meat(case)
    again = [case.facts.words.dish(story.food.dish) for story in case.stories if len(story.reheated) > 1]
    if again:
        source = "FSA, cooking and reheating advice, read second-hand"
        yield f"{_named(again)}: food in it is reheated more than once; once only ({source})."
    if any(_UNDER_OIL.search(step.does.casefold()) for step in case.plan.steps.values()):
        yield (
            "Garlic, herbs and vegetables under oil can carry botulism without smell or taste: in the fridge, eaten"
            " within 4 days, never kept in the room (university extension services, from memory)."
        )


def _of_soaking(case: Case) -> Iterator[str]:
    soaked = [
        short(story.food.item)
        for story in case.stories
        if story.food.raw_animal
        and any(
            not each.waits and each.done.effect is Effect.MARINATE and not each.done.rubbed
            for each in story.stretches
        )
    ]
    if soaked:
        yield (
            f"Marinade or brine in which {_named(soaked)} lay raw is boiled before any of it is eaten, or thrown away"
            " (USDA FSIS, Poultry: Basting, Brining, and Marinating, read second-hand)."
        )


def _of_names(case: Case) -> Iterator[str]:
    items = [food.item.casefold() for food in foods_of(case.plan)]
    if any(_KIDNEY.search(each) and not _TINNED.search(each) for each in items):
        yield (
            "Dried kidney beans are poisonous until they are boiled hard: soaked 5 h or longer, that water poured away,"
            " then 30 min at a full boil in fresh water; a slow cooker is not hot enough (US FDA, Bad Bug Book, from"
            " memory)."
        )
    if any(_SPROUTS.search(each) for each in items):
        yield (
            "Raw or lightly cooked sprouts: not for the pregnant, the very young, the old and the ill (FoodSafety.gov,"
            " People at Risk of Food Poisoning, from memory)."
        )
    risks = [guest.at_risk.casefold() for guest in case.plan.menu.guests if guest.at_risk]
    if any("honey" in each.split() for each in items) and any(_INFANT.search(each) for each in risks):
        yield "Honey is not for children under 12 months: infant botulism (US CDC, from memory)."


def _of_guests(case: Case) -> Iterator[str]:
    risky = [short(food.item) for food in foods_of(case.plan) if _RISKY.search(food.item.casefold())]
    if case.at_risk and risky:
        yield (
            f"For {join_words(list(case.at_risk))}, at higher risk: {_named(risky)} only if heated to 73.9 °C (165 °F),"
            " or by the word of who looks after their health (FoodSafety.gov, People at Risk of Food Poisoning, from"
            " memory)."
        )


def _of_meat(case: Case) -> Iterator[str]:
    raw = {food.dish for food in foods_of(case.plan) if food.raw_animal}
    words = [
        (dish.id, " ".join((dish.name, *(step.does for step in dish.steps))))
        for dish in case.plan.menu.dishes
    ]
    if any(dish in raw and _STUFFED.search(said.casefold()) for dish, said in words):
        yield (
            "What is stuffed is cooked until the middle of its stuffing has 73.9 °C (165 °F), whatever its meat asks"
            " for (USDA FSIS, read second-hand; Food Code 3-401.11(A)(3))."
        )
    game = [short(food.item) for food in foods_of(case.plan) if _GAME.search(food.item.casefold())]
    if game:
        yield (
            f"Game ({_named(game)}): 71.1 °C (160 °F) in the middle (USDA FSIS, Game from Farm to Table, from memory);"
            " shot in the wild, 74 °C (165 °F) by Food Code 3-401.11(A)(3) where you cook for others."
        )


def _named(items: list[str]) -> str:
    return join_words(list(dict.fromkeys(items)))
