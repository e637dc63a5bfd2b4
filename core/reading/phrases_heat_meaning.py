"""Whether a temperature is measured in the food or set on a dial, and which degrees are none at all."""

from __future__ import annotations

import re

_BREAK = re.compile(
    r"[.;:!?](?![0-9])|,? then\b|\buntil\b|\btill\b|\bbefore\b|\b(?:to|with|for) an? (?:core|internal|"
    r"inner|inside)\b|"
    r"\bor (?=to a\b)|\bor when\b|, to (?=(?:about )?[0-9])|\bonce\b|\bwhen\b"
)
_PROBED = re.compile(
    r"\b(?:core|internal(?:ly)?|inside|inner|probe|(?<!oven )thermometer|thickest|at the bone|registers?|"
    r"(?:middle|centre|center)(?! (?:of (?:the|a|your) (?:\w+ )?(?:oven|grill)|shelf|rack|of a (?:hot|"
    r"moderate))))\b"
)
_PLACE = re.compile(
    r"\b(?:ovens?|grill|smoker|barbecue|preheat\w*|dial|shelf|fridge|freezer|bake|roast|smoke|fan)\b"
)
_REACHED = re.compile(
    r"\b(?:it|they|flesh|meat|temperature|\w+) (?:reach(?:es)?|hits?|gets? to|comes? to|reads?|is|"
    r"are) (?:at )?(?:about |around |just )?$"
)
_LIQUID = re.compile(
    r"\b(?:oil|syrup|sugar|milk|custard|water|fat|caramel|chocolate|jam|bath|cream|lard|dripping|broth|"
    r"stock)\b"
)
_WARMED = re.compile(
    r"\b(?:heat|heated|warm|warmed|fry|deep-fry|boil|poach|temper|hold|hot|keep|bring|bath|cool|reach\w*)\b"
)
_BATH = re.compile(r"\bdeep[- ]fr(?:y|ied|ying)\b|\bsous[- ]vide\b|\b(?:water )?bath\b")
_FRIED = re.compile(r"\bfry(?:ing)?\b(?:(?!\b(?:bake|roast|and|then)\b)[^,;]){0,40} at $")
_OVEN_TO = re.compile(
    r"\b(?:oven|grill|smoker|dial)s?\b(?! thermometer)[^,;]{0,20} (?:to|at) (?:about |around )?$"
)
_BROUGHT = re.compile(
    r"(?<!the )\b(?:warm|cool|heat|melt|bring|temper|chill)(?:ed|s|ing)?\b[^,]{0,40} to (?:about |"
    r"around )?$"
)
_MILDEST, _COOLEST_OVEN = 20, 95  # between them a number that names no place is mostly measured in the food
_STANDS = re.compile(
    r"\b(?:leave|left|ferment\w*|prov(?:e|ing)|proof\w*|rise|rising|hold|keep|stor(?:e|ing)|dry|drying|warm|warming|plates|"
    r"stand|stay|incubat\w+|culture|sit|set)\b"
)
_TURNED = re.compile(
    r"\b(?:rotate|swivel|spin|revolve|turn)\b(?! (?:the |your )?(?:oven|heat|temperature|it (?:down|up)|"
    r"down|up))[^.;,]{0,40}$"
)
_ANGLE = re.compile(r"(?:[- ](?:angle|turn|rotation|slant|north|south)\b)")


def in_the_food(plain: str, start: int, end: int, celsius: int) -> bool:
    """Tell whether the °C at plain[start:end] are those of food, oil, syrup or water."""
    before, opened = _back_to_break(plain, start)
    after = plain[end : end + 60]
    stop = _BREAK.search(after)
    part = before + " # " + (after[: stop.start()] if stop else after).partition(", ")[0]
    if _OVEN_TO.search(before):
        return False
    if _PROBED.search(part) or opened.startswith(("to", "with a", "for a")):
        return True
    if _BATH.search(part) or _FRIED.search(before):
        return True
    if _PLACE.search(part):
        return False
    if (
        _BROUGHT.search(before)
        or opened in ("until", "till", "when", "once", "or when")
        or _REACHED.search(before)
    ):
        return True
    if _MILDEST < celsius <= _COOLEST_OVEN:
        return not (_STANDS.search(before) and before.rstrip().endswith((" at", " around", " of", " about")))
    return bool(_LIQUID.search(part) and _WARMED.search(part))


def _back_to_break(plain: str, start: int) -> tuple[str, str]:
    """Return the words between the last break before start and start, and the break itself."""
    near = max(start - 160, 0)
    breaks = list(_BREAK.finditer(plain, near, start))
    if not breaks:
        return plain[near:start], ""
    return plain[breaks[-1].end() : start], breaks[-1][0].strip(" ,")


def is_other(plain: str, start: int, end: int) -> bool:
    """Tell whether the degrees are those of a turn or an angle."""
    words = plain[start:end]
    if words.endswith(("c", "f")) or "gas" in words or "oven" in words:
        return False
    return bool(_ANGLE.match(plain, end) or _TURNED.search(plain[max(start - 60, 0) : start]))
