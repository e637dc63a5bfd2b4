"""The fourteen groups of substances that cause allergies or intolerances, by EU law, with short kitchen names.

Source: Regulation (EU) No 1169/2011, Annex II, as amended by Delegated Regulation (EU) No 78/2014; headings as the
Annex has them, without its exceptions (wheat-based glucose syrups, fully refined soybean oil and the like), read in
public reproductions. The short names are ours.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Allergen:
    """One group: its number and heading in the Annex, its kitchen name, and other words that mean it or part of it."""

    number: int
    name: str
    heading: str
    words: tuple[str, ...] = ()


GROUPS = (
    Allergen(
        1,
        "gluten",
        "Cereals containing gluten, namely: wheat (such as spelt and khorasan wheat), rye, barley, oats or their"
        " hybridised strains, and products thereof",
        ("cereals containing gluten", "wheat", "spelt", "khorasan", "rye", "barley", "oats", "oat", "coeliac"),
    ),
    Allergen(
        2,
        "crustaceans",
        "Crustaceans and products thereof",
        ("crustacean", "shellfish", "prawns", "shrimps", "crab", "lobster", "crayfish"),
    ),
    Allergen(3, "egg", "Eggs and products thereof", ("eggs",)),
    Allergen(4, "fish", "Fish and products thereof"),
    Allergen(5, "peanuts", "Peanuts and products thereof", ("peanut", "groundnuts", "groundnut")),
    Allergen(6, "soya", "Soybeans and products thereof", ("soy", "soybeans", "soybean", "soya beans")),
    Allergen(7, "milk", "Milk and products thereof (including lactose)", ("lactose", "dairy")),
    Allergen(
        8,
        "nuts",
        "Nuts, namely: almonds (Amygdalus communis L.), hazelnuts (Corylus avellana), walnuts (Juglans regia),"
        " cashews (Anacardium occidentale), pecan nuts (Carya illinoinensis (Wangenh.) K. Koch), Brazil nuts"
        " (Bertholletia excelsa), pistachio nuts (Pistacia vera), macadamia or Queensland nuts (Macadamia"
        " ternifolia), and products thereof",
        (
            "nut", "tree nuts", "almonds", "almond", "hazelnuts", "hazelnut", "walnuts", "walnut", "cashews", "cashew",
            "pecan nuts", "pecans", "pecan", "brazil nuts", "pistachio nuts", "pistachios", "pistachio", "macadamia",
            "macadamias", "queensland nuts",
        ),
    ),
    Allergen(9, "celery", "Celery and products thereof", ("celeriac",)),
    Allergen(10, "mustard", "Mustard and products thereof"),
    Allergen(11, "sesame", "Sesame seeds and products thereof", ("sesame seeds", "sesame seed")),
    Allergen(
        12,
        "sulphites",
        "Sulphur dioxide and sulphites at concentrations of more than 10 mg/kg or 10 mg/litre in terms of the total"
        " SO2 which are to be calculated for products as proposed ready for consumption or as reconstituted according"
        " to the instructions of the manufacturers",
        ("sulphite", "sulfites", "sulfite", "sulphur dioxide", "sulfur dioxide"),
    ),
    Allergen(13, "lupin", "Lupin and products thereof", ("lupine", "lupins")),
    Allergen(
        14,
        "molluscs",
        "Molluscs and products thereof",
        ("mollusc", "mollusks", "shellfish", "mussels", "clams", "oysters", "scallops", "squid", "octopus", "snails"),
    ),
)  # fmt: skip
"""In the order of the Annex."""

NAMES = tuple(each.name for each in GROUPS)
"""The short kitchen names, in the order of the Annex."""


def groups_of(word: str) -> tuple[Allergen, ...]:
    """Return the groups that a word of a guest or a label means; none where it is another thing ("shellfish": two)."""
    plain = " ".join(word.casefold().split())
    return tuple(each for each in GROUPS if plain in (each.name, each.heading.casefold(), *each.words))
