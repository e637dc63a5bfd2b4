"""Weights of kitchen portions: USDA National Nutrient Database for Standard Reference, file WEIGHT.

Each row stands with its NDB number, as printed: portions are rounded one by one and not exactly additive (a cup of
salt is 292 g, 48 teaspoons of it 288 g). Kosher salt is not in that database: two named kinds, trade figures.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from core.measures.units import factor

USDA = "USDA SR, file WEIGHT"
TRADE = "trade figures, not a standard"


@dataclass(frozen=True, slots=True)
class Portion:
    """So many grams of one measure of a food: a unit's name, or a word that counts ("large", "clove")."""

    measure: str
    grams: Fraction


@dataclass(frozen=True)
class Weighed:
    """A food with its portions; `names` are how recipes call it, the first one is shown. `ndb` "": no such row.

    `liquid`: the shop sells it by volume. `pieces`: "" or the word of `Portion` that a bare count stands for.
    """

    names: tuple[str, ...]
    ndb: str
    portions: tuple[Portion, ...]
    liquid: bool = False
    pieces: str = ""
    source: str = USDA

    @property
    def name(self) -> str:
        """Return the name that is shown."""
        return self.names[0]

    @cached_property
    def density(self) -> Fraction | None:
        """Return g per ml by its largest measure, which is rounded the least; None: only counts are known."""
        volumes = [each for each in self.portions if each.measure in _VOLUMES]
        if not volumes:
            return None
        most = max(volumes, key=lambda each: factor(each.measure, "ml"))
        return most.grams / factor(most.measure, "ml")


_VOLUMES = frozenset({"tsp", "tbsp", "fl oz", "cup", "quart", "l"})


def is_volume(measure: str) -> bool:
    """Tell whether a portion's measure is a volume."""
    return measure in _VOLUMES


def _food(
    names: str, ndb: str, portions: str, *, liquid: bool = False, pieces: str = "", source: str = USDA
) -> Weighed:
    """Return a food from "name, other name" and "measure grams, measure grams"."""
    rows = []
    for each in portions.split(", "):
        measure, grams = each.rsplit(" ", 1)
        rows.append(Portion(measure, Fraction(grams)))
    return Weighed(tuple(names.split(", ")), ndb, tuple(rows), liquid, pieces, source)


FOODS = (
    _food("plain flour, flour, all-purpose flour, white flour", "20081", "cup 125"),
    _food("wholemeal flour, whole wheat flour, whole-wheat flour, whole-grain flour", "20080", "cup 120"),
    _food("granulated sugar, sugar, white sugar", "19335", "cup 200, tsp 4.2"),
    _food("brown sugar packed, packed brown sugar, brown sugar", "19334", "cup 220, tsp 4.6"),
    _food("brown sugar unpacked, unpacked brown sugar, loose brown sugar", "19334", "cup 145"),
    _food(
        "icing sugar, powdered sugar, confectioners sugar, unsifted icing sugar", "19336", "cup 120, tbsp 8"
    ),
    _food("sifted icing sugar, sifted powdered sugar, icing sugar sifted", "19336", "cup 100"),
    _food("butter, unsalted butter, sweet butter", "01145", "cup 227, tbsp 14.2, stick 113"),
    _food("salted butter", "01001", "cup 227, tbsp 14.2, stick 113"),
    _food("long-grain rice, white rice, long-grain white rice, long grain rice", "20044", "cup 185"),
    _food("short-grain rice, short-grain white rice, short grain rice", "20052", "cup 200"),
    _food("table salt, salt, fine salt", "02047", "cup 292, tbsp 18, tsp 6.0"),
    _food("kosher salt hollow flakes, hollow-flake kosher salt", "", "tsp 2.9", source=TRADE),
    _food("kosher salt rolled flakes, rolled-flake kosher salt", "", "tsp 4.9", source=TRADE),
    _food("honey, clear honey, runny honey", "19296", "cup 339, tbsp 21"),
    _food("whole milk, milk", "01077", "cup 244, tbsp 15, quart 976", liquid=True),
    _food("heavy cream, heavy whipping cream", "01053", "cup 238", liquid=True),
    _food("whipped cream, whipped heavy cream", "01053", "cup 120", liquid=True),
    _food("olive oil, extra virgin olive oil", "04053", "cup 216, tbsp 13.5, tsp 4.5", liquid=True),
    _food("canola oil, rapeseed oil", "04582", "cup 218, tbsp 14", liquid=True),
    _food("water, tap water, cold water, warm water", "14429", "cup 237, fl oz 29.6, l 1000", liquid=True),
    _food("beaten egg, beaten eggs, whole egg beaten", "01123", "cup 243"),
    _food("small egg", "01123", "piece 38", pieces="piece"),
    _food("medium egg", "01123", "piece 44", pieces="piece"),
    _food("large egg", "01123", "piece 50", pieces="piece"),
    _food("extra large egg, xl egg", "01123", "piece 56", pieces="piece"),
    _food("jumbo egg", "01123", "piece 63", pieces="piece"),
    _food("cornflour, cornstarch, corn starch", "20027", "cup 128"),
    _food("cocoa, cocoa powder, unsweetened cocoa powder", "19165", "cup 86, tbsp 5.4"),
    _food("baking powder", "18369", "tsp 4.6"),
    _food("baking soda, bicarbonate of soda", "18372", "tsp 4.6"),
    _food("dry yeast, active dry yeast, dried yeast", "18375", "tsp 4.0, packet 7.2"),
    _food("chopped onion, onion chopped", "11282", "cup 160"),
    _food("onion, medium onion", "11282", "piece 110", pieces="piece"),
    _food("garlic, garlic clove", "11215", "clove 3", pieces=""),
)
"""Foods in the order of the table; egg sizes are those of the United States, kosher salt the middle of each range."""
