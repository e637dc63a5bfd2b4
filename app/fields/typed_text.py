"""Names, lists of words, counts and quantities as typed, and what is shown of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, TypeVar

from app.fields.spec import Typed
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal, quoted

Value = TypeVar("Value")
_PER_KG = " per kg of "
_PIECES = re.compile(r"\s+in\s+(?P<count>[0-9]{1,4})\s+(?:whole\s+)?pieces?\s*(?=,|$)")


def read_name(text: str) -> str:
    """Return a name on one line; refuse an empty one."""
    name = " ".join(text.split())
    if not name:
        raise Refusal("This is empty; write a name.")
    return name


def read_words(text: str) -> str:
    """Return words on one line, perhaps none."""
    return " ".join(text.split())


def read_list(text: str) -> tuple[str, ...]:
    """Return what stands between commas."""
    return tuple(each for part in text.split(",") if (each := " ".join(part.split())))


def show_list(words: tuple[str, ...]) -> str:
    """Return words with commas between them."""
    return ", ".join(words)


def read_count(text: str) -> int:
    """Return a whole number."""
    plain = text.strip()
    if not plain.isdecimal():
        raise Refusal(f"{quoted(text)} is not a whole number; write one such as 4.")
    return int(plain)


def optional(read: Callable[[str], Value]) -> Callable[[str], Value | None]:
    """Return a reader that takes an empty line for nothing."""
    return lambda text: read(text) if text.strip() else None


def if_any(show: Callable[[Any], str]) -> Callable[[Any], str]:
    """Return what shows nothing as an empty line."""
    return lambda value: "" if value is None else show(value)


def read_amount(text: str) -> tuple[Quantity | None, str]:
    """Return a quantity, None for to taste, and the ingredient by whose kilogram it counts ("" for none)."""
    from core.measures.quantity import parse_quantity

    amount, per_kg, of = text.partition(_PER_KG)
    if not amount.strip():
        return None, ""
    quantity = parse_quantity(amount)
    return (None if quantity.to_taste else quantity), of.strip() if per_kg else ""


def show_amount(amount: tuple[Quantity | None, str]) -> str:
    """Return a quantity as typed."""
    quantity, of = amount
    return ("to taste" if quantity is None else quantity.as_text()) + (f"{_PER_KG}{of}" if of else "")


def without_pieces(text: str) -> tuple[str, int]:
    """Return a text without the first "in 2 pieces" that ends it or stands before a comma, and that count (0: none)."""
    met = _PIECES.search(text)
    if met is None:
        return text, 0
    if int(met["count"]) == 0:
        raise Refusal(f"{quoted(text)} is in no piece; write in 1 piece or more, or leave it out.")
    return text[: met.start()] + text[met.end() :], int(met["count"])


def read_amount_in_pieces(text: str) -> tuple[Quantity | None, str, int]:
    """Return a quantity as read_amount does, and of how many pieces it is that are cooked whole (0: not told)."""
    plain, pieces = without_pieces(text)
    quantity, of = read_amount(plain)
    if pieces and quantity is None:
        raise Refusal(f"{quoted(text)} says no amount; write the weight of all pieces, as 2.4 kg in 2 pieces.")
    return quantity, of, pieces


def show_amount_in_pieces(amount: tuple[Quantity | None, str, int]) -> str:
    """Return a quantity as typed, with its pieces."""
    quantity, of, pieces = amount
    whole = f" in {pieces} piece{'' if pieces == 1 else 's'}" if pieces else ""
    return show_amount((quantity, of)) + whole


NAME = Typed(read_name, str)
WORDS = Typed(read_words, str)
SENTENCE = Typed(read_name, str, wraps=True)
PHRASE = Typed(read_words, str, wraps=True)
LIST = Typed(read_list, show_list, wraps=True)
COUNT = Typed(read_count, str)
AMOUNT = Typed(read_amount, show_amount, wraps=True)
AMOUNT_IN_PIECES = Typed(read_amount_in_pieces, show_amount_in_pieces, wraps=True)
