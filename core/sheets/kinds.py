"""The kinds of sheet, by the words that the trade has for them."""

from __future__ import annotations

from enum import StrEnum


class SheetKind(StrEnum):
    """What a sheet is for; the value is its name on the command line."""

    RUN = "run"
    PREP = "prep"
    STATION = "station"
    ORDER = "order"
    PULL = "pull"
    FRIDGE = "fridge"
    TEMPERATURES = "temperatures"
    MENU = "menu"
    PLATING = "plating"
    LABELS = "labels"


TITLES = {
    SheetKind.RUN: "Run sheet",
    SheetKind.PREP: "Prep list",
    SheetKind.STATION: "Station sheet",
    SheetKind.ORDER: "Order list",
    SheetKind.PULL: "Pull list",
    SheetKind.FRIDGE: "Fridge plan",
    SheetKind.TEMPERATURES: "Temperature log",
    SheetKind.MENU: "Menu card",
    SheetKind.PLATING: "Plating sheet",
    SheetKind.LABELS: "Labels",
}
"""As it stands on the paper."""

TIMELESS = frozenset({SheetKind.ORDER, SheetKind.MENU})
"""Kinds that need no timetable."""
CUT = frozenset({SheetKind.RUN, SheetKind.PREP, SheetKind.STATION})
"""Kinds of which there is a copy for one cook or one station."""
