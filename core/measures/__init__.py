"""Minutes, temperatures, quantities and clock times: read as typed, kept exact, shown for a cook.

Importing this loads no units; the registry is made when the first quantity in a rarer unit is converted.
"""

from core.measures.clock import (
    Moment,
    Now,
    at_clock,
    days_before,
    offset_at,
    offset_of,
    parse_clock,
    parse_moment,
    show_clock,
    show_dminus,
    system_now,
    wall,
    zone_named,
)
from core.measures.heat import (
    celsius_of,
    fahrenheit_of,
    parse_heat,
    parse_heat_range,
    show_heat,
    show_heat_range,
)
from core.measures.minutes import (
    parse_minutes,
    parse_span,
    parse_tminus,
    show_minutes,
    show_span,
    show_tminus,
)
from core.measures.quantity import TO_TASTE, Quantity, add, convert, parse_quantity
from core.measures.quantity_show import show_quantity
from core.measures.refusal import Refusal, quoted
from core.measures.words import counted, join_words, plural, plural_of

__all__ = [
    "TO_TASTE",
    "Moment",
    "Now",
    "Quantity",
    "Refusal",
    "add",
    "at_clock",
    "celsius_of",
    "convert",
    "counted",
    "days_before",
    "fahrenheit_of",
    "join_words",
    "offset_at",
    "offset_of",
    "parse_clock",
    "parse_heat",
    "parse_heat_range",
    "parse_minutes",
    "parse_moment",
    "parse_quantity",
    "parse_span",
    "parse_tminus",
    "plural",
    "plural_of",
    "quoted",
    "show_clock",
    "show_dminus",
    "show_heat",
    "show_heat_range",
    "show_minutes",
    "show_quantity",
    "show_span",
    "show_tminus",
    "system_now",
    "wall",
    "zone_named",
]
