"""Numbers as cooks type and read them: 1 1/2, ½, 2.5, 2,5 and 1,000. All exact."""

import math
import re
import unicodedata
from fractions import Fraction

from core.measures.refusal import Refusal, quoted

LONGEST = 1000
"""Characters in the longest text that is looked at."""

_VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
_SIGN_OF = {Fraction(unicodedata.normalize("NFKC", sign).replace("⁄", "/")): sign for sign in _VULGAR}
_SPELT = {ord(sign): f" {part.numerator}/{part.denominator} " for part, sign in _SIGN_OF.items()}
_EVENED = str.maketrans({**dict.fromkeys("‐‑‒–—−", "-"), "⁄": "/", "×": "x", "’": "'", "′": "'"})
# A space that may not break is how printers group thousands; an ordinary one may stand between two numbers.
_GROUP_SPACE = re.compile(r"(?<=[0-9])[\u00a0\u2009\u202f](?=[0-9]{3}(?![0-9/⁄]))")

NUMBER = (
    r"(?:[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+"
    r"|[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?(?![0-9,])"
    r"|[0-9]+[.,][0-9]+|[.,][0-9]+|[0-9]+)"
)
"""Pattern of one unsigned number in tidy text."""

_WHOLE_NUMBER = re.compile(NUMBER)
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?")


def tidy(text: str) -> str:
    """Return text with plain dashes, slashes, fractions and single spaces; refuse what is far too long."""
    if len(text) > LONGEST:
        raise Refusal(f"{quoted(text)} is longer than {LONGEST} characters; write a shorter one.")
    text = _GROUP_SPACE.sub("", text)
    return " ".join(text.translate(_SPELT).translate(_EVENED).split())


def number_value(token: str) -> Fraction:
    """Return the exact value of a token that matches NUMBER; refuse a division by 0.

    A comma before exactly three digits groups thousands, unless a 0 leads; any other comma is decimal.
    """
    if _GROUPED.fullmatch(token):
        return Fraction(token.replace(",", ""))
    if "/" in token:
        whole, _, part = token.rpartition(" ")
        over, under = part.split("/")
        if int(under) == 0:
            raise Refusal(f"{quoted(token)}: nothing can be divided by 0.")
        return int(whole or "0") + Fraction(int(over), int(under))
    return Fraction("0" + token.replace(",", "."))


def read_number(text: str) -> Fraction | None:
    """Return the exact value of a text that is one unsigned number, else None."""
    text = tidy(text)
    return number_value(text) if _WHOLE_NUMBER.fullmatch(text) else None


def round_half_up(value: Fraction | int, step: Fraction | int = 1) -> Fraction:
    """Return the multiple of step nearest to value; a tie goes up."""
    step = Fraction(step)
    return math.floor(value / step + Fraction(1, 2)) * step


def show_decimal(value: Fraction, places: int = 3) -> str:
    """Return value with at most so many decimals, no idle zeros and no grouping: "2.5", "1000"."""
    scaled = int(round_half_up(abs(value) * 10**places))
    whole, part = divmod(scaled, 10**places)
    digits = str(part).zfill(places).rstrip("0") if places else ""
    sign = "-" if value < 0 and scaled else ""
    return f"{sign}{whole}.{digits}" if digits else f"{sign}{whole}"


def show_fraction(value: Fraction) -> str:
    """Return a value of 0 or more exactly, as cooks print it: "3", "½", "1½", "2 5/7"."""
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    if part in _SIGN_OF:
        return f"{whole or ''}{_SIGN_OF[part]}"
    return f"{whole} {part}" if whole else str(part)


def exact_text(value: Fraction) -> str:
    """Return value exactly in plain characters: a short decimal, else "1 1/3"."""
    if Fraction(short := show_decimal(value)) == value:
        return short
    whole, part = divmod(abs(value), 1)
    return f"{'-' if value < 0 else ''}{f'{whole} ' if whole else ''}{part}"
