"""`cookday draft`: a page on disk becomes a text plan on the terminal, or a dish in a plan of any form."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from app.command import main
from core.intake.text_plan import read_file, read_text
from core.measures import Refusal
from core.store.file import PlanFile
from tests.journeys.test_commands import Done, environment

PAGES = Path(__file__).parents[1] / "core" / "intake" / "pages"
Run = Callable[..., Done]
TARGETS = ("supper.toml", "supper.json", "supper.cookday")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for each in PAGES.iterdir():
        if each.suffix in (".html", ".txt", ".json"):
            shutil.copy(each, tmp_path / each.name)
    return tmp_path


@pytest.fixture
def draft(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Done]:
    """Run the command in this process, in the folder, as the shell would."""
    monkeypatch.chdir(folder)

    def run(*arguments: str) -> Done:
        capsys.readouterr()
        try:
            code = main(["draft", *arguments])
        except SystemExit as ended:
            code = int(ended.code or 0)
        said = capsys.readouterr()
        return Done(code, said.out, said.err)

    return run


def test_the_command_itself_needs_no_display(folder: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "app.command", "draft", "unheaded.txt"],
        cwd=folder, env=environment(), capture_output=True, text=True, encoding="utf-8", timeout=110, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert read_text(done.stdout).name == "Red lentil soup"


def plan_in(path: Path):
    if path.suffix == ".cookday":
        with PlanFile.open(path) as file:
            return file.held
    return read_file(path)


def test_a_page_is_printed_as_a_text_plan_with_its_questions_and_sources(folder: Path, draft: Run) -> None:
    done = draft("unheaded.txt")
    assert (done.code, done.err) == (0, "")
    plan = read_text(done.out)
    (dish,) = plan.menu.dishes
    assert [step.does for step in dish.steps] == [
        "Fry the onion in a little oil",
        "Add the lentils and the stock and simmer",
    ]
    assert [step.length.likely for step in dish.steps] == [5, 20]
    assert len(plan.menu.links) == 1
    comments = [line for line in done.out.splitlines() if line.startswith("# ")]
    assert "# ? The page does not say how many the recipe serves." in comments
    assert "# “Fry the onion in a little oil for 5 minutes”" in comments


def test_a_length_that_is_not_told_stays_open_until_somebody_writes_one(folder: Path, draft: Run) -> None:
    done = draft("graph.html")
    assert done.code == 0
    assert '? "Fold in the squash" has no length in the text.' in done.out
    with pytest.raises(Refusal, match="takes"):
        read_text(done.out)
    open_steps = ('does = "Fold in the squash"', 'does = "Squeeze the lemon over the seeds"')
    text = done.out
    for line in open_steps:
        assert line in text
        text = text.replace(line, f'{line}\ntakes = "3 min"')
    (folder / "finished.toml").write_text(text, encoding="utf-8")
    assert draft("finished.toml", "--to", "supper.cookday").code == 0
    (dish,) = plan_in(folder / "supper.cookday").menu.dishes
    assert [step.length.likely for step in dish.steps] == [40, 33, 3, 4, 3]


@pytest.mark.parametrize("target", TARGETS)
def test_a_recipe_without_told_lengths_is_not_put_into_a_plan_unasked(
    folder: Path, draft: Run, target: str
) -> None:
    line = draft("graph.html", "--to", target).refused()
    assert "2 steps have no length in the recipe, and none is made up" in line
    assert "--untimed" in line
    assert not (folder / target).exists()


@pytest.mark.parametrize("target", TARGETS)
def test_a_recipe_goes_into_a_plan_new_or_old_and_ids_stay_unique(
    folder: Path, draft: Run, target: str
) -> None:
    first = draft("graph.html", "--to", target, "--untimed", "4/5/7")
    assert (first.code, first.err) == (0, "")
    assert first.out.startswith(f"Squash & barley pot is in {target}: 5 steps, 5 ingredients.")
    before = plan_in(folder / target)
    assert draft("unheaded.txt", "--to", target).code == 0
    assert draft("graph.html", "--to", target, "--untimed", "5").code == 0
    after = plan_in(folder / target)
    assert [dish.id for dish in after.menu.dishes] == [
        "squash-barley-pot",
        "red-lentil-soup",
        "squash-barley-pot-2",
    ]
    assert after.menu.dishes[0] == before.menu.dishes[0]
    assert set(before.menu.links) <= set(after.menu.links)
    assert (after.name, after.plating, after.kitchen) == (before.name, before.plating, before.kitchen)
    untimed = before.menu.dishes[0].steps[2]
    assert (untimed.length.low, untimed.length.likely, untimed.length.high) == (4, 5, 7)
    assert untimed.note == "The recipe does not tell this length."


def test_a_text_plan_keeps_its_own_words_and_comments(folder: Path, draft: Run) -> None:
    assert draft("unheaded.txt", "--to", "supper.toml").code == 0
    path = folder / "supper.toml"
    own = "# my own words\n" + path.read_text(encoding="utf-8")
    path.write_text(own, encoding="utf-8")
    assert draft("microdata.html", "--to", "supper.toml").code == 0
    text = path.read_text(encoding="utf-8")
    assert text.startswith(own)
    assert [dish.name for dish in read_file(path).menu.dishes] == ["Red lentil soup", "Bean and kale stew"]


def test_what_the_kitchen_lacks_is_said_and_left_without_a_place(folder: Path, draft: Run) -> None:
    (folder / "chops.txt").write_text(
        "Chops\nServes 2\nIngredients\n2 chops\nMethod\nGrill the chops under the grill for 8 minutes.\n",
        encoding="utf-8",
    )
    done = draft("chops.txt", "--to", "supper.toml")
    assert done.code == 0
    assert "the kitchen has none" in done.out
    (step,) = read_file(folder / "supper.toml").menu.dishes[0].steps
    assert step.uses == ()


def test_cups_are_those_that_were_asked_for(folder: Path, draft: Run) -> None:
    (folder / "tea.txt").write_text(
        "Tea\nIngredients\n1 cup milk\nMethod\nBoil the milk for 5 minutes.\n", encoding="utf-8"
    )
    assert 'quantity = "1 cup"' in draft("tea.txt").out
    assert 'quantity = "1 metric cup"' in draft("tea.txt", "--measures", "metric").out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("nowhere.html",), "There is no page"),
        (("https://example.invalid/pot",), "save it first"),
        (("empty.txt",), "empty.txt is empty"),
        (("words.txt",), "There is no recipe in words.txt"),
        (("unheaded.txt", "--to", "supper.pdf"), "must end in .cookday"),
        (("unheaded.txt", "--to", "none/supper.toml"), "There is no folder"),
        (("unheaded.txt", "--to", "broken.toml"), "broken.toml"),
        (("graph.html", "--untimed", "0"), "give 1 min or more"),
        (("graph.html", "--untimed", "soon"), "is not a length of time"),
        (("broken.toml",), "say with --to which plan takes its dishes"),
    ],
)
def test_bad_input_is_one_line_and_changes_nothing(
    folder: Path, draft: Run, arguments: tuple[str, ...], said: str
) -> None:
    (folder / "empty.txt").write_bytes(b"")
    (folder / "words.txt").write_text("Dear all, see you on Friday", encoding="utf-8")
    (folder / "broken.toml").write_text("name = ", encoding="utf-8")
    before = {each.name: each.read_bytes() for each in folder.iterdir()}
    assert said in draft(*arguments).refused()
    assert {each.name: each.read_bytes() for each in folder.iterdir()} == before
