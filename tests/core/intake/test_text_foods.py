"""What is known of foods, as typed."""

from __future__ import annotations

import pytest

from core.intake.text_plan import read_text, write_text
from core.measures.refusal import Refusal
from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind

TEXT = """
name = "Soup"
plating = "2026-09-26 19:30 Europe/London"
room = "31 C"

[decisions]
rules = "uk"

[station.fridge]
name = "Fridge"
kind = "fridge"
keeps_at = "4 C"

[cook.ann]
name = "Ann"

[dish.soup]
name = "Soup"
ingredients = [{ item = "bones", quantity = "1 kg", food = "poultry", arrives = "frozen", thick = "4 cm" }]

[dish.soup.step.cool]
does = "Cool"
takes = 30
food = "cool in ice, 40 mm deep, tray"
"""


def test_foods_are_read_and_written() -> None:
    plan = read_text(TEXT)
    (bones,) = plan.menu.dishes[0].ingredients
    assert (bones.food, bones.arrives, bones.thick) == (FoodKind.POULTRY, Arrival.FROZEN, 40)
    assert plan.menu.dishes[0].steps[0].food == FoodCare(Effect.COOL_IN_ICE, 40, Container.TRAY)
    assert (plan.kitchen.room, plan.kitchen.stations[0].keeps_at, plan.decisions.rules) == (31, 4, "uk")
    written = write_text(plan, "toml")
    assert 'food = "cool in ice, 40 mm deep, tray"' in written
    assert 'keeps_at = "4 C"' in written
    assert read_text(written) == plan


@pytest.mark.parametrize(
    ("typed", "care"),
    [
        ('"ferment"', FoodCare(Effect.FERMENT)),
        ('"50 mm"', FoodCare(depth=50)),
        ('"5 cm deep, pot"', FoodCare(None, 50, Container.POT)),
        ("{ depth = 50 }", FoodCare(depth=50)),
        ("{}", FoodCare()),
    ],
)
def test_short_lines_and_tables(typed: str, care: FoodCare) -> None:
    plan = read_text(TEXT.replace('"cool in ice, 40 mm deep, tray"', typed))
    assert plan.menu.dishes[0].steps[0].food == care
    assert read_text(write_text(plan, "toml")) == plan


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('food = "poultry"', 'food = "poultri"', "poultri.*poultry"),
        ('arrives = "frozen"', 'arrives = "by post"', "by post"),
        ('thick = "4 cm"', 'thick = "thin"', 'is not a thickness; write "40 mm"'),
        ('"cool in ice, 40 mm deep, tray"', '"cool in snow"', "cool in snow"),
    ],
)
def test_what_is_not_known_is_refused_with_its_place(old: str, new: str, sentence: str) -> None:
    assert old in TEXT
    with pytest.raises(Refusal, match=sentence) as refused:
        read_text(TEXT.replace(old, new))
    assert "line" in refused.value.text.casefold()
