"""The keys of the Menu place, for the page of keys."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication


def sections() -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Return headings, and under each the keys and what they do."""
    return [
        (
            _said("Steps, one to a line"),
            (
                ("Enter", _said("take the line and begin the next")),
                ("Tab, Down", _said("from the line to what was understood of it")),
                ("Ctrl+Return", _said("mend the word that is marked")),
                ("F2", _said("the chosen step as a line again")),
                ("Shift+F2", _said("the chosen step as fields")),
                ("Alt+Return", _said("a new step below the chosen one")),
                ("Alt+U", _said("usual runs of steps, such as rest and carve")),
                ("Alt+M", _said("more of each step, or less")),
                ("Shift+F1", _said("how a line is written")),
            ),
        ),
        (
            _said("Dishes and rows"),
            (
                ("Ctrl+D", _said("copy the chosen one")),
                ("Alt+Up", _said("move it up")),
                ("Alt+Down", _said("move it down")),
                ("Alt+Del", _said("take it out")),
                ("Alt+Q", _said("make more or less of a dish, at its ingredients")),
                ("Alt+W", _said("what else changes with the amount")),
                ("Ctrl+G", _said("the guests")),
                ("Ctrl+L", _said("put one of my dishes on the menu")),
                ("Ctrl+Shift+L", _said("keep the dish in my dishes")),
            ),
        ),
        (
            _said("The flow of a dish"),
            (
                ("Up", _said("along steps and links, as with the other arrows")),
                ("L", _said("link on from the chosen step; then arrows or a number, and Enter")),
                ("Shift+L", _said("link back to what comes before it")),
                ("F2", _said("the step, or the wait of the chosen link")),
                ("Del", _said("take the chosen link out")),
                ("Alt+T", _said("turn round what a link is sought for")),
            ),
        ),
    ]


def _said(words: str) -> str:
    return QCoreApplication.translate("keys", words)
