"""Shopping: nothing wanted is forgotten, nothing is bought too late or too soon for it to keep, in the fewest trips."""

from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.joining import as_unit
from core.food.keeping import usual_keeps
from core.food.order_list import key_of
from core.food.shopping import order_lines, shopping
from core.food.speak_lists import said_apart, said_purchase, shopping_lines
from core.measures import Quantity, convert, parse_quantity
from core.measures.unit_names import known
from core.plan.ids import StepId
from core.plan.menu import Ingredient, Stock
from tests.support.builders import a_dish, a_plan, a_step

DAY = 24 * 60
NOON = -(7 * 60 + 30)
"""Minutes from plating, at 19:30, to noon of its day."""


def clock(at):
    return f"{(at + 19 * 60 + 30) % DAY // 60:02}:{(at + 30) % 60:02}"


def day(before):
    return f"day -{before}"


def stock(item, **fields):
    read = {name: parse_quantity(fields.pop(name)) for name in ("in_store", "pack") if name in fields}
    return Stock(item, **read, **fields)


def feast(*wanted, stocks=(), **fields):
    """Return a plan with a dish for each (item, amount, days before plating at noon), and the starts of its steps."""
    dishes, starts = [], {}
    for number, (item, amount, before) in enumerate(wanted):
        step = StepId(f"d{number}.cook")
        quantity = None if amount is None else parse_quantity(amount)
        line = Ingredient(item, quantity, step=step, **fields)
        dishes.append(a_dish(f"d{number}", a_step(step), name=f"Dish {number}", ingredients=(line,)))
        starts[step] = NOON - before * DAY
    plan = a_plan(*dishes)
    return replace(plan, menu=replace(plan.menu, stocks=tuple(stocks))), starts


ITEMS = ("plain flour", "milk", "butter", "onion", "Onions", "saffron", "garlic")
amounts = st.builds(
    Quantity,
    st.fractions(Fraction(1, 8), 500, max_denominator=8),
    st.sampled_from(("g", "kg", "lb", "ml", "cup", "tsp", "l", "", "clove", "stick")),
)
lines = st.builds(
    Ingredient,
    st.sampled_from(ITEMS),
    st.one_of(st.none(), amounts),
    on_hand=st.booleans(),
)
dishes = st.lists(
    st.tuples(st.lists(lines, max_size=4), st.integers(1, 12), st.integers(1, 12)), min_size=1, max_size=4
)


def totals(listed, of):
    """Return by item and kind of unit how much lines come to, in g wherever the table can tell."""
    found = {}
    for each in listed:
        amount = getattr(each, of)
        if amount.to_taste or not amount.amount:
            continue
        grams = as_unit(amount, each.item, "g")
        kind = known(amount.unit).kind
        if grams is None:
            base = {"weight": "g", "volume": "ml"}.get(kind, amount.unit)
            grams = amount if kind == "count" else convert(amount, base)
        key = (key_of(each.item), grams.unit)
        found[key] = found.get(key, Fraction(0)) + grams.amount
    return found


@given(dishes)
def test_the_list_of_a_menu_is_the_sum_of_the_lists_of_its_dishes(drawn):
    made = [
        a_dish(f"d{number}", ingredients=tuple(each), written_for=written, wanted=wanted)
        for number, (each, written, wanted) in enumerate(drawn)
    ]
    whole = order_lines(a_plan(*made))
    parts = [line for dish in made for line in order_lines(a_plan(dish))]
    for what in ("ready", "purchased", "at_home", "buy"):
        assert totals(whole, what) == totals(parts, what)
    assert {key_of(each.item) for each in whole} == {key_of(each.item) for each in parts}


