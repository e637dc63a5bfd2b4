"""Pages with schema.org data: JSON-LD in its several wrappings, microdata, sections, positions, quantities."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from core.intake.pages.pieces import PieceKind, RecipeText
from core.intake.pages.read import pasted, read_page, recipes_of
from core.measures import Refusal

HERE = Path(__file__).parent


def only(name: str) -> RecipeText:
    (found,) = read_page(HERE / name)
    return found


def lines(recipe: RecipeText, kind: PieceKind) -> list[str]:
    return [recipe.words(each) for each in recipe.of(kind)]


def sections(recipe: RecipeText) -> list[str]:
    return [each.section for each in recipe.of(PieceKind.METHOD)]


def recipe_json(**more: object) -> str:
    return json.dumps({"@context": "https://schema.org", "@type": "Recipe", "name": "Broth", **more})


def test_a_recipe_is_found_in_a_graph_by_its_reference_and_entities_become_words() -> None:
    recipe = only("graph.html")
    assert lines(recipe, PieceKind.TITLE) == ["Squash & barley pot"]
    assert lines(recipe, PieceKind.SERVES) == ["6 servings"]
    assert lines(recipe, PieceKind.INGREDIENT)[1] == "250 g pearl barley"
    assert lines(recipe, PieceKind.ALL_TIME) == ["PT1H35M"]


def test_positions_order_sections_steps_and_directions_and_tips_are_no_steps() -> None:
    recipe = only("graph.html")
    assert lines(recipe, PieceKind.METHOD) == [
        "Heat the oven to 200°C.",
        "Roast the squash in the oil for 40 minutes until browned.",
        "Simmer the barley for 30 to 35 minutes.",
        "Fold in the squash.",
        "Toast the pumpkin seeds in a dry pan for 4 minutes.",
        "Squeeze the lemon over the seeds.",
    ]
    assert sections(recipe) == ["For the pot"] * 4 + ["For the crunch"] * 2
    assert lines(recipe, PieceKind.NOTE) == ["Double the seeds and keep half in a jar."]


def test_every_piece_stands_in_the_text_where_it_says() -> None:
    for name in ("graph.html", "microdata.html", "nested.json", "headed.txt", "only_words.html"):
        recipe = only(name)
        for piece in recipe.pieces:
            assert 0 <= piece.start < piece.end <= len(recipe.text)
            assert recipe.text[piece.start : piece.end].strip() == recipe.text[piece.start : piece.end]


def test_microdata_is_read_though_ends_are_left_out() -> None:
    recipe = only("microdata.html")
    assert lines(recipe, PieceKind.TITLE) == ["Bean and kale stew"]
    assert lines(recipe, PieceKind.INGREDIENT) == [
        "2 x 400 g tins butter beans, drained",
        "200 g kale, shredded",
        "3 garlic cloves, sliced",
        "1 litre vegetable stock",
    ]
    assert len(lines(recipe, PieceKind.METHOD)) == 3
    assert lines(recipe, PieceKind.PREPARING) == ["PT10M"]
    assert lines(recipe, PieceKind.ALL_TIME) == ["PT50M"]


def test_microdata_steps_are_ordered_by_position() -> None:
    recipe = only("microdata_steps.html")
    assert lines(recipe, PieceKind.METHOD) == [
        "Stir the butter into the oats.",
        "Bake at 170C for 15 minutes.",
    ]
    assert lines(recipe, PieceKind.INGREDIENT) == ["150 g rolled oats", "100 g butter, melted"]


def test_quantities_come_as_values_with_units_and_codes() -> None:
    recipe = only("nested.json")
    assert lines(recipe, PieceKind.INGREDIENT) == [
        "800 g beetroot",
        "1.5 l vegetable stock",
        "2-3 bay leaves",
    ]
    assert lines(recipe, PieceKind.SERVES) == ["4 servings"]
    assert lines(recipe, PieceKind.COOKING) == ["PT30M - PT40M"]


def test_one_text_of_numbered_steps_becomes_lines_without_numbers() -> None:
    assert lines(only("nested.json"), PieceKind.METHOD) == [
        "Simmer the beetroot in the stock with the bay leaves for 40 minutes.",
        "Blend it until smooth.",
    ]


def test_supplies_and_steps_of_a_how_to_are_read() -> None:
    recipe = only("supplies.json")
    assert lines(recipe, PieceKind.INGREDIENT) == ["2 kg cucumbers", "1 bunch dill"]
    assert lines(recipe, PieceKind.METHOD) == ["Wash the cucumbers.", "Chill them in the fridge overnight."]


@pytest.mark.parametrize(
    "instructions",
    [
        "Boil it. Then cool it.",
        ["Boil it. Then cool it."],
        [{"@type": "HowToStep", "text": "Boil it. Then cool it."}],
        {
            "@type": "ItemList",
            "itemListElement": [{"@type": "ListItem", "item": {"text": "Boil it. Then cool it."}}],
        },
        {
            "@type": "HowToSection",
            "itemListElement": {"@type": "HowToStep", "text": "Boil it. Then cool it."},
        },
        {"@type": "CreativeWork", "text": "<p>Boil it. Then cool it.</p>"},
        "&lt;p&gt;Boil it. Then cool it.&lt;/p&gt;",
    ],
    ids=["text", "list", "step", "item list", "section", "work", "escaped"],
)
def test_instructions_are_read_in_every_form(instructions: object) -> None:
    (recipe,) = pasted(recipe_json(recipeInstructions=instructions))
    assert lines(recipe, PieceKind.METHOD) == ["Boil it. Then cool it."]


def test_a_list_without_positions_keeps_its_order() -> None:
    steps = [{"@type": "HowToStep", "text": f"Step {word}."} for word in ("c", "a", "b")]
    steps[0]["position"] = "9"
    (recipe,) = pasted(recipe_json(recipeInstructions=steps))
    assert lines(recipe, PieceKind.METHOD) == ["Step c.", "Step a.", "Step b."]


def test_several_recipes_are_several() -> None:
    data = [
        json.loads(recipe_json(recipeIngredient=["1 onion"])),
        json.loads(recipe_json(recipeIngredient=["1 leek"])),
    ]
    assert [lines(each, PieceKind.INGREDIENT) for each in pasted(json.dumps(data))] == [
        ["1 onion"],
        ["1 leek"],
    ]


def test_a_spoilt_block_is_said_and_the_other_is_read() -> None:
    page = f"""<html><script type="application/ld+json">{{"@type": "Recipe", </script>
    <script type='application/ld+json'>{recipe_json(recipeIngredient=["1 onion"])}</script></html>"""
    (recipe,) = recipes_of(page.encode(), "x.html")
    assert lines(recipe, PieceKind.INGREDIENT) == ["1 onion"]
    assert any("could not be read" in each for each in recipe.remarks)


def test_line_breaks_inside_of_strings_are_borne() -> None:
    data = '{"@type": "Recipe", "recipeInstructions": "Boil it.\nCool it."}'
    page = f'<html><script type="application/ld+json">{data}</script></html>'
    (recipe,) = recipes_of(page.encode(), "x.html")
    assert lines(recipe, PieceKind.METHOD) == ["Boil it.", "Cool it."]


def test_json_without_a_recipe_is_refused_by_name() -> None:
    with pytest.raises(Refusal, match=r"no recipe in x\.json.*no schema\.org Recipe"):
        recipes_of(b'{"@type": "Person"}', "x.json")
    with pytest.raises(Refusal, match=r"x\.json is JSON, but not well-formed"):
        recipes_of(b'{"@type": "Recipe", ', "x.json")


def test_a_page_without_data_is_read_by_its_words_and_says_so() -> None:
    recipe = only("only_words.html")
    assert lines(recipe, PieceKind.TITLE) == ["Potato cakes"]
    assert lines(recipe, PieceKind.INGREDIENT) == ["500 g cold mashed potato", "50 g flour"]
    assert lines(recipe, PieceKind.METHOD) == [
        "Mix the potato and the flour.",
        "Fry in batches for 4 minutes on each side.",
    ]
    assert "Never seen" not in recipe.text
    assert any("its words were read instead" in each for each in recipe.remarks)


def test_a_page_saved_as_one_file_is_opened() -> None:
    page = (HERE / "graph.html").read_bytes()
    whole = (
        b'From: <Saved>\r\nMIME-Version: 1.0\r\nContent-Type: multipart/related; boundary="cut"\r\n\r\n--cut\r\n'
        b"Content-Type: text/html; charset=utf-8\r\nContent-Transfer-Encoding: 8bit\r\n\r\n"
        + page
        + b"\r\n--cut--\r\n"
    )
    (recipe,) = recipes_of(whole, "pot.mhtml")
    assert lines(recipe, PieceKind.TITLE) == ["Squash & barley pot"]
