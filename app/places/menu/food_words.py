"""Words for what is known of foods: kinds, how they come, what a step does to them; lengths as typed."""

from __future__ import annotations

import re
from typing import Any

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

from app.fields import Typed
from core.measures.number import NUMBER, number_value, tidy
from core.measures.refusal import Refusal, quoted
from core.plan.food import Arrival, Container, Effect, FoodKind

_CONTEXT = "FoodWords"
_KINDS = {
    FoodKind.POULTRY: (QT_TRANSLATE_NOOP("FoodWords", "poultry, raw"), QT_TRANSLATE_NOOP("FoodWords", "poultry")),
    FoodKind.GROUND_POULTRY: (
        QT_TRANSLATE_NOOP("FoodWords", "ground poultry, raw"),
        QT_TRANSLATE_NOOP("FoodWords", "ground"),
    ),
    FoodKind.GROUND_MEAT: (
        QT_TRANSLATE_NOOP("FoodWords", "ground meat or raw sausage"),
        QT_TRANSLATE_NOOP("FoodWords", "ground"),
    ),
    FoodKind.CUBED_MEAT: (
        QT_TRANSLATE_NOOP("FoodWords", "meat in cubes, raw"),
        QT_TRANSLATE_NOOP("FoodWords", "cubes"),
    ),
    FoodKind.WHOLE_CUT: (
        QT_TRANSLATE_NOOP("FoodWords", "whole cut of meat, raw"),
        QT_TRANSLATE_NOOP("FoodWords", "meat"),
    ),
    FoodKind.FISH: (QT_TRANSLATE_NOOP("FoodWords", "fish, raw"), QT_TRANSLATE_NOOP("FoodWords", "fish")),
    FoodKind.SHELLFISH: (
        QT_TRANSLATE_NOOP("FoodWords", "shellfish, raw"),
        QT_TRANSLATE_NOOP("FoodWords", "shellfish"),
    ),
    FoodKind.EGGS: (QT_TRANSLATE_NOOP("FoodWords", "eggs, raw"), QT_TRANSLATE_NOOP("FoodWords", "eggs")),
    FoodKind.DAIRY: (
        QT_TRANSLATE_NOOP("FoodWords", "milk, cream, soft cheese"),
        QT_TRANSLATE_NOOP("FoodWords", "dairy"),
    ),
    FoodKind.READY: (
        QT_TRANSLATE_NOOP("FoodWords", "ready to eat, kept cold"),
        QT_TRANSLATE_NOOP("FoodWords", "ready"),
    ),
    FoodKind.CUT_PRODUCE: (
        QT_TRANSLATE_NOOP("FoodWords", "cut leaves, melon or tomatoes"),
        QT_TRANSLATE_NOOP("FoodWords", "cut"),
    ),
    FoodKind.PRODUCE: (
        QT_TRANSLATE_NOOP("FoodWords", "vegetables and fruit"),
        QT_TRANSLATE_NOOP("FoodWords", "produce"),
    ),
    FoodKind.GRAIN: (QT_TRANSLATE_NOOP("FoodWords", "rice, pasta, pulses"), QT_TRANSLATE_NOOP("FoodWords", "grain")),
    FoodKind.KEEPS: (QT_TRANSLATE_NOOP("FoodWords", "keeps without a fridge"), QT_TRANSLATE_NOOP("FoodWords", "keeps")),
}
_ARRIVALS = {
    Arrival.FRIDGE: QT_TRANSLATE_NOOP("FoodWords", "cold, from the fridge"),
    Arrival.FROZEN: QT_TRANSLATE_NOOP("FoodWords", "frozen"),
    Arrival.ROOM: QT_TRANSLATE_NOOP("FoodWords", "at room temperature"),
}
_EFFECTS = {
    Effect.PREPARE: QT_TRANSLATE_NOOP("FoodWords", "prepares it"),
    Effect.COOK: QT_TRANSLATE_NOOP("FoodWords", "cooks it"),
    Effect.REHEAT: QT_TRANSLATE_NOOP("FoodWords", "reheats it"),
    Effect.HOLD: QT_TRANSLATE_NOOP("FoodWords", "holds it hot"),
    Effect.COOL: QT_TRANSLATE_NOOP("FoodWords", "cools it"),
    Effect.COOL_IN_ICE: QT_TRANSLATE_NOOP("FoodWords", "cools it in ice water"),
    Effect.CHILL: QT_TRANSLATE_NOOP("FoodWords", "chills it"),
    Effect.FREEZE: QT_TRANSLATE_NOOP("FoodWords", "freezes it"),
    Effect.THAW: QT_TRANSLATE_NOOP("FoodWords", "thaws it"),
    Effect.THAW_IN_WATER: QT_TRANSLATE_NOOP("FoodWords", "thaws it in cold water"),
    Effect.MARINATE: QT_TRANSLATE_NOOP("FoodWords", "marinates or brines it"),
    Effect.CURE: QT_TRANSLATE_NOOP("FoodWords", "cures it"),
    Effect.FERMENT: QT_TRANSLATE_NOOP("FoodWords", "ferments it"),
    Effect.CLEAN: QT_TRANSLATE_NOOP("FoodWords", "washes hands, boards or tools"),
}
_CONTAINERS = {
    Container.TRAY: QT_TRANSLATE_NOOP("FoodWords", "a shallow tray, open"),
    Container.POT: QT_TRANSLATE_NOOP("FoodWords", "a pot, as deep as wide"),
}
_LENGTH = re.compile(rf"(?P<number>{NUMBER}) ?(?P<unit>mm|cm|inch(?:es)?|in|\")?")
_MM = {"mm": 1.0, "cm": 10.0}
_INCH = 25.4


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate(_CONTEXT, words)


