"""Words of ingredient lines: numbers, units as they are met there, what is done to food before it is weighed.

All of it is common practice of recipe writing in English; no list claims to be complete.
"""

from __future__ import annotations

import re

from core.measures.unit_names import UNITS

_VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
NUMBER = (
    rf"(?:[0-9]+ ?[{_VULGAR}]|[{_VULGAR}]|[0-9]+ [0-9]+/[0-9]+|[0-9]+-[0-9]+/[0-9]+|[0-9]+/[0-9]+"
    r"|[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9,])|[0-9]+[.,][0-9]+|\.[0-9]+|[0-9]+)"
)
"""Pattern of one number, vulgar fractions included; a dash joins a whole number and a fraction."""

SPELT = {
    **{
        word: number
        for number, word in enumerate(
            (
                "one",
                "two",
                "three",
                "four",
                "five",
                "six",
                "seven",
                "eight",
                "nine",
                "ten",
                "eleven",
                "twelve",
            ),
            1,
        )
    },
    "a couple of": 2,
    "a": 1,
    "an": 1,
}
"""Numbers in words."""

ABOUT = r"(?:about|approximately|approx\.?|around|circa|ca\.?|roughly|at least|up to|~)"
"""What makes an amount a rough one."""

SIZES = (
    r"(?:very |extra[- ])?(?:small|medium|medium-sized|large|big|generous|good|heaped|heaping|level|rounded|scant"
    r"|fat|thick|thin|packed|loosely packed|tightly packed|whole)"
)
"""What stands between a number and its unit and changes neither."""

PACKS = frozenset({"bag", "bottle", "box", "can", "carton", "jar", "pack", "packet", "tin", "tub"})
"""Units that are bought filled: an amount before them is what one holds."""

TRAILING = frozenset({"bulb", "clove", "rasher", "sprig", "stalk", "stem"})
"""Units that also stand behind the thing: "2 garlic cloves"."""

BARE = frozenset({"bunch", "dash", "drop", "handful", "knob", "pinch", "sprig"})
"""Units that need no number: "pinch of salt" is one."""

NEEDS_OF = frozenset({"joint", "leaf", "rib", "root", "side", "square", "cube", "drop", "tray"})
"""Units that are more often the beginning of a name: one of them needs "of", unless it is in the plural."""

VAGUE = (
    r"(?:(?:an? )?(?:few|little|splash|drizzle|glug|squeeze|sprinkling|sprinkle|dusting|grating|dollop|twist)"
    r"|some|several|plenty|enough)"
)
"""Amounts that nobody can weigh."""

_NOT_HERE = frozenset({"", "egg", "egg white", "yolk"})
_OTHERS = {
    "sachet": "packet",
    "sachets": "packet",
    "pouch": "pack",
    "pouches": "pack",
    "package": "pack",
    "packages": "pack",
    "pkg": "pack",
}


def _spellings() -> dict[str, str]:
    found = dict(_OTHERS)
    for unit in UNITS.values():
        if unit.name not in _NOT_HERE and unit.kind != "length":
            found |= {each.casefold(): unit.name for each in (unit.name, *unit.spellings)}
    return found


UNIT_OF = _spellings()
"""Units of ingredient lines by each of their spellings, in lower case; lengths are none here."""

UNIT = re.compile(
    rf"(?P<unit>{'|'.join(re.escape(each) for each in sorted(UNIT_OF, key=len, reverse=True))})(?![a-z'’%])\.?",
    re.IGNORECASE,
)

PIECE = re.compile(
    rf"(?P<size>{NUMBER}[ -]?(?:cm|mm|in|inch|inches|\")|thumb-?sized?)[ -]"
    r"(?P<what>piece|knob|chunk|slice|strip|length|stick|thumb)s?\b(?: of)?",
    re.IGNORECASE,
)
"""A piece whose length is told."""

_HOW = r"(?:very |freshly |finely |coarsely |roughly |thinly |thickly |lightly |well |newly |gently )*"
_DONE = (
    r"(?:chopped|diced|sliced|grated|minced|crushed|melted|softened|beaten|sifted|shredded|peeled|mashed|toasted"
    r"|cubed|halved|quartered|trimmed|torn|crumbled|snipped|cooled|washed|deseeded)"
)
_DONE_TOO = r"(?:ground|squeezed|cooked|brewed|cracked|picked|pounded|milled|boiled|made|pressed|rinsed|salted|whisked)"
DONE_FIRST = re.compile(
    rf"(?!minced (?:beef|pork|lamb|veal|turkey|chicken|meat)\b)(?:{_HOW}{_DONE}(?:(?:,| and|, and) {_HOW}{_DONE})*"
    rf"|(?:very |freshly |finely |coarsely |roughly |lightly |newly )+{_DONE_TOO}) (?=\S)",
    re.IGNORECASE,
)
"""What is done to food, written before its name. Ground, cooked and the like alone are how it is bought."""

PART_OF = re.compile(
    r"(?P<part>(?:freshly |finely )?(?:grated |squeezed |pared )?(?:zest|juice|rind|peel|leaves|seeds)"
    r"(?: (?:and|&) (?:grated )?(?:zest|juice|rind|peel))?) (?:of|from) ",
    re.IGNORECASE,
)
"""A part of the thing: juice of 2 lemons."""

QUALITY = re.compile(
    r"(?:.* )?(?:\w+less|ripe|large|small|medium|fresh|dried|raw|cooked|unsalted|low-fat|fat-free|firm|lean|thick"
    r"|skin-on|bone-in|free-range|smoked|plain|good|soft|hot|cold|dry|full-fat|medium-sized|young|thin|long|sweet|mild)",
    re.IGNORECASE,
)
"""Words before a comma after which the name is still to come: "skinless, boneless thighs"."""

FOR_WHAT = re.compile(
    r" (?:for (?:the |a |your |each )?(?:(?:deep[ -]|shallow[ -])?\w+ing|tins?|pan|table|dish|top|glaze|tray"
    r"|bowl|hands|worktop|board|moulds?)\b"
    r"|to (?:serve|garnish|taste|finish|decorate|dust|glaze|fry|dress|season|grease|brush|coat|cover|top|sprinkle)\b"
    r"|plus (?:extra|more|a |an |some |[0-9½¼¾])|as (?:needed|required)\b|at room temperature\b|from (?:a|the) \w+).*",
    re.IGNORECASE,
)
"""What follows a name without a comma and is no part of it."""

OPTIONAL = re.compile(
    r"[(,;]?\s*\b(?:optional|if (?:you )?(?:like|liked|wish|want|desired|using))\b\s*[):]?", re.IGNORECASE
)
TO_TASTE = re.compile(r"[(,;]?\s*\b(?:or )?to (?:your )?taste\b\s*\)?", re.IGNORECASE)
FAT = re.compile(r"\b(?:butter|margarine|lard|shortening|suet)\b", re.IGNORECASE)
"""Only these are sold in sticks that weigh something."""
