"""`cookday check` tells which food limits a timetable breaks, beside its clashes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import demo_data
from core.intake.text_plan import read_text
from core.timetable.as_text import write_timetable
from tests.support.hand_made import hand_made

COMMAND = [sys.executable, "-c", "import sys; from app.command import main; sys.exit(main(sys.argv[1:]))"]


def check(folder: Path, text: str) -> subprocess.CompletedProcess[str]:
    """Write a plan and the timetable made by hand for it, and check them."""
    plan = read_text(text)
    (folder / "supper.toml").write_text(text, encoding="utf-8")
    (folder / "supper.json").write_text(write_timetable(plan, hand_made(plan)), encoding="utf-8")
    return subprocess.run(
        [*COMMAND, "check", "supper.toml", "--timetable", "supper.json"],
        cwd=folder,
        env={"PYTHONPATH": str(Path(__file__).parents[2]), "HOME": str(folder), "LC_ALL": "C.UTF-8"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


@pytest.fixture(scope="module")
def supper() -> str:
    return demo_data.text_of("harvest_supper.toml")


def test_a_supper_without_findings_leaves_the_code_0_and_says_what_is_not_judged(
    tmp_path: Path, supper: str
) -> None:
    done = check(tmp_path, supper)
    assert (done.returncode, done.stderr) == (0, "")
    assert "nothing is over the limits of the set “US home cook”" in done.stdout
    assert "Chill in three tubs: say how deep the food lies" in done.stdout
    assert "a probe go first" in done.stdout


def test_a_finding_over_a_limit_gives_the_code_1_with_source_and_mend(tmp_path: Path, supper: str) -> None:
    warm = supper.replace('core = "74 C"', 'core = "70 C"')
    assert warm != supper
    done = check(tmp_path, warm)
    assert done.returncode == 1
    assert "Everything meets" in done.stdout  # no clash
    assert "is reheated to 70 °C, 3.9 °C below 73.9 °C (165 °F) (FoodSafety.gov" in done.stdout
    assert "Heat it to 74 °C in the middle." in done.stdout


def test_a_set_of_ones_own_is_found_in_the_folder_of_rules(tmp_path: Path, supper: str) -> None:
    chosen = supper.replace('manner = "likely"', 'manner = "likely"\nrules = "mine"')
    done = check(tmp_path, chosen)
    assert done.returncode == 2
    assert 'There are no food rules "mine"' in done.stderr
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "mine.toml").write_text(
        'id = "mine"\nname = "My own"\n[[rule]]\nid = "out"\nfamily = "between"\nmeasure = "out"\n'
        'foods = ["cooked"]\nminutes = 60\npublisher = "the house"\ndocument = "kitchen wall"\ntag = "practice"\n',
        encoding="utf-8",
    )
    done = check(tmp_path, chosen)
    assert done.returncode == 1
    assert "Food over the limits of the set “My own”:" in done.stdout
    assert "(the house, kitchen wall)" in done.stdout
