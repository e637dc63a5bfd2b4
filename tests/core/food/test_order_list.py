"""The order list: nothing gets lost, packs are whole, what does not compare is said."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.needs import needs_of
from core.food.order_list import Need, Supply, order_list, total
from core.food.speak_order import at_most, said_line, to_order
from core.measures import TO_TASTE, Quantity, Refusal, convert, parse_quantity
from core.plan.ids import StepId
from core.plan.menu import Ingredient
from core.plan.step import Yield
from tests.support.builders import a_dish, a_link, a_plan, a_step


def need(item, amount, dish="soup", **fields):
    return Need(item, TO_TASTE if amount is None else parse_quantity(amount), dish, **fields)


def supply(in_store=None, pack=None, usable="1", sold_as="pack"):
    read = [None if each is None else parse_quantity(each) for each in (in_store, pack)]
    return Supply(*read, Fraction(usable), sold_as)


def clock(at):
    return f"{at // 60 % 24:02}:{at % 60:02}"


def one(needs, **supplies):
    (line,) = order_list(needs, supplies)
    return line


amounts = st.fractions(min_value=0, max_value=5000, max_denominator=16)
needs = st.lists(
    st.builds(
        Need,
        st.sampled_from(("onion", "Onion ", "cream", "flour")),
        st.builds(Quantity, amounts, st.sampled_from(("g", "kg", "lb", "ml", "cup", "", "tsp"))),
        st.sampled_from(("soup", "stew")),
        st.one_of(st.none(), st.integers(-5000, 0)),
        at_home=st.booleans(),
    ),
    max_size=8,
)


def grams(quantities):
    return sum(
        (convert(each, "g").amount for each in quantities if each.unit in ("g", "kg", "lb")), Fraction(0)
    )


@given(needs)
def test_the_list_holds_all_that_was_wanted_and_nothing_else(wanted):
    lines = order_list(wanted)
    assert sorted(map(repr, wanted)) == sorted(repr(each) for line in lines for each in line.needs)
    assert grams(each.quantity for each in wanted) == grams(line.ready for line in lines)
    for line in lines:
        assert total(line.needs, line.ready.unit) == line.ready
        times = [each.by for each in line.needs if each.by is not None]
        assert line.by == (min(times) if times else None)


weights = st.fractions(min_value=Fraction(1, 10), max_value=2000, max_denominator=10)


@given(weights, weights, weights, st.fractions(Fraction(1, 10), 1, max_denominator=10))
def test_packs_are_enough_and_none_too_many(wanted, store, pack, usable):
    line = one(
        [Need("onion", Quantity(wanted, "g"), "soup")],
        onion=Supply(Quantity(store, "g"), Quantity(pack, "g"), usable),
    )
    assert line.purchased.amount == wanted / usable
    assert line.buy.amount == max(0, wanted / usable - store)
    assert line.packs == ceil(line.buy.amount / pack)
    assert line.packs * pack >= line.buy.amount > (line.packs - 1) * pack
    assert line.bought == Quantity(line.packs * pack, "g")


def test_units_that_compare_are_added_in_the_first_one():
    line = one([need("butter", "1 lb"), need("Butter", "50 g"), need(" butter", "1 stick")])
    assert line.ready.unit == "lb"
    assert convert(line.ready, "g").amount == Fraction("453.59237") * Fraction(5, 4) + 50


def test_weight_and_volume_of_one_item_are_two_lines_and_the_store_counts_for_its_own():
    weight, volume = order_list([need("cream", "100 g"), need("cream", "1 l")], {"cream": supply("250 ml")})
    assert (weight.at_home.amount, weight.buy) == (0, parse_quantity("100 g"))
    assert volume.buy == parse_quantity("0.75 l")


def test_what_is_to_taste_goes_with_the_amount_or_stands_alone():
    line = one([need("salt", None, "stew"), need("salt", "10 g"), need("salt", None, "tart")])
    assert line.dishes == ("stew", "soup", "tart")
    assert line.ready == parse_quantity("10 g")
    alone = one([need("thyme", None)])
    assert said_line(alone, clock) == "thyme: to taste; for soup"


def test_ticked_as_on_hand_is_not_bought_and_what_is_made_neither():
    line = one(
        [
            need("stock", "500 ml", at_home=True),
            need("stock", "400 ml", made=parse_quantity("300 ml")),
            need("stock", "100 ml", made=parse_quantity("1 l")),
            need("stock", "100 ml", made=parse_quantity("100 g")),
        ]
    )
    assert line.ready == parse_quantity("1100 ml")
    assert line.at_home == parse_quantity("900 ml")
    assert line.buy == parse_quantity("200 ml")


def test_what_is_sold_loose_is_bought_as_it_is():
    line = one([need("leek", "400.5 g", by=-60)])
    assert line.bought == line.buy == parse_quantity("400.5 g")
    assert said_line(line, lambda at: f"{-at} min before") == (
        "leek: 401 g; buy 401 g; for soup, by 60 min before"
    )


def test_one_pack_is_said_in_the_singular():
    line = one([need("cream", "0.2 l")], cream=supply(None, "300 ml", sold_as="pot"))
    assert said_line(line, clock) == "cream: 0.2 l; buy 1 pot of 300 ml for 0.2 l; for soup"


def test_the_aisle_is_the_first_that_is_named():
    assert one([need("leek", "1"), need("leek", "2", aisle="greens")]).aisle == "greens"


@pytest.mark.parametrize(
    ("needs", "stock", "says"),
    [
        (
            [need("onion", "100 g")],
            supply("1 l"),
            "What is in store of onion is 1 l, but the dishes want 100 g",
        ),
        (
            [need("onion", "3")],
            supply(None, "1 kg"),
            "The pack of onion is 1 kg, but the dishes want 3; write",
        ),
        ([need("onion", "1 kg")], supply(usable="0"), "The yield of onion is 0; write above 0 and up to 1"),
        ([need("onion", "1 kg")], supply(usable="3/2"), "The yield of onion is 1.5; write above 0"),
        ([need("onion", "1 kg")], supply(None, "0 g"), "A pack of onion: write an amount greater than 0"),
        (
            [need("onion", "1 kg")],
            Supply(Quantity(Fraction(-1), "g")),
            "onion in store: an amount cannot be less",
        ),
        (
            [Need("onion", Quantity(Fraction(-1), "g"), "a")],
            supply(),
            "onion: an amount cannot be less than 0",
        ),
        ([Need("onion", Quantity(Fraction(1), "sack"), "a")], supply(), 'onion: "sack" is not a unit here'),
    ],
)
def test_what_is_refused(needs, stock, says):
    with pytest.raises(Refusal, match=says):
        order_list(needs, {"onion": stock})


def test_a_total_of_weight_and_volume_is_refused_by_name():
    with pytest.raises(Refusal, match="cream: g is a weight and ml a volume"):
        total([need("cream", "1 l"), need("cream", "100 g")], "ml")


@pytest.mark.parametrize(
    ("amount", "up", "down"),
    [
        ("1 1/6 kg", "1.17 kg", "1.16 kg"),
        ("23/30 kg", "0.77 kg", "0.76 kg"),
        ("400.2 g", "401 g", "400 g"),
        ("10.12 g", "10.2 g", "10.1 g"),
        ("4905 g", "4.91 kg", "4.9 kg"),
        ("5 cups", "1.19 l", "1.18 l"),
        ("4.2", "5", "4.2"),
        ("0.4 kg", "0.4 kg", "0.4 kg"),
        ("1/3 l", "0.34 l", "0.33 l"),
        ("0.5 bunch", "1 bunch", "0.5 bunch"),
        ("1.5 cups", "355 ml", "354 ml"),
        ("1 1/3 tsp", "1.34 tsp", "1.33 tsp"),
    ],
)
def test_what_is_ordered_is_rounded_up_and_what_is_counted_on_down(amount, up, down):
    assert to_order(parse_quantity(amount)) == up
    assert at_most(parse_quantity(amount)) == down


def a_menu(**butter):
    churn = a_step("butter.churn", minutes=25, **butter)
    pour = a_step("cream.pour", minutes=10)
    return a_plan(
        a_dish("butter", churn, served=False, ingredients=(Ingredient("salt", parse_quantity("6 g")),)),
        a_dish(
            "cream",
            pour,
            a_step("cream.dress", minutes=5),
            written_for=4,
            wanted=6,
            ingredients=(
                Ingredient("Buttermilk", parse_quantity("200 ml"), step=StepId("cream.pour"), aisle="dairy"),
                Ingredient("eggs", parse_quantity("3")),
                Ingredient("sugar", None, on_hand=True),
            ),
        ),
        links=(
            a_link("butter.churn", "cream.pour", brings=parse_quantity("250 ml")),
            a_link("cream.pour", "cream.dress", 60),
        ),
        transfer=0,
    )


def test_needs_of_a_plan_are_scaled_timed_and_less_what_is_made():
    plan = a_menu(yields=Yield("buttermilk", parse_quantity("250 ml")))
    salt, milk, eggs, sugar = needs_of(plan)
    assert (salt.dish, salt.by) == ("Butter", -(5 + 60 + 10 + 25))
    assert (milk.quantity, milk.by, milk.aisle) == (parse_quantity("300 ml"), -75, "dairy")
    assert milk.made == parse_quantity("250 ml")
    assert (eggs.quantity, eggs.by) == (parse_quantity("5"), -75)
    assert sugar.quantity.to_taste
    assert sugar.at_home
    line = order_list(needs_of(plan))[1]
    assert line.buy == parse_quantity("50 ml")


def test_a_link_that_brings_nothing_of_that_name_makes_nothing():
    assert needs_of(a_menu())[1].made is None
    assert needs_of(a_menu(yields=Yield("whey", parse_quantity("1 l"))))[1].made is None


def test_what_two_links_bring_is_made_together():
    """Two churnings give the same dish its buttermilk; what does not compare with the first is left out."""
    some = {"yields": Yield("buttermilk", parse_quantity("1 l"))}
    churns = [a_step(f"{dish}.churn", minutes=25, **some) for dish in ("butter", "ghee", "odd")]
    line = Ingredient("buttermilk", parse_quantity("500 ml"))
    plan = a_plan(
        *(a_dish(str(churn.id).split(".")[0], churn, served=False) for churn in churns),
        a_dish("cream", a_step("cream.pour", minutes=10), ingredients=(line,)),
        links=(
            a_link("butter.churn", "cream.pour", brings=parse_quantity("200 ml")),
            a_link("ghee.churn", "cream.pour", brings=parse_quantity("0.1 l")),
            a_link("odd.churn", "cream.pour", brings=parse_quantity("50 g")),
        ),
        transfer=0,
    )
    assert needs_of(plan)[0].made == parse_quantity("300 ml")


def test_what_one_line_takes_of_a_by_product_another_line_of_the_dish_does_not_have():
    churn = a_step("butter.churn", minutes=25, yields=Yield("buttermilk", parse_quantity("250 ml")))
    lines = tuple(Ingredient("buttermilk", parse_quantity(each)) for each in ("200 ml", "300 ml"))
    plan = a_plan(
        a_dish("butter", churn, served=False),
        a_dish("cream", a_step("cream.pour", minutes=10), ingredients=lines),
        links=(a_link("butter.churn", "cream.pour", brings=parse_quantity("250 ml")),),
    )
    assert [each.made for each in needs_of(plan)] == [parse_quantity("250 ml"), parse_quantity("50 ml")]
    assert [line.buy for line in order_list(needs_of(plan))] == [parse_quantity("250 ml")]


def test_placed_starts_replace_those_counted_back():
    needs = needs_of(a_menu(), {StepId("cream.pour"): -200})
    assert [each.by for each in needs] == [None, -200, -200, -200]
