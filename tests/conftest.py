"""What every test finds: folders of its own, no screen, one font, no way to hang or to leave work running.

Qt is imported only for tests that ask for it, so the tests of core run where there is none.
"""

from __future__ import annotations

import gc
import json
import os
import shutil
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import hypothesis
import pytest

from tests.support.tries import tries

SOME = tries(30)  # plans a promise is tried on where it does not say otherwise
hypothesis.settings.register_profile(
    "ci", max_examples=SOME, derandomize=True, deadline=None, database=None, print_blob=True
)
hypothesis.settings.register_profile("dev", max_examples=SOME, deadline=None, print_blob=True)
hypothesis.settings.load_profile("ci" if os.environ.get("CI") else "dev")

SCREEN = {"name": "offscreen", "x": 0, "y": 0, "width": 1920, "height": 1200,
          "logicalDpi": 96, "logicalBaseDpi": 96, "dpr": 1}  # fmt: skip
"""Qt's own offscreen screen is 800 x 800 and squeezes every window."""

FOLDERS_PER_TEST = ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")
FOLDERS_PER_RUN = ("XDG_CACHE_HOME", "XDG_RUNTIME_DIR")

LONG = ("tests/journeys/", "tests/promises/", "tests/phone/", "tests/core/sheets/", "tests/core/arrange/", "/places/")
"""Where files of tests take longest, the longest first."""

THREADS_MAY_FINISH_WITHIN = 2.0
"""Seconds."""

_session_folder = pytest.StashKey[Path]()


def pytest_addoption(parser: pytest.Parser, pluginmanager: pytest.PytestPluginManager) -> None:
    parser.addoption(
        "--on-screen", action="store_true", help="show real windows instead of the offscreen platform"
    )
    if not pluginmanager.hasplugin("pytest-qt"):  # -p no:pytest-qt, for the core alone
        for name in ("qt_api", "qt_log_level_fail", "qt_log_ignore"):
            parser.addini(name, "Read by pytest-qt.", type="linelist")


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the files that take longest, so that no worker is left alone with one of them at the end."""

    def rank(item: pytest.Item) -> int:
        return next((at for at, part in enumerate(LONG) if part in item.nodeid), len(LONG))

    items.sort(key=rank)  # stable: else as they were shuffled


def pytest_collection_finish() -> None:
    """Let Python's search for garbage pass over what was collected: thousands of tests, looked through each time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(5_000, 20, 20)


def pytest_configure(config: pytest.Config) -> None:
    folder = Path(tempfile.mkdtemp(prefix="cookday-tests-"))
    config.stash[_session_folder] = folder
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # else each command that a test runs compiles the program anew
    for name in FOLDERS_PER_TEST + FOLDERS_PER_RUN:
        place = folder / name.lower()
        place.mkdir(mode=0o700)
        os.environ[name] = str(place)
    if not config.getoption("--on-screen"):
        screens = folder / "screens.json"
        screens.write_text(json.dumps({"screens": [SCREEN]}), encoding="utf-8")
        os.environ["QT_QPA_PLATFORM"] = f"offscreen:configfile={screens}"
        # a desktop's own wishes would change sizes and colours
        for name in ("QT_SCALE_FACTOR", "QT_FONT_DPI", "QT_QPA_PLATFORMTHEME", "QT_STYLE_OVERRIDE"):
            os.environ.pop(name, None)


def pytest_unconfigure(config: pytest.Config) -> None:
    if _session_folder in config.stash:
        shutil.rmtree(config.stash[_session_folder], ignore_errors=True)


def _wants_qt(request: pytest.FixtureRequest) -> bool:
    return "qapp" in request.fixturenames


@pytest.fixture(autouse=True)
def no_threads_left() -> Iterator[None]:
    """Fail a test that leaves a thread behind: the program would not end."""
    before = set(threading.enumerate())
    yield

    def left() -> list[threading.Thread]:
        return [t for t in threading.enumerate() if t not in before and not t.daemon and t.is_alive()]

    end = time.monotonic() + THREADS_MAY_FINISH_WITHIN
    while left() and time.monotonic() < end:
        time.sleep(0.01)
    if still := left():
        pytest.fail(f"The test left {len(still)} thread(s) running: {', '.join(t.name for t in still)}.")


@pytest.fixture(autouse=True)
def own_folders(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give every test its own empty settings, data and state folders."""
    home = tmp_path_factory.mktemp("home")
    for name in FOLDERS_PER_TEST:
        place = home / name.lower()
        place.mkdir(mode=0o700)
        monkeypatch.setenv(name, str(place))
    return home


@pytest.fixture(scope="session")
def qapp(qapp: Any) -> Any:
    """Give the one application object, with the shipped font, as the program sets it."""
    from PySide6.QtGui import QFont, QFontDatabase

    from resources import FONT_FAMILY, font_files

    for file in font_files():
        assert QFontDatabase.addApplicationFont(str(file)) >= 0, f"Qt cannot read {file.name}"
    qapp.setFont(QFont(FONT_FAMILY, 10))
    return qapp


@pytest.fixture(autouse=True)
def plain_locale(request: pytest.FixtureRequest) -> Iterator[None]:
    """Start every test that shows something in British English, whatever this machine speaks."""
    if not _wants_qt(request):
        yield
        return
    from PySide6.QtCore import QLocale

    british = QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom)
    QLocale.setDefault(british)
    yield
    QLocale.setDefault(british)


@pytest.fixture(autouse=True)
def no_blocking_dialogs(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Refuse dialogs that wait for a person: nobody is there to answer, and the tests would hang."""
    if not _wants_qt(request) or request.node.get_closest_marker("may_block"):
        return
    from PySide6 import QtWidgets

    def refuse(name: str) -> Callable[..., Any]:
        def refused(*_args: object, **_named: object) -> Any:
            raise AssertionError(f"{name} waits for a person; open() the dialog, or replace it in the test.")

        return refused

    asking = {
        "QDialog": ["exec"],
        "QMessageBox": ["exec", "about", "aboutQt", "critical", "information", "question", "warning"],
        "QFileDialog": [
            "exec", "getExistingDirectory", "getExistingDirectoryUrl",
            "getOpenFileName", "getOpenFileNames", "getOpenFileUrl", "getOpenFileUrls",
            "getSaveFileName", "getSaveFileUrl",
        ],
        "QInputDialog": ["exec", "getDouble", "getInt", "getItem", "getMultiLineText", "getText"],
        "QColorDialog": ["exec", "getColor"],
        "QFontDialog": ["exec", "getFont"],
    }  # fmt: skip
    for kind, methods in asking.items():
        for method in methods:
            monkeypatch.setattr(getattr(QtWidgets, kind), method, refuse(f"{kind}.{method}"))
