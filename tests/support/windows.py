"""The program's window for a test: light, its files in the test's own folder, closed at the end."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.bridge import OpenPlan
from app.look import apply
from app.places.menu import MenuPlace
from app.places.settings import Settings
from app.places.window import Window
from core.desk import Desk
from core.plan.plan import Plan
from tests.support.sizes import wanted_size


def a_menu_place(qtbot: QtBot, plan: Plan, size: tuple[int, int] = (1180, 700)) -> tuple[MenuPlace, OpenPlan]:
    """Give the Menu place of a plan, shown and active, and the open plan."""
    opened = OpenPlan(Desk(plan))
    place = MenuPlace(opened)
    qtbot.addWidget(place)
    place.resize(*size)
    place.show()
    qtbot.waitExposed(place)
    place.activateWindow()
    qtbot.waitUntil(lambda: QApplication.activeWindow() is place)
    place.setFocus()
    return place, opened


@contextmanager
def a_window(
    qtbot: QtBot, folder: Path, monkeypatch: pytest.MonkeyPatch, width: int = 1280, height: int = 720
) -> Iterator[Window]:
    """Give a window that is shown and has no plan yet."""
    for name, inside in (("DOCUMENTS_DIR", "documents"), ("CONFIG_HOME", "config"), ("STATE_HOME", "state")):
        monkeypatch.setenv(f"XDG_{name}", str(folder / inside))
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply(app, "light")
    made = Window(Settings())
    made.resize(*wanted_size(width, height))
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    yield made
    made.close()
