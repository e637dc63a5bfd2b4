"""Lists, plurals, and what is quoted."""

import pytest

from core.measures import counted, join_words, plural, plural_of, quoted


@pytest.mark.parametrize(
    ("words", "joined"),
    [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")],
)
def test_words_are_joined_as_in_a_sentence(words: list[str], joined: str) -> None:
    assert join_words(words) == joined
    assert join_words(tuple(words)) == joined


@pytest.mark.parametrize(
    ("word", "many"),
    [
        ("load", "loads"),
        ("dish", "dishes"),
        ("box", "boxes"),
        ("glass", "glasses"),
        ("batch", "batches"),
        ("berry", "berries"),
        ("tray", "trays"),
        ("leaf", "leaves"),
        ("loaf", "loaves"),
        ("potato", "potatoes"),
        ("dozen", "dozen"),
        ("oven rack", "oven racks"),
        ("bay leaf", "bay leaves"),
    ],
)
def test_plurals(word: str, many: str) -> None:
    assert plural_of(word) == many


def test_numbers_take_the_right_number() -> None:
    assert [plural(number, "load") for number in (0, 1, 2, -1, -3)] == [
        "0 loads",
        "1 load",
        "2 loads",
        "−1 load",
        "−3 loads",
    ]
    assert counted(1, "leaf") == "leaf"
    assert counted(2, "leaf") == "leaves"


def test_a_quote_is_one_short_line_with_nothing_hidden() -> None:
    assert quoted("a\n  b") == '"a b"'
    assert quoted("a\u202eb\0") == '"a�b�"'
    assert len(quoted("word " * 50)) <= 42
    assert quoted("Rub the butter into the flour, then stir in the sugar") == '"Rub the butter into the flour, then…"'
    assert quoted("a" * 60) == f'"{"a" * 39}…"', "a word without an end is cut where it must be"
    assert quoted("word " * 50).endswith('…"')
