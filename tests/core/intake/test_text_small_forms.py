"""Short lines of a written plan, the smaller ones: touches, loads, times, amounts, shelves."""

from fractions import Fraction

import pytest
from pydantic import ValidationError

from core.intake.text.dishes import IngredientText, ingredient_out
from core.intake.text.kitchen import (
    HeaterText,
    ShelfText,
    heater_out,
    point_in,
    point_out,
    rate_in,
    settings_in,
    shelf_out,
)
from core.intake.text.places import PlaceText, celsius_in, celsius_out, heat_in, heat_out, use_out
from core.intake.text.scalars import (
    minutes_in,
    minutes_out,
    moment_in,
    moment_out,
    offset_in,
    offset_out,
    per_cent_in,
    quantity_in,
    quantity_out,
    span_in,
    span_out,
)
from core.intake.text.touches import (
    LoadsText,
    TouchText,
    VesselUseText,
    loads_out,
    touch_out,
    vessel_use_out,
)
from core.intake.text.waits import KeepText, keep_out
from core.intake.text.windows import (
    clock_in,
    clock_out,
    minute_of_day_in,
    minute_of_day_out,
    night_in,
    night_out,
    window_in,
    window_out,
)
from core.intake.text.yields import YieldText, yield_out
from core.measures.quantity import TO_TASTE, Quantity
from core.measures.refusal import Refusal
from core.plan.ids import DishId, StationId, StepId, VesselId
from core.plan.kitchen import Heater, Shelf, StationKind, Window
from core.plan.menu import Ingredient
from core.plan.step import ClockTime, Heat, Holding, Keep, Loads, Span, Touch, Use, VesselUse, Wait, Yield

OVEN = StationKind.OVEN


def place(typed):
    return PlaceText.model_validate(typed).use(OVEN)


@pytest.mark.parametrize(
    ("typed", "touch"),
    [
        ("at 15, 2 min: swap tins", Touch(15, 2, "swap tins")),
        ("at 15", Touch(15)),
        ("at 1 h 15, 2, able: fold: gently", Touch(75, 2, "fold: gently", skill="able")),
        ("5 min before the end, 1 min: probe", Touch(5, 1, "probe", from_end=True)),
        ("at the end, 2 min", Touch(0, 2, from_end=True)),
        ("at the start: turn down", Touch(0, 1, "turn down")),
        ({"at": 3, "does": "x, y", "skill": "two, words"}, Touch(3, 1, "x, y", skill="two, words")),
    ],
)
def test_touches(typed, touch):
    assert TouchText.model_validate(typed).touch() == touch
    assert TouchText.model_validate(touch_out(touch)).touch() == touch


@pytest.mark.parametrize(
    "typed", ["swap tins", "15, 2 min: swap", "at 5, 1 min, able, quick: stir", "at noon"]
)
def test_touches_refused(typed):
    with pytest.raises(ValidationError):
        TouchText.model_validate(typed)


@pytest.mark.parametrize(
    ("typed", "loads"),
    [
        ("24 pieces, 8 a load, 2 min between", Loads(24, 8, 2)),
        ("72 rolls, 24 to a load", Loads(72, 24)),
        ("18, 6 at a time", Loads(18, 6)),
        ({"pieces": 5, "per_load": 2}, Loads(5, 2)),
    ],
)
def test_loads(typed, loads):
    assert LoadsText.model_validate(typed).loads() == loads
    assert LoadsText.model_validate(loads_out(loads)).loads() == loads


@pytest.mark.parametrize(
    ("typed", "use"),
    [
        ("tin", VesselUse(VesselId("tin"))),
        ("2 x tin", VesselUse(VesselId("tin"), 2)),
        ("2 tin", VesselUse(VesselId("tin"), 2)),
        ("2-l-pot", VesselUse(VesselId("2-l-pot"))),
    ],
)
def test_vessels(typed, use):
    assert VesselUseText.model_validate(typed).use() == use
    assert VesselUseText.model_validate(vessel_use_out(use)).use() == use


@pytest.mark.parametrize(
    ("typed", "made"),
    [
        ("buttermilk: 450 ml", Yield("buttermilk", Quantity(Fraction(450), "ml"))),
        ("buttermilk, 450 ml", Yield("buttermilk", Quantity(Fraction(450), "ml"))),
        ("whey, sour: 1 1/2 l", Yield("whey, sour", Quantity(Fraction(3, 2), "l"))),
        ("for later: bones: 2", Yield("for later: bones", Quantity(Fraction(2)))),
        ({"item": "a, b", "quantity": "3 jars"}, Yield("a, b", Quantity(Fraction(3), "jar"))),
    ],
)
def test_by_products(typed, made):
    assert YieldText.model_validate(typed).made() == made
    assert YieldText.model_validate(yield_out(made)).made() == made


