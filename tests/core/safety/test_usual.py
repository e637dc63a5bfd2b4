"""The usual cautions that a plan's foods ask for, and the kinds that their names suggest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.plan.food import FoodKind
from core.plan.menu import Guest
from core.plan.step import Doneness
from core.safety.proposals import proposed_kind
from tests.core.safety.planted import at, dish, food, plan_of, report, told
from tests.support.builders import a_use, hands_off

DONE = Doneness(core=80)
FRIDGE = (a_use("fridge", area=100, height=5),)
RING = (a_use(),)


# ---------------------------------------------------------------- the usual cautions


def usual(*items: str, does: str = "Stir") -> tuple[str, ...]:
    lines = tuple(food(item, None) for item in items)
    plan = plan_of(
        replace(dish("x", lines[0], hands_off("x.stir", 10, does=does, uses=FRIDGE)), ingredients=lines)
    )
    return report(plan, at("x.stir", -20, 10, "fridge/0")).cautions


def test_what_raw_meat_lay_in_is_boiled_or_thrown_away() -> None:
    (found,) = [
        each for each in usual("chicken thighs", "yoghurt", does="Marinate") if "marinade" in each.casefold()
    ]
    assert "boiled" in found
    assert "USDA FSIS" in found
    assert not usual("aubergines", does="Marinate")
    assert not [each for each in usual("chicken thighs", does="Store") if "marinade" in each.casefold()]


@pytest.mark.parametrize(("item", "said"), [
    ("dried red kidney beans", "boil"), ("bean sprouts", "sprouts"), ("alfalfa sprouts", "sprouts"),
])  # fmt: skip
def test_beans_and_sprouts_have_their_caution(item: str, said: str) -> None:
    assert any(said in each and "from memory" in each for each in usual(item))


@pytest.mark.parametrize("item", ["Brussels sprouts", "tinned kidney beans", "lamb kidneys", "green beans"])
def test_what_needs_no_such_caution_has_none(item: str) -> None:
    assert not [
        each for each in usual(item) if "beans" in each or "sprouts" in each.replace("Brussels sprouts", "")
    ]


def test_honey_for_an_infant() -> None:
    plan = plan_of(dish("x", food("honey", None), hands_off("x.stir", 10)))
    for risk, said in (("8 months old", 1), ("a baby", 1), ("pregnant", 0)):
        guests = replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", at_risk=risk),)))
        found = report(guests, at("x.stir", -20, 10)).cautions
        assert sum("Honey" in each and "12 months" in each for each in found) == said


@pytest.mark.parametrize(("does", "said"), [
    ("Infuse the oil with garlic", 1), ("Put the garlic under oil", 1), ("Make the garlic oil", 1), ("Fry in oil", 0),
])  # fmt: skip
def test_what_is_kept_under_oil(does: str, said: int) -> None:
    assert sum("botulism" in each for each in usual("garlic", "oil", does=does)) == said


@pytest.mark.parametrize(("item", "said"), [
    ("smoked salmon", 1), ("brie", 1), ("raw-milk cheese", 1), ("chicken liver pâté", 1), ("salami", 1), ("milk", 0),
    ("smoked paprika", 0),
])  # fmt: skip
def test_what_is_ready_to_eat_may_not_be_for_guests_at_risk(item: str, said: int) -> None:
    plan = plan_of(dish("x", food(item, None), hands_off("x.slice", 10)))
    assert not [each for each in report(plan, at("x.slice", -20, 10)).cautions if "Orla" in each]
    guests = replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", at_risk="pregnant"),)))
    found = [each for each in report(guests, at("x.slice", -20, 10)).cautions if "Orla" in each]
    assert len(found) == said
    assert all("People at Risk" in each for each in found)


@pytest.mark.parametrize(("does", "item", "said"), [
    ("Stuff and tie", "pork loin", 1), ("Fill with the stuffing", "squid", 1), ("Stuff", "aubergines", 0),
    ("Tie", "pork loin", 0),
])  # fmt: skip
def test_what_is_stuffed_is_cooked_to_its_middle(does: str, item: str, said: int) -> None:
    """USDA FSIS: stuffing 165 F; Food Code 3-401.11(A)(3): stuffed meat, fish, poultry and pasta; R."""
    assert sum("stuff" in each and "165 °F" in each for each in usual(item, does=does)) == said


@pytest.mark.parametrize(
    ("item", "said"), [("venison haunch", 1), ("rabbit", 1), ("wild boar", 1), ("beef", 0)]
)
def test_game_has_its_own_core(item: str, said: int) -> None:
    assert sum("160 °F" in each and "Game" in each for each in usual(item)) == said


def test_what_is_reheated_twice_is_told() -> None:
    """FSA, cooking and reheating advice: reheated once; R2."""
    names = [
        *(("a", "Chill", FRIDGE, -900), ("b", "Reheat", RING, -600)),
        *(("c", "Chill", FRIDGE, -560), ("d", "Reheat", RING, -60)),
    ]
    for count, said in ((2, 0), (4, 1)):
        steps = [
            (
                hands_off(f"x.{name}", 30, does=does, uses=uses, doneness=DONE if uses is RING else None),
                at(f"x.{name}", start, 30, "fridge/1" if does == "Chill" else ""),
            )
            for name, does, uses, start in names[:count]
        ]
        found = told(food("soup", FoodKind.READY), *steps)
        assert sum("reheated more than once" in each for each in found.cautions) == said


# ---------------------------------------------------------------- kinds that are guessed from names


@pytest.mark.parametrize(("item", "kind"), [
    ("beef patties", FoodKind.GROUND_MEAT), ("pork meatballs", FoodKind.GROUND_MEAT),
    ("hamburgers", FoodKind.GROUND_MEAT), ("lamb kofta", FoodKind.GROUND_MEAT),
    ("turkey meatballs", FoodKind.GROUND_POULTRY), ("beef tartare", FoodKind.GROUND_MEAT),
    ("salmon tartare", FoodKind.FISH), ("sauce tartare", FoodKind.KEEPS),
    ("chicken thighs, salt", FoodKind.POULTRY), ("leg of lamb with rosemary", FoodKind.WHOLE_CUT),
    ("whole chicken with lemon juice", FoodKind.POULTRY), ("salmon fillet (dill)", FoodKind.FISH),
    ("pork shoulder in cider", FoodKind.WHOLE_CUT), ("chicken in breadcrumbs", FoodKind.POULTRY),
    ("butter chicken", FoodKind.POULTRY), ("mussels in white wine", FoodKind.SHELLFISH),
    ("turkey with gravy", FoodKind.POULTRY), ("eggs, flour", FoodKind.EGGS), ("ham in cider", FoodKind.READY),
    ("bacon", FoodKind.WHOLE_CUT), ("smoked bacon", FoodKind.WHOLE_CUT),
    ("chicken legs, cooked", FoodKind.READY), ("prawns, tinned", FoodKind.KEEPS), ("tuna in oil", FoodKind.KEEPS),
    ("anchovies in olive oil", FoodKind.KEEPS), ("salmon in oil", FoodKind.FISH),
    ("stock from chicken bones", FoodKind.READY), ("beef stock and wine", FoodKind.READY),
    ("chicken and beef stock", FoodKind.READY), ("salt and pepper steak", FoodKind.WHOLE_CUT),
    ("peanut butter", FoodKind.KEEPS), ("butter", FoodKind.KEEPS), ("bread and butter", FoodKind.KEEPS),
    ("chicken salad", FoodKind.CUT_PRODUCE),
])  # fmt: skip
def test_what_comes_with_raw_food_does_not_make_it_keep(item: str, kind: FoodKind) -> None:
    assert proposed_kind(item) is kind
