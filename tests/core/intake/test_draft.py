"""Drafts: where each value stands, what stays open, and the dish that a confirmed draft becomes."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from core.intake.draft import Draft, Open, dish_of, draft_of, drafts_in, drafts_of_text, without_length
from core.intake.draft_names import named_by, singular
from core.intake.draft_sentences import sentences
from core.intake.draft_yield import servings_in
from core.intake.pages.read import pasted
from core.measures import Quantity, Refusal
from core.plan.check import problems
from core.plan.ids import DishId
from core.plan.kitchen import StationKind
from core.plan.menu import Menu
from core.plan.plan import Plan
from core.plan.step import Attention, Span
from tests.core.intake.pages.test_pages_schema import recipe_json
from tests.support.builders import a_kitchen, a_moment

PAGES = Path(__file__).parent / "pages"
TEN = Span.of(10)


def draft_in(name: str) -> Draft:
    (found,) = drafts_in(PAGES / name)
    return found


def draft_of_json(**more: object) -> Draft:
    return draft_of(pasted(recipe_json(**more))[0])


def asked(draft: Draft, about: Open) -> list[str]:
    return [each.sentence for each in draft.questions if each.about is about]


def words_of(draft: Draft, what: str, step: int | None = None, ingredient: int | None = None) -> list[str]:
    return [
        draft.words(each.start, each.end)
        for each in draft.origins
        if (each.what, each.step, each.ingredient) == (what, step, ingredient)
    ]


# ---------------------------------------------------------------- what was read, and where


def test_each_value_has_the_words_it_came_from() -> None:
    draft = draft_in("headed.txt")
    assert words_of(draft, "name") == ["Leek and barley bake"]
    assert words_of(draft, "servings") == ["Serves 4-6"]
    assert words_of(draft, "quantity", ingredient=0) == ["200g"]
    assert words_of(draft, "preparation", ingredient=1) == ["washed and sliced"]
    last = len(draft.steps) - 1
    assert words_of(draft, "length", step=last) == ["30 to 35 minutes"]
    assert words_of(draft, "heat", step=last) == ["180C"], "told two sentences earlier"
    assert words_of(draft, "step", step=last) == ["Scatter over and bake for 30 to 35 minutes until golden"]


def test_steps_come_with_lengths_places_heats_and_order() -> None:
    draft = draft_in("headed.txt")
    bake = draft.steps[-1]
    assert bake.length == Span(30, 33, 35)
    assert bake.kind is StationKind.OVEN
    assert bake.heat is not None
    assert bake.heat.celsius == 180
    assert [each.after for each in draft.steps] == [(), (0,), (1,), (2,), (3,)]
    assert draft.sections[-1] == "For the crust"


def test_ingredients_are_bound_to_the_step_that_names_them() -> None:
    draft = draft_in("headed.txt")
    bound = {
        each.line.item: None if each.step is None else draft.steps[each.step].does
        for each in draft.ingredients
    }
    assert bound["pearl barley"] == "Boil the barley"
    assert bound["leeks"] == bound["olive oil"] == "Sweat the leeks in the oil"
    assert bound["butter"] == "Mix the crumbs with the butter", "of its own section"
    assert bound["breadcrumbs"] == "Mix the crumbs with the butter", "crumbs are the end of the word"


@pytest.mark.parametrize(
    ("items", "steps", "found"),
    [
        (["plain flour", "rice flour"], ["Sift the flour", "Add the rice flour"], (None, 1)),
        (["chicken thighs"], ["Brown the chicken"], (0,)),
        (["tomatoes"], ["Slice a tomato"], (0,)),
        (["salt and pepper"], ["Boil it", "Season with pepper"], (1,)),
        (["leg of lamb"], ["Rub the lamb with salt"], (0,)),
        (["bay leaves"], ["Put in the bay leaves"], (0,)),
        (["ham"], ["Shame on a hamper"], (None,)),
        (["onion"], [], (None,)),
        (["rye", "salt"], ["Soak the rye", "Mix everything"], (0, 1)),
        (["rye", "salt"], ["Mix the remaining ingredients", "Salt it"], (0, 1)),
        (["salt"], ["Mix the dry ingredients"], (None,)),
    ],
)
def test_which_step_names_what(items: list[str], steps: list[str], found: tuple[int | None, ...]) -> None:
    assert named_by([(each, "") for each in items], [(each, "") for each in steps]) == found


def test_plurals_come_to_one_word() -> None:
    assert [singular(each) for each in ("tomatoes", "berries", "leaves", "glass", "asparagus", "peas", "peaches")] == [
        "tomato", "berry", "leaf", "glass", "asparagus", "pea", "peach",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("Boil it. Then cool it.", ["Boil it.", "Then cool it."]),
        ("Bake at 180C. 10 minutes later, turn it.", ["Bake at 180C. 10 minutes later, turn it."]),
        ("Add approx. 20 g salt. Stir!", ["Add approx. 20 g salt.", "Stir!"]),
        ("Bake for 20 min. Turn it.", ["Bake for 20 min.", "Turn it."]),
        ("Bake for 20 min. at most", ["Bake for 20 min. at most"]),
        (
            "Use 1.5 l water (hot). Is it done? Drain it",
            ["Use 1.5 l water (hot).", "Is it done?", "Drain it"],
        ),
        ("", []),
    ],
)
def test_sentences_are_cut_where_they_end(text: str, cut: list[str]) -> None:
    assert [text[start:end] for start, end in sentences(text, 0, len(text))] == cut


# ---------------------------------------------------------------- what stays open


def test_nothing_is_invented_a_step_without_a_length_has_none() -> None:
    draft = draft_in("graph.html")
    missing = without_length(draft, {})
    assert [draft.steps[at].does for at in missing] == [
        "Fold in the squash",
        "Squeeze the lemon over the seeds",
    ]
    musts = [each for each in draft.questions if each.must]
    assert [each.step for each in musts] == list(missing)
    assert draft.words(musts[0].start, musts[0].end) == "Fold in the squash"
    with pytest.raises(Refusal, match=r'does not tell how long these take: "Fold in the squash"'):
        dish_of(draft, DishId("pot"))
    with pytest.raises(Refusal, match="Squeeze the lemon"):
        dish_of(draft, DishId("pot"), {missing[0]: TEN})
    dish, _links = dish_of(draft, DishId("pot"), dict.fromkeys(missing, TEN))
    assert [step.length for step in dish.steps if step.note] == [TEN, TEN]


@pytest.mark.parametrize(
    ("words", "servings", "asks"),
    [
        ("Serves 4", 4, False), ("6 servings", 6, False), ("4", 4, False), ("for 8 people", 8, False),
        ("Feeds ten", 10, False),
        ("Serves 4-6", 4, True), ("1 loaf", 1, True), ("Makes 24", 24, True), ("12 rolls", 12, True),
        ("a few", None, True),
        ("", None, True), ("0 servings", None, True),
    ],
)  # fmt: skip
def test_servings(words: str, servings: int | None, asks: bool) -> None:
    found, sentence = servings_in(words)
    assert found == servings
    assert bool(sentence) is asks


def test_a_recipe_that_tells_no_servings_is_written_once() -> None:
    draft = draft_of_json(recipeIngredient=["1 leek"], recipeInstructions="Boil the leek for 5 minutes.")
    assert draft.servings is None
    assert asked(draft, Open.SERVINGS) == ["The page does not say how many the recipe serves."]
    dish, _links = dish_of(draft, DishId("leek"))
    assert (dish.written_for, dish.wanted) == (1, 1)
    assert dish_of(draft, DishId("leek"), servings=6)[0].written_for == 6


def test_times_of_the_page_that_do_not_agree_are_said() -> None:
    steps = "Boil it for 20 minutes. Bake it at 200C for 1 hour."
    agree = draft_of_json(recipeInstructions=steps, prepTime="PT20M", cookTime="PT1H")
    assert asked(agree, Open.TIMES) == []
    (longer,) = asked(draft_of_json(recipeInstructions=steps, totalTime="PT40M"), Open.TIMES)
    assert (
        longer
        == "The page tells 40 min in all; the lengths in its steps come to 1 h 20 min, which is longer."
        " Are some done at the same time?"
    )
    (shorter,) = asked(draft_of_json(recipeInstructions=steps, totalTime="PT3H"), Open.TIMES)
    assert "which is shorter. Is a step missing?" in shorter
    (parts,) = asked(
        draft_of_json(recipeInstructions=steps, prepTime="PT5M", cookTime="PT20M", totalTime="PT80M"),
        Open.TIMES,
    )
    assert parts == "The page's parts come to 25 min, its time in all is 1 h 20 min."
    (left,) = asked(draft_of_json(recipeInstructions=f"{steps} Carve it.", totalTime="PT100M"), Open.TIMES)
    assert left.endswith("20 min would be left for the one without a length.")


def test_p25m_is_25_months_and_is_not_taken() -> None:
    """P25M is 25 months, PT25M 25 minutes: W3C XML Schema 1.1 Part 2, duration (standards.md, item 53)."""
    draft = draft_in("nested.json")
    assert draft.told.preparing is None
    (sentence,) = asked(draft, Open.TIMES)
    assert "counts months or years; for minutes write a T first, as in PT25M" in sentence
    minutes = draft_of_json(recipeInstructions="Boil it for 25 minutes.", prepTime="PT25M")
    assert minutes.told.preparing == 25
    assert asked(minutes, Open.TIMES) == []


def test_times_that_nobody_filled_in_are_no_times() -> None:
    draft = draft_of_json(recipeInstructions="Boil it for 25 minutes.", prepTime="PT0M", totalTime="P0DT0H0M")
    assert draft.told.total is None
    assert asked(draft, Open.TIMES) == []


def test_a_range_of_an_amount_and_a_thing_without_a_name_are_asked() -> None:
    draft = draft_of_json(recipeIngredient=["2-3 leeks", "½ tsp"])
    assert asked(draft, Open.AMOUNT) == ["The line says 2-3: 3 is taken, the greater amount."]
    assert asked(draft, Open.ITEM) == ['"½ tsp" does not say of what.']


def test_a_page_without_a_name_says_so() -> None:
    (draft,) = drafts_of_text("Ingredients\n1 leek\nMethod\nBoil it for 5 minutes.\n")
    assert draft.name == "Recipe"
    assert asked(draft, Open.NAME) == ["The page does not say what the dish is called."]


# ---------------------------------------------------------------- the dish


@pytest.mark.parametrize(
    "name", sorted(each.name for each in PAGES.iterdir() if each.suffix in (".html", ".txt", ".json"))
)
def test_every_page_becomes_a_sound_dish(name: str) -> None:
    draft = draft_in(name)
    dish, links = dish_of(draft, DishId("dish"), dict.fromkeys(without_length(draft, {}), TEN))
    plan = Plan("Supper", a_moment(), Menu((dish,), links), a_kitchen())
    assert problems(plan) == ()
    assert len({step.id for step in dish.steps}) == len(dish.steps) == len(draft.steps)
    assert len(dish.ingredients) == len(draft.ingredients)


def test_a_dish_has_what_its_recipe_tells() -> None:
    draft = draft_in("graph.html")
    dish, links = dish_of(draft, DishId("pot"), dict.fromkeys(without_length(draft, {}), TEN))
    roast = dish.steps[0]
    assert (roast.id, roast.length, roast.attention) == ("pot.roast-squash", Span.of(40), Attention.HANDS_OFF)
    assert roast.uses[0].kind is StationKind.OVEN
    assert roast.uses[0].heat is not None
    assert roast.uses[0].heat.setting == 200
    assert roast.doneness is not None
    assert "browned" in roast.doneness.cue
    assert dish.written_for == 6
    squash = dish.ingredients[0]
    assert (squash.item, squash.quantity, squash.step) == (
        "squash",
        Quantity(Fraction(1), "kg"),
        "pot.roast-squash",
    )
    assert [(link.before, link.after) for link in links] == [
        (one.id, two.id) for one, two in zip(dish.steps, dish.steps[1:], strict=False)
    ]


def test_a_rest_between_steps_becomes_a_wait_and_options_are_kept_in_words() -> None:
    draft = draft_of_json(
        recipeIngredient=[
            "1 leek, sliced (optional)",
            "100 g (about 1 cup) rye flour",
            "2 x 150 g trout fillets",
        ],
        recipeInstructions="Knead the dough for 10 minutes. Leave it to rest for 30 minutes. Roll it for 5 minutes.",
    )
    dish, links = dish_of(draft, DishId("bread"))
    (link,) = links
    assert link.least == 30
    assert [each.preparation for each in dish.ingredients] == ["sliced, optional", "about 1 cup", ""]
    assert dish.ingredients[2].pieces == 2


def test_ids_are_the_same_each_time_and_never_empty() -> None:
    draft = draft_of_json(
        recipeInstructions=["Über für 5 minutes.", "煮 for 5 minutes.", "煮 for 5 minutes."]
    )
    ids = [
        [step.id for step in dish_of(draft, DishId("d"), dict.fromkeys(range(9), TEN))[0].steps]
        for _ in range(2)
    ]
    assert ids[0] == ids[1]
    assert len(set(ids[0])) == len(ids[0])
