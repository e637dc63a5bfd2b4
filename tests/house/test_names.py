"""No room is called after nothing: a module's name says what is in it."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SAYS_NOTHING = {
    "base", "common", "helper", "helpers", "manager", "managers", "misc", "stuff", "util", "utils",
}  # fmt: skip


def empty_names(paths):
    """Give the paths in which a word of a folder's or module's name says nothing."""
    return [path for path in paths if SAYS_NOTHING & set(re.split(r"[/_]", path.removesuffix(".py")))]


def test_every_name_says_something():
    paths = [
        file.relative_to(ROOT).as_posix()
        for folder in ("app", "core", "resources", "demo_data", "tests", "bench")
        for file in (ROOT / folder).rglob("*.py")
    ]
    assert len(paths) > 10
    assert not empty_names(paths)


@pytest.mark.parametrize("path", ["core/utils.py", "app/misc/x.py", "core/plan/step_helpers.py", "base.py"])
def test_the_check_itself(path):
    assert empty_names([path, "core/plan/step.py", "core/store/database.py"]) == [path]