def test_spoons_and_cups_of_one_dish_come_to_the_same_beside_a_weight_in_another():
    """The table's spoon of milk is not exactly a sixteenth of its cup: only one density may be used to join."""
    spoons = tuple(Ingredient("milk", parse_quantity(amount)) for amount in ("3 tbsp", "1 cup"))
    weighed_out = Ingredient("milk", parse_quantity("9 g"))
    one, other = a_dish("one", ingredients=spoons), a_dish("other", ingredients=(weighed_out,))
    alone, together = order_lines(a_plan(one)), order_lines(a_plan(one, other))
    assert totals(together, "ready")["milk", "g"] == totals(alone, "ready")["milk", "g"] + 9


wants = st.lists(
    st.tuples(st.sampled_from(("cress", "cod", "cream", "flour")), st.integers(1, 900), st.integers(0, 6)),
    min_size=1,
    max_size=6,
)
there = st.tuples(st.integers(0, 3), st.one_of(st.none(), st.integers(0, 400)))
houses = st.fixed_dictionaries(dict.fromkeys(("cress", "cod", "cream"), there))


def planned(wanted, house):
    stocks = [
        Stock(item, None if there is None else Quantity(Fraction(there), "g"), keeps=keeps)
        for item, (keeps, there) in house.items()
    ]
    return feast(*((item, f"{grams} g", before) for item, grams, before in wanted), stocks=stocks)


@given(wants, houses)
def test_everything_is_bought_in_time_and_still_fresh_when_it_is_wanted(wanted, house):
    plan, starts = planned(wanted, house)
    found = shopping(plan, starts)
    bought = {}
    for trip in found.trips:
        for each in trip.purchases:
            keeps = None if each.line.item == "flour" else house[each.line.item][0]
            assert each.keeps == keeps
            for need in each.line.needs:
                age = trip.days_before - wanted_days(plan, need)
                assert age >= (0 if keeps == 0 else 1)
                assert keeps is None or age <= keeps
            bought[each.line.item] = bought.get(each.line.item, 0) + each.line.buy.amount
    for line in order_lines(plan, starts):
        assert bought.get(line.item, 0) == line.buy.amount
    for each in found.at_home:
        assert each.line.buy.amount == 0


def wanted_days(plan, need):
    return (plan.plating.local.date() - plan.wall(need.by).date()).days


@given(st.dictionaries(st.sampled_from("abcdefg"), st.tuples(st.integers(0, 5), st.integers(0, 3)), min_size=1))
def test_no_fewer_trips_would_do(each):
    """Each item is wanted once, so its days are plain: every smaller choice of days misses one."""
    plan, starts = feast(
        *((item, "1 kg", before) for item, (before, _keeps) in each.items()),
        stocks=[Stock(item, keeps=keeps) for item, (_before, keeps) in each.items()],
    )
    trips = len(shopping(plan, starts).trips)
    days = [
        {before} if keeps == 0 else set(range(before + 1, before + keeps + 1)) for before, keeps in each.values()
    ]
    choices = (set(some) for many in range(1, 8) for some in combinations(range(9), many))
    assert trips == len(next(some for some in choices if all(one & some for one in days)))


def test_a_thing_for_a_brine_two_days_ahead_is_bought_before_and_the_fresh_ones_late():
    plan, starts = feast(
        ("salt", "500 g", 2),
        ("pork", "2 kg", 2),
        ("cress", "50 g", 0),
        ("flour", "1 kg", 0),
        stocks=[stock("pork", keeps=3), stock("cress", keeps=1)],
    )
    first, last = shopping(plan, starts).trips
    assert (first.days_before, [each.line.item for each in first.purchases]) == (3, ["salt", "pork", "flour"])
    assert (last.days_before, [each.line.item for each in last.purchases]) == (1, ["cress"])


