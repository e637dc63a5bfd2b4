"""Quantities: what people type, exact texts, exact sums and conversions."""

import dataclasses
import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import TO_TASTE, Quantity, Refusal, add, convert, parse_quantity
from core.measures.unit_names import SYSTEMS, UNITS

AMOUNTS = st.fractions(min_value=0, max_value=10**6)
UNIT_NAMES = st.sampled_from(sorted(UNITS))
QUANTITIES = st.builds(Quantity, AMOUNTS, UNIT_NAMES)
ALIKE = {
    kind: sorted(name for name, unit in UNITS.items() if unit.kind == kind)
    for kind in ("weight", "volume", "length")
}
PAIRS = st.sampled_from(sorted(ALIKE)).flatmap(lambda kind: st.tuples(*[st.sampled_from(ALIKE[kind])] * 2))


@pytest.mark.parametrize(
    ("text", "amount", "unit"),
    [
        ("1 1/2 cups", Fraction(3, 2), "cup"),
        ("1½ cups", Fraction(3, 2), "cup"),
        ("½ tsp", Fraction(1, 2), "tsp"),
        ("1⁄3 cup", Fraction(1, 3), "cup"),
        ("500 g", Fraction(500), "g"),
        ("500g", Fraction(500), "g"),
        ("1,000 g", Fraction(1000), "g"),
        ("1,234.5 g", Fraction("1234.5"), "g"),
        ("1,234,567 g", Fraction(1234567), "g"),
        ("1\u202f000 g", Fraction(1000), "g"),
        ("2,5 dl", Fraction(5, 2), "dl"),
        ("2.5 dL", Fraction(5, 2), "dl"),
        ("0,125 l", Fraction(1, 8), "l"),
        ("1.125 kg", Fraction(9, 8), "kg"),
        (".5 kg", Fraction(1, 2), "kg"),
        ("3", Fraction(3), ""),
        ("3 eggs", Fraction(3), "egg"),
        ("3 cloves", Fraction(3), "clove"),
        ("2 bunches", Fraction(2), "bunch"),
        ("4 leaves", Fraction(4), "leaf"),
        ("a pinch", Fraction(1), "pinch"),
        ("2 lbs.", Fraction(2), "lb"),
        ("1 fl. oz.", Fraction(1), "fl oz"),
        ("1 T", Fraction(1), "tbsp"),
        ("1 t", Fraction(1), "tsp"),
        ("2 TBSP", Fraction(2), "tbsp"),
        ("1 UK pint", Fraction(1), "UK pint"),
        ("5 cm", Fraction(5), "cm"),
        ("0 g", Fraction(0), "g"),
    ],
)
def test_what_people_type_is_read(text: str, amount: Fraction, unit: str) -> None:
    assert parse_quantity(text) == Quantity(amount, unit)


