"""Shelves and heating of a station as typed: "2000 cm2, 26 cm: lowest", "50 to 250 C", "200 C in 18 min"."""

from __future__ import annotations

from typing import Any

from app.fields.short_form import each_read, each_shown, read_short
from app.fields.spec import Typed
from core.measures.refusal import Refusal, quoted
from core.plan.kitchen import Shelf


def _read_shelf(text: str) -> Shelf:
    from core.intake.text.kitchen import ShelfText

    read = read_short(ShelfText, text)
    return Shelf(read.area, read.height, read.name)


def _show_shelf(shelf: Shelf) -> Any:
    from core.intake.text.kitchen import shelf_out

    return shelf_out(shelf)


def _read_settings(text: str) -> tuple[int, int]:
    from core.intake.text.kitchen import settings_in

    return settings_in(text)


def _show_settings(settings: tuple[int, int]) -> str:
    return f"{settings[0]} to {settings[1]} °C"


def _read_point(text: str) -> tuple[int, int]:
    from core.intake.text.kitchen import point_in

    return point_in(text)


def _show_point(point: tuple[int, int]) -> str:
    from core.measures.minutes import show_minutes

    return f"{point[0]} °C in {show_minutes(point[1])}"


def read_rate(text: str) -> float:
    """Return degrees C a minute."""
    plain = text.replace("°C", "").replace(",", ".").strip()
    try:
        return float(plain)
    except ValueError:
        raise Refusal(f"{quoted(text)} is not a number of degrees a minute; write one such as 5.") from None


def show_rate(rate: float) -> str:
    """Return degrees C a minute as typed."""
    return f"{rate:g}"


SHELVES = Typed(each_read(_read_shelf), each_shown(_show_shelf), joins="; ", wraps=True)
SETTINGS = Typed(_read_settings, _show_settings)
POINTS = Typed(each_read(_read_point), each_shown(_show_point), joins="; ", wraps=True)
RATE = Typed(read_rate, show_rate)
