"""What a step yields besides, for other dishes, as typed, and back."""

from __future__ import annotations

from typing import Any, ClassVar

from pydantic import model_validator

from core.intake.text.entry import Entry
from core.intake.text.places import Typed
from core.intake.text.scalars import QuantityText, quantity_out
from core.measures.refusal import Refusal, quoted
from core.plan.step import Yield


class YieldText(Entry):
    """A by-product that other dishes use."""

    short: ClassVar[str] = 'what, a colon, how much for the servings written: "buttermilk: 450 ml"'

    item: str
    """What it is."""
    quantity: QuantityText
    """How much of it, for the servings that the dish is written for."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line; a comma does as well as a colon."""
        item, sign, quantity = text.rpartition(":" if ":" in text else ",")
        if not sign or not item.strip() or not quantity.strip():
            raise Refusal(f'{quoted(text)}: write what it yields and how much as "buttermilk: 450 ml".')
        return {"item": item.strip(), "quantity": quantity.strip()}

    @model_validator(mode="after")
    def _has_amount(self) -> YieldText:
        if self.quantity is None:
            raise Refusal(f'How much {self.item} comes to cannot be "to taste"; write an amount such as 450 ml.')
        return self

    def made(self) -> Yield:
        """Return what is yielded."""
        assert self.quantity is not None  # seen to above
        return Yield(self.item, self.quantity)


def yield_out(made: Yield) -> Any:
    """Return what is yielded as typed."""
    text = f"{made.item}: {made.quantity.as_text()}"
    try:
        if YieldText.model_validate(text).made() == made:
            return text
    except ValueError:
        pass
    return {"item": made.item, "quantity": quantity_out(made.quantity)}
