"""The keys of the place where recipes come in, for the page of keys."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication


def sections() -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Return headings, and under each the keys and what they do."""
    return [
        (
            _said("Recipe in"),
            (
                ("Ctrl+Return", _said("read what was pasted; later: tick a line as understood")),
                ("F4", _said("to what answers the next open question")),
                ("Shift+F4", _said("to the question before")),
                ("Del", _said("on a question: no answer is needed")),
                ("Alt+S", _said("split the step at the cursor")),
                ("Alt+J", _said("join the step with the next")),
                ("Alt+Up", _said("move the step up")),
                ("Alt+Down", _said("move the step down")),
                ("Alt+X", _said("leave it out, or bring it back")),
                ("Ctrl+T", _said("take the dish into the menu")),
                ("Alt+Del", _said("put the recipe away")),
                ("Ctrl+PgDown", _said("the next of several recipes")),
                ("Ctrl+Shift+N", _said("another recipe")),
                ("Esc", _said("back to the plan; the recipe stays")),
            ),
        ),
    ]


def _said(words: str) -> str:
    return QCoreApplication.translate("keys", words)