@pytest.mark.parametrize("typed", ["buttermilk", ": 450 ml", "whey:", "whey: to taste", "whey: 3 buckets", {}])
def test_by_products_refused(typed):
    with pytest.raises(ValidationError):
        YieldText.model_validate(typed)


def test_a_by_product_no_line_can_say_is_a_table():
    padded = Yield(" whey ", Quantity(Fraction(450), "ml"))
    assert yield_out(padded) == {"item": " whey ", "quantity": "450 ml"}
    assert YieldText.model_validate(yield_out(padded)).made() == padded


@pytest.mark.parametrize(("typed", "per_cent"), [(10, 10), ("10", 10), ("10 %", 10), (" 0% ", 0)])
def test_per_cent(typed, per_cent):
    assert per_cent_in(typed) == per_cent


@pytest.mark.parametrize("typed", ["ten", "-1 %", "1.5 %", True, 1.5, None])
def test_per_cent_refused(typed):
    with pytest.raises(Refusal, match="per cent"):
        per_cent_in(typed)


@pytest.mark.parametrize(("typed", "minute"), [("08:00", 480), ("8 am", 480), ("0:00", 0), ("23.59", 1439)])
def test_minutes_of_the_day(typed, minute):
    assert minute_of_day_in(typed) == minute
    assert minute_of_day_in(minute_of_day_out(minute)) == minute


@pytest.mark.parametrize(
    ("typed", "window"),
    [
        ("day 0 15:00-24:00", Window(0, 900, 1440)),
        ("day -1 08:00 to 12:30", Window(1, 480, 750)),
        ("day 1 00:00-02:00", Window(-1, 0, 120)),
        ("Day 0, 3 pm - 6 pm", Window(0, 900, 1080)),
        ("the day 15:00-16:00", Window(0, 900, 960)),
        ("the day before 15:00-16:00", Window(1, 900, 960)),
        ("3 days before 15.00-16.00", Window(3, 900, 960)),
        ("day -1 20:00 to the day 02:00", Window(1, 1200, 1560)),
        ("day 0 20:00 to day 1 02:00", Window(0, 1200, 1560)),
    ],
)
def test_windows(typed, window):
    assert window_in(typed) == window
    assert window_in(window_out(window)) == window


@pytest.mark.parametrize(
    "typed", ["Sat 15:00-24:00", "day 0 15:00", "day 0 15:00-14:00", "day 0 25:00-26:00", 7]
)
def test_windows_refused(typed):
    with pytest.raises(Refusal):
        window_in(typed)


def test_clock_and_night():
    assert clock_in("day 0 16:00") == ClockTime(0, 960)
    assert clock_out(ClockTime(1, 545)) == "day -1 09:05"
    assert night_in("23:00-07:00") == (1380, 420)
    assert night_in("none") is None
    assert night_out((60, 545)) == "01:00-09:05"
    for typed in ("16:00", "day 0", 5):
        with pytest.raises(Refusal):
            clock_in(typed)
    with pytest.raises(Refusal):
        night_in("late")


@pytest.mark.parametrize(
    ("typed", "offset"),
    [
        ("48 h before", -2880),
        ("1 h 15 before plating", -75),
        ("75 min after", 75),
        ("at plating", 0),
        ("T-2:17", -137),
        ("T-2d 5:00", -3180),
        (-30, -30),
    ],
)
def test_offsets(typed, offset):
    assert offset_in(typed) == offset
    assert offset_in(offset_out(offset)) == offset


@pytest.mark.parametrize("typed", ["48 h", "soon", True, 1.5, "noon before"])
def test_offsets_refused(typed):
    with pytest.raises(Refusal):
        offset_in(typed)


def test_lengths():
    assert span_in(25) == span_in("25") == span_in("25 min") == Span.of(25)
    assert span_in("70/90/110") == Span(70, 90, 110)
    assert span_in("16h/20h/24h") == Span(960, 1200, 1440)
    assert span_out(Span(960, 1200, 1440)) == "16 h / 20 h / 24 h"
    assert span_in({"low": 1, "likely": "1 h", "high": 61}) == Span(1, 60, 61)
    assert minutes_in("1h20") == 80
    for typed in (True, -5, "-5 min", 2.5, [5]):
        with pytest.raises(Refusal):
            minutes_in(typed)


