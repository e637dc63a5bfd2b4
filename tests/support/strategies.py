"""Hypothesis strategies: `plans()` of all kinds, `small_feasts()` to be tried out minute by minute."""

from tests.support.random_feasts import small_feasts
from tests.support.random_menus import dishes, links_between
from tests.support.random_plans import decisions_for, kitchens, plans
from tests.support.random_words import names, notes, quantities

__all__ = [
    "decisions_for",
    "dishes",
    "kitchens",
    "links_between",
    "names",
    "notes",
    "plans",
    "quantities",
    "small_feasts",
]
