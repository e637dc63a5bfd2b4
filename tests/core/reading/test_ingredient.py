"""Ingredient lines: what each value stands on, what is left open, and lines that no recipe should have."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import Quantity, Refusal
from core.reading.ingredient import read_ingredient
from tests.support.labelled_ingredients import FIRST, SECOND


def words(line: str, what: str) -> str:
    span = read_ingredient(line).span_of(what)
    return "" if span is None else line[slice(*span)]


def test_each_value_has_its_place_in_the_line() -> None:
    line = "- 1½ cups (about 200 g) plain flour, sifted (optional)"
    assert words(line, "quantity").startswith("1½ cups")
    assert words(line, "item") == "plain flour"
    assert words(line, "preparation") == "sifted"
    assert words(line, "comment") == "about 200 g"
    assert "optional" in words(line, "optional")


@pytest.mark.parametrize("label", [*FIRST, *SECOND], ids=lambda each: each.line)
def test_the_place_of_an_item_holds_its_words(label) -> None:
    if label.item:
        assert words(label.line, "item").casefold() == label.item.casefold()


def test_of_a_range_the_greater_amount_is_taken_and_said() -> None:
    read = read_ingredient("3–4 sprigs thyme")
    assert read.quantity == Quantity(Fraction(4), "sprig")
    assert read.doubts == ("The line says 3–4: 4 sprigs is taken, the greater amount.",)
    assert read_ingredient("4 sprigs thyme").doubts == ()


def test_one_amount_for_several_things_is_said() -> None:
    (doubt,) = read_ingredient("2 tbsp each of soy sauce and vinegar").doubts
    assert "several things" in doubt


@pytest.mark.parametrize(
    ("line", "pieces"),
    [("1 x 1.5kg chicken", 1), ("4 x 150 g salmon fillets", 4), ("a 2 kg leg of lamb", 1),
     ("2 x 400 g tins tomatoes", 0), ("2 kg leg of lamb", 0), ("3 onions", 0)],
)  # fmt: skip
def test_single_pieces_of_a_told_weight_are_counted(line: str, pieces: int) -> None:
    assert read_ingredient(line).pieces == pieces


@pytest.mark.parametrize(
    "line",
    [
        "00 flour",
        "5-spice powder",
        "7% vinegar",
        "1/0 cup sugar",
        "70% dark chocolate",
        "egg noodles",
        "stock",
    ],
)
def test_a_number_that_is_no_amount_stays_with_the_thing(line: str) -> None:
    read = read_ingredient(line)
    assert (read.quantity, read.item) == (None, line)


def test_a_stick_is_a_weight_of_butter_only() -> None:
    assert read_ingredient("2 sticks butter").quantity == Quantity(Fraction(2), "stick")
    assert read_ingredient("2 sticks celery").quantity == Quantity(Fraction(2))
    assert read_ingredient("1 cinnamon stick").quantity == Quantity(Fraction(1))


def test_spoons_and_cups_are_those_of_the_system_asked_for() -> None:
    assert read_ingredient("1 cup milk", "metric").quantity == Quantity(Fraction(1), "metric cup")
    assert read_ingredient("1 pint milk", "uk").quantity == Quantity(Fraction(1), "UK pint")
    with pytest.raises(ValueError, match="unknown system"):
        read_ingredient("1 cup milk", "imperial")


def test_measures_of_one_kind_are_added() -> None:
    assert read_ingredient("1 cup plus 2 tbsp milk").quantity == Quantity(Fraction(9, 8), "cup")
    assert read_ingredient("2 lb 8 oz plums").quantity == Quantity(Fraction(5, 2), "lb")


def test_a_line_too_long_is_refused() -> None:
    with pytest.raises(Refusal, match="longer than 1000 characters"):
        read_ingredient("salt " * 300)
    assert read_ingredient("").item == ""


SIGNS = st.sampled_from("0123456789½¼/.,-–x×()% \t:;ogkmlTtcup aandoforr\u00a0°*•")


@given(st.text(SIGNS | st.characters(), max_size=80))
def test_any_line_is_read_and_every_place_lies_in_it(line: str) -> None:
    read = read_ingredient(line)
    assert read.quantity is None or read.quantity.amount > 0
    for part in read.spans:
        assert 0 <= part.start < part.end <= len(line)


@given(
    st.fractions(Fraction(1, 8), 50, max_denominator=8),
    st.sampled_from(["g", "tbsp", "cup", "clove", "tin", "pint"]),
)
def test_an_amount_as_we_write_it_is_read_back(amount: Fraction, unit: str) -> None:
    quantity = Quantity(amount, unit)
    read = read_ingredient(f"{quantity.as_text()} of dried broad beans, soaked")
    assert (read.quantity, read.item, read.preparation) == (quantity, "dried broad beans", "soaked")
