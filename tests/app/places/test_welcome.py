"""The ways in: they are opened by Enter too, and a long list of plans opened lately makes the window no higher."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.support.windows import a_window

_LOW = 720 - 40
"""Pixels that a low screen leaves for the window under its title."""


def test_many_plans_opened_lately_keep_the_window_on_a_low_screen(qtbot, tmp_path, monkeypatch):
    paths = [tmp_path / f"Supper {number}.cookday" for number in range(6)]
    for path in paths:
        path.touch()
    with a_window(qtbot, tmp_path, monkeypatch, 1180, _LOW) as window:
        window.welcome.show_recent(paths)
        QApplication.processEvents()
        assert window.minimumSizeHint().height() <= _LOW - 40, "with room for larger type"
        window.acts.open_demo()
        QApplication.processEvents()
        assert window.minimumSizeHint().height() <= _LOW
        assert window.height() <= _LOW


def test_a_way_in_is_opened_by_enter(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is window)
        window.welcome.begin_button.setFocus()
        QTest.keyClick(window.welcome.begin_button, Qt.Key.Key_Return)
        assert window.opened is not None
        assert window.opened.plan.dishes == {}
