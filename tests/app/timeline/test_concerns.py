from __future__ import annotations

import pytest

from app.timeline.bars import Bar, BarKind, Lane, LaneKind
from app.timeline.scene import concerns
from core.timetable.clash import Clash, ClashKind
from tests.support.builders import an_oven

OVEN = Lane("station:oven", LaneKind.STATION, "Oven", station=an_oven())
ANN = Lane("cook:ann", LaneKind.COOK, "Ann", cook="ann")
BEN = Lane("cook:ben", LaneKind.COOK, "Ben", cook="ben")
DISH = Lane("dish:pork", LaneKind.DISH, "Pork")
BAKE = Bar(BarKind.STEP, -100, -40, "pork.roast")
HAND = Bar(BarKind.HAND, -100, -98, "pork.roast", cook="ann")


def clash(start: int = -90, end: int = -50, steps=("pork.roast",), **named) -> Clash:
    return Clash(ClashKind.OVER_FULL, "Too full.", start, end, steps, **named)


@pytest.mark.parametrize(
    ("found", "bar", "lane", "shows"),
    [
        (clash(), BAKE, OVEN, True),
        (clash(steps=("soup.boil",)), BAKE, OVEN, False),
        (clash(stations=("oven",)), BAKE, OVEN, True),
        (clash(stations=("oven",)), BAKE, DISH, True),
        (clash(stations=("second-oven",)), BAKE, OVEN, False),
        (clash(-30, -10, stations=("oven",)), BAKE, OVEN, False),
        (clash(-100, -98, cooks=("ann",)), HAND, ANN, True),
        (clash(-100, -98, cooks=("ann",)), HAND, BEN, False),
        (clash(stations=("oven",)), HAND, ANN, False),
        (clash(-60, -60), BAKE, OVEN, True),
    ],
)
def test_a_clash_shows_where_it_is(found: Clash, bar: Bar, lane: Lane, shows: bool) -> None:
    assert concerns(found, bar, lane) is shows
