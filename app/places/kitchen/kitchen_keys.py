"""The keys of the Kitchen place, for the page of keys."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication


def sections() -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Return headings, and under each the keys and what they do."""
    return [
        (
            _said("Kitchen"),
            (
                ("Ctrl+D", _said("copy the station, vessel or cook")),
                ("Alt+Del", _said("take it out")),
                ("Left", _said("on a heat-up curve: a lower setting, as with Down")),
                ("Right", _said("a higher setting, as with Up")),
                ("Home", _said("the lowest setting")),
                ("End", _said("the highest setting")),
                ("Esc", _said("shut the kitchens that are kept")),
            ),
        ),
    ]


def _said(words: str) -> str:
    return QCoreApplication.translate("keys", words)
