"""The keys of the sheets, for the page of keys."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication


def sections() -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Return headings, and under each the keys and what they do."""
    return [
        (
            _said("Sheets"),
            (
                ("Alt+R", _said("the run sheet")),
                ("Alt+O", _said("the order list")),
                ("Alt+U", _said("the pull list")),
                ("Ctrl+Shift+C", _said("copy the list as text")),
                ("Space", _said("on the order list: it is in the house; on to the next")),
            ),
        ),
    ]


def _said(words: str) -> str:
    return QCoreApplication.translate("keys", words)
