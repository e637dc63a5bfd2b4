"""Guests and dishes: what is noted, what is likely, what is not liked; through other dishes too; always a caution."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.allergens import (
    NAMES,
    REMARK,
    Conflict,
    Why,
    conflicts,
    groups_of,
    guest_cautions,
    likely_allergens,
    say_conflict,
    strange_words,
)
from core.measures.quantity import Quantity
from core.plan.menu import Dish, Guest, Ingredient, LinkKind
from core.plan.plan import Plan
from tests.support.builders import a_dish, a_link, a_plan, a_step


def tart(*ingredients: Ingredient, **fields: object) -> Dish:
    return a_dish("tart", a_step("tart.bake"), ingredients=ingredients, **fields)


def fed(*dishes: Dish, guests: tuple[Guest, ...] = (Guest("Orla", allergies=("milk",)),), links: tuple = ()) -> Plan:
    plan = a_plan(*dishes, links=links)
    return replace(plan, menu=replace(plan.menu, guests=guests))


CREAM = Ingredient("double cream", allergens=("milk",))
BUTTER = Ingredient("butter")


def test_what_is_noted_on_an_ingredient_speaks_against_its_dish() -> None:
    plan = fed(tart(CREAM, BUTTER))
    (found,) = conflicts(plan)
    assert found == Conflict("Orla", "tart", "milk", Why.NOTED, ("double cream",))
    assert say_conflict(plan, found) == "Tart is not for Orla: milk noted, in double cream."


def test_what_is_noted_on_the_dish_does_too() -> None:
    plan = fed(tart(allergens=("Milk",)))
    (found,) = conflicts(plan)
    assert say_conflict(plan, found) == "Tart is not for Orla: milk noted."


def test_what_is_usual_but_not_noted_is_a_proposal_only() -> None:
    plan = fed(tart(BUTTER))
    (found,) = conflicts(plan)
    assert found.why is Why.LIKELY
    assert say_conflict(plan, found) == (
        "Tart may not be for Orla: it likely has milk (butter), which is not noted; check the label."
    )


def test_words_for_a_group_or_a_part_of_it_meet() -> None:
    pairs = (("lactose", "milk"), ("almonds", "nuts"), ("nuts", "walnuts"), ("Eggs", "egg"), ("wheat", "gluten"))
    for guest, noted in pairs:
        plan = fed(tart(Ingredient("filling", allergens=(noted,))), guests=(Guest("Orla", allergies=(guest,)),))
        assert [each.why for each in conflicts(plan)] == [Why.NOTED], (guest, noted)
    shellfish = (Guest("Orla", allergies=("shellfish",)),)
    for noted in ("crustaceans", "molluscs"):
        assert conflicts(fed(tart(Ingredient("filling", allergens=(noted,))), guests=shellfish))
    assert not conflicts(fed(tart(Ingredient("filling", allergens=("fish",))), guests=shellfish))


def test_an_allergy_that_is_none_of_the_fourteen_is_looked_for_by_its_words() -> None:
    kiwi = (Guest("Orla", allergies=("kiwi",)),)
    plan = fed(tart(Ingredient("Kiwis, ripe")), guests=kiwi)
    assert [each.why for each in conflicts(plan)] == [Why.NOTED]
    assert not conflicts(fed(tart(Ingredient("kiwiberry leaf")), guests=kiwi))
    assert strange_words(plan) == (
        '"kiwi" is none of the 14 groups of EU Regulation 1169/2011; it is looked for by that word only.',
    )


def test_what_is_not_liked_is_said_mildly_and_after_the_allergies() -> None:
    reeds = Guest("the Reeds", 4, ("milk",), ("olives", "fish"))
    plan = fed(tart(Ingredient("olive oil"), Ingredient("anchovies"), CREAM), guests=(reeds,))
    assert [say_conflict(plan, each) for each in conflicts(plan)] == [
        "Tart is not for the Reeds (4): milk noted, in double cream.",
        "the Reeds (4) would not choose Tart: olives, in olive oil.",
        "the Reeds (4) would not choose Tart: fish, in anchovies.",
    ]


def test_what_comes_from_other_dishes_comes_along_however_far() -> None:
    browned = a_dish("butter", a_step("butter.brown"), name="Browned butter", served=False, ingredients=(CREAM,))
    crumb = a_dish("crumb", a_step("crumb.toss"), served=False)
    links = (
        a_link("butter.brown", "crumb.toss", brings=Quantity(Fraction(50), "g")),
        a_link("crumb.toss", "tart.bake"),
    )
    plan = fed(tart(), crumb, browned, links=links)
    (found,) = conflicts(plan)
    assert say_conflict(plan, found) == "Tart is not for Orla: milk noted, in double cream in Browned butter."
    # what nothing leads from, or only binds starts, brings nothing; a component is not eaten by itself
    assert not conflicts(fed(tart(), crumb, browned, links=links[:1]))
    bound = (links[0], replace(links[1], kind=LinkKind.START_TO_START))
    assert not conflicts(fed(tart(), crumb, browned, links=bound))


def test_dishes_that_feed_each_other_end() -> None:
    one = a_dish("one", a_step("one.a"), a_step("one.b"), ingredients=(CREAM,))
    two = a_dish("two", a_step("two.a"), a_step("two.b"))
    plan = fed(one, two, links=(a_link("one.a", "two.a"), a_link("two.b", "one.b")))
    assert [each.dish for each in conflicts(plan)] == ["one", "two"]


@pytest.mark.parametrize(
    ("item", "groups"),
    [
        ("plain flour", ("gluten",)),
        ("Eggs, large", ("egg",)),
        ("crème fraîche", ("milk",)),
        ("goat's curd", ("milk",)),
        ("coconut milk", ()),
        ("almond milk", ("nuts",)),
        ("peanut butter", ("peanuts",)),
        ("butter beans", ()),
        ("rice flour", ()),
        ("gluten-free flour", ()),
        ("lactose-free milk", ("milk",)),
        ("anchovies", ("fish",)),
        ("oyster mushrooms", ()),
        ("oysters", ("molluscs",)),
        ("celeriac", ("celery",)),
        ("egg noodles", ("gluten", "egg")),
        ("potatoes", ()),
        ("eggplant", ()),
        ("", ()),
    ],
)
def test_likely_allergens_of_common_foods(item: str, groups: tuple[str, ...]) -> None:
    assert likely_allergens(item) == groups


@given(st.text(max_size=40))
def test_whatever_is_written_likely_allergens_are_among_the_fourteen(item: str) -> None:
    found = likely_allergens(item)
    assert list(found) == [each for each in NAMES if each in found]


def test_cautions_defer_to_labels_and_promise_nothing() -> None:
    assert guest_cautions(fed(tart(CREAM), guests=())) == ()
    said = guest_cautions(fed(tart(), guests=(Guest("Orla", at_risk="pregnant"),)))
    assert said[0] == "Nothing noted in the plan speaks against a dish for what the guests said they must not have."
    assert said[1].startswith("At more risk from food: Orla (pregnant). No raw or lightly cooked egg")
    assert said[-1] == REMARK
    assert not any("safe" in each for each in said)
    against = guest_cautions(fed(tart(CREAM)))
    assert not any(each.startswith("Nothing noted") for each in against)
    assert against[-1] == REMARK


def test_words_that_mean_no_group() -> None:
    assert groups_of("moon dust") == ()
    assert [each.name for each in groups_of(" Soy ")] == ["soya"]


def test_of_a_served_dish_that_another_follows_it_is_not_known_whether_anything_passes_on() -> None:
    first = a_dish("beans", a_step("beans.boil"), ingredients=(Ingredient("butter", allergens=("milk",)),))
    then = a_dish("fritters", a_step("fritters.boil"))
    link = a_link("beans.boil", "fritters.boil")
    own, other = conflicts(fed(first, then, links=(link,)))
    assert (own.dish, own.why, own.follows) == ("beans", Why.NOTED, False)
    assert (other.dish, other.why, other.follows, other.because) == ("fritters", Why.LIKELY, True, ("butter in Beans",))
    plan = fed(first, then, links=(link,))
    said = say_conflict(plan, other)
    assert "may not be for Orla" in said
    assert "not known whether any of it passes on" in said
    brings = replace(link, brings=Quantity(Fraction(1), "l"))
    assert [each.why for each in conflicts(fed(first, then, links=(brings,)))] == [Why.NOTED, Why.NOTED]
