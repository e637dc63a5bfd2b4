from __future__ import annotations

import sys

import PySide6
import pytest
from PySide6.QtCore import QPoint, QRect

from app import start
from core.measures.refusal import Refusal


def test_the_pair_that_aborts_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(PySide6, "__version_info__", (6, 12, 0))
    monkeypatch.setattr(PySide6, "__version__", "6.12.0")
    monkeypatch.setattr(sys, "version_info", (3, 11, 7))
    with pytest.raises(Refusal, match=r"6\.12\.0 cannot run on Python 3\.11"):
        start._refuse_bad_pair()
    monkeypatch.setattr(sys, "version_info", (3, 12, 1))
    start._refuse_bad_pair()


def test_a_hundred_thousand_calls_of_qt_leave_the_program_alive(qapp) -> None:
    # void calls lost a reference to None with a bad pair and aborted after about 5,200 (PYSIDE-3474)
    place = QRect(0, 0, 10, 10)
    for number in range(100_000):
        place.moveTo(QPoint(number, 0))
    assert place.left() == 99_999
