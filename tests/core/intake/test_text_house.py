"""Guests, what is in the house, scale, tins, measures and what fits where, as typed and as written."""

from __future__ import annotations

import json
import tomllib
from fractions import Fraction

import pytest

from core.intake.text_plan import read_text, write_text
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.menu import Guest, Stock

HEAD = """
name = "Supper"
plating = "2026-09-26 19:30 Europe/London"
covers = 5
guest = ["Tom", {{ name = "Orla", count = 2, allergies = "milk", aversions = ["olives"], at_risk = "pregnant" }}]
stock = ["plain flour: 700 g", {{ item = "leeks", pack = "1 kg", usable = "85 %", keeps = 5, sold_as = "bunch" }}]
{top}
[station.oven]
name = "Oven"
kind = "oven"
inside = {inside}
heater = {{ offset = {offset} }}

[vessel]
tin = {{ name = "Tin", size = "40x30 cm", fits = {fits} }}

[cook.ann]
name = "Ann"

[dish.tart]
name = "Tart"
serves = 4
scale = {scale}
pan = "round 26 cm"
pan_wanted = "GN 1/2-65"
ingredients = [{{ item = "duck", quantity = "2", pieces = 2 }}]

[dish.tart.step.bake]
does = "Bake"
takes = 30
oven = "200 C"
vessels = "tin"
"""


def page(**fields: str) -> str:
    usual = {"inside": '"46x38 cm"', "offset": "10", "fits": '"oven"', "scale": '"1 2/3"', "top": ""}
    return HEAD.format(**{**usual, **fields})


def test_everything_is_read_as_typed() -> None:
    plan = read_text(page())
    assert plan.menu.covers == 5
    assert plan.menu.guests == (Guest("Tom"), Guest("Orla", 2, ("milk",), ("olives",), "pregnant"))
    flour = Stock("plain flour", Quantity(Fraction(700), "g"))
    leeks = Stock("leeks", None, Quantity(Fraction(1), "kg"), "bunch", Fraction(17, 20), keeps=5)
    assert plan.menu.stocks == (flour, leeks)
    oven, tart = plan.kitchen.station["oven"], plan.dishes["tart"]
    assert (oven.wide, oven.deep, oven.heater.offset) == (46, 38, 10)
    assert plan.kitchen.vessel["tin"].fits == ("oven",)
    assert (tart.scale, tart.factor, tart.pan, tart.pan_wanted) == (Fraction(5, 3),) * 2 + ("round 26 cm", "GN 1/2-65")
    assert tart.ingredients[0].pieces == 2


def test_everything_is_written_as_a_person_would() -> None:
    plan = read_text(page())
    data = tomllib.loads(write_text(plan))
    assert data == json.loads(write_text(plan, "json"))
    assert data["covers"] == 5
    assert data["guest"] == [
        "Tom",
        {"name": "Orla", "count": 2, "allergies": ["milk"], "aversions": ["olives"], "at_risk": "pregnant"},
    ]
    assert data["stock"] == [
        "plain flour: 700 g",
        {"item": "leeks", "pack": "1 kg", "sold_as": "bunch", "usable": "0.85", "keeps": "5 days"},
    ]
    assert data["station"]["oven"]["inside"] == "46x38 cm"
    assert data["station"]["oven"]["heater"]["offset"] == 10
    assert data["vessel"]["tin"]["fits"] == ["oven"]
    assert data["dish"]["tart"]["scale"] == "1 2/3"


def test_what_is_not_told_is_not_written() -> None:
    told = ("covers", "guest", "stock")
    bare = read_text("\n".join(line for line in page().splitlines() if not line.startswith(told)))
    assert not {"covers", "guest", "stock"} & tomllib.loads(write_text(bare)).keys()


@pytest.mark.parametrize(
    ("typed", "scale"), [("2", 2), ("1.5", Fraction(3, 2)), ('"150 %"', Fraction(3, 2)), ('"½"', Fraction(1, 2))]
)
def test_a_scale_may_be_typed_in_several_ways(typed: str, scale: Fraction) -> None:
    assert read_text(page(scale=typed)).dishes["tart"].scale == scale


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"scale": "0"}, "Tart is to be made 0 times"),
        ({"scale": "true"}, "true is not a number"),
        ({"scale": '"much"'}, '"much" is not a number from 0 up'),
        ({"inside": '"large"'}, 'write "46x38 cm"'),
        ({"inside": '"20x20 cm"', "fits": "[]"}, "Tin (40x30 cm), which does not fit Oven (20x20 cm inside)"),
        ({"offset": "90"}, "90 °C hotter than its dial says"),
        ({"fits": '"ovn"'}, 'There is no station "ovn"; did you mean oven?'),
        ({"top": 'guests = "Tom"'}, "The key guests is not known here; did you mean guest?"),
    ],
)
def test_a_mistake_is_named_with_its_line(fields: dict[str, str], says: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_text(page(**fields))
    assert says in refused.value.text
    assert "ine " in refused.value.text


@pytest.mark.parametrize(
    ("stock", "says"),
    [
        ("flour", 'write what is in the house as "plain flour: 700 g"'),
        ("flour: much", "is not an amount"),
        ({"item": "flour", "keeps": "long"}, "is not a number of days"),
        ({"item": "flour", "usable": 2}, "200 % is left after trimming"),
    ],
)
def test_what_is_in_the_house_is_checked(stock: object, says: str) -> None:
    data = {"name": "Supper", "plating": "2026-09-26 19:30 Europe/London", "stock": stock}
    with pytest.raises(Refusal) as refused:
        read_text(json.dumps(data), "json")
    assert says in refused.value.text
