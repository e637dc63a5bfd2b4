"""What each kind of sheet is called in the window, and what it is for."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from core.sheets.kinds import TITLES, SheetKind


def QT_TRANSLATE_NOOP(_context: str, words: str) -> str:  # the name that the translator's tool reads
    """Mark words for translation and return them; Qt's own is typed as an object."""
    return words


_ABOUT = {
    SheetKind.RUN: QT_TRANSLATE_NOOP("Paper", "everything by the clock, to tick off"),
    SheetKind.PREP: QT_TRANSLATE_NOOP("Paper", "what to make ready, by day and dish"),
    SheetKind.STATION: QT_TRANSLATE_NOOP("Paper", "what passes through oven, grill, burners"),
    SheetKind.ORDER: QT_TRANSLATE_NOOP("Paper", "what to buy, by day and aisle"),
    SheetKind.PULL: QT_TRANSLATE_NOOP("Paper", "vessels and serving dishes to set out"),
    SheetKind.FRIDGE: QT_TRANSLATE_NOOP("Paper", "what stands on which shelf, and when"),
    SheetKind.TEMPERATURES: QT_TRANSLATE_NOOP("Paper", "readings to take and write down"),
    SheetKind.MENU: QT_TRANSLATE_NOOP("Paper", "for the table, with allergens"),
    SheetKind.PLATING: QT_TRANSLATE_NOOP("Paper", "the last half hour, and what goes where"),
    SheetKind.LABELS: QT_TRANSLATE_NOOP("Paper", "for boxes that are made ahead"),
}


def title_of(kind: SheetKind) -> str:
    """Return what a kind is called."""
    return QCoreApplication.translate("Paper", TITLES[kind])


def about(kind: SheetKind) -> str:
    """Return in a few words what a kind is for."""
    return QCoreApplication.translate("Paper", _ABOUT[kind])
