"""Places in a sentence: named ("in the fridge"), or what a verb alone implies ("simmer": a burner).

What verbs imply is common practice; where the clause names a place, that goes before it.
"""

from __future__ import annotations

import re
from bisect import bisect_right

from core.plan.kitchen import StationKind as At
from core.reading.phrases_text import Found, Kind, even

_NAMED = (
    (
        At.MACHINE,
        (
            r"microwave(?: oven)?|slow[ -]cooker|pressure[ -]cooker|rice[ -]cooker|air[ -]fryer|"
            r"bread[ -]?(?:machine|maker)|ice[ -]cream (?:machine|maker)|water bath at|deep[ -]fat fryer|"
            r"dehydrator"
        ),
    ),
    (
        At.WARM_DRAWER,
        (r"warm(?:ing)? drawer"),
    ),
    (
        At.HOT_BOX,
        (r"hot[ -]?box|(?:vacuum|thermos) flask|insulated box"),
    ),
    (
        At.GRILL,
        (
            r"(?:the|a|your|under|hot|preheated|overhead|oven) grill(?! pan|ed)|barbecues?|barbecue|bbq|"
            r"broiler|charcoal|(?:hot |glowing )?coals|embers"
        ),
    ),
    (
        At.OVEN,
        (
            r"(?<!dutch )(?<!pizza )ovens?\b(?![ -](?:gloves?|proof|dish|cloth|mitts?|safe))|pizza oven|"
            r"(?:middle|top|bottom|upper|lower) (?:shelf|rack)(?! of the (?:fridge|freezer))"
        ),
    ),
    (
        At.FRIDGE,
        (r"fridge|refrigerator"),
    ),
    (
        At.FREEZER,
        (r"(?:deep )?freezer(?! bag)"),
    ),
    (
        At.SMOKER,
        (r"smoker|smokehouse|smoke box"),
    ),
    (
        At.BURNER,
        (
            r"hobs?|stove(?:[ -]?top)?|cooktop|burners?|griddle|skillet|wok|(?:sauce|frying|saute|griddle|"
            r"grill|stock|milk)[ -]?pan|(?:dry|hot|heavy|heavy-based|large|wide|deep|non-stick|medium|"
            r"small|same|lidded|shallow) pan\b|in (?:a|the) pan\b|stockpot|(?:over|on|at) (?:a |an |the |"
            r"your )?(?:\w+ ){0,2}(?:heat|flame)\b|(?:low|gentle|bare) simmer|dutch oven|casserole on the|"
            r"(?:pot|pan) of (?:\w+ )?(?:boiling|simmering|salted) (?:\w+ )?water"
        ),
    ),
    (
        At.ROOM,
        (
            r"room temperature|(?:on|at) (?:the |a )?(?:\w+ )?(?:counter|worktop|work surface|sideboard|"
            r"bench|kitchen table)|(?:warm|cool|draught-free|dark|dry|shady|airy|sunny|cosy) (?:place|spot|"
            r"corner|room|cupboard|larder|part of the kitchen)|larder|pantry|airing cupboard|(?:wire |"
            r"cooling )racks?|on a rack|warm (?:plate|platter|board|dish)|windowsill|ambient temperature"
        ),
    ),
)
_IMPLIED = (
    (
        At.OVEN,
        (
            r"roast(?:ing)?(?! (?:tin|pan|tray|dish|potatoes|chicken|beef|lamb|pork)\b)|bake|"
            r"baking(?! (?:tin|tray|sheet|powder|soda|paper|parchment|dish|beans|stone|pan)\b)|"
            r"blind[ -]bake"
        ),
    ),
    (
        At.GRILL,
        (r"grill(?:ing)?(?! pan)|barbecue|broil|chargrill"),
    ),
    (
        At.SMOKER,
        (r"(?:hot|cold)[ -]smoke|smoke(?= (?:the|for|at|over|it|them|your|until|gently|slowly))"),
    ),
    (
        At.FRIDGE,
        (r"chill(?:ing)?|refrigerat(?:e|ing)|chilled(?= (?:for|until|overnight))"),
    ),
    (
        At.FREEZER,
        (r"freeze|freezing"),
    ),
    (
        At.BURNER,
        (
            r"(?:deep[ -]|stir[ -]|shallow[ -]|pan[ -]|dry[ -])?fry(?:ing)?|simmer(?:ing)?|(?:par|"
            r"re)?boil(?! over)|boiling(?! (?:water|stock|hot))|saute|sear|sweat|poach|blanch|"
            r"steam(?! (?:escape|out|to|can|from|is))|steaming|braise|stew|melt|deglaze|scald|parboil|"
            r"flambe|brown (?:the|it|them|on|in|all|well|off|both|lightly|evenly)|(?:bring|brought|return|"
            r"comes?)\b[^.;]{0,120}? to (?:a |the )?(?:(?:rolling|gentle|bare|full) )?(?:boil|simmer)|"
            r"(?:brown|soften|cook|colour|sizzle)\b[^.;,]{0,40} in (?:the |a little |some |hot )?(?:butter|oil|"
            r"dripping|"
            r"ghee|fat|lard)|reduce (?:by|until|the (?:sauce|wine|stock|liquid|cream|juices|gravy)|it by|to a)|(?:heat|"
            r"warm) (?:the |a |some |\d+ ?\w+ )?(?:\w+ ){0,2}(?:oil|milk|cream|butter|syrup|stock|soup|"
            r"sauce|sugar|wine|water|fat|lard|broth|dripping)"
        ),
    ),
    (
        At.ROOM,
        (
            r"(?:leave|let|allow|set aside|left)\b[^.;,]{0,40}? to? ?(?:rest|stand|cool|rise|prove|proof|"
            r"steep|infuse|ferment|dry)|(?:let|rest|stand|cool|rise|prove|proof)\b(?! (?:of|water|mixer|"
            r"larder|them in|it in|it on|the (?!meat|joint|bird|roast|dough)))|soak|steep|macerate|"
            r"(?<=meat )rests|(?<=dough )(?:proves|rises|rests)|(?<=it )(?:rests|cools|proves|rises)|"
            r"(?<=they )(?:rest|cool|prove|rise)|standing|resting|proving|rising"
        ),
    ),
)
_ROOM_VERB = re.compile(
    r"\b(?:rest|stand|cool|rise|prove|proof|soak|steep|infuse|ferment|dry|standing|resting|cooling|proving|"
    r"rising)\b"
)
_PATTERNS = [(kind, True, re.compile(rf"\b(?:{words})(?![a-z])")) for kind, words in _NAMED]
_PATTERNS += [(kind, False, re.compile(rf"\b(?:{words})(?![a-z])")) for kind, words in _IMPLIED]

