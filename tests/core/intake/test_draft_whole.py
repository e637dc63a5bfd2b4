"""What whole recipes showed of drafts: lists in one line, recipes in prose, servings in brackets, notes, sections."""

import pytest

from core.intake.draft import Open, dish_of, drafts_of_text, without_length
from core.intake.draft_names import named_by
from core.measures import parse_quantity
from core.plan.ids import DishId
from core.plan.step import Heat, Loads, Span
from core.reading.ingredient_each import read_ingredients


def draft(text):
    (found,) = drafts_of_text(text)
    return found


def lines(found):
    return [
        (each.line.quantity.as_text() if each.line.quantity else "", each.line.item)
        for each in found.ingredients
    ]


PROSE = (
    "Grandad's gravy. Take 4 large onions, 50g butter, a pint of stock and salt and pepper. Slice the onions. "
    "Melt the butter in a pan and cook the onions for 40 minutes. Add the stock and simmer for 15 minutes."
)


def test_a_recipe_in_prose_has_a_name_and_ingredients() -> None:
    found = draft(PROSE)
    assert found.name == "Grandad's gravy"
    assert lines(found) == [
        ("4", "large onions"),
        ("50 g", "butter"),
        ("1 pint", "stock"),
        ("", "salt and pepper"),
    ]
    assert found.steps[0].does == "Slice the onions"
    assert [found.words(each.start, each.end) for each in found.ingredients][:2] == [
        "4 large onions",
        "50g butter",
    ]


def test_prose_that_lists_nothing_keeps_its_sentences() -> None:
    found = draft("Slice 2 leeks. Take the leeks and fry them for 5 minutes. Add 100 ml stock.")
    assert lines(found) == []
    assert len(found.steps) == 3


@pytest.mark.parametrize(
    "head",
    ["Ingredients: 500g flour, 2 eggs and salt", "Ingredients\nFor the dough: 500g flour, 2 eggs and salt"],
)
def test_ingredients_in_one_line(head: str) -> None:
    found = draft(f"Rolls\n{head}\n\nMethod\nMix the flour with the eggs.\n")
    assert lines(found) == [("500 g", "flour"), ("2", "eggs"), ("", "salt")]


def test_an_ingredient_with_a_colon_is_no_list() -> None:
    found = draft("Rolls\nIngredients\nflour: 500g\nMethod\nMix the flour for 5 minutes.\n")
    assert lines(found) == [("500 g", "flour")]


@pytest.mark.parametrize(
    ("head", "serves"),
    [
        ("Pork (feeds a crowd of 12)", 12),
        ("Pork\nMakes 24 / serves 6 as a snack", 6),
        ("Pork\nServes 6. Takes 30 minutes, plus at least 5 hours in the fridge.", 6),
        ("Pork\n\nA favourite. Makes 40 pieces, enough for 6-8 hungry people.", 6),
        ("Pork\nMakes 1 roast, 10 slices", 10),
        ("Pork\nserves 6 · prep 20 min · marinate 4 h · grill 10 min", 6),
    ],
)
def test_servings_are_found(head: str, serves: int) -> None:
    found = draft(f"{head}\n\nIngredients\n1 kg pork\n\nMethod\nRoast the pork for 1 hour.\n")
    assert (found.name, found.servings) == ("Pork", serves)


def test_a_note_on_keeping_is_a_wait_and_other_notes_are_not_read() -> None:
    found = draft(
        "Soup\n\nIngredients\n1 leek\n\nMethod\nSimmer the leek for 20 minutes.\n\n"
        "Notes\nKeeps in the fridge for up to 3 days. Bake some bread for 1 hour with it."
    )
    assert len(found.steps) == 1
    assert found.steps[0].wait is not None
    assert found.steps[0].wait.most == 4320


def test_a_note_in_the_method_is_none_of_its_steps() -> None:
    found = draft(
        "Soup\nIngredients\n1 leek\n\nMethod\nSimmer the leek for 20 minutes.\n\n"
        "**Freezing:** it can be frozen for up to 3 months."
    )
    assert len(found.steps) == 1
    assert found.steps[0].wait is not None
    assert found.steps[0].wait.most == 129600


def test_a_first_ingredient_without_an_amount_is_not_lost() -> None:
    found = draft(
        "stock\n\nbones of 2 birds\n1 onion\n\nsimmer for 3 hrs. strain it. chill for 30 mins. lift off the fat."
    )
    assert lines(found) == [("", "bones of 2 birds"), ("1", "onion")]
    assert len(found.steps) == 4


