"""What stands beside an ingredient as it is written: how much of it to take, and the amount in proportion."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from core.food.measured import measured, show_measured
from core.food.pans import Pan
from core.food.scaling import Scaled
from core.measures.number import show_decimal
from core.measures.quantity import Quantity
from core.measures.unit_names import worded

_LARGE = 20


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("Scaling", words)


def in_figures(quantity: Quantity) -> str:
    """Return an amount to three decimals, from 20 on to one: "2.417 kg", "1.5", "654.5 g"."""
    places = 3 if quantity.amount < _LARGE else 1
    return f"{show_decimal(quantity.amount, places)} {worded(quantity.unit, quantity.amount)}".rstrip()


def made_words(each: Scaled) -> tuple[str, str]:
    """Return what to take of an ingredient, rounded to what is measured, and what it is in proportion or why else.

    Both are "" for what is added to taste, the second also where nothing is rounded.
    """
    if each.exact.to_taste:
        return "", ""
    exact = in_figures(each.exact)
    if each.start is not None:
        low, high = (show_measured(measured(part, each.item), each.item) for part in each.start)
        less = tr("begin with {low}").format(low=low)
        return less, tr("up to {high}, and taste; {exact} in proportion").format(high=high, exact=exact)
    taken = measured(each.exact, each.item, each.grows)
    words = tr("take {amount}").format(amount=show_measured(taken, each.item))
    if each.unsure:
        return words, tr("above three times ask the baker's own table")
    same = taken.unit == each.exact.unit and in_figures(taken) == exact
    return words, "" if same else tr("{exact} in proportion").format(exact=exact)


def pan_words(pan: Pan) -> str:
    """Return what is understood of a tin: its sides, its area, and what it holds where its depth is told."""
    from core.food.pans import said_pan

    sides = "" if not pan.name else f"{show_decimal(pan.sides[0], 1)}x{show_decimal(pan.sides[1], 1)} cm, "
    area = f"{show_decimal(pan.area, 0)} cm²"
    holds = "" if pan.holds is None else tr(", {litres} l to the brim").format(litres=show_decimal(pan.holds / 1000, 1))
    return f"{said_pan(pan)}: {sides}{area}{holds}"
