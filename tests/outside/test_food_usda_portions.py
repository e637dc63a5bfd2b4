"""USDA National Nutrient Database for Standard Reference, file WEIGHT: grams of household measures, by NDB number.

Rows as printed in the WEIGHT file of the 8,463-food release. They are rounded one by one, so that a cup is not
exactly sixteen tablespoons or forty-eight teaspoons of the same food: no test here asserts that.
"""

from fractions import Fraction

import pytest

from core.food.portions import FOODS, is_volume
from core.food.weighing import density, find_food, weighed
from core.measures import Quantity, Refusal, parse_quantity
from core.measures.units import factor

PRINTED = [
    ("20081", "plain flour", "1 cup", "125"),
    ("20080", "whole wheat flour", "1 cup", "120"),
    ("19335", "granulated sugar", "1 cup", "200"),
    ("19335", "granulated sugar", "1 tsp", "4.2"),
    ("19334", "brown sugar, packed", "1 cup", "220"),
    ("19334", "brown sugar, unpacked", "1 cup", "145"),
    ("19334", "brown sugar, packed", "1 tsp", "4.6"),
    ("19336", "powdered sugar", "1 cup", "120"),
    ("19336", "sifted powdered sugar", "1 cup", "100"),
    ("19336", "powdered sugar", "1 tbsp", "8"),
    ("01145", "unsalted butter", "1 cup", "227"),
    ("01145", "unsalted butter", "1 tbsp", "14.2"),
    ("01001", "salted butter", "1 cup", "227"),
    ("20044", "long-grain rice", "1 cup", "185"),
    ("20052", "short-grain rice", "1 cup", "200"),
    ("02047", "table salt", "1 cup", "292"),
    ("02047", "table salt", "1 tbsp", "18"),
    ("02047", "table salt", "1 tsp", "6.0"),
    ("19296", "honey", "1 cup", "339"),
    ("19296", "honey", "1 tbsp", "21"),
    ("01077", "whole milk", "1 cup", "244"),
    ("01077", "whole milk", "1 tbsp", "15"),
    ("01077", "whole milk", "1 quart", "976"),
    ("01053", "heavy cream", "1 cup", "238"),
    ("01053", "whipped heavy cream", "1 cup", "120"),
    ("04053", "olive oil", "1 cup", "216"),
    ("04053", "olive oil", "1 tbsp", "13.5"),
    ("04053", "olive oil", "1 tsp", "4.5"),
    ("04582", "canola oil", "1 cup", "218"),
    ("04582", "canola oil", "1 tbsp", "14"),
    ("14429", "tap water", "1 cup", "237"),
    ("14429", "tap water", "1 fl oz", "29.6"),
    ("14429", "tap water", "1 l", "1000"),
    ("01123", "beaten egg", "1 cup", "243"),
    ("01123", "small egg", "1", "38"),
    ("01123", "medium egg", "1", "44"),
    ("01123", "large egg", "1", "50"),
    ("01123", "extra large egg", "1", "56"),
    ("01123", "jumbo egg", "1", "63"),
    ("20027", "cornstarch", "1 cup", "128"),
    ("19165", "cocoa", "1 cup", "86"),
    ("19165", "cocoa", "1 tbsp", "5.4"),
    ("18369", "baking powder", "1 tsp", "4.6"),
    ("18372", "baking soda", "1 tsp", "4.6"),
    ("18375", "dry yeast", "1 tsp", "4.0"),
    ("18375", "dry yeast", "1 packet", "7.2"),
    ("11282", "chopped onion", "1 cup", "160"),
    ("11282", "medium onion", "1", "110"),
    ("11215", "garlic", "1 clove", "3"),
]
"""NDB number, food, portion, grams."""


@pytest.mark.parametrize(("ndb", "item", "amount", "grams"), PRINTED)
def test_a_portion_weighs_what_is_printed(ndb, item, amount, grams):
    found = weighed(parse_quantity(amount), item)
    assert (found.food.ndb, found.grams) == (ndb, Quantity(Fraction(grams), "g"))


def test_no_row_of_ours_is_missing_from_the_printed_ones():
    printed = {(ndb, Fraction(grams)) for ndb, _item, _amount, grams in PRINTED}
    ours = {(food.ndb, row.grams) for food in FOODS if food.ndb for row in food.portions}
    assert ours - printed == {("01145", Fraction(113)), ("01001", Fraction(113)), ("01001", Fraction("14.2"))}
    # a stick of butter is printed as 113 g; here it is a unit of weight, a quarter of a pound: 113.4 g
    stick = weighed(parse_quantity("1 stick"), "unsalted butter").grams.amount
    assert abs(stick - 113) < Fraction(1, 2)


def test_a_cup_of_sugar_and_a_spoon_of_honey():
    sugar, honey = weighed(parse_quantity("1 cup"), "sugar"), weighed(parse_quantity("1 tbsp"), "honey")
    assert (sugar.grams, honey.grams) == (parse_quantity("200 g"), parse_quantity("21 g"))


def test_a_cup_of_salt_and_its_teaspoons_as_printed_each():
    assert weighed(parse_quantity("1 cup"), "salt").grams == parse_quantity("292 g")
    assert weighed(parse_quantity("48 tsp"), "salt").grams == parse_quantity("288 g")


@pytest.mark.parametrize(
    ("item", "per_ml"),
    [
        ("plain flour", "0.528"),
        ("wholemeal flour", "0.507"),
        ("sugar", "0.845"),
        ("brown sugar", "0.930"),
        ("butter", "0.959"),
        ("white rice", "0.782"),
        ("salt", "1.234"),
        ("honey", "1.433"),
        ("whole milk", "1.031"),
        ("heavy cream", "1.006"),
        ("olive oil", "0.913"),
        ("canola oil", "0.921"),
    ],
)
def test_the_density_is_the_printed_cup_over_the_legal_cup(item, per_ml):
    """g/ml worked out from the printed cup at 236.588 ml; milk from its printed quart, the same to three places."""
    found = density(item)
    assert found is not None
    assert abs(found - Fraction(per_ml)) <= Fraction(1, 2000)


@pytest.mark.parametrize("food", [food for food in FOODS if food.ndb], ids=lambda food: food.name)
def test_the_printed_portions_of_a_food_agree_with_each_other_to_what_rounding_explains(food):
    """A spoon is printed to the gram or its tenth: within 7 % of the cup (icing sugar: 8 g for 7.5)."""
    for row in food.portions:
        if is_volume(row.measure) and food.density:
            assert abs(row.grams / factor(row.measure, "ml") / food.density - 1) <= Fraction(7, 100)


def test_kosher_salt_is_not_in_the_database_and_two_densities_are_named():
    """Trade figures, no standard: 2.8 to 3 g a teaspoon of hollow flakes, 4.8 to 5 g of rolled ones."""
    with pytest.raises(Refusal, match="kosher salt is of two kinds"):
        weighed(parse_quantity("1 tsp"), "kosher salt")
    hollow, rolled = (find_food(f"kosher salt {each} flakes") for each in ("hollow", "rolled"))
    assert hollow is not None
    assert rolled is not None
    assert Fraction("2.8") <= hollow.portions[0].grams <= 3
    assert Fraction("4.8") <= rolled.portions[0].grams <= 5
    assert hollow.ndb == rolled.ndb == ""
