"""The choice of the set of food rules among the plan's facts: shipped ones, the cook's own, a file to take in."""

from __future__ import annotations

import shutil
from contextlib import suppress
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QWidget

from app.bridge import OpenPlan
from app.fields import Picked, Spec, tried
from app.places.food.watching import watch_of
from core.measures.refusal import Refusal
from core.plan.edits import ChooseRules

_FILE = "\N{HORIZONTAL ELLIPSIS}"
"""Stands for "a file of one's own" among the ids; no id has this sign."""


class RulesChoice(QObject):
    """Declares the field and takes what is chosen in it."""

    def __init__(self, opened: OpenPlan, parent: QWidget) -> None:
        super().__init__(parent)
        self._opened, self._over = opened, parent
        self.spec = Spec(
            "rules",
            self.tr("Food limits of"),
            Picked(self._options),
            self.tr(
                "By which published limits food is judged; your own set is a file in the folder “rules” beside the plan"
            ),
            hint=lambda _rules: self._at_risk(),
        )

    def take(self, rules: str) -> str:
        """Choose a set, or ask for a file of one; return "" or why not."""
        if rules == _FILE:
            self.ask_file()
            return ""
        return tried(self._opened, ChooseRules(rules), "menu")

    def ask_file(self) -> None:
        """Ask for a file of one's own rules."""
        dialog = QFileDialog(self._over, self.tr("Take in your own food rules"), "")
        dialog.setNameFilter(self.tr("Food rules (*.toml)"))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.fileSelected.connect(lambda path: self.take_file(Path(path)))
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def take_file(self, path: Path) -> None:
        """Copy a file of rules beside the plan and choose it; say why not where it holds none."""
        opened = self._opened
        try:
            rules = _taken_in(path, watch_of(opened).folder)
        except Refusal as refusal:
            opened.refused.emit(str(refusal))
        except OSError as wrong:
            opened.refused.emit(f"“{path.name}” could not be taken in: {wrong.strerror or wrong}.")
        else:
            opened.apply(ChooseRules(rules), "menu")

    def _options(self) -> list[tuple[str, str]]:
        from core.safety import USUAL, shipped_rules

        chosen = self._opened.plan.decisions.rules
        found = [("" if each.id == USUAL and chosen != USUAL else each.id, each.name) for each in shipped_rules()]
        with suppress(Refusal):  # why a file holds none is said where the findings are
            found += [(each.id, each.name) for each in watch_of(self._opened).own_rules()]
        if chosen not in dict(found):
            found.append((chosen, self.tr("{id} (its file is missing)").format(id=chosen)))
        return [*found, (_FILE, self.tr("A file of your own…"))]

    def _at_risk(self) -> str:
        """Say that guests for whom illness would be worse change what is shown."""
        names = [guest.name for guest in self._opened.plan.menu.guests if guest.at_risk]
        if not names:
            return ""
        words = self.tr("with the cautions for {names}, at higher risk")
        return words.format(names=", ".join(names))


def _taken_in(path: Path, folder: Path | None) -> str:
    """Copy a file of rules into the folder of the cook's own; return the id of its set."""
    from core.safety import read_rules, shipped_rules

    rules = read_rules(path)
    if rules.id in {each.id for each in shipped_rules()}:
        raise Refusal(f"“{path.name}” bears the id of a shipped set; give it another id in its first lines.")
    if folder is None:
        raise Refusal("This plan has no file yet, so there is no folder for your rules; keep it first.")
    goal = folder / path.name
    if goal.resolve() != path.resolve():
        if goal.exists():
            raise Refusal(f"“{path.name}” is in the folder of your rules already; rename the new file.")
        folder.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, goal)
    return rules.id
