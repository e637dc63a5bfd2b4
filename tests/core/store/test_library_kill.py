from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from pathlib import Path

from core.store.library import Library
from tests.core.store.library_keeper import numbered

ROOT = Path(__file__).parents[3]
KILLS = 5


def keeper(path: Path, mark: str, first: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "tests.core.store.library_keeper", str(path), mark, str(first)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
    )


def killed(program: subprocess.Popen[str], seconds: float) -> list[int]:
    """Kill a keeper some time after its first dish is kept; return the numbers that it said."""
    assert program.stdout is not None
    try:
        said = [program.stdout.readline()]
        time.sleep(seconds)
        program.send_signal(signal.SIGKILL)
        said += program.stdout.readlines()
        assert program.wait() == -signal.SIGKILL
    finally:
        program.kill()
        program.wait()
        program.stdout.close()
    return [int(each) for each in said if each.endswith("\n")]


def kept(path: Path) -> dict[str, object]:
    with Library.open(path) as library:
        found = {each.name: each.copy for each in library.dishes()}
        assert library.unread == 0
    return found


def test_a_program_killed_while_keeping_leaves_every_dish_whole(tmp_path: Path) -> None:
    path = tmp_path / "own.cooklib"
    first, names = 1, set()
    for _ in range(KILLS):
        said = killed(keeper(path, "Soup", first), random.uniform(0.0, 0.15))  # noqa: S311  moments, not secrets
        found = kept(path)
        # What was said to be kept is kept; the dish that the kill met is there whole, once kept or replaced, or not.
        names |= {f"Soup {number}" for number in said}
        unsaid = set(found) - names
        assert names <= set(found)
        assert unsaid <= {f"Soup {said[-1] + 1}"}
        for number in said:
            assert found[f"Soup {number}"] == numbered(f"Soup {number}", -number)
        for name in unsaid:
            number = int(name.split()[1])
            assert found[name] in (numbered(name, number), numbered(name, -number))
        names |= unsaid
        # A journal that was not begun to be used when the kill came is left for the next one who writes.
        assert {each.name for each in tmp_path.iterdir()} <= {"own.cooklib", "own.cooklib-journal"}
        first = said[-1] + 2


def test_two_programs_that_keep_at_once_lose_nothing(tmp_path: Path) -> None:
    """Neither finds a library: both make it, and then write into the same one."""
    path = tmp_path / "own.cooklib"
    both = [keeper(path, "Soup", 1), keeper(path, "Stew", 1)]
    said = [killed(program, 0.25) for program in both]
    found = kept(path)
    for mark, numbers in zip(("Soup", "Stew"), said, strict=True):
        assert numbers
        for number in numbers:
            assert found[f"{mark} {number}"] == numbered(f"{mark} {number}", -number)
