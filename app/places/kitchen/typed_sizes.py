"""What is measured at a station, as typed: its inside "46x38 cm", its dial "runs 10 C hot"."""

from __future__ import annotations

import re

from app.fields import Typed
from core.measures.refusal import Refusal, quoted

_CM_PER = {"": 1.0, "cm": 1.0, "mm": 0.1, "m": 100.0, "in": 2.54, '"': 2.54, "inch": 2.54, "inches": 2.54}
_SIZE = re.compile(r'([\d.,]+) ?(?:x|×|by) ?([\d.,]+) ?(cm|mm|m|in|inch|inches|")?')
_OFF = re.compile(
    r"(?:(?:runs|is|about) )*([+-]?[\d.,]+) ?(?:°|degrees?|deg)? ?(c|f)?(?: degrees?)?(?: too)?"
    r" ?(hot|cold|hotter|cooler|colder)?"
)
_NONE = ("", "true", "right", "none", "exact", "0")


def read_inside(text: str) -> tuple[int, int]:
    """Return (wide, deep) in whole cm, rounded down so that what fits does fit; (0, 0) for an empty line."""
    plain = " ".join(text.casefold().split())
    if not plain:
        return 0, 0
    met = _SIZE.fullmatch(plain)
    if met is None:
        raise Refusal(f"{quoted(text)} is no width and depth; write them as 46x38 cm, or leave it empty.")
    per = _CM_PER[met[3] or ""]
    wide, deep = (int(_number(each, text) * per + 1e-6) for each in met.group(1, 2))
    if not wide or not deep:
        raise Refusal(f"{quoted(text)} is less than a centimetre; write width and depth such as 46x38 cm.")
    return wide, deep


def show_inside(size: tuple[int, int]) -> str:
    """Return an inside as typed."""
    return f"{size[0]}x{size[1]} cm" if size[0] and size[1] else ""


def read_offset(text: str) -> int:
    """Return by how many whole °C a heater is hotter than its dial says, negative for colder; 0 for an empty line."""
    plain = " ".join(text.casefold().replace("−", "-").split())
    if plain in _NONE:
        return 0
    met = _OFF.fullmatch(plain)
    if met is None:
        raise Refusal(f"{quoted(text)} is no difference of a dial; write one such as 10 C hot, or 15 C cold.")
    number = _number(met[1].lstrip("+-"), text)
    degrees = round(number * 5 / 9) if met[2] == "f" else round(number)
    signed = met[1][0] in "+-"
    if not signed and not met[3]:
        raise Refusal(f"{quoted(text)} does not say which way; write {degrees} C hot, or {degrees} C cold.")
    if signed and met[3]:
        raise Refusal(f"{quoted(text)} says it twice; write {degrees} C {met[3]} without a sign.")
    colder = met[1][0] == "-" or met[3] in ("cold", "colder", "cooler")
    return -degrees if colder else degrees


def show_offset(offset: int) -> str:
    """Return a difference as typed."""
    return f"{abs(offset)} °C {'hot' if offset > 0 else 'cold'}" if offset else ""


def _number(digits: str, text: str) -> float:
    try:
        return float(digits.replace(",", "."))
    except ValueError:
        raise Refusal(f"{quoted(text)} cannot be read as a number; write one such as 46 or 38.5.") from None


INSIDE = Typed(read_inside, show_inside)
OFFSET = Typed(read_offset, show_offset)
