"""How what the house knows of an item is typed, and the words of the lists."""

from __future__ import annotations

import re
from fractions import Fraction

from PySide6.QtCore import QCoreApplication

from app.fields import Typed
from app.fields.typed_text import WORDS
from core.measures.number import read_number, show_decimal
from core.measures.quantity import Quantity, parse_quantity
from core.measures.refusal import Refusal, quoted
from core.measures.words import plural

_NAMED = re.compile(r"(?:an?\s+)?(?P<name>[^\W\d][\w -]{0,30}?)\s+of\s+(?P<amount>.+)", re.IGNORECASE)
_DAYS = re.compile(r"(?P<days>[0-9]{1,4})\s*(?:days?|d)?", re.IGNORECASE)
PACK = "pack"


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("Lists", words)


def _read_store(text: str) -> Quantity | None:
    if not text.strip():
        return None
    amount = parse_quantity(text)
    if amount.to_taste:
        raise Refusal(tr("This says no amount; write how much is there, such as 1.2 kg, or tick it as on hand."))
    return amount


def _show_some(amount: Quantity | None) -> str:
    return "" if amount is None else amount.as_text()


def _read_pack(text: str) -> tuple[Quantity | None, str]:
    if not text.strip():
        return None, PACK
    met = _NAMED.fullmatch(" ".join(text.split()))
    amount = parse_quantity(text if met is None else met["amount"])
    if amount.to_taste or not amount.amount:
        raise Refusal(tr("This says no amount; write what one pack holds, such as 500 g or pot of 300 ml."))
    return amount, PACK if met is None else met["name"].strip()


def _show_pack(pack: tuple[Quantity | None, str]) -> str:
    amount, name = pack
    if amount is None:
        return ""
    return amount.as_text() if name == PACK else f"{name} of {amount.as_text()}"


def _read_keeps(text: str) -> int | None:
    if not text.strip():
        return None
    met = _DAYS.fullmatch(text.strip())
    if met is None:
        raise Refusal(f"{quoted(text)} is not a number of days; write one such as 3.")
    return int(met["days"])


def said_keeps(days: int | None) -> str:
    """Return for how long something keeps."""
    return tr("long") if days is None else plural(days, "day")


def _read_usable(text: str) -> Fraction:
    plain = text.strip()
    number = read_number(plain.removesuffix("%").strip())
    if number is None:
        raise Refusal(f"{quoted(text)} is no share; write what is left after trimming, such as 85 %.")
    share = number / 100 if plain.endswith("%") or number > 1 else number
    if not 0 < share <= 1:
        raise Refusal(f"{quoted(text)}: write more than 0 and at most 100 %.")
    return share


def _show_usable(share: Fraction) -> str:
    return f"{show_decimal(share * 100, 1)} %"


STORE = Typed(_read_store, _show_some)
PACKS = Typed(_read_pack, _show_pack)
KEEPS = Typed(_read_keeps, lambda days: "" if days is None else plural(days, "day"))
USABLE = Typed(_read_usable, _show_usable)
AISLE = WORDS
