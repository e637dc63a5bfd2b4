from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from core.store.mark import SCHEMA

ROOT = Path(__file__).parents[3]


def loaded_by(code: str) -> set[str]:
    """Return which of the heavy libraries a fresh Python has loaded after some code."""
    show = "print(*{'sqlalchemy', 'alembic', 'sqlite3'} & set(sys.modules))"
    run = subprocess.run(
        [sys.executable, "-c", f"import sys\n{code}\n{show}"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return set(run.stdout.split())


def test_the_package_itself_loads_no_database() -> None:
    assert loaded_by("import core.store\ncore.store.SUFFIX") == set()
    assert loaded_by("from core.store import recent_plans, remember, forget") == set()


def test_opening_a_file_loads_no_migrations(tmp_path: Path) -> None:
    sample = Path(__file__).parent / "samples" / f"v{SCHEMA}.cookday"
    copy = tmp_path / "a.cookday"
    copy.write_bytes(sample.read_bytes())
    code = f"from core.store import PlanFile\nPlanFile.open({str(copy)!r}).close()"
    assert loaded_by(code) == {"sqlalchemy", "sqlite3"}


def test_a_name_that_is_not_there_is_said() -> None:
    import core.store

    with pytest.raises(AttributeError, match="no attribute 'Cupboard'"):
        _ = core.store.Cupboard
