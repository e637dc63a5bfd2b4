"""The guards of tests/conftest.py are tried on small test files of their own, in a process of their own."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def trial(tmp_path):
    """Give a function that runs test source under this project's settings and gives what pytest printed."""
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    tests = tmp_path / "tests"
    tests.mkdir()
    shutil.copy(ROOT / "tests" / "conftest.py", tests)

    def run(source, *options):
        (tests / "test_trial.py").write_text(source, encoding="utf-8")
        done = subprocess.run(
            [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", *options],
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            timeout=100,
            check=False,
        )
        return done.stdout + done.stderr

    return run


WRONG = """
import threading, time, warnings
from PySide6.QtCore import qCritical, QTimer
from PySide6.QtWidgets import QDialog, QFileDialog, QInputDialog, QMessageBox

def test_thread():
    threading.Thread(target=time.sleep, args=(4,), name="forgotten").start()

def test_dialog(qtbot):
    QDialog().exec()

def test_message_box_made_by_hand(qtbot):
    QMessageBox().exec()

def test_question(qtbot):
    QMessageBox.question(None, "Withy Lock", "Really?")

def test_file_dialog(qtbot):
    QFileDialog.getOpenFileName(None, "Open")

def test_dialog_from_a_slot(qtbot):
    QTimer.singleShot(0, lambda: QInputDialog.getText(None, "Dish", "Name"))
    qtbot.wait(50)

def test_qt_critical(qtbot):
    qCritical("the painter is not active")

def test_warning():
    warnings.warn("old", DeprecationWarning)
"""

STRAY_MARKER = "import pytest\n\n@pytest.mark.no_such_marker\ndef test_marker():\n    pass\n"

RIGHT = """
import os, threading
from pathlib import Path
import pytest
from PySide6.QtCore import QLocale, QTimer
from PySide6.QtGui import QFontInfo, QGuiApplication
from PySide6.QtWidgets import QDialog, QLabel
from hypothesis import given, strategies

def test_joined_thread():
    t = threading.Thread(target=int); t.start(); t.join()

@pytest.mark.may_block
def test_answers_itself(qtbot):
    box = QDialog()
    qtbot.addWidget(box)
    QTimer.singleShot(0, box.reject)
    assert box.exec() == 0

@pytest.mark.parametrize("turn", [1, 2])
def test_settings_start_empty(qapp, own_folders, turn):
    assert Path(os.environ["XDG_CONFIG_HOME"]).is_relative_to(own_folders)
    assert not any(Path(os.environ["XDG_CONFIG_HOME"]).iterdir())
    Path(os.environ["XDG_CONFIG_HOME"], "seen").touch()

@pytest.mark.parametrize("turn", [1, 2])
def test_locale_starts_british(qapp, turn):
    assert QLocale().name() == "en_GB"
    QLocale.setDefault(QLocale("ar"))

def test_font_and_screen(qtbot):
    label = QLabel("9:41")
    qtbot.addWidget(label)
    assert QFontInfo(label.font()).family() == "Noto Sans"
    assert QGuiApplication.platformName() == "offscreen"
    assert QGuiApplication.primaryScreen().size().width() == 1920

@given(strategies.integers())
def test_hypothesis(number):
    assert number == number
"""


def test_each_guard_catches_what_it_is_for(trial):
    said = trial(WRONG, "-rfE")
    assert "ERROR tests/test_trial.py::test_thread" in said
    assert "forgotten" in said
    for name in (
        "test_dialog", "test_message_box_made_by_hand", "test_question", "test_file_dialog",
        "test_dialog_from_a_slot", "test_qt_critical", "test_warning",
    ):  # fmt: skip
        assert f"FAILED tests/test_trial.py::{name}" in said, said
    assert "7 failed, 1 passed, 1 error" in said


def test_an_unknown_marker_is_refused(trial):
    assert "'no_such_marker' not found in `markers` configuration option" in trial(STRAY_MARKER)


def test_what_is_right_passes(trial):
    said = trial(RIGHT)
    assert "8 passed" in said, said


def test_core_tests_run_without_the_qt_plugin(trial):
    source = "import sys\ndef test_no_qt():\n    assert 'PySide6' not in sys.modules\n"
    said = trial(source, "-p", "no:pytest-qt")
    assert "1 passed" in said, said
