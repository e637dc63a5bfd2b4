"""Words that several views share, in one place, translatable."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication, QDate, QLocale, QTime

from core.plan.kitchen import StationKind

_CONTEXT = "words"
_SAID = {
    "plating": QT_TRANSLATE_NOOP("words", "plating"),
    "course": QT_TRANSLATE_NOOP("words", "served"),
    "night": QT_TRANSLATE_NOOP("words", "night"),
    "away": QT_TRANSLATE_NOOP("words", "away"),
    "closed": QT_TRANSLATE_NOOP("words", "not there"),
    "no station": QT_TRANSLATE_NOOP("words", "Worktop"),
    "nobody": QT_TRANSLATE_NOOP("words", "Nobody found"),
    "heating": QT_TRANSLATE_NOOP("words", "heating up"),
    "shelf": QT_TRANSLATE_NOOP("words", "shelf"),
    "lowest shelf": QT_TRANSLATE_NOOP("words", "lowest shelf"),
    "hands-on": QT_TRANSLATE_NOOP("words", "hands on"),
    "tended": QT_TRANSLATE_NOOP("words", "cooks by itself, with touches"),
    "hands-off": QT_TRANSLATE_NOOP("words", "cooks by itself"),
    "pinned": QT_TRANSLATE_NOOP("words", "pinned"),
    "empty": QT_TRANSLATE_NOOP("words", "Nothing here yet: write down a dish and its steps, then arrange the day."),
    "timeline": QT_TRANSLATE_NOOP("words", "Timeline"),
    "by station": QT_TRANSLATE_NOOP("words", "by station"),
    "clock": QT_TRANSLATE_NOOP("words", "clock"),
    "to plating": QT_TRANSLATE_NOOP("words", "to plating"),
    "by dish": QT_TRANSLATE_NOOP("words", "by dish"),
    "by cook": QT_TRANSLATE_NOOP("words", "by cook"),
    "pin": QT_TRANSLATE_NOOP("words", "Pin here"),
    "unpin": QT_TRANSLATE_NOOP("words", "Lift the pin"),
    "open": QT_TRANSLATE_NOOP("words", "Open the step"),
    "earlier": QT_TRANSLATE_NOOP("words", "5 minutes earlier"),
    "later": QT_TRANSLATE_NOOP("words", "5 minutes later"),
    "move to": QT_TRANSLATE_NOOP("words", "Move to"),
    "overview": QT_TRANSLATE_NOOP("words", "All days at a glance"),
    "overview tip": QT_TRANSLATE_NOOP(
        "words", "All days: drag the window, or its ends; turn the wheel to zoom, double-click to see everything"
    ),
    "all days": QT_TRANSLATE_NOOP("words", "all days"),
    "in sight": QT_TRANSLATE_NOOP("words", "in sight: {first} to {last}"),
    "move to cook": QT_TRANSLATE_NOOP("words", "Give it to"),
    "way": QT_TRANSLATE_NOOP("words", "Way to do it"),
    "length": QT_TRANSLATE_NOOP("words", "Time allowed"),
    "order before": QT_TRANSLATE_NOOP("words", "Goes before"),
    "order after": QT_TRANSLATE_NOOP("words", "Goes after"),
    "hangs on": QT_TRANSLATE_NOOP("words", "What it hangs on"),
    "hang on it": QT_TRANSLATE_NOOP("words", "What hangs on it"),
    "choose all": QT_TRANSLATE_NOOP("words", "Choose it with all of them"),
    "manner LIKELY": QT_TRANSLATE_NOOP("words", "likely length"),
    "manner SAFE": QT_TRANSLATE_NOOP("words", "with time to spare where it can wait"),
    "manner HIGH": QT_TRANSLATE_NOOP("words", "slow length"),
}
_KINDS = {
    StationKind.OVEN: QT_TRANSLATE_NOOP("words", "oven"),
    StationKind.GRILL: QT_TRANSLATE_NOOP("words", "grill"),
    StationKind.BURNER: QT_TRANSLATE_NOOP("words", "burner"),
    StationKind.SMOKER: QT_TRANSLATE_NOOP("words", "smoker"),
    StationKind.FRIDGE: QT_TRANSLATE_NOOP("words", "fridge"),
    StationKind.FREEZER: QT_TRANSLATE_NOOP("words", "freezer"),
    StationKind.COLD_COUNTER: QT_TRANSLATE_NOOP("words", "cold counter"),
    StationKind.WARM_DRAWER: QT_TRANSLATE_NOOP("words", "warm drawer"),
    StationKind.HOT_BOX: QT_TRANSLATE_NOOP("words", "hot box"),
    StationKind.ROOM: QT_TRANSLATE_NOOP("words", "room"),
    StationKind.MACHINE: QT_TRANSLATE_NOOP("words", "machine"),
}
KIND_ICON = {
    StationKind.OVEN: "oven",
    StationKind.GRILL: "grill",
    StationKind.BURNER: "burner",
    StationKind.SMOKER: "grill",
    StationKind.FRIDGE: "fridge",
    StationKind.FREEZER: "cold",
    StationKind.COLD_COUNTER: "cold",
    StationKind.WARM_DRAWER: "drawer",
    StationKind.HOT_BOX: "drawer",
    StationKind.ROOM: "room",
    StationKind.MACHINE: "machine",
}


def word(name: str) -> str:
    """Return a shared word or label in the cook's language."""
    return QCoreApplication.translate(_CONTEXT, str(_SAID[name]))


def kind_word(kind: StationKind) -> str:
    """Return the name of a kind of station in the cook's language."""
    return QCoreApplication.translate(_CONTEXT, str(_KINDS[kind]))


def clock_text(moment: datetime) -> str:
    """Return a time of day as the cook's locale writes it, 12 or 24 hours."""
    return QLocale().toString(QTime(moment.hour, moment.minute), QLocale.FormatType.ShortFormat)


def day_text(moment: datetime, long: bool = False) -> str:
    """Return a date with its weekday as the cook's locale names them: 'Sat 26 Sep' or, `long`, the full names."""
    return QLocale().toString(QDate(moment.year, moment.month, moment.day), "dddd d MMMM" if long else "ddd d MMM")


def figure(number: int) -> str:
    """Return a whole number as the cook's locale groups its digits."""
    return QLocale().toString(number)
