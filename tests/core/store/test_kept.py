"""Days kept by name in the plan file: all or none, no other window's days lost, none lost to a killed program."""

from __future__ import annotations

import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from core.measures.refusal import Refusal
from core.store import KeptText, PlanFile
from tests.core.store.sample import full_plan, sample_days

ROOT = Path(__file__).parents[3]
SAMPLES = Path(__file__).parent / "samples"
CALM, LATE = sample_days()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "feast.cookday"
    PlanFile.create(path, full_plan()).close()
    return path


def test_days_come_back_in_their_order_and_are_no_part_of_the_plan(path: Path) -> None:
    with PlanFile.open(path) as file:
        assert file.kept() == ()
        file.keep((), (LATE, CALM))
        assert file.plan() == full_plan()
    with PlanFile.open(path) as file:
        assert file.kept() == (LATE, CALM)
        file.keep((LATE, CALM), (CALM, replace(LATE, name="long sleep", current=False)))
        assert [each.name for each in file.kept()] == ["calm", "long sleep"]
        file.keep(file.kept(), ())
        assert file.kept() == ()


@pytest.mark.parametrize("layout", [1, 2])
def test_an_older_file_opens_without_days_and_takes_some(layout: int, tmp_path: Path) -> None:
    path = Path(shutil.copy(SAMPLES / f"v{layout}.cookday", tmp_path / "feast.cookday"))
    with PlanFile.open(path) as file:
        assert file.kept() == ()
        file.keep((), (CALM,))
    with PlanFile.open(path) as file:
        assert file.kept() == (CALM,)


def test_days_are_in_a_copy_and_saving_the_plan_leaves_them(path: Path, tmp_path: Path) -> None:
    with PlanFile.open(path) as file:
        file.keep((), (CALM,))
        file.save(full_plan(), replace(full_plan(), name="Other"))
        file.copy_to(tmp_path / "copy.cookday")
        assert file.kept() == (CALM,)
    with PlanFile.open(tmp_path / "copy.cookday") as copy:
        assert copy.kept() == (CALM,)


def test_another_windows_days_and_plans_are_not_written_over(path: Path) -> None:
    with PlanFile.open(path) as one, PlanFile.open(path) as other:
        one.keep((), (CALM,))
        with pytest.raises(Refusal, match="was changed by another window"):
            other.keep((), (LATE,))
        with pytest.raises(Refusal, match="was changed by another window"):
            other.save(full_plan(), replace(full_plan(), name="Other"))
        assert one.kept() == (CALM,)
        assert one.plan() == full_plan()


def test_a_file_that_may_only_be_read_says_so(path: Path) -> None:
    path.chmod(0o444)
    with PlanFile.open(path) as file, pytest.raises(Refusal, match="may only be read"):
        file.keep((), (CALM,))


def test_a_row_that_nobody_here_wrote_stays_when_days_are_kept(path: Path) -> None:
    strange = KeptText("strange", "no timetable", "yesterday", "")
    with PlanFile.open(path) as file:
        file.keep((), (strange,))
        file.keep((), (CALM,))  # a window that could not read it knows nothing of it
        assert set(file.kept()) == {strange, CALM}


def test_a_day_that_is_no_text_is_left_out_and_left_in_the_file(path: Path) -> None:
    with PlanFile.open(path) as file:
        file.keep((), (CALM,))
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE kept SET timetable = x'00ff'")
    with PlanFile.open(path) as file:
        assert file.kept() == ()
        file.keep((), (CALM,))  # a new day by the same name
        assert file.kept() == (CALM,)
    with closing(sqlite3.connect(path)) as raw:
        rows = set(raw.execute("SELECT name, timetable = x'00ff' FROM kept"))
    assert rows == {(CALM.name, 0), (f"{CALM.name} (2)", 1)}


KEEPER = """
import sys
from dataclasses import replace
from itertools import count
from pathlib import Path
from core.store import PlanFile
from tests.core.store.sample import sample_days
with PlanFile.open(Path(sys.argv[1])) as file:
    held = file.kept()
    for number in count(int(sys.argv[2])):
        after = tuple(replace(each, mark=str(number)) for each in sample_days()[: 1 + number % 2])
        file.keep(held, after)
        held = after
        print(number, flush=True)
"""


def test_a_program_killed_while_keeping_leaves_whole_days(path: Path) -> None:
    first = 1
    for seconds in (0.02, 0.05, 0.09, 0.13):
        keeper = subprocess.Popen(
            [sys.executable, "-c", KEEPER, str(path), str(first)], cwd=ROOT, stdout=subprocess.PIPE, text=True
        )
        assert keeper.stdout is not None
        said = [keeper.stdout.readline()]
        time.sleep(seconds)
        keeper.send_signal(signal.SIGKILL)
        said += keeper.stdout.readlines()
        assert keeper.wait() == -signal.SIGKILL
        keeper.stdout.close()
        last = int([each for each in said if each.endswith("\n")][-1])
        with PlanFile.open(path) as file:
            kept = file.kept()
            assert file.plan() == full_plan()
        number = int(kept[0].mark)
        assert number in {last, last + 1}
        assert kept == tuple(replace(each, mark=str(number)) for each in sample_days()[: 1 + number % 2])
        first = number + 1
