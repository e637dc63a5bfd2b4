"""The keys of the page of own dishes, for the page of keys."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication


def sections() -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Return headings, and under each the keys and what they do."""
    return [
        (
            _said("My dishes"),
            (
                ("Down", _said("from the search to what was found, as with Up, PgUp and PgDown")),
                ("Enter", _said("put the dish on the menu")),
                ("Alt+Del", _said("remove it from my dishes")),
                ("Esc", _said("back to the menu")),
            ),
        ),
    ]


def _said(words: str) -> str:
    return QCoreApplication.translate("keys", words)
