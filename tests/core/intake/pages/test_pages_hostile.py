"""Pages that mean harm or are broken: nothing is opened, nothing crashes, and what is too much is said."""

from __future__ import annotations

import json
import socket
import subprocess
import urllib.request
import webbrowser
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.intake.draft import draft_of, drafts_in
from core.intake.pages.html_tokens import plain_lines, tokens
from core.intake.pages.pieces import MOST_CHARACTERS, PieceKind
from core.intake.pages.read import MOST_BYTES, pasted, read_page, recipes_of
from core.measures import Refusal
from tests.core.intake.pages.test_pages_schema import lines, recipe_json

HERE = Path(__file__).parent


@pytest.fixture
def no_way_out(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Let every way out of the program fail and be noted."""
    tried: list[str] = []

    def refuse(*given: object, **_more: object) -> None:
        tried.append(repr(given))
        raise OSError("no way out")

    for owner, name in (
        (socket, "socket"), (socket, "create_connection"), (socket, "getaddrinfo"), (urllib.request, "urlopen"),
        (subprocess, "Popen"), (webbrowser, "open"),
    ):  # fmt: skip
        monkeypatch.setattr(owner, name, refuse)
    return tried


def test_a_page_with_scripts_and_remote_pictures_opens_nothing(no_way_out: list[str], tmp_path: Path) -> None:
    (draft,) = drafts_in(HERE / "graph.html")
    assert draft.steps
    assert "alert" not in draft.text
    assert "counting" not in draft.text
    assert no_way_out == []
    with pytest.raises(OSError, match="no way out"):
        socket.create_connection(("example.invalid", 80))
    assert len(no_way_out) == 1


def test_what_is_too_large_is_refused(tmp_path: Path) -> None:
    page = tmp_path / "huge.html"
    with page.open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    with pytest.raises(Refusal, match=r"huge\.html is larger than 10 MB"):
        read_page(page)
    with pytest.raises(Refusal, match="longer than any recipe"):
        pasted("salt\n" * (MOST_BYTES // 4))


def test_a_recipe_that_never_ends_is_cut_and_it_is_said() -> None:
    (recipe,) = pasted(
        recipe_json(
            recipeInstructions=["Bake it for 5 minutes."] * 5_000, recipeIngredient=["1 g salt"] * 5_000
        )
    )
    assert len(recipe.text) <= MOST_CHARACTERS + 100
    assert len(recipe.of(PieceKind.METHOD)) == 500
    assert len(recipe.of(PieceKind.INGREDIENT)) == 300
    assert any("the end of it was left out" in each for each in recipe.remarks)
    assert len(draft_of(recipe).steps) == 500
    (words,) = pasted("Ingredients\n" + "1 g salt\n" * 50_000)
    assert any("the end of it was left out" in each for each in words.remarks)


@pytest.mark.parametrize("depth", [1_000, 20_000])
def test_deep_nesting_is_borne(depth: int) -> None:
    deep = "<div itemscope itemprop=a>" * depth
    inner = (
        "<div itemscope itemtype='https://schema.org/Recipe'><i itemprop=recipeIngredient>1 leek</i></div>"
    )
    page = f"<html>{deep}{inner}</html>"
    (recipe,) = recipes_of(page.encode(), "deep.html")
    assert lines(recipe, PieceKind.INGREDIENT) == ["1 leek"]
    with pytest.raises(Refusal):
        recipes_of(("[" * depth).encode(), "deep.json")
    block = '<html><script type="application/ld+json">' + '{"a":' * depth + "</script><h1>Tea</h1></html>"
    with pytest.raises(Refusal, match=r"no recipe in deep\.html"):
        recipes_of(block.encode(), "deep.html")


def test_sections_inside_of_sections_end_somewhere() -> None:
    inner: dict[str, object] = {"@type": "HowToStep", "text": "Boil it."}
    for _ in range(200):
        inner = {"@type": "HowToSection", "name": "More", "itemListElement": [inner]}
    with pytest.raises(Refusal):
        pasted(recipe_json(recipeInstructions=inner))


def test_a_reference_to_itself_ends_somewhere() -> None:
    data = {
        "@graph": [
            {
                "@type": "Recipe",
                "@id": "#r",
                "name": "Round",
                "recipeIngredient": ["1 leek"],
                "recipeInstructions": {"@id": "#r"},
            }
        ]
    }
    (recipe,) = pasted(json.dumps(data))
    assert lines(recipe, PieceKind.INGREDIENT) == ["1 leek"]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252", "iso-8859-1"])
def test_encodings_are_found(encoding: str, tmp_path: Path) -> None:
    page = tmp_path / "soup.txt"
    page.write_bytes("Crème soup\nIngredients\n1 leek à point\nMethod\nSimmer it.\n".encode(encoding))
    (recipe,) = read_page(page)
    assert lines(recipe, PieceKind.TITLE) == ["Crème soup"]


@pytest.mark.parametrize("claimed", ["nonsense", "hex", "zip", "rot13", "utf-7", "idna"])
def test_a_claimed_encoding_that_is_none_is_not_believed(claimed: str) -> None:
    page = (
        f'<html><meta charset="{claimed}"><h1>Cr\xe8me</h1><h2>Ingredients</h2><li>1 leek</li></html>'.encode(
            "cp1252"
        )
    )
    (recipe,) = recipes_of(page, "page.html")
    assert lines(recipe, PieceKind.INGREDIENT) == ["1 leek"]


def test_broken_signs_are_shown_as_broken_and_said() -> None:
    page = b'<html><meta charset="utf-8"><h1>Cr\xff\xfeme</h1><h2>Ingredients</h2><li>1 leek</li></html>'
    (recipe,) = recipes_of(page + b" " * 500, "page.html")
    assert "\N{REPLACEMENT CHARACTER}" in recipe.text
    assert any("could not be read" in each for each in recipe.remarks)


@pytest.mark.parametrize(
    "data",
    [b"%PDF-1.7 ...", b"\x89PNG\r\n", b"PK\x03\x04zip", b"\x00\x01\x02\x03" * 50, b"SQLite format 3\x00"],
)
def test_what_is_no_text_is_refused(data: bytes) -> None:
    with pytest.raises(Refusal, match="is no page of text"):
        recipes_of(data, "thing.bin")


@pytest.mark.parametrize("data", [b"", b"  \n ", "\ufeff".encode()])
def test_an_empty_page_is_refused(data: bytes) -> None:
    with pytest.raises(Refusal, match=r"empty|no recipe"):
        recipes_of(data, "nothing.txt")


def test_controls_and_hidden_signs_do_not_come_in() -> None:
    hidden = "\x00\x07\u202e\u200b\ufeff\ud800"
    (recipe,) = pasted(recipe_json(name=f"Le{hidden}ek", recipeIngredient=[f"1 le{hidden}ek"]))
    assert lines(recipe, PieceKind.INGREDIENT) == ["1 le\N{REPLACEMENT CHARACTER}ek"]
    assert lines(recipe, PieceKind.TITLE) == ["Le\N{REPLACEMENT CHARACTER}ek"]


@pytest.mark.parametrize(
    "bit",
    [
        "<",
        "<!--",
        "<a ",
        '<a b="',
        "<![CDATA[",
        "<script>",
        "&",
        "&#",
        "</",
        "<!",
        "<p><b>",
        "<li>",
        "<div itemprop=x itemscope>",
    ],
)
def test_unfinished_tags_are_borne(bit: str) -> None:
    page = ("<html>" + bit * 2_000 + "leek").encode()
    with pytest.raises(Refusal, match="no recipe"):
        recipes_of(page, "page.html")


def test_tags_in_a_text_become_plain_words() -> None:
    assert plain_lines("<p>Boil&nbsp;it.<br/>Cool <i>it</i>.</p><script>run()</script>") == (
        "Boil it.",
        "Cool it.",
    )
    assert plain_lines("5 < 6 & 7 > 3") == ("5 < 6 & 7 > 3",)


PARTS = st.sampled_from(
    ["<", ">", "</", "<!--", "-->", "=", '"', "'", " ", "/", "itemprop", "itemscope", "div", "li", "script",
     "&amp;", "&#x", "\n",
     "Ingredients\n", "Method\n", "1 leek\n", "Bake for 5 min.", "Serves 4\n", "{", "}", "[",
     '"@type"', ":", '"Recipe"', ","]
)  # fmt: skip


@given(st.lists(PARTS | st.text(max_size=5), max_size=40))
def test_any_page_is_a_draft_or_refused(parts: list[str]) -> None:
    page = "".join(parts)
    list(tokens(page))
    try:
        found = recipes_of(page.encode("utf-8", errors="surrogatepass"), "page")
    except Refusal:
        return
    for recipe in found:
        draft = draft_of(recipe)
        for origin in draft.origins:
            assert 0 <= origin.start < origin.end <= len(draft.text)


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=4)
    | st.dictionaries(
        st.sampled_from(["@type", "@id", "name", "text", "itemListElement", "item", "position", "value",
                         "unitCode", "unitText",
                         "minValue", "maxValue", "requiredQuantity", "recipeIngredient", "recipeInstructions"]),
        inner | st.sampled_from(["Recipe", "HowToStep", "HowToSection", "PropertyValue"]), max_size=5),
    max_leaves=25,
)  # fmt: skip


@given(JSON, JSON, JSON, JSON)
def test_any_data_of_a_recipe_is_a_draft_or_refused(
    method: object, things: object, serves: object, time: object
) -> None:
    data = recipe_json(
        recipeInstructions=method,
        recipeIngredient=things,
        recipeYield=serves,
        prepTime=time,
        totalTime=serves,
    )
    try:
        found = pasted(data)
    except Refusal:
        return
    for recipe in found:
        draft_of(recipe)
