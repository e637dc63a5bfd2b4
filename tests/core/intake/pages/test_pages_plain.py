"""Recipes in plain words: with headings of several forms, with none, with sections, numbers and broken lines."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.intake.pages.pieces import PieceKind
from core.intake.pages.read import pasted, read_page
from tests.core.intake.pages.test_pages_schema import lines, only, sections

HERE = Path(__file__).parent


def test_headings_times_sections_and_broken_lines() -> None:
    recipe = only("headed.txt")
    assert lines(recipe, PieceKind.TITLE) == ["Leek and barley bake"]
    assert lines(recipe, PieceKind.SERVES) == ["Serves 4-6"]
    assert lines(recipe, PieceKind.PREPARING) == ["20 mins"]
    assert lines(recipe, PieceKind.COOKING) == ["1 hour 10 mins"]
    assert lines(recipe, PieceKind.INGREDIENT)[3:] == ["80 g breadcrumbs", "1 tbsp butter"]
    assert [each.section for each in recipe.of(PieceKind.INGREDIENT)] == [
        "",
        "",
        "",
        "For the crust",
        "For the crust",
    ]
    assert (
        lines(recipe, PieceKind.METHOD)[0]
        == "Heat the oven to 180C. Boil the barley for 25 minutes, then drain it."
    )
    assert sections(recipe) == ["", "", "For the crust", "For the crust"]
    assert lines(recipe, PieceKind.NOTE) == ["A dish for a cold evening.", "Keeps for 2 days."]


def test_without_headings_amounts_tell_ingredients_and_it_is_said() -> None:
    recipe = only("unheaded.txt")
    assert len(lines(recipe, PieceKind.INGREDIENT)) == 3
    assert len(lines(recipe, PieceKind.METHOD)) == 2
    assert any("No headings" in each for each in recipe.remarks)


def test_marked_headings_and_step_lines() -> None:
    recipe = only("marked.txt")
    assert lines(recipe, PieceKind.TITLE) == ["Plum tart"]
    assert lines(recipe, PieceKind.SERVES) == ["for 8 people"]
    assert [each.section for each in recipe.of(PieceKind.INGREDIENT)] == ["Pastry", "Pastry", "Filling"]
    assert lines(recipe, PieceKind.METHOD) == ["Rub the butter into the flour.", "Chill for 30 minutes."]


@pytest.mark.parametrize(
    "ingredients",
    [
        "Ingredients",
        "INGREDIENTS:",
        "You will need",
        "What you'll need:",
        "## Ingredients",
        "Ingredients (serves 3)",
    ],
)
@pytest.mark.parametrize(
    "method",
    ["Method", "DIRECTIONS", "Instructions:", "What to do", "Preparation", "How to make it", "**Method**"],
)
def test_headings_are_known_in_several_forms(ingredients: str, method: str) -> None:
    text = f"Rye porridge\n\n{ingredients}\n200 g rye flakes\nsalt\n\n{method}\nSimmer the flakes for 20 minutes.\n"
    (recipe,) = pasted(text)
    assert lines(recipe, PieceKind.INGREDIENT) == ["200 g rye flakes", "salt"]
    assert lines(recipe, PieceKind.METHOD) == ["Simmer the flakes for 20 minutes."]


@pytest.mark.parametrize("mark", ["1. ", "1) ", "Step 1: ", "step 1 ", "- ", "• ", "1 - "])
def test_numbers_and_bullets_are_no_part_of_a_step(mark: str) -> None:
    (recipe,) = pasted(f"Rye porridge\nIngredients\n200 g rye flakes\nMethod\n{mark}Simmer for 20 minutes.\n")
    assert lines(recipe, PieceKind.METHOD) == ["Simmer for 20 minutes."]


def test_a_number_that_begins_a_sentence_is_no_step_number() -> None:
    (recipe,) = pasted("Rye porridge\nMethod\nSimmer it.\n20 minutes before serving, warm it.\n")
    assert lines(recipe, PieceKind.METHOD)[1] == "20 minutes before serving, warm it."


@pytest.mark.parametrize(
    ("line", "kinds"),
    [
        ("Serves 4", [PieceKind.SERVES]),
        ("Makes 12 rolls", [PieceKind.SERVES]),
        ("Prep time: 20 min, cook time: 1 h", [PieceKind.PREPARING, PieceKind.COOKING]),
        ("Total time 1 hour 20 minutes", [PieceKind.ALL_TIME]),
        (
            "Serves 6 people | Prep 15 min | Cook 45 min",
            [PieceKind.SERVES, PieceKind.PREPARING, PieceKind.COOKING],
        ),
        (
            "Prep: 30 minutes plus chilling overnight | Makes enough for 8",
            [PieceKind.PREPARING, PieceKind.SERVES],
        ),
        ("Serves the whole family on a cold day", []),
    ],
)
def test_lines_of_facts(line: str, kinds: list[PieceKind]) -> None:
    (recipe,) = pasted(f"Rye porridge\n{line}\nIngredients\n200 g rye flakes\nMethod\nSimmer it.\n")
    facts = (PieceKind.SERVES, PieceKind.PREPARING, PieceKind.COOKING, PieceKind.ALL_TIME)
    assert [each.kind for each in recipe.pieces if each.kind in facts] == kinds


def test_a_pasted_text_keeps_its_words() -> None:
    text = (HERE / "headed.txt").read_text(encoding="utf-8")
    (recipe,) = pasted(text)
    assert recipe.text == text
    assert recipe == read_page(HERE / "headed.txt")[0]
