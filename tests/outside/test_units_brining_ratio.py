"""USDA and extension brining advice: 3 tablespoons of salt to the quart are 3/4 cup to the gallon."""

from core.measures import convert, parse_quantity


def test_spoons_per_quart_are_cups_per_gallon() -> None:
    quarts = convert(parse_quantity("1 gallon"), "quart").amount
    salt = parse_quantity("3 tbsp").times(quarts)
    assert salt == parse_quantity("12 tbsp")
    assert convert(salt, "cup") == parse_quantity("3/4 cup")
