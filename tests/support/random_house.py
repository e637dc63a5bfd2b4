"""Random guests, and what the house knows of the things that dishes need."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from core.plan.menu import Dish, Guest, Stock
from tests.support.random_menus import rarely
from tests.support.random_words import names, quantities

_ALLERGENS = st.one_of(st.sampled_from(("milk", "gluten", "nuts", "celery", "lupin")), names())


@st.composite
def guests(draw: st.DrawFn) -> tuple[Guest, ...]:
    """Draw guests with different names, mostly none."""
    if draw(st.booleans()):
        return ()
    return tuple(
        Guest(
            name,
            draw(st.sampled_from((1, 1, 40))),
            tuple(draw(st.lists(_ALLERGENS, max_size=2, unique=True))),
            tuple(draw(st.lists(names(), max_size=2, unique=True))),
            draw(st.sampled_from(("", "", "pregnant"))),
        )
        for name in draw(st.lists(names(), max_size=3, unique=True))
    )


@st.composite
def stocks_of(draw: st.DrawFn, dishes: tuple[Dish, ...]) -> tuple[Stock, ...]:
    """Draw what is known of some items, of dishes and others."""
    if draw(st.booleans()):
        return ()
    items = [each.item for dish in dishes for each in dish.ingredients]
    known = st.one_of(st.sampled_from(items), names()) if items else names()
    return tuple(
        Stock(
            item,
            draw(rarely(quantities())),
            draw(rarely(quantities().filter(lambda quantity: quantity.amount > 0))),
            draw(st.sampled_from(("pack", "bag", "bunch"))),
            draw(st.sampled_from((Fraction(1), Fraction(17, 20), Fraction(1, 3)))),
            draw(st.sampled_from(("", "dairy"))),
            draw(rarely(st.integers(0, 366))),
        )
        for item in draw(st.lists(known, max_size=3, unique=True))
    )
