"""The keys of the sheets, for the page of keys."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.places.paper.pages import KEEP_KEY, PRINT_KEY


def sections() -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Return headings, and under each the keys and what they do."""
    return [
        (
            _said("Sheets"),
            (
                ("Alt+R", _said("to print: all kinds of sheets, as pages")),
                ("Alt+O", _said("the order list")),
                ("Alt+U", _said("the pull list")),
                ("Alt+F", _said("phone, calendar, tables, picture")),
                ("Ctrl+Shift+C", _said("copy the list as text")),
                ("Space", _said("on the order list: it is in the house; on to the next")),
            ),
        ),
        (
            _said("To print"),
            (
                (PRINT_KEY, _said("print what is seen; from elsewhere, come here")),
                (KEEP_KEY, _said("keep what is seen as PDF")),
                ("Space", _said("on the list: printed together with the others, or not")),
                ("+, -", _said("in the pages: larger, smaller")),
                ("Home, End", _said("in the pages: the first, the last")),
            ),
        ),
    ]


def _said(words: str) -> str:
    return QCoreApplication.translate("keys", words)