def test_to_taste_has_no_amount() -> None:
    assert parse_quantity("To taste") == TO_TASTE
    assert TO_TASTE.times(3) == TO_TASTE
    assert Quantity(Fraction(0)) != TO_TASTE


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("4 1/2 to 5 tsp", '"4 1/2 to 5 tsp" gives two amounts; write the one you will measure.'),
        ("4-5 tsp", "gives two amounts"),
        ("4–5 tsp", "gives two amounts"),
        ("2 or 3 cloves", "gives two amounts"),
        ("2 tsp to 1 tbsp", "gives two amounts"),
        ("2 x 400 g", "is a sum; write its total"),
        ("2 × 400 g", "is a sum; write its total"),
        ("2 400 g", "is not an amount"),
        ("1 1/2 1/2 g", "is not an amount"),
        ("1.000,5 g", "is not an amount"),
        ("g", "is not an amount"),
        ("some", "is not an amount"),
        ("-3 g", "an amount cannot be less than 0"),
        ("1/0 g", "nothing can be divided by 0"),
        ("2 tbps", '"tbps" is not a unit here; did you mean tbsp?'),
        ("3 zorks", '"zorks" is not a unit here; write g, ml, tsp, cup, piece or only a number.'),
        ("", "No amount is written"),
    ],
)
def test_a_refusal_says_the_mend(text: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_quantity(text)
    assert says in refused.value.text


def outcome(text: str) -> Quantity | str:
    try:
        return parse_quantity(text)
    except Refusal as refused:
        return refused.text


@given(st.one_of(st.text(max_size=30), st.text(alphabet="0123456789 ./,-½xgcuptsol", max_size=14)))
def test_any_text_is_read_or_refused_and_what_is_read_reads_back(text: str) -> None:
    read = outcome(text)
    assert read.endswith((".", "?")) if isinstance(read, str) else parse_quantity(read.as_text()) == read


@given(QUANTITIES)
def test_the_text_of_a_quantity_reads_back_exactly(quantity: Quantity) -> None:
    text = json.loads(json.dumps(quantity.as_text()))
    assert parse_quantity(text) == quantity
    assert str(quantity) == text


@given(QUANTITIES, st.fractions(min_value=Fraction(1, 100), max_value=100))
def test_scaling_is_exact(quantity: Quantity, scale: Fraction) -> None:
    assert quantity.times(scale).times(1 / scale) == quantity
    assert parse_quantity(quantity.times(scale).as_text()) == quantity.times(scale)


def test_a_third_three_times_is_one() -> None:
    third = parse_quantity("1/3 cup")
    assert add(add(third, third), third) == parse_quantity("1 cup")


def test_texts_are_as_cooks_write_them() -> None:
    texts = [
        "1.5 cups",
        "0.5 cup",
        "1 cup",
        "1 1/3 cups",
        "2 leaves",
        "1 bunch",
        "500 g",
        "3",
        "0 g",
        "to taste",
    ]
    assert [parse_quantity(text).as_text() for text in texts] == texts


def test_quantities_are_values() -> None:
    assert {parse_quantity("1/2 cup"), parse_quantity("0.5 cup"), parse_quantity("½ cup")} == {
        Quantity(Fraction(1, 2), "cup")
    }
    with pytest.raises(dataclasses.FrozenInstanceError):
        TO_TASTE.unit = "g"  # type: ignore[misc]  # that it cannot be set is what is tested


@given(AMOUNTS, PAIRS)
def test_converting_there_and_back_is_exact(amount: Fraction, pair: tuple[str, str]) -> None:
    quantity = Quantity(amount, pair[0])
    assert convert(convert(quantity, pair[1]), pair[0]) == quantity


@given(AMOUNTS, AMOUNTS, PAIRS)
def test_a_sum_is_in_the_unit_of_the_first_and_the_same_either_way(
    one: Fraction, two: Fraction, pair: tuple[str, str]
) -> None:
    first, second = Quantity(one, pair[0]), Quantity(two, pair[1])
    total = add(first, second)
    assert total.unit == pair[0]
    assert convert(add(second, first), pair[0]) == total


def test_conversion_reads_any_spelling_of_the_unit() -> None:
    assert convert(parse_quantity("1 kg"), "grams") == parse_quantity("1000 g")
    assert convert(Quantity(Fraction(2), "kilos"), "g") == parse_quantity("2000 g")
    assert convert(parse_quantity("3 cloves"), "clove") == parse_quantity("3 cloves")


@pytest.mark.parametrize(
    ("text", "unit", "says"),
    [
        ("1 cup", "g", "g is a weight and cup a volume; weigh one cup of this food"),
        ("100 g", "ml", "g is a weight and ml a volume; weigh one ml of this food"),
        ("3 cloves", "g", "Cloves cannot be turned into g"),
        ("3", "clove", "A plain number cannot be turned into cloves"),
        ("3 cm", "g", "Cm cannot be turned into g"),
        ("to taste", "g", "has no amount to convert"),
        ("1 g", "zorks", '"zorks" is not a unit here'),
    ],
)
def test_what_does_not_compare_is_refused(text: str, unit: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        convert(parse_quantity(text), unit)
    assert says in refused.value.text


def test_sums_that_do_not_compare_are_refused() -> None:
    assert add(TO_TASTE, TO_TASTE) == TO_TASTE
    for one, two in ((TO_TASTE, parse_quantity("1 g")), (parse_quantity("1 g"), TO_TASTE)):
        with pytest.raises(Refusal, match="keep both lines"):
            add(one, two)
    with pytest.raises(Refusal, match="a weight and cup a volume"):
        add(parse_quantity("1 g"), parse_quantity("1 cup"))


@pytest.mark.parametrize(
    ("system", "spoon", "cup", "pint"),
    [
        ("us", "tbsp", "cup", "pint"),
        ("label", "label tbsp", "label cup", "pint"),
        ("metric", "metric tbsp", "metric cup", "pint"),
        ("au", "AU tbsp", "metric cup", "pint"),
        ("uk", "metric tbsp", "UK cup", "UK pint"),
    ],
)
def test_a_plain_cup_is_the_countrys(system: str, spoon: str, cup: str, pint: str) -> None:
    read = [parse_quantity(text, system).unit for text in ("1 tbsp", "1 cup", "1 pint")]
    assert read == [spoon, cup, pint]
    assert [parse_quantity(f"1 {unit}", system).unit for unit in (spoon, cup, pint)] == read
    assert all(each in UNITS for each in SYSTEMS[system].values())


def test_an_unknown_system_is_our_own_fault() -> None:
    with pytest.raises(ValueError, match="lunar"):
        parse_quantity("1 cup", "lunar")
