"""What the house knows of an item, as typed, and back."""

from __future__ import annotations

import re
from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, WithJsonSchema

from core.intake.text.entry import Entry
from core.intake.text.places import Typed
from core.intake.text.scalars import QuantityText, ShareText, is_whole, quantity_out, share_out, wrong
from core.measures.refusal import Refusal, quoted
from core.plan.menu import Stock

_DAYS = re.compile(r"(\d{1,6})(?: ?d(?:ays?)?)?", re.IGNORECASE)


def days_in(value: object) -> int:
    """Return days from 3 or "3 days"."""
    if is_whole(value):
        return int(str(value))
    met = _DAYS.fullmatch(value.strip()) if isinstance(value, str) else None
    if met is None:
        raise wrong(value, 'a number of days; write 3 or "3 days"')
    return int(met[1])


DaysText = Annotated[
    int,
    BeforeValidator(days_in),
    WithJsonSchema({"type": ["integer", "string"], "description": 'days: 3, "3 days"'}),
]


class StockText(Entry):
    """What the house knows of an item: how much is there, and how the shop sells it."""

    short: ClassVar[str] = 'what is in the house, a colon, how much: "plain flour: 700 g"'

    item: str
    """What it is."""
    in_store: QuantityText = None
    """How much is in the house."""
    pack: QuantityText = None
    """What one pack of the shop's holds."""
    sold_as: str = Stock("").sold_as
    """What a pack is called: bag, bottle, bunch."""
    usable: ShareText = Stock("").usable
    """Share that is left after trimming and peeling: "85 %"."""
    aisle: str = ""
    """Where the shop has it."""
    keeps: DaysText | None = None
    """Days it stays fresh once bought; left out: long."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        item, colon, quantity = text.rpartition(":")
        if not colon or not item.strip() or not quantity.strip():
            raise Refusal(f'{quoted(text)}: write what is in the house as "plain flour: 700 g".')
        return {"item": item.strip(), "in_store": quantity.strip()}

    def stock(self) -> Stock:
        """Return what is known of the item."""
        return Stock(
            self.item, self.in_store, self.pack, self.sold_as, self.usable, self.aisle, self.keeps
        )


def stock_out(stock: Stock) -> Any:
    """Return what is known of an item as typed: one line where it is only how much there is."""
    if stock.in_store is not None:
        text = f"{stock.item}: {stock.in_store.as_text()}"
        try:
            if StockText.model_validate(text).stock() == stock:
                return text
        except ValueError:
            pass
    found: Typed = {"item": stock.item}
    for key, quantity in (("in_store", stock.in_store), ("pack", stock.pack)):
        if quantity is not None:
            found[key] = quantity_out(quantity)
    if stock.sold_as != Stock("").sold_as:
        found["sold_as"] = stock.sold_as
    if stock.usable != 1:
        found["usable"] = share_out(stock.usable)
    if stock.aisle:
        found["aisle"] = stock.aisle
    if stock.keeps is not None:
        found["keeps"] = "1 day" if stock.keeps == 1 else f"{stock.keeps} days"
    return found
