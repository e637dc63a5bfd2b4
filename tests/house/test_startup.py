"""The command answers at once: what is heavy is imported when it is first needed."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HEAVY = {
    "PySide6", "alembic", "networkx", "numpy", "ortools", "pandas", "pint", "pydantic", "shiboken6",
    "sqlalchemy", "typst",
}  # fmt: skip


def imported_by(statement):
    """Give the names of all modules that a fresh Python imports for this statement."""
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", statement],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=100,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    lines = [line for line in done.stderr.splitlines() if line.startswith("import time:")]
    return {line.rsplit("|", 1)[1].strip() for line in lines[1:]}


def test_the_command_starts_light():
    names = imported_by("import app.command")
    assert "app.command" in names
    heavy = sorted({name.partition(".")[0] for name in names} & HEAVY)
    assert not heavy, f"import app.command also imports {', '.join(heavy)}"


@pytest.mark.parametrize("name", ["pydantic", "networkx"])
def test_the_check_sees_a_heavy_import(name):
    assert name in imported_by(f"import json\ndef f():\n    import {name}\nf()")
