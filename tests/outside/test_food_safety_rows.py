"""Published food-safety limits and worked examples, held against the shipped sets of rules.

Each check names publisher, document and section, and how the value became known: R read in the text itself or in a
law that adopts it word for word, R2 read in a page that quotes the publisher, M from memory, C computed from those.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from math import log

import pytest

from core.food.thawing import in_cold_water, in_fridge
from core.measures.heat import celsius_of
from core.measures.quantity import parse_quantity
from core.plan.food import FoodKind
from core.safety.limits import (
    core_short,
    date_mark,
    discard_by,
    hold_needed,
    late_stage,
    time_control_until,
)
from core.safety.rules import Measure, Tag
from core.safety.rules_there import chosen_rules, shipped_rules

HOME, CODE, UK = (chosen_rules(each) for each in ("us-home", "us-establishment", "uk"))
TENTH = Fraction(1, 10)


def fahrenheit(degrees: int) -> Fraction:
    return celsius_of(degrees)


def newton(degrees: int) -> float:
    """Return the minutes to so many F of food from 135 F amid 38 F that is at 70 F after exactly two hours; C."""
    rate = log((135 - 38) / (70 - 38)) / 2
    assert abs(rate - 0.5545) < 0.0001
    return log((135 - 38) / (degrees - 38)) / rate * 60


# US FDA Food Code 2022, 3-401.11(B), whole meat roasts: the table itself, R (that 2022 says the same: M)
ROASTS = [
    (130, 112 * 60), (131, 89 * 60), (133, 56 * 60), (135, 36 * 60), (136, 28 * 60), (138, 18 * 60), (140, 12 * 60),
    (142, 8 * 60), (144, 5 * 60), (145, 4 * 60), (147, 134), (149, 85), (151, 54), (153, 34), (155, 22), (157, 14),
    (158, 0),
]  # fmt: skip


@pytest.mark.parametrize(("degrees", "seconds"), ROASTS)
def test_food_code_roasts_hold_as_printed(degrees: int, seconds: int) -> None:
    """Food Code 3-401.11(B); R. Its °C are rounded to a tenth, so a reading is taken in °C as printed."""
    rule = CODE.rule("core-roasts")
    row = next(each for each in rule.values.holds if each.at.fahrenheit == degrees)
    assert row.seconds == seconds
    assert abs(row.at.celsius - fahrenheit(degrees)) <= Fraction(6, 100)
    assert hold_needed(rule, row.at.celsius) == seconds


def test_12_a_roast_at_140_145_and_158() -> None:
    """Item 12. Food Code 3-401.11(B); R."""
    rule = CODE.rule("core-roasts")
    assert [hold_needed(rule, each) for each in (Fraction(60), Fraction("62.8"), Fraction(70))] == [
        720,
        240,
        0,
    ]


def test_13_between_rows_the_longer_time_counts() -> None:
    """Item 13. 134 F lies between 133 and 135: 56 min of the row below, not 44.9 by interpolation; C."""
    assert hold_needed(CODE.rule("core-roasts"), fahrenheit(134)) == 56 * 60


def test_14_a_chicken_at_160_misses_165() -> None:
    """Item 14. USDA FSIS, FoodSafety.gov, Safe Minimum Internal Temperature Chart; R2."""
    rule = HOME.rule("core-poultry")
    short = core_short(rule, fahrenheit(160), 0, 0)
    assert short.degrees == Fraction("73.9") - fahrenheit(160)
    assert short.any
    assert not core_short(rule, Fraction("73.9"), 0, 0).any


def test_15_a_pork_chop_at_145_with_two_minutes_of_rest_misses_three() -> None:
    """Item 15. USDA FSIS, the same chart: 145 F and 3 min of rest; R2."""
    rule = HOME.rule("core-cuts")
    assert core_short(rule, Fraction("62.8"), 0, 2).rest == 1
    assert not core_short(rule, Fraction("62.8"), 0, 3).any


@pytest.mark.parametrize(
    ("reached", "missed"),
    [
        ((110, 350), None),  # item 16: 70 F at 1:50, 41 F at 5:50
        ((130, 240), 120),  # item 17: 70 F at 2:10 misses stage 1
        ((120, newton(41)), 360),  # item 18: Newton, surroundings 38 F: 41 F at 6.27 h misses stage 2
        ((120, 360), None),
        ((121, 360), 120),
        ((120, 361), 360),
    ],
)
def test_16_17_18_cooling_in_two_stages(reached: tuple[float, float], missed: int | None) -> None:
    """Items 16 to 18. Food Code 3-501.14(A): 57 to 21 °C in 2 h, to 5 °C in 6 h in all; R, C."""
    late = late_stage(CODE.rule("cool"), reached, 24 * 60)
    assert (None if late is None else late[0].minutes) == missed


@pytest.mark.parametrize(("ambient", "until"), [(95, 18 * 60), (75, 19 * 60), (90, 19 * 60)])
def test_19_a_buffet_put_out_at_17(ambient: int, until: int) -> None:
    """Item 19. USDA FSIS, Danger Zone: 2 hours, 1 hour above 90 F (printed as 32 °C); R2."""
    room = Fraction(32) if ambient == 90 else fahrenheit(ambient)
    assert discard_by(HOME, 17 * 60, room) == until


def test_20_time_as_a_control() -> None:
    """Item 20. Food Code 3-501.19(C): 6 h, never above 70 F (21 °C); (B): 4 h; R."""
    six = CODE.rule("six-hours")
    assert time_control_until(six, 12 * 60, fahrenheit(68)) == 18 * 60
    assert time_control_until(six, 12 * 60, fahrenheit(72)) is None
    assert time_control_until(six, 12 * 60, 21) == 18 * 60
    assert time_control_until(six, 12 * 60, 21 + TENTH) is None
    assert discard_by(CODE, 12 * 60, 22) == 16 * 60


def test_21_freezing_stops_the_date_mark() -> None:
    """Item 21. Food Code 3-501.17, published training example: cooked 1 Oct, frozen 3 Oct, thawed 10 Oct; R."""
    frozen = [(date(2026, 10, 3), date(2026, 10, 10))]
    assert date_mark(date(2026, 10, 1), 7, frozen) == date(2026, 10, 14)


def test_22_the_day_made_is_day_one() -> None:
    """Item 22. Food Code 3-501.17: made 1 July, eaten by 7 July; R."""
    days = CODE.rule("date-mark").values.days
    assert days == 7
    assert date_mark(date(2026, 7, 1), days) == date(2026, 7, 7)


def test_23_a_turkey_of_sixteen_pounds() -> None:
    """Item 23. USDA FSIS, The Big Thaw: 24 h for each 4 to 5 lb; 30 min a pound in cold water; R2, C."""
    fridge, water = in_fridge(parse_quantity("16 lb")), in_cold_water(parse_quantity("16 lb"))
    assert (fridge.low, fridge.high) == (4608, 5760)  # 76.8 h, printed as 77, and 96 h
    assert water.high == 8 * 60


def test_24_how_long_to_marinate() -> None:
    """Item 24. USDA FSIS: poultry 2 days, roasts 5 days; R2. From Monday 18:00: Wednesday and Saturday 18:00."""
    assert HOME.rule("marinate-poultry").values.minutes == 2 * 24 * 60
    assert HOME.rule("marinate-cuts").values.minutes == 5 * 24 * 60
    assert HOME.rule("marinate-poultry").names(FoodKind.CUBED_MEAT)


def test_25_ground_beef_from_thursday_to_sunday() -> None:
    """Item 25. FoodSafety.gov, Cold Food Storage Chart: ground meat 1 to 2 days, steaks 3 to 5 days; R2."""
    days = {kind: rule.values.days for rule in HOME.by_measure[Measure.KEEP_RAW] for kind in rule.foods}
    assert days[FoodKind.GROUND_MEAT] < 3 <= days[FoodKind.WHOLE_CUT]


@pytest.mark.parametrize(
    ("rule", "celsius", "degrees_fahrenheit", "tag"),
    [
        ("core-poultry", "73.9", 165, Tag.SECOND_HAND),
        ("core-ground", "71.1", 160, Tag.SECOND_HAND),
        ("core-cuts", "62.8", 145, Tag.SECOND_HAND),
        ("core-fish", "62.8", 145, Tag.SECOND_HAND),
        ("core-eggs", "71.1", 160, Tag.SECOND_HAND),
        ("reheat", "73.9", 165, Tag.SECOND_HAND),
    ],
)
def test_the_consumer_chart(rule: str, celsius: str, degrees_fahrenheit: int, tag: Tag) -> None:
    """USDA FSIS, FoodSafety.gov, Safe Minimum Internal Temperature Chart (standards 1a); R2. 41 in the list: C."""
    row = HOME.rule(rule)
    assert row.values.least is not None
    assert (row.values.least.celsius, row.values.least.fahrenheit) == (Fraction(celsius), degrees_fahrenheit)
    assert abs(row.values.least.celsius - fahrenheit(degrees_fahrenheit)) <= Fraction(5, 100)
    assert row.source.tag is tag
    assert not core_short(row, row.values.least.celsius, 0, 3).any
    assert core_short(row, row.values.least.celsius - TENTH, 0, 3).degrees == TENTH


@pytest.mark.parametrize(
    ("kind", "days"),
    [
        (FoodKind.POULTRY, 2), (FoodKind.GROUND_MEAT, 2), (FoodKind.GROUND_POULTRY, 2), (FoodKind.WHOLE_CUT, 5),
        (FoodKind.FISH, 3),
    ],
)  # fmt: skip
def test_the_cold_storage_chart(kind: FoodKind, days: int) -> None:
    """FoodSafety.gov, Cold Food Storage Chart, its longer days (standards 2); R2."""
    rows = [rule for rule in HOME.by_measure[Measure.KEEP_RAW] if rule.names(kind)]
    assert [rule.values.days for rule in rows] == [days]


def test_cooked_food_keeps_four_days() -> None:
    """FoodSafety.gov, Cold Food Storage Chart: soups, stews and leftovers 3 to 4 days; R2."""
    assert HOME.rule("cooked-days").values.days == 4


@pytest.mark.parametrize(("celsius", "seconds"), [(60, 2700), (65, 600), (70, 120), (75, 30), (80, 6)])
def test_the_uk_pairs(celsius: int, seconds: int) -> None:
    """FSA, cooking pairs (standards 1d); R2. A tenth of a degree less asks for the row below, or for more than any."""
    rule = UK.rule("core")
    assert hold_needed(rule, celsius) == seconds
    below = hold_needed(rule, celsius - TENTH)
    assert below is None if celsius == 60 else below > seconds


@pytest.mark.parametrize(
    ("rules", "rule", "celsius"),
    [(CODE, "hot-hold", 57), (UK, "hot-hold", 63), (HOME, "hot-hold", 60)],
)
def test_hot_holding(rules: object, rule: str, celsius: int) -> None:
    """Food Code 3-501.16(A) R; FSA R2; USDA FSIS Danger Zone R2."""
    least = rules.rule(rule).values.least  # type: ignore[attr-defined]  # a rule set
    assert least.celsius == celsius


@pytest.mark.parametrize(("rules", "celsius"), [(CODE, "5"), (UK, "8"), (HOME, "4.4")])
def test_cold_holding(rules: object, celsius: str) -> None:
    """Food Code 3-501.16(A) R; FSA R2; USDA FSIS R2."""
    assert rules.rule("cold-hold").values.most.celsius == Fraction(celsius)  # type: ignore[attr-defined]


def test_food_code_minced_meat_pairs() -> None:
    """Food Code 3-401.11(A)(2), current wording: 155 F 17 s, 145 F 3 min, 150 F 1 min; R."""
    rule = CODE.rule("core-ground")
    assert [hold_needed(rule, each) for each in (63, 66, 68)] == [180, 60, 17]


def test_18_newton_gives_the_published_hours() -> None:
    """Item 18: 6.27 h, to 0.01 h; C."""
    assert abs(newton(41) / 60 - 6.27) <= 0.01


@pytest.mark.parametrize("rules", shipped_rules(), ids=lambda each: each.id)
def test_every_row_says_where_it_is_from(rules: object) -> None:
    for rule in rules.rules:  # type: ignore[attr-defined]
        assert rule.source.publisher
        assert rule.source.document
        assert (rule.source.read is not None) == (rule.source.tag in (Tag.READ, Tag.SECOND_HAND))
        if rule.source.tag is Tag.MEMORY:
            assert str(rule.source).endswith("(from memory)")