def test_what_cannot_keep_from_its_first_use_to_its_last_is_bought_twice_and_that_is_said():
    plan, starts = feast(
        ("cress", "50 g", 4),
        ("cress", "200 g", 0),
        stocks=[stock("cress", keeps=2, pack="80 g", sold_as="tray", in_store="60 g")],
    )
    found = shopping(plan, starts)
    assert [(trip.days_before, trip.purchases[0].line.packs) for trip in found.trips] == [(1, 3)]
    # the 60 g in store serve the first use; what is left of them goes to the second
    assert found.trips[0].purchases[0].line.buy == parse_quantity("190 g")
    plan, starts = feast(("cress", "50 g", 4), ("cress", "200 g", 0), stocks=[stock("cress", keeps=2)])
    found = shopping(plan, starts)
    assert [trip.days_before for trip in found.trips] == [5, 1]
    assert [said_apart(each, day) for each in found.apart] == [
        "Cress keeps 2 days, but is wanted from day -4 to day -0: bought on day -5 and day -1."
    ]


def test_what_keeps_for_no_day_is_bought_on_its_day():
    plan, starts = feast(("oysters", "24", 0), stocks=[stock("oysters", keeps=0)])
    assert [trip.days_before for trip in shopping(plan, starts).trips] == [0]


def test_weight_volume_and_packs_are_one_line_through_the_portion_weights():
    plan, starts = feast(
        ("plain flour", "2 cups", 1),
        ("Plain flour", "600 g", 0),
        stocks=[stock("plain flour", pack="1 kg", in_store="1 cup", sold_as="bag", aisle="baking")],
    )
    (line,) = order_lines(plan, starts)
    assert (convert(line.ready, "g"), convert(line.buy, "g")) == (parse_quantity("850 g"), parse_quantity("725 g"))
    assert line.packs == 1
    ((trip,),) = [shopping(plan, starts).trips]
    assert said_purchase(trip.purchases[0], clock) == (
        "1 bag of 1 kg plain flour (0.85 kg wanted, 0.12 kg there): Dish 0 0.25 kg by 12:00; Dish 1 0.6 kg by 12:00"
    )


def test_a_pack_that_does_not_compare_is_told_and_stops_nothing():
    plan, starts = feast(("leeks", "3", 0), stocks=[stock("leeks", pack="500 g")])
    (trip,) = shopping(plan, starts).trips
    assert said_purchase(trip.purchases[0], clock) == "3 leeks, sold by 500 g: count the packs there: Dish 0 by 12:00"


def test_what_is_ticked_as_there_is_not_bought_and_stands_apart():
    plan, starts = feast(("fine salt", "20 g", 1), ("fine salt", "30 g", 0), on_hand=True)
    assert shopping_lines(shopping(plan, starts), clock, day) == (
        "In the house already (look that it is there, and enough):",
        "  [ ] fine salt, 50 g: Dish 0; Dish 1",
    )


def test_the_list_by_trip_and_aisle():
    plan, starts = feast(("lemons", "1", 0), ("thyme", None, 0), ("cod", "1.2 kg", 0), aisle="fruit")
    assert shopping_lines(shopping(plan, starts), clock, day) == (
        "Buy on day -1: 3 things",
        "  Fruit",
        "    [ ] 1 lemon: Dish 0 by 12:00",
        "    [ ] thyme, some: Dish 1 by 12:00",
        "    [ ] 1.2 kg cod: Dish 2 by 12:00",
        "",
        "How long fresh things keep is what is usual; the date on the pack goes before it.",
    )


def test_an_empty_menu_needs_nothing():
    assert shopping_lines(shopping(a_plan()), clock, day) == ()


@pytest.mark.parametrize(
    ("item", "aisle", "days"),
    [
        ("chicken thighs", "meat", 1),
        ("rack of pork", "meat", 3),
        ("cod", "fish", 1),
        ("smoked mackerel", "fish", 5),
        ("onions", "vegetables", 14),
        ("spinach", "vegetables", 2),
        ("stale bread", "bakery", None),
        ("plain flour", "dry goods", None),
        ("ground coffee", "drinks", None),
        ("anything", "", None),
    ],
)
def test_usual_days(item, aisle, days):
    assert usual_keeps(item, aisle) == days