def test_moments_need_their_zone():
    moment = moment_in("2026-09-26 19:30 Europe/London")
    assert moment_out(moment) == "2026-09-26 19:30 Europe/London"
    for typed in ("2026-09-26 19:30", "19:30", 5):
        with pytest.raises(Refusal, match="time zone"):
            moment_in(typed)


def test_quantities():
    assert quantity_in("1 1/2 cups") == Quantity(Fraction(3, 2), "cup")
    assert quantity_in(3) == Quantity(Fraction(3))
    assert quantity_in("to taste") is None
    assert quantity_in(quantity_out(TO_TASTE)) == TO_TASTE
    with pytest.raises(Refusal):
        quantity_in("a bit")


@pytest.mark.parametrize(
    ("typed", "ingredient"),
    [
        (
            "potatoes: 1.6 kg, peeled, 1.3 kg then",
            Ingredient("potatoes", Quantity(Fraction(8, 5), "kg"), "peeled, 1.3 kg then"),
        ),
        ("flour: 1,000 g", Ingredient("flour", Quantity(Fraction(1000), "g"))),
        ("nutmeg", Ingredient("nutmeg")),
        ("nutmeg: to taste", Ingredient("nutmeg")),
        ("salt: 8 g per kg of cod", Ingredient("salt", Quantity(Fraction(8), "g"), per_kg_of="cod")),
        (
            {"item": "eggs", "quantity": 3, "step": "boil"},
            Ingredient("eggs", Quantity(Fraction(3)), step=StepId("pie.boil")),
        ),
    ],
)
def test_ingredients(typed, ingredient):
    pie = DishId("pie")
    assert IngredientText.model_validate(typed).ingredient(pie) == ingredient
    assert IngredientText.model_validate(ingredient_out(ingredient, pie)).ingredient(pie) == ingredient


def test_shelves_and_heaters():
    assert ShelfText.model_validate("2,000 cm2, 26 cm: lowest").model_dump() == {
        "area": 2000, "height": 26, "name": "lowest",
    }  # fmt: skip
    assert ShelfText.model_validate("50x40 cm, 18 cm").area == 2000
    assert shelf_out(Shelf(2000, 18)) == "2000 cm2, 18 cm"
    assert settings_in("50 to 250 C") == settings_in([50, "250 C"]) == (50, 250)
    assert point_in("200 C in 18 min") == (200, 18)
    assert rate_in("5 C a minute") == rate_in(5) == 5.0
    for reader, typed in ((settings_in, "hot"), (settings_in, 5), (point_in, "18 min"), (rate_in, "fast")):
        with pytest.raises(Refusal):
            reader(typed)
    with pytest.raises(ValidationError, match="write a shelf as"):
        ShelfText.model_validate("big")


HUGE = 10**7
"""Minutes, days or degrees that no text is read for: a plan with them is refused later, by the check."""


@pytest.mark.parametrize(
    ("value", "write", "read"),
    [
        (Window(0, 5000, 9000), window_out, window_in),
        (Window(1, -5, 3), window_out, window_in),
        (ClockTime(2, 5000), clock_out, clock_in),
        (Span(3, 2, 1), span_out, span_in),
        (HUGE, offset_out, offset_in),
        (HUGE, minutes_out, minutes_in),
        (HUGE, celsius_out, celsius_in),
        ((HUGE, 18), point_out, point_in),
        ((-HUGE, -1, HUGE), lambda heat: heat_out(*heat), heat_in),
        (Loads(-1, 4, 2), loads_out, lambda typed: LoadsText.model_validate(typed).loads()),
        (Touch(HUGE, 2, "x"), touch_out, lambda typed: TouchText.model_validate(typed).touch()),
        (Use(OVEN, 2, heat=Heat(HUGE, 1, 2, steady=False)), lambda use: use_out(use, OVEN), place),
        (Use(OVEN, 2, StationId("a b"), 3, -4, raw=True), lambda use: use_out(use, OVEN), place),
        (Keep(-1), keep_out, lambda typed: KeepText.model_validate(typed).keep()),
        (
            Keep(5, Wait(Holding.HOT, Use(OVEN, -3))),
            keep_out,
            lambda typed: KeepText.model_validate(typed).keep(),
        ),
        (Heater(300, 20, ((HUGE, 1),)), heater_out, lambda typed: HeaterText.model_validate(typed).heater()),
    ],
)
def test_what_no_line_can_say_is_still_written(value, write, read):
    written = write(value)
    if value == Keep(-1):  # a length below 0 is refused wherever it is typed
        with pytest.raises(ValidationError):
            read(written)
        return
    assert read(written) == value