def kind_said(kind: FoodKind) -> str:
    """Return the name of a kind of food."""
    return tr(str(_KINDS[kind][0]))


def kind_short(kind: FoodKind) -> str:
    """Return a kind in one word."""
    return tr(str(_KINDS[kind][1]))


def arrival_said(arrival: Arrival) -> str:
    """Return how a food comes."""
    return tr(str(_ARRIVALS[arrival]))


def effect_said(effect: Effect) -> str:
    """Return what a step does to its food."""
    return tr(str(_EFFECTS[effect]))


def kinds_offered() -> list[tuple[FoodKind | None, str]]:
    """Return the kinds to choose from."""
    return [(None, tr("not told")), *((kind, kind_said(kind)) for kind in FoodKind)]


def arrivals_offered() -> list[tuple[Arrival | None, str]]:
    """Return the ways to come to choose from."""
    return [(None, tr("not told")), *((each, arrival_said(each)) for each in Arrival)]


def containers_offered() -> list[tuple[Container | None, str]]:
    """Return the containers to choose from."""
    return [(None, tr("not told")), *((each, tr(str(_CONTAINERS[each]))) for each in Container)]


def read_mm(text: str) -> int:
    """Return whole mm of "35 mm", "3.5 cm", "1 1/2 in"; 0 for an empty line. A bare number is refused."""
    plain = tidy(text).casefold()
    if not plain:
        return 0
    met = _LENGTH.fullmatch(plain)
    if met is None:
        raise Refusal(tr("{text} is no length; write one such as 35 mm, 3.5 cm or 1 1/2 in.").format(text=quoted(text)))
    if met["unit"] is None:
        raise Refusal(tr("{text}: write mm, cm or in after it.").format(text=quoted(text)))
    found = round(float(number_value(met["number"])) * _MM.get(met["unit"], _INCH))
    if found < 1:
        thin = tr("{text} is less than a millimetre; write it thicker, or leave it empty.")
        raise Refusal(thin.format(text=quoted(text)))
    return found


def show_mm(millimetres: int | None) -> str:
    """Return a length as typed, "" for none."""
    return f"{millimetres} mm" if millimetres else ""


MM_IF_ANY: Any = Typed(read_mm, show_mm)
