"""The units a quantity may have: names, spellings, and what a cup means where. No registry is needed here."""

import difflib
from dataclasses import dataclass
from fractions import Fraction

from core.measures.refusal import Refusal, quoted
from core.measures.words import plural_of


@dataclass(frozen=True)
class Unit:
    """Hold a unit's name as shown, its kind, its name in the registry, its plural and other spellings."""

    name: str
    kind: str
    registered: str
    many: str = ""
    spellings: tuple[str, ...] = ()


_UNITS = (
    Unit("mg", "weight", "milligram", "mg", ("milligram", "milligrams")),
    Unit("g", "weight", "gram", "g", ("gr", "gm", "gms", "gram", "grams", "gramme", "grammes")),
    Unit("kg", "weight", "kilogram", "kg", ("kgs", "kilo", "kilos", "kilogram", "kilograms")),
    Unit("oz", "weight", "ounce", "oz", ("ozs", "ounce", "ounces")),
    Unit("lb", "weight", "pound", "lb", ("lbs", "pound", "pounds")),
    Unit("stick", "weight", "kitchen_stick", "sticks", ("sticks", "stick of butter", "sticks of butter")),
    Unit("label oz", "weight", "label_ounce", "label oz"),
    Unit(
        "ml", "volume", "milliliter", "ml", ("cc", "millilitre", "millilitres", "milliliter", "milliliters")
    ),
    Unit("cl", "volume", "centiliter", "cl", ("centilitre", "centilitres", "centiliter", "centiliters")),
    Unit("dl", "volume", "deciliter", "dl", ("decilitre", "decilitres", "deciliter", "deciliters")),
    Unit("l", "volume", "liter", "l", ("litre", "litres", "liter", "liters", "lt", "ltr")),
    Unit("tsp", "volume", "teaspoon", "tsp", ("tsps", "t", "teaspoon", "teaspoons", "teaspoonful")),
    Unit("tbsp", "volume", "tablespoon", "tbsp", ("tbsps", "tbs", "tb", "tbl", "tablespoon", "tablespoons")),
    Unit("fl oz", "volume", "fluid_ounce", "fl oz", ("floz", "fluid ounce", "fluid ounces")),
    Unit("cup", "volume", "cup", "cups", ("c", "cups", "cupful", "cupfuls")),
    Unit("pint", "volume", "pint", "pints", ("pt", "pts", "pints")),
    Unit("quart", "volume", "quart", "quarts", ("qt", "qts", "quarts")),
    Unit("gallon", "volume", "gallon", "gallons", ("gal", "gals", "gallons")),
    Unit("pinch", "volume", "kitchen_pinch", "pinches", ("pinches",)),
    Unit("dash", "volume", "kitchen_dash", "dashes", ("dashes",)),
    Unit("metric tsp", "volume", "metric_teaspoon", "metric tsp"),
    Unit("metric tbsp", "volume", "metric_tablespoon", "metric tbsp"),
    Unit("metric cup", "volume", "metric_cup", "metric cups", ("metric cups",)),
    Unit("AU tbsp", "volume", "australian_tablespoon", "AU tbsp"),
    Unit("UK fl oz", "volume", "imperial_fluid_ounce", "UK fl oz"),
    Unit("UK gill", "volume", "imperial_gill", "UK gills", ("UK gills",)),
    Unit("UK cup", "volume", "imperial_cup", "UK cups", ("UK cups",)),
    Unit("UK pint", "volume", "imperial_pint", "UK pints", ("UK pints", "UK pt")),
    Unit("UK quart", "volume", "imperial_quart", "UK quarts", ("UK quarts", "UK qt")),
    Unit("UK gallon", "volume", "imperial_gallon", "UK gallons", ("UK gallons", "UK gal")),
    Unit("label tsp", "volume", "label_teaspoon", "label tsp"),
    Unit("label tbsp", "volume", "label_tablespoon", "label tbsp"),
    Unit("label fl oz", "volume", "label_fluid_ounce", "label fl oz"),
    Unit("label cup", "volume", "label_cup", "label cups", ("label cups",)),
    Unit("mm", "length", "millimeter", "mm", ("millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("cm", "length", "centimeter", "cm", ("centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("inch", "length", "inch", "inches", ("in", "inches", '"')),
)

_COUNTING = (
    *("bag", "ball", "bottle", "box", "bulb", "bunch", "can", "carton", "clove", "cob", "cube", "dozen"),
    *("drop", "ear", "egg", "fillet", "floret", "handful", "head", "jar", "joint", "knob", "leaf", "loaf"),
    *("pack", "packet", "piece", "pod", "portion", "rack", "rasher", "rib", "root", "sheet", "side", "slice"),
    *("sprig", "square", "stalk", "stem", "strip", "tin", "tray", "tub", "wedge", "yolk", "egg white"),
)

UNITS = {
    **{unit.name: unit for unit in _UNITS},
    **{word: Unit(word, "count", "", plural_of(word), (plural_of(word),)) for word in _COUNTING},
    "": Unit("", "count", ""),
}
"""Every unit by its name; "" is a bare count."""

SYSTEMS: dict[str, dict[str, str]] = {
    "us": {},
    "label": {name: f"label {name}" for name in ("tsp", "tbsp", "fl oz", "cup", "oz")},
    "metric": {name: f"metric {name}" for name in ("tsp", "tbsp", "cup")},
    "au": {"tsp": "metric tsp", "tbsp": "AU tbsp", "cup": "metric cup"},
    "uk": {
        **{name: f"metric {name}" for name in ("tsp", "tbsp")},
        **{name: f"UK {name}" for name in ("fl oz", "cup", "pint", "quart", "gallon")},
    },
}
"""What a plain spoon, cup or pint means: US customary, US food labels (21 CFR 101.9), metric, AU, UK."""

_SPELLED = {
    spelling.casefold(): unit.name
    for unit in UNITS.values()
    for spelling in (unit.name, *unit.spellings)
    if spelling
}
# Recipes part the spoons by the letter's size alone.
_BY_CASE = {"T": "tbsp", "Tb": "tbsp", "t": "tsp"}


def unit_named(text: str, system: str = "us") -> str:
    """Return the name of the unit that text spells, read in a system; refuse one that is not known."""
    plain = " ".join(text.replace(".", " ").split())
    if not plain:
        return ""
    name = _BY_CASE.get(plain) or _SPELLED.get(plain.casefold())
    if name is None:
        near = difflib.get_close_matches(plain.casefold(), _SPELLED, 1, 0.7)
        mend = (
            f"did you mean {_SPELLED[near[0]]}?" if near else "write g, ml, tsp, cup, piece or only a number."
        )
        raise Refusal(f"{quoted(text)} is not a unit here; {mend}")
    return SYSTEMS[system].get(name, name)


def known(unit: str) -> Unit:
    """Return the unit of a name; refuse a name that is not one, as an edited file may bring."""
    return UNITS[unit] if unit in UNITS else UNITS[unit_named(unit)]


def worded(unit: str, amount: Fraction) -> str:
    """Return the unit as it follows an amount: "cup" up to one, "cups" above; an unknown one as it is."""
    return UNITS[unit].many if unit in UNITS and not 0 < amount <= 1 else unit
