from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from fractions import Fraction

import pytest

from core.plan.kitchen import Heater
from core.plan.step import Heat, Span, Touch
from core.store.plain import Unreadable, decode, encode, from_plain, to_plain


class Colour(StrEnum):
    RED = "red"


@dataclass(frozen=True)
class Strict:
    most: int

    def __post_init__(self) -> None:
        if self.most < 0:
            raise ValueError("below 0")


@pytest.mark.parametrize(
    ("kind", "value", "text"),
    [
        (Span, Span(1, 2, 3), '{"low":1,"likely":2,"high":3}'),
        (Heat | None, None, "null"),
        (Colour, Colour.RED, '"red"'),
        (Fraction, Fraction(2, 3), '"2/3"'),
        (datetime, datetime(2026, 9, 26, 19, 30), '"2026-09-26T19:30:00"'),
        (tuple[int, int] | None, (1380, 420), "[1380,420]"),
        (tuple[str, ...], ("a", "é"), '["a","\\u00e9"]'),
        (int | Fraction, Fraction(1, 2), '"1/2"'),
        (float, 4.5, "4.5"),
        (bool, True, "true"),
    ],
)
def test_a_value_comes_back_from_its_text(kind: object, value: object, text: str) -> None:
    assert encode(value) == text
    assert decode(kind, text) == value


def test_defaults_are_written_out() -> None:
    assert to_plain(Touch(20)) == {"at": 20, "minutes": 1, "does": "", "from_end": False, "skill": ""}


def test_a_field_that_old_data_lacks_has_its_default() -> None:
    assert from_plain(Touch, {"at": 20}) == Touch(20)


def test_a_whole_number_does_where_a_fraction_may_stand() -> None:
    assert from_plain(Heater, {"up": 5}).up == 5
    assert from_plain(Fraction, 5) == Fraction(5)
    assert from_plain(Fraction, 0.5) == Fraction(1, 2)


@pytest.mark.parametrize(
    ("kind", "plain", "says"),
    [
        (Span, {"low": 1, "likely": 2}, "without its 'high'"),
        (Span, {"low": 1, "likely": 2, "high": 3, "top": 4}, "no 'top'"),
        (Span, [1, 2, 3], "not a Span"),
        (Span, {"low": 1, "likely": 2, "high": "3"}, "'3' is not of type int"),
        (int, True, "True is not of type int"),
        (bool, 1, "1 is not of type bool"),
        (str, None, "None is not of type str"),
        (float, "4.5", "is not of type float"),
        (Colour, "blue", "'blue' is no Colour"),
        (Colour, ["red"], "is no Colour"),
        (Fraction, "1/0", "is no Fraction"),
        (Fraction, True, "is no Fraction"),
        (datetime, "yesterday", "is no datetime"),
        (tuple[int, int], [1, 2, 3], "3 things where 2 belong"),
        (tuple[int, ...], "12", "not a list"),
        (Heat | None, {"setting": 180}, "without its 'high'"),
        (Strict, {"most": -1}, "below 0"),
    ],
)
def test_data_of_another_kind_is_unreadable(kind: object, plain: object, says: str) -> None:
    with pytest.raises(Unreadable, match=says):
        from_plain(kind, plain)


@pytest.mark.parametrize("text", ["{", "", "[" * 100_000, None, 7, b"[]"])
def test_what_is_not_json_is_unreadable(text: object) -> None:
    with pytest.raises(Unreadable):
        decode(tuple[int, ...], text)


def test_kinds_that_no_plan_holds_are_our_fault() -> None:
    with pytest.raises(TypeError, match="set"):
        to_plain({1})
    with pytest.raises(TypeError, match="dict"):
        from_plain(dict[str, int], {})
    with pytest.raises(Unreadable, match="JSON compliant"):
        encode(float("nan"))
