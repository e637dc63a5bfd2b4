"""USDA FSIS, thawing: 24 hours in the fridge for each 4 to 5 pounds; cold water 30 minutes a pound.

With its chart for turkeys: days in the fridge and hours in cold water by weight.
"""

from math import ceil

import pytest

from core.food.thawing import in_cold_water, in_fridge
from core.measures import parse_quantity

CHART = [
    # pounds from, to; days in the fridge; hours in cold water
    ((4, 12), (1, 3), (2, 6)),
    ((12, 16), (3, 4), (6, 8)),
    ((16, 20), (4, 5), (8, 10)),
    ((20, 24), (5, 6), (10, 12)),
]


def test_a_bird_of_16_pounds():
    fridge, water = in_fridge(parse_quantity("16 lb")), in_cold_water(parse_quantity("16 lb"))
    assert (fridge.low, fridge.high) == (4608, 96 * 60)  # 76.8 to 96 h
    assert water.high == 8 * 60
    assert water.changes[1] == 16


@pytest.mark.parametrize(("pounds", "days", "hours"), CHART)
def test_the_chart_for_turkeys(pounds, days, hours):
    for weight, day, hour in zip(pounds, days, hours, strict=True):
        quantity = parse_quantity(f"{weight} lb")
        assert ceil(in_fridge(quantity).high / (24 * 60)) == day
        assert in_cold_water(quantity).high == hour * 60


@pytest.mark.parametrize("pounds", [1, 2, 7, 11, 23])
def test_thirty_minutes_a_pound(pounds):
    assert in_cold_water(parse_quantity(f"{pounds} lb")).high == 30 * pounds
