"""The 14 groups of Annex II of Regulation (EU) No 1169/2011 on the provision of food information to consumers.

Source: the Annex as amended by Delegated Regulation (EU) No 78/2014; order and headings compared with two public
reproductions (a university's list of food allergens in Europe, a publisher of forms for UK food businesses).
"""

from __future__ import annotations

import pytest

from core.food.allergens import GROUPS, NAMES, groups_of

ANNEX = (
    ("gluten", "Cereals containing gluten", "wheat, rye, barley, oats"),
    ("crustaceans", "Crustaceans", "prawns, lobster, crab, crayfish"),
    ("egg", "Eggs", "eggs"),
    ("fish", "Fish", "fish"),
    ("peanuts", "Peanuts", "peanut"),
    ("soya", "Soybeans", "soybeans"),
    ("milk", "Milk", "lactose"),
    ("nuts", "Nuts", "almonds, hazelnuts, walnuts, cashews, pecan nuts, brazil nuts, pistachio nuts, queensland nuts"),
    ("celery", "Celery", "celery"),
    ("mustard", "Mustard", "mustard"),
    ("sesame", "Sesame seeds", "sesame seeds"),
    ("sulphites", "Sulphur dioxide and sulphites", "sulphur dioxide"),
    ("lupin", "Lupin", "lupin"),
    ("molluscs", "Molluscs", "clams, oysters, scallops, snails, squid"),
)
"""Our name, how the heading begins, and foods that it names or that the reproductions give as examples."""


def test_there_are_fourteen_in_the_order_of_the_annex() -> None:
    assert [each.number for each in GROUPS] == list(range(1, 15))
    assert tuple(name for name, _heading, _foods in ANNEX) == NAMES


@pytest.mark.parametrize(("name", "heading", "foods"), ANNEX)
def test_each_heading_and_what_it_names(name: str, heading: str, foods: str) -> None:
    group = GROUPS[NAMES.index(name)]
    assert group.heading.startswith(heading)
    assert group in groups_of(group.heading)
    for food in foods.split(", "):
        assert group in groups_of(food), food


def test_sulphites_count_from_10_mg_and_milk_has_lactose() -> None:
    assert "more than 10 mg/kg or 10 mg/litre in terms of the total SO2" in GROUPS[11].heading
    assert GROUPS[6].heading == "Milk and products thereof (including lactose)"
