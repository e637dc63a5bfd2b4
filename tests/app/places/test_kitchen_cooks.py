"""The hours of a cook are drawn as they are: days of the clock, nights, breaks, and days on which clocks change."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.look import apply
from app.look.colours import LIGHT
from app.places.kitchen.cook_hours import CookHours
from core.plan.ids import CookId
from core.plan.kitchen import Cook, Window
from tests.support.builders import a_moment, a_plan

DAY = 24 * 60


@pytest.fixture
def hours(qtbot):
    apply(QApplication.instance(), "light")
    made = CookHours()
    qtbot.addWidget(made)
    made.resize(1000, made.sizeHint().height())
    return made


def a_day(plating: str = "2026-09-26 19:30", opens: int | None = -DAY):
    return replace(a_plan(), plating=a_moment(plating, "Europe/London"), opens=opens)


def test_nights_are_left_out(hours: CookHours) -> None:
    hours.show_cook(Cook(CookId("ann"), "Ann"), a_day())
    # plating 19:30: from the midnight before the day before to six hours after plating
    assert hours.span == (-(19 * 60 + 30) - DAY, 360)
    first, second = hours.there
    assert first == (-(12 * 60 + 30) - DAY, -(12 * 60 + 30) - DAY + 16 * 60), (
        "7:00 to 23:00 of the day before"
    )
    assert second == (-(12 * 60 + 30), 3 * 60 + 30)
    assert hours.accessibleName() == "Ann is there for 28 h 30 min before plating"


def test_hours_and_breaks_count(hours: CookHours) -> None:
    ben = Cook(
        CookId("ben"),
        "Ben",
        present=(Window(0, 15 * 60, DAY),),
        breaks=(Window(0, 17 * 60, 17 * 60 + 30),),
        night=None,
    )
    hours.show_cook(ben, a_day())
    assert hours.there == ((-270, -150), (-120, 270))


def test_a_day_on_which_the_clocks_go_back_has_an_hour_more(hours: CookHours) -> None:
    """British clocks go back at 02:00 on Sunday 25 October 2026, the last of the month (Directive 2000/84/EC)."""
    cook = Cook(CookId("ann"), "Ann", night=None)
    hours.show_cook(cook, a_day("2026-10-25 19:30"))
    assert hours.span[0] == -(19 * 60 + 30) - 60 - DAY


def test_what_is_drawn_is_when_they_are_there(hours: CookHours) -> None:
    hours.show_cook(Cook(CookId("ann"), "Ann", present=(Window(0, 15 * 60, DAY),), night=None), a_day())
    QTest.qWait(1)
    image = hours.grab().toImage()
    filled = [image.pixelColor(x, 9) == QColor(LIGHT.accent) for x in range(image.width())]
    low, high = hours.span
    left = 4.5 + (1000 - 9) * (-270 - low) / (high - low)
    right = 4.5 + (1000 - 9) * (270 - low) / (high - low)
    assert filled.index(True) == pytest.approx(left, abs=2)
    assert len(filled) - filled[::-1].index(True) == pytest.approx(right, abs=2)


@pytest.mark.parametrize(
    ("opens", "days"),
    [
        (None, 1),
        (-33 * 60, 1),  # 10:30 on the day before
        (-(19 * 60 + 30) - DAY, 1),  # at its midnight
        (-(19 * 60 + 30) - DAY - 1, 2),
        (-30 * DAY, 7),
    ],
)
def test_the_strip_begins_with_the_day_on_which_the_plan_opens(
    hours: CookHours, opens: int | None, days: int
) -> None:
    hours.show_cook(Cook(CookId("ann"), "Ann"), a_day(opens=opens))
    assert hours.span[0] == -(19 * 60 + 30) - days * DAY


def test_who_comes_earlier_is_shown_from_then(hours: CookHours) -> None:
    hours.show_cook(Cook(CookId("ben"), "Ben", present=(Window(3, 540, 720),)), a_day(opens=None))
    assert hours.span[0] == -(19 * 60 + 30) - 3 * DAY
    assert len(hours.there) == 1