@pytest.mark.parametrize("name", ["15-MINUTE NOODLES", "7 layer salad", "30-minute soup"])
def test_a_name_may_begin_with_a_number(name: str) -> None:
    found = draft(f"{name}\n\nIngredients\n1 leek\n\nMethod\nSimmer the leek for 20 minutes.\n")
    assert found.name == name


@pytest.mark.parametrize(
    ("line", "items"),
    [
        ("100 g each butter and sugar", ["butter", "sugar"]),
        ("1 tsp each ground cumin, coriander and turmeric", ["ground cumin", "coriander", "turmeric"]),
        ("1 tsp each of salt & pepper", ["salt", "pepper"]),
        ("50 g each raisins and currants, chopped", ["raisins", "currants"]),
        ("2 leeks", ["leeks"]),
    ],
)
def test_one_amount_for_several_things(line: str, items: list[str]) -> None:
    found = read_ingredients(line)
    assert [each.item for each in found] == items
    assert {each.quantity for each in found} == {
        parse_quantity(line.partition(" each")[0].partition(" le")[0])
    }
    for each in found:
        span = each.span_of("item")
        assert span is not None
        assert line[slice(*span)] == each.item
        assert not each.doubts


def test_one_amount_for_several_things_is_several_ingredients() -> None:
    found = draft("Cake\nIngredients\n100 g each butter and sugar\nMethod\nBeat the sugar for 5 minutes.\n")
    assert lines(found) == [("100 g", "butter"), ("100 g", "sugar")]
    assert [each.step for each in found.ingredients] == [None, 0]


@pytest.mark.parametrize(
    ("items", "steps", "found"),
    [
        ([("breadcrumbs", "")], [("Toast the crumbs", "")], (0,)),
        ([("marzipan", "")], [("Heat the pan", "")], (None,)),
        ([("brown sugar", "For the rub"), ("salt", "For the rub")], [("Mix the rub", "")], (0, 0)),
        ([("bay leaves", "")], [("Add the bay", "")], (0,)),
        (
            [("cold butter", "Pastry"), ("butter", "Filling")],
            [("Rub in the butter", "Pastry"), ("Melt the butter", "Filling")],
            (0, 1),
        ),
    ],
)
def test_which_step_names_what(
    items: list[tuple[str, str]], steps: list[tuple[str, str]], found: tuple[int | None, ...]
) -> None:
    assert named_by(items, steps) == found


def test_the_oven_bears_the_usual_tolerance() -> None:
    found = draft("Loaf\nIngredients\n1 egg\nMethod\nBake at 200C for 20 minutes.\n")
    dish, _links = dish_of(found, DishId("loaf"))
    assert dish.steps[0].uses[0].heat == Heat(200, 185, 215)


def test_batches_are_loads_of_the_dish_and_it_is_said() -> None:
    found = draft("Fritters\nIngredients\n1 egg\nMethod\nFry in 4 batches of six for 3 minutes.\n")
    dish, _links = dish_of(found, DishId("fritters"))
    assert dish.steps[0].loads == Loads(24, 6)
    assert [each.sentence for each in found.questions if each.step == 0] == [
        'In "in 4 batches of six" each load is taken to be as long as the step says.'
    ]
    vague = draft("Fritters\nIngredients\n1 egg\nMethod\nFry in batches for 3 minutes.\n")
    assert any("does not say how many" in each.sentence for each in vague.questions)


def test_now_and_then_is_said_as_what_it_is_taken_for() -> None:
    found = draft("Ragout\nIngredients\n1 egg\nMethod\nSimmer for 40 minutes, stirring now and then.\n")
    (asked,) = [each for each in found.questions if each.about is Open.TOUCHES]
    assert asked.sentence == '"now and then" is written down as every 10 min; say if it is more often.'
    assert not without_length(found, {})
    dish, _links = dish_of(found, DishId("ragout"))
    assert len(dish.steps[0].touches) == 3


def test_hot_fat_names_its_ingredient_and_shows_its_words() -> None:
    found = draft(
        "Leeks\nIngredients\n2 tbsp oil\n3 leeks\nMethod\nHeat the oil. Fry the leeks for 20 minutes.\n"
    )
    assert [each.step for each in found.ingredients] == [0, 0]
    words = [found.words(each.start, each.end) for each in found.origins if each.what == "opening"]
    assert words == ["Heat the oil"]
    assert found.steps[0].length == Span.of(20)
