"""The layers that pyproject.toml declares hold, and each contract does bite."""

import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]
ALL = {contract["id"] for contract in SETTINGS["contracts"]}

# as the tool's own command does
LINT = "from importlinter.cli import lint_imports_command as lint; lint()"


def lint(folder, *options):
    return subprocess.run(
        [sys.executable, "-c", LINT, "--no-cache", "--no-logo", *options],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
        timeout=100,
        check=False,
    )


@pytest.fixture
def house(tmp_path):
    """Give a function that builds a small house out of module names and sources, with our contracts."""
    shutil.copy(ROOT / "pyproject.toml", tmp_path)

    def build(modules):
        for name, source in {"app": "", "core": "", "resources": "", **modules}.items():
            folder = tmp_path.joinpath(*name.split("."))
            folder.mkdir(parents=True, exist_ok=True)
            (folder / "__init__.py").write_text(source, encoding="utf-8")
        return tmp_path

    return build


def test_every_contract_is_kept():
    done = lint(ROOT)
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"{len(ALL)} kept, 0 broken" in done.stdout


SOUND = {
    "core.measures": "import pint",
    "core.plan": "import core.measures",
    "core.food": "import core.plan",
    "core.timetable": "import core.plan",
    "core.arrange": "import core.timetable\nfrom ortools.sat.python import cp_model",
    "core.store": "import core.plan, sqlalchemy.orm, alembic",
    "core.store.versions": "import alembic.op, sqlalchemy",
    "core.sheets": "import core.timetable, typst, resources",
    "core.intake": "import core.plan, pydantic",
    "core.desk": "import core.store, core.arrange, core.sheets, core.intake",
    "app.look": "import PySide6.QtGui, resources",
    "app.bridge": "import core.desk, app.look",
    "app.timeline": "import app.bridge",
    "app.places": "import app.timeline",
    "app.places.menu": "import core.sheets",
    "app.start": "import app.places",
    "app.command": "import core.store\ndef main():\n    import app.start",
}


def test_a_sound_house_keeps_all(house):
    done = lint(house(SOUND))
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize(
    ("contract", "module", "source"),
    [
        ("house", "core.plan", "import app.look"),
        ("house", "resources", "import core.measures"),
        ("core-rooms", "core.plan", "import core.timetable"),
        ("core-rooms", "core.food", "import core.timetable"),
        ("core-rooms", "core.plan", "import core.food"),
        ("core-rooms", "core.timetable", "def check():\n    from core.arrange import model"),
        ("core-rooms", "core.store", "import core.arrange"),
        ("core-rooms", "core.sheets", "import core.intake"),
        ("core-rooms", "core.measures", "import core.plan"),
        ("core-rooms", "core.cellar", ""),
        ("app-rooms", "app.look", "import app.bridge"),
        ("app-rooms", "app.timeline", "import app.places"),
        ("app-rooms", "app.places", "import app.start"),
        ("app-rooms", "app.attic", ""),
        ("no-qt-in-core", "core.plan", "def f():\n    import PySide6.QtCore"),
        ("database", "core.desk", "import sqlalchemy"),
        ("database", "app.start", "def f():\n    from alembic import command"),
        ("database", "app.places", "import sqlite3"),
        ("solver", "app.bridge", "import ortools"),
        ("solver", "core.timetable", "def f():\n    from ortools.sat.python import cp_model"),
        ("units", "core.plan", "import pint"),
        ("typesetter", "app.places", "import typst"),
        ("foreign-text", "core.store", "import pydantic"),
    ],
)
def test_each_contract_bites(house, contract, module, source):
    done = lint(house({**SOUND, module: source}), "--contract", contract)
    assert done.returncode == 1, done.stdout + done.stderr
    assert "0 kept, 1 broken" in done.stdout, done.stdout + done.stderr


def test_every_contract_was_tried():
    tried = {case[0] for mark in test_each_contract_bites.pytestmark for case in mark.args[1]}
    assert tried == ALL
