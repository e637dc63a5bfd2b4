"""Per cent as makers and cooks write them: "6.25%", "6.25" and "0.0625" are one share; hundredfold slips are refused.

A handbook's "%" has to be entered as a fraction, and that is where doses go wrong by a hundred (FSIS Directive
7620.3). Each kind of share has a range it is met in; what is met only a hundred times up or down is refused.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from core.measures.number import NUMBER, number_value, show_decimal, tidy
from core.measures.refusal import Refusal, quoted

_SHARE = re.compile(rf"(?P<number>{NUMBER}) ?(?P<sign>%|per ?cent|pct)?")


@dataclass(frozen=True, slots=True)
class Kind:
    """What a share is of, and between which shares (0 to 1) it is met; `pure`: the whole of it may be meant, too."""

    name: str
    least: Fraction
    most: Fraction
    such_as: str
    pure: bool = False

    def met(self, share: Fraction) -> bool:
        """Tell whether it is met so."""
        return self.least <= share <= self.most


NITRITE = Kind("The nitrite in the cure", Fraction("0.003"), Fraction("0.15"), "6.25%", pure=True)
"""Mixes sold hold 0.4 to 10 % (common practice, from memory); 100 % is the pure salt."""
NITRATE = Kind("The nitrate in the cure", Fraction("0.003"), Fraction("0.15"), "4%", pure=True)
PUMP = Kind("The pump or pick-up", Fraction("0.02"), Fraction("0.6"), "10%")
"""What the meat takes up, of its green weight: common practice."""
SALT = Kind("The salt", Fraction("0.003"), Fraction("0.26"), "2%")
"""26.4 % by weight is saturated brine, from memory."""


def parse_share(text: str, kind: Kind) -> Fraction:
    """Return a share from 0 to 1, exact, from "6.25%", "6.25" or "0.0625".

    With a per cent sign it is what it says. Without, a number above 1 is per cent and one below 1 a fraction. Raise
    Refusal where that gives what is never met, and says which hundredfold was perhaps meant.
    """
    found = _SHARE.fullmatch(tidy(text).casefold())
    if found is None:
        raise Refusal(f"{kind.name}: {quoted(text)} is no per cent; write it as {kind.such_as}.")
    number = number_value(found["number"])
    if found["sign"]:
        return _met(text, number / 100, kind)
    if number == 0:
        raise Refusal(f"{kind.name}: write more than 0, such as {kind.such_as}.")
    if number == 1 or (kind.pure and number == 100):
        raise Refusal(f"{kind.name}: {quoted(text)} may be 1% or 100%; write it with its per cent sign.")
    return _met(text, number / 100 if number > 1 else number, kind)


def checked_share(share: Fraction, kind: Kind) -> Fraction:
    """Return a share as it is; refuse one that is never met: 10 for 10 % is one a hundred times too large."""
    return _met(f"{said_percent(share)}", share, kind)


def said_percent(share: Fraction) -> str:
    """Return "6.25%"."""
    return f"{show_decimal(share * 100, 4)}%"


def _met(text: str, share: Fraction, kind: Kind) -> Fraction:
    if kind.met(share) or (kind.pure and share == 1):
        return share
    percent = said_percent(share)
    would = "" if text == percent else f" would be {percent}"
    usual = f"it is met from {said_percent(kind.least)} to {said_percent(kind.most)}"
    meant = [each for each in (share * 100, share / 100) if kind.met(each)]
    if meant:
        raise Refusal(
            f"{kind.name}: {quoted(text)}{f'{would},' if would else ' is'} a hundredfold slip; {usual}."
            f" If you mean {said_percent(meant[0])}, write that with its sign."
        )
    pure = " 100% stands for the pure salt." if kind.pure else ""
    raise Refusal(f"{kind.name}: {quoted(text)}{would}; {usual}. Read the maker's label again.{pure}")
