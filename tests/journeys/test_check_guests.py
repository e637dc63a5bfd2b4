"""`cookday check` says what speaks against dishes for the guests, after the clashes; the exit code stays theirs."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import replace
from pathlib import Path

import pytest

from app import scripted
from core.intake.text_plan import write_file
from core.plan.menu import Guest
from core.plan.plan import Plan
from core.timetable.as_text import write_timetable
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_plan, a_step


def checked(plan: Plan, folder: Path) -> int:
    """Write a plan and its timetable, and check them as the command does."""
    write_file(plan, folder / "soup.toml")
    (folder / "soup.json").write_text(write_timetable(plan, on_paper(plan)), encoding="utf-8")
    return scripted.check(Namespace(plan=folder / "soup.toml", timetable=folder / "soup.json"))


def test_check_tells_cautions_for_guests(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = a_plan(a_dish("soup", a_step("soup.boil"), allergens=("milk",)))
    assert checked(plan, tmp_path) == scripted.MEETS
    assert "Guests" not in capsys.readouterr().out
    plan = replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", allergies=("milk",)),)))
    assert checked(plan, tmp_path) == scripted.MEETS
    told = capsys.readouterr().out
    assert told.startswith("Everything meets")
    assert told.endswith(
        "Guests:\n  Soup is not for Orla: milk noted.\n"
        "  A list knows only what it was told: ask every guest, and check every label.\n"
    )
