"""Scenarios of the small sums: a dish scaled from 4 to 12, one order list over dishes, a bird to thaw."""

from fractions import Fraction

import pytest

from core.food.loads import in_loads
from core.food.order_list import Need, Supply, order_list
from core.food.scaling import scaled, scaled_dish
from core.food.speak import said_loads, said_scaled, said_thaw, said_tins
from core.food.speak_order import said_line
from core.food.thawing import Place, thaw_offers
from core.food.tins import area_wanted, baking_time, tin, tins_for
from core.measures import offset_of, parse_moment, parse_quantity, wall
from core.plan.menu import Ingredient
from tests.support.builders import a_dish


def test_f11_ingredients_from_4_to_12():
    written = {"flour": "300 g", "eggs": "2", "salt": "6 g", "chilli": "2 tsp"}
    lines = tuple(Ingredient(item, parse_quantity(amount)) for item, amount in written.items())
    flour, eggs, salt, chilli = scaled_dish(a_dish("pie", written_for=4, wanted=12, ingredients=lines))
    assert flour.exact == parse_quantity("900 g")
    assert eggs.whole == 6
    assert salt.exact == parse_quantity("18 g")
    assert chilli.exact == parse_quantity("6 tsp")
    assert chilli.start == (parse_quantity("4.5 tsp"), parse_quantity("4.8 tsp"))
    assert [said_scaled(each) for each in (flour, eggs, salt, chilli)] == [
        "flour: 900 g",
        "eggs: 6",
        "salt: 18 g",
        "chilli: start 4½ to 5 tsp, taste (6 tsp in proportion)",
    ]


def test_f11_the_tin_grows_and_the_bake_stays():
    square = tin(20, 20)
    assert area_wanted(square, 3) == 1200
    found = tins_for(square, 3)
    assert (found.count, found.tin, found.depth) == (1, tin(40, 30), 1)
    assert baking_time(45, found.depth) == (45, 45)
    assert said_tins(found, area_wanted(square, 3), baking_time(45, found.depth)) == (
        "1,200 cm² at the same depth: a tin of 40 x 30 cm; baking time unchanged, 45 min."
    )


def test_f11_browning_goes_by_loads():
    meat = scaled("shin of beef", parse_quantity("600 g"), 3).exact
    work = in_loads(meat, parse_quantity("600 g"), 8)
    assert (work.loads, work.minutes) == (3, 24)
    assert said_loads(work) == "3 loads of 8 min, 24 min"


SERVED = parse_moment("2026-10-03 19:00", "Europe/London")  # a Saturday


def clock(at):
    return f"{wall(SERVED, at):%a %H:%M}"


def offset(text):
    return offset_of(SERVED, parse_moment(text, SERVED.zone).local)


@pytest.fixture
def weir_street():
    friday, noon, three = (
        offset(text) for text in ("2026-10-02 16:00", "2026-10-03 12:00", "2026-10-03 15:00")
    )
    wanted = (
        ("onion", "0.60 kg", "Braise", noon), ("onion", "0.30 kg", "Soup", friday),
        ("onion", "0.15 kg", "Relish", three),
        ("butter", "120 g", "Pastry", friday), ("butter", "20 g", "Soup", friday), ("butter", "60 g", "Sauce", three),
        ("cream", "700 ml", "Gratin", noon), ("cream", "400 ml", "Mousse", friday),
    )  # fmt: skip
    needs = [Need(item, parse_quantity(amount), dish, by) for item, amount, dish, by in wanted]
    supplies = {
        "onion": Supply(parse_quantity("0.40 kg"), parse_quantity("0.5 kg"), Fraction("0.90"), "net"),
        "butter": Supply(parse_quantity("250 g")),
        "cream": Supply(None, parse_quantity("300 ml"), sold_as="pot"),
    }
    return order_list(needs, supplies)


def test_f12_amounts_and_packs(weir_street):
    onion, butter, cream = weir_street
    assert onion.ready == parse_quantity("1.05 kg")
    assert onion.purchased.amount == Fraction(7, 6)
    assert onion.buy.amount == Fraction(7, 6) - Fraction(2, 5)
    assert onion.packs == 2
    assert (butter.ready, butter.buy.amount, butter.packs) == (parse_quantity("200 g"), 0, None)
    assert (cream.buy, cream.packs, cream.bought) == (parse_quantity("1100 ml"), 4, parse_quantity("1200 ml"))


def test_f12_each_line_says_for_which_dishes_and_by_when(weir_street):
    onion, butter, cream = (said_line(line, clock) for line in weir_street)
    assert onion == (
        "onion: 1.17 kg for 1.05 kg ready to use; 0.4 kg at home; buy 2 nets of 0.5 kg for 0.77 kg; for Braise,"
        " Soup and Relish, by Fri 16:00"
    )
    assert butter == "butter: 200 g; 250 g at home; buy none; for Pastry, Soup and Sauce, by Fri 16:00"
    assert cream == "cream: 1.1 l; buy 4 pots of 300 ml for 1.1 l; for Gratin and Mousse, by Fri 16:00"


def test_f8_a_bird_that_is_too_late_for_the_fridge_thaws_in_cold_water():
    bird, brine = parse_quantity("5.4 kg"), 24 * 60
    salted = offset("2026-10-03 14:30") - brine
    assert clock(salted) == "Fri 14:30"
    fridge, water = thaw_offers(bird, offset("2026-10-01 10:00"), salted)
    assert (fridge.thaw.place, fridge.thaw.high) == (Place.FRIDGE, 72 * 60)
    assert clock(fridge.in_by) == "Tue 14:30"
    assert fridge.late == 43 * 60 + 30
    assert (water.thaw.low, water.thaw.high, water.thaw.changes) == (330, 360, (11, 12))
    assert [clock(each) for each in water.thawed] == ["Thu 15:30", "Thu 16:00"]
    assert water.late == 0
    assert said_thaw(water, clock) == (
        "Thaw in cold water, 5 h 30 min to 6 h, leak-proof bag, 11 to 12 changes of water, one each 30 min:"
        " begin by Fri 08:30; begun now it is thawed by Thu 16:00. USDA: what thawed in cold water is cooked at"
        " once, not kept."
    )
