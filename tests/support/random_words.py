"""Random texts, ids and quantities, odd ones among them."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from hypothesis import strategies as st

from core.measures.quantity import Quantity
from core.plan.check_problem import fit_to_show, name_trouble

_ODD_NAMES = (
    "Crème brûlée",
    "Пельмени",
    "焼き鳥",
    "بسبوسة",
    "👩‍🍳 special",
    'Ann\'s "best" pie',
    "50 % rye; 1/2 spelt",
    "# not a note",
    "= a + b",
    "<b>bold</b> & plain",
    "[brackets] {braces}",
    "a\\b",
    "e\u0301clair",
    "true",
    "12",
    "-",
    "Gratin: bake",
    "x" * 300,
)


@cache
def names() -> st.SearchStrategy[str]:
    """Draw names: printable, not empty, no space at either end."""
    characters = st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp", "Cn", "Co"))
    made = st.text(characters, min_size=1, max_size=6).map(lambda text: " ".join(text.split()))
    odd = st.sampled_from(_ODD_NAMES)
    return st.one_of(odd, odd, made.filter(lambda text: not name_trouble(text)))


@cache
def notes() -> st.SearchStrategy[str]:
    """Draw texts that may be empty or have several lines."""
    lines = st.lists(names(), min_size=1, max_size=3).map("\n".join)
    return st.one_of(st.just(""), st.just(""), lines.filter(lambda text: fit_to_show(text, lines=True)))


@cache
def local_ids() -> st.SearchStrategy[str]:
    """Draw ids, a few of them long or all digits."""
    return st.one_of(
        st.sampled_from(("a", "b", "7", "bake", "2nd-load", "x_y", "n" * 64)),
        st.from_regex(r"[a-z0-9][a-z0-9_-]{0,5}", fullmatch=True),
    )


@st.composite
def several_ids(draw: st.DrawFn, most: int) -> list[str]:
    """Draw 0 to `most` different ids, many as often as few."""
    count = draw(st.sampled_from((*range(most + 1), most)))
    return draw(st.lists(local_ids(), min_size=count, max_size=count, unique=True))


@cache
def quantities() -> st.SearchStrategy[Quantity]:
    """Draw quantities: counts, fractions, weights and volumes."""
    return quantities_in(("", "g", "kg", "ml", "l", "cup", "UK pint", "egg white"))


@cache
def quantities_in(units: tuple[str, ...]) -> st.SearchStrategy[Quantity]:
    """Draw quantities in some of these units."""
    amounts = st.one_of(
        st.integers(1, 5000).map(Fraction),
        st.fractions(min_value=Fraction(1, 8), max_value=20, max_denominator=8).filter(bool),
    )
    return st.builds(Quantity, amounts, st.sampled_from(units))
