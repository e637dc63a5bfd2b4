"""What a thermometer shows, as typed: "4 C", "40 F", "-18". A bare number that may be either scale is refused."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.fields import Typed
from core.measures.heat import parse_heat, show_heat
from core.measures.number import tidy
from core.measures.refusal import Refusal, quoted


def read_warmth(text: str, bare_most: int) -> int | None:
    """Return whole °C, None for an empty line; a bare number above `bare_most` is not taken for Celsius."""
    plain = tidy(text).casefold().replace("−", "-")
    if not plain:
        return None
    celsius = parse_heat(plain)
    if not plain[-1].isalpha() and celsius > bare_most:
        words = QCoreApplication.translate("KitchenWarmth", "{text}: write {text_c} or {text_f}, whichever is meant.")
        number = plain.rstrip("°º ")
        raise Refusal(words.format(text=quoted(text), text_c=f"{number} C", text_f=f"{number} F"))
    return celsius


def show_warmth(celsius: int | None) -> str:
    """Return whole °C as typed, "" for none."""
    return "" if celsius is None else show_heat(celsius)


COLD_PLACE = Typed(lambda text: read_warmth(text, 15), show_warmth)
ROOM = Typed(lambda text: read_warmth(text, 45), show_warmth)
