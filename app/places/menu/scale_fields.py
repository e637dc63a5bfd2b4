"""The fields that say how much of a dish is made: by servings, by one ingredient, by the tin."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from app.fields import Picked, Spec, Typed
from app.fields.typed_text import COUNT
from app.places.menu.scale_words import pan_words, tr
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal


def read_some(text: str) -> Quantity:
    """Return an amount; refuse none and to taste."""
    from core.measures.quantity import parse_quantity

    quantity = parse_quantity(text)
    if quantity.to_taste:
        raise Refusal(tr("This is to taste; write how much of it there is to be, such as 2.4 kg."))
    return quantity


def show_some(quantity: Quantity | None) -> str:
    """Return an amount to three decimals, nothing as an empty line."""
    from app.places.menu.scale_words import in_figures

    return "" if quantity is None else in_figures(quantity)


def read_pan(text: str) -> str:
    """Return the text of a tin, once it is understood; "" for none."""
    from core.food.pans import parse_pan

    said = " ".join(text.split())
    if said:
        parse_pan(said)
    return said


def understood(text: str) -> str:
    """Return what is understood of a tin's text."""
    from core.food.pans import parse_pan

    try:
        return pan_words(parse_pan(text)) if text.strip() else ""
    except Refusal as refusal:
        return str(refusal)


def usual_pans() -> list[str]:
    """Return tins to choose from: those of a home, then gastronorm."""
    from core.food.pans import Pan, said_pan
    from core.food.tins import USUAL

    return [*(said_pan(Pan(each)) for each in USUAL), "GN 1/1-65", "GN 1/2-65", "GN 1/3-65", "GN 2/3-65"]


def scale_specs(
    items: Callable[[], Sequence[tuple[str, str]]],
    servings: Callable[[int], str],
    written: Callable[[Quantity | None], str],
) -> list[Spec]:
    """Return the fields; `items` to choose from, hints on the servings and on what the recipe takes of the item."""
    pan = Typed(read_pan, str, usual_pans)
    such = tr("Such as: round 26 cm; 35x25x6 cm; 9x13 in; GN 1/2-65; 2 of round 20 cm")
    return [
        Spec("wanted", tr("For so many servings"), COUNT, hint=servings),
        Spec("item", tr("Or as far as this goes"), Picked(items), tr("The ingredient that all else follows")),
        Spec("amount", tr("of which there is"), Typed(read_some, show_some), hint=written),
        Spec("pan", tr("The recipe's tin"), pan, such, tr("not told"), hint=understood),
        Spec("pan_wanted", tr("Or to fill this tin as deep"), pan, such, tr("the same"), hint=understood),
    ]
