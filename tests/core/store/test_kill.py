from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from pathlib import Path

from core.store.file import PlanFile
from tests.core.store.saver import numbered

ROOT = Path(__file__).parents[3]
KILLS = 6


def saved_until_killed(path: Path, first: int, seconds: float) -> list[int]:
    """Let another program save plans from number `first` on, kill it, return the numbers that it said."""
    saver = subprocess.Popen(
        [sys.executable, "-m", "tests.core.store.saver", str(path), str(first)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert saver.stdout is not None
        said = [saver.stdout.readline()]
        time.sleep(seconds)
        saver.send_signal(signal.SIGKILL)
        said += saver.stdout.readlines()
        assert saver.wait() == -signal.SIGKILL
    finally:
        saver.kill()
        saver.wait()
        if saver.stdout is not None:
            saver.stdout.close()
    return [int(each) for each in said if each.endswith("\n")]


def test_a_program_killed_while_saving_leaves_one_whole_plan(tmp_path: Path) -> None:
    path = tmp_path / "feast.cookday"
    PlanFile.create(path, numbered(0)).close()
    first = 1
    for _ in range(KILLS):
        said = saved_until_killed(path, first, random.uniform(0.0, 0.15))  # noqa: S311  moments, not secrets
        assert said[0] == first
        last = said[-1]
        with PlanFile.open(path) as file:
            plan = file.plan()
        number = int(plan.name.rpartition(" ")[2])
        # What was said to be saved is saved; the save that the kill met is there whole or not at all.
        assert number in {last, last + 1}
        assert plan == numbered(number)
        assert sorted(each.name for each in tmp_path.iterdir()) == ["feast.cookday"]
        first = number + 1
