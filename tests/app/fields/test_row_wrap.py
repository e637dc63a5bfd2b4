"""A row of buttons that goes on below where it does not fit."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtCore import QMargins
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QWidget

from app.fields.row_wrap import RowWrap


@pytest.fixture
def row(qtbot):
    box = QWidget()
    qtbot.addWidget(box)
    layout = RowWrap(box, QMargins(10, 6, 10, 6), 8)
    buttons = [QPushButton(words) for words in ("Arrange the day", "Mend", "Stations", "Last two hours")]
    told = QLabel("everything meets")
    told.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    for widget in (*buttons[:2], told, *buttons[2:]):
        layout.addWidget(widget)
    box.show()
    return box, layout, buttons, told


def test_in_a_wide_window_it_is_one_row_and_the_label_takes_the_rest(row) -> None:
    box, layout, buttons, told = row
    box.resize(1200, layout.heightForWidth(1200))
    assert len({button.y() for button in buttons}) == 1
    assert buttons[-1].geometry().right() == 1200 - 10 - 1
    assert told.width() == 1180 - sum(button.sizeHint().width() for button in buttons) - 4 * 8
    assert layout.heightForWidth(1200) == layout.sizeHint().height()


@pytest.mark.parametrize("width", [600, 400, 300, 180])
def test_in_a_narrow_one_nothing_is_cut_and_nothing_meets(row, width: int) -> None:
    box, layout, buttons, _told = row
    height = layout.heightForWidth(width)
    box.resize(width, height)
    for button in buttons:
        assert button.width() >= min(button.sizeHint().width(), width - 20)
        assert box.rect().contains(button.geometry())
    for one, other in combinations(buttons, 2):
        assert not one.geometry().intersects(other.geometry())
    assert layout.heightForWidth(180) > layout.heightForWidth(1200)


def test_the_window_may_be_as_narrow_as_its_widest_button(row) -> None:
    box, _layout, buttons, _told = row
    assert box.minimumSizeHint().width() <= max(button.sizeHint().width() for button in buttons) + 20


def test_hidden_ones_take_no_room(row) -> None:
    box, layout, buttons, _told = row
    before = layout.sizeHint().width()
    buttons[0].hide()
    assert layout.sizeHint().width() == before - buttons[0].sizeHint().width() - 8
    box.resize(1200, 60)
    assert buttons[1].x() == 10