_LEAVES = re.compile(
    r"\b(?:from|out of|off|leav(?:e|es|ing)|before it goes (?:in|into))(?: (?:the|your|a|their|"
    r"its))?(?: \w+)? $"
)
_NOT = re.compile(
    r"(?:\b(?:do not|don't|never|no need to|needn't|not to|should not|shouldn't|must not|"
    r"cannot)(?: \w+){0,4}|\b(?:without|rather than|instead of|not|before|prior to)(?: \w+)?) $"
)
_NOUN = re.compile(
    r"\b(?:the|a|an|your|this|of|once|until|when|is|are|for|fully|completely|from|somewhere|it is|sunday|"
    r"to a|nice) $"
)
_VERB_LIKE = re.compile(
    r"^(?:rest|stand|cool|rise|prove|proof|roast|bake|grill|smoke|boil|simmer|steam|stew|barbecue|soak|"
    r"chill|freeze|fry)"
)
_IS_WORK = re.compile(r"\b(?:for|until) (?:a |an )?$")
_CLAUSE = re.compile(
    r"[.;:!?]| while |,? (?:and )?then\b|, (?=\w+ )| and (?=(?:\w+ly )?(?:bake|roast|chill|freeze|simmer|"
    r"fry|grill|leave|let|cool|rest|finish|cook|transfer|put|place|return|prove|proof|refrigerate)\b)"
)


def places(text: str) -> tuple[Found, ...]:
    """Return every place of work in a text in its order; the value is a StationKind.

    What is only left ("out of the oven") or denied ("do not freeze") is no place of work.
    """
    plain = even(text)
    marks = [
        (met.start(), met.end(), kind, named)
        for kind, named, pattern in _PATTERNS
        for met in pattern.finditer(plain)
    ]
    marks = [mark for mark in _widest(marks) if _is_work(plain, mark)]
    breaks = [met.start() for met in _CLAUSE.finditer(plain)]
    named: dict[int, set[At]] = {}
    for mark in marks:
        if mark[3]:
            named.setdefault(bisect_right(breaks, mark[0]), set()).add(mark[2])
    found = []
    for start, end, kind, is_named in marks:
        beside = named.get(bisect_right(breaks, start), {kind})
        if is_named or kind in beside:
            found.append(Found(Kind.PLACE, text[start:end], start, end, kind))
    return tuple(found)


Mark = tuple[int, int, At, bool]


def _is_work(plain: str, mark: Mark) -> bool:
    start, end, kind, named = mark
    before = plain[max(start - 48, 0) : start]
    if _NOT.search(before):
        return False
    if named:
        return kind is At.ROOM or not _LEAVES.search(before)
    words = plain[start:end]
    if _VERB_LIKE.match(words) and _NOUN.search(before):
        return False
    return words not in ("let", "leave")


def _widest(marks: list[Mark]) -> list[Mark]:
    """Leave out what a longer phrase holds: of "grill pan" the grill."""
    kept: list[Mark] = []
    for mark in sorted(marks, key=lambda each: (each[0], -each[1], not each[3])):
        if not kept or mark[1] > kept[-1][1] or mark[:2] == kept[-1][:2]:
            kept.append(mark)
    return kept
