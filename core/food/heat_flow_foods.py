"""What heat meets in foods and what brings it there: numbers with their sources. Real pieces stray by a tenth or more.

Conductivity W/(m K), density kg/m3, specific heat J/(kg K); heat transfer coefficients in W/(m2 K), radiation in them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from core.food.heat_flow import Around, Thermal

_HANDBOOK = "order of the ASHRAE Refrigeration Handbook's tables of foods above freezing, from memory"

FOODS = {
    "beef": Thermal(0.48, 1060, 3450, _HANDBOOK),
    "veal": Thermal(0.48, 1060, 3500, _HANDBOOK),
    "lamb": Thermal(0.46, 1050, 3300, _HANDBOOK),
    "pork": Thermal(0.46, 1050, 3350, _HANDBOOK),
    "ham": Thermal(0.46, 1050, 3350, _HANDBOOK),
    "turkey": Thermal(0.49, 1050, 3500, _HANDBOOK),
    "chicken": Thermal(0.49, 1050, 3500, _HANDBOOK),
    "duck": Thermal(0.45, 1040, 3200, _HANDBOOK),
    "goose": Thermal(0.45, 1040, 3200, _HANDBOOK),
    "fish": Thermal(0.50, 1050, 3650, _HANDBOOK),
    "potato": Thermal(0.55, 1080, 3640, _HANDBOOK),
}
"""By the word of a cut's name that says what it is."""

ANY_MEAT = Thermal(0.48, 1050, 3450, _HANDBOOK)
"""For a cut whose name says none of those words."""

ROAST_EXAMPLE = Thermal(0.5, 1000, 4000, "heat-transfer textbook example: a roast taken for a sphere")
RIB_EXAMPLE = Thermal(0.45, 1200, 0.45 / 0.91e-7 / 1200, "Cengel, Heat Transfer: problem of the prime rib")
EGG_EXAMPLE = Thermal(
    0.627, 1000, 0.627 / 0.151e-6 / 1000, "Cengel, Heat Transfer: example of the boiled egg"
)
EGG_PROBLEM = Thermal(0.6, 1000, 0.6 / 0.14e-6 / 1000, "Cengel, Heat Transfer: problem of the egg of 5.5 cm")


@dataclass(frozen=True, slots=True)
class Film:
    """A heat transfer coefficient: least, likely and most W/(m2 K), and where it is from."""

    low: float
    likely: float
    high: float
    source: str


OVEN = Film(12, 18, 25, "18: heat-transfer textbook example of a roast; 12 and 25 from memory")
"""A still oven; the settings of the plan are those of one."""
BATH = Film(
    80, 95, 120, "95: Baldwin, A Practical Guide to Sous Vide Cooking, from memory; the others from memory"
)
BOILING = Film(1200, 1300, 1400, "Cengel, Heat Transfer: 1200 and 1400 in the egg's example and problem")
ROOM = Film(
    8, 20, 35, "still air with radiation: under foil 8, bare and moist 20 to 35 with its drying; from memory"
)
DRYING = Film(
    0.4, 2 / 3, 2 / 3, "chosen so that roasts keep to the public roasting charts: no handbook's value"
)
"""Heat that drying takes at the moist surface, as a share of the oven's film by which it cools towards `DEW`."""
DEW = 30.0
"""°C of air in which the surface dries as it does in the oven's: chosen with DRYING."""

_WORD = re.compile(r"[a-z]+")
_ALSO = {
    "hen": "chicken",
    "capon": "chicken",
    "salmon": "fish",
    "cod": "fish",
    "trout": "fish",
    "potatoes": "potato",
}


def stuff_of(cut: str) -> Thermal:
    """Return what a cut is made of by the words of its name; any meat where they say nothing."""
    for word in _WORD.findall(cut.casefold()):
        if (found := FOODS.get(_ALSO.get(word, word))) is not None:
            return found
    return ANY_MEAT


def roasting_at(setting: float, film: float = OVEN.likely, drying: float = DRYING.likely) -> Around:
    """Return an oven at a setting in °C as a moist piece feels it: cooler than it is, for drying takes heat."""
    return Around((setting + drying * DEW) / (1 + drying), film * (1 + drying))
