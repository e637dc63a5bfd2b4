"""How a length of time is meant, by the words before and after it."""

from __future__ import annotations

import re

from core.reading.phrases_text import AMOUNT, Kind

_LEAD = 48  # signs before or after a length in which the words that say how it is meant stand

_FILL = r"(?:(?:about|around|roughly|approximately|only|just|the|an?|further|additional|extra) )*$"
_NOT_LONGER = re.compile(
    r"(?:\b(?:do not|don't|never|not|mustn't|no need to)\b[^.;]*?\b(?:more|longer|over|beyond) ?(?:than )?"
    + _FILL
    + r")"
)
_BEFORE = (
    (
        Kind.MOST,
        re.compile(
            r"\b(?:up to|at (?:the )?most|no more than|not more than|no longer than|not longer than|"
            r"max(?:imum)?\.?(?: of)?|less than|within|under|not exceeding) " + _FILL
        ),
    ),
    (
        Kind.LEAST,
        re.compile(
            r"\b(?:at least|at the very least|min(?:imum)?\.?(?: of)?|no less than|not less than|more than|"
            r"longer than|over) " + _FILL
        ),
    ),
    (Kind.EVERY, re.compile(r"\b(?:every|each) (?:other )?" + _FILL)),
    (Kind.EVERY, re.compile(r"\b(?:once|twice|times) (?:an? |per |each |every )?" + _FILL)),
    (
        Kind.AFTER,
        re.compile(
            r"\b(?:after|once|when) (?:it has |they have |the )?(?:(?:been )?\w+(?:ing|ed|en|ne|"
            r"ked) )?(?:for )?(?:the )?(?:first )?" + _FILL
        ),
    ),
    (Kind.PART, re.compile(r"\b(?:the|its|their) (?:very )?(?:last|final|first|remaining) (?:of )?" + _FILL)),
)
_AFTER_FIRST = (
    (
        Kind.PER_SIDE,
        re.compile(
            r",? ?(?:or so )?(?:(?:on|per|for) )?(?:each|every|either|both|per|a)(?: of the(?: two)?)? sides?\b"
        ),
    ),
    (
        Kind.PER_WEIGHT,
        re.compile(
            rf"'? (?:(?:per|a|an|to the|(?:for|to) (?:each|every))|for every) (?:{AMOUNT} ?)?(?:kg|kilos?|"
            rf"kilograms?|g|grams?|lbs?|pounds?|oz|ounces?|half[- ]kilo|inch|cm)\b"
        ),
    ),
    (Kind.EVERY, re.compile(r"'? (?:intervals?|bursts?|blasts?|pulses?|at a time)\b|s? bursts?\b")),
    (Kind.AHEAD, re.compile(r" (?:ahead|in advance|beforehand|earlier)\b")),
    (
        Kind.PART,
        re.compile(
            r" (?:before|from) (?:the end|it is done|they are done|the (?:cooking|baking|"
            r"roasting) (?:time )?(?:ends|is up))|'? (?:of|into) (?:the )?(?:\w+ing|its|their)\b|"
            r"'? in(?:to the (?:bake|cooking))?(?=[,.;]|$)"
        ),
    ),
)
_AFTER_LAST = (
    (
        Kind.BEFORE,
        re.compile(
            r" before (?:\w+ing\b|you\b|the (?:meal|feast|guests|party|plating)|they|it|serving|use\b|needed|"
            r"dinner|lunch|supper)"
        ),
    ),
    (Kind.AFTER, re.compile(r" (?:later|on)(?=[,.;]|$)")),
    (Kind.LEAST, re.compile(r",? (?:or (?:more|longer)|at (?:the very )?least|minimum|and up)\b|\+")),
    (
        Kind.MOST,
        re.compile(r",? (?:at (?:the )?(?:very )?most|max(?:imum)?|tops|or less|but no (?:more|longer))\b"),
    ),
)
_ABOUT_BEFORE = re.compile(
    r"(?:\b(?:about|around|roughly|approximately|approx\.?|some|circa|ca\.?|nearly|almost|say|or so)|"
    r"[~\u2248]) ?(?:(?:a|an|the|another|further) )*$"
)
_ABOUT_AFTER = re.compile(r"(?: or so| or thereabouts|ish| approximately| approx| roughly|,? give or take)\b")
_OLD = re.compile(r"[- ](?:old|aged|dry-aged|matured|cured)\b")
_NAMED = re.compile(r"(?:\bserves|\bgas|\bmark|\bstep|\bsize) $")
_FOR = re.compile(
    r"\b(?:for|another|cook|a further|rest|chill|cool) (?:(?:about|around|at least|up to|a further|"
    r"another) )*$"
)
_LAST = re.compile(r"(?:a |an |the )?(?:last|final)\b")
_OFTEN = re.compile(r"\b(?:once|twice|times) $")


def meant(plain: str, start: int, end: int) -> Kind:
    """Return how the length at plain[start:end] is meant; plain is even text."""
    before, after = plain[max(start - _LEAD, 0) : start], plain[end : end + _LEAD]
    inside = plain[start:end]
    if _NOT_LONGER.search(before):
        return Kind.MOST
    if kind := _first(_AFTER_FIRST, after):
        return kind
    often = inside.startswith(("a ", "an ")) and _OFTEN.search(before)
    if often or inside.startswith(("every ", "each ", "per ")):
        return Kind.EVERY
    if _LAST.match(inside) and before.endswith("the "):
        return Kind.PART
    if kind := next((kind for kind, pattern in _BEFORE if pattern.search(before)), None):
        return kind
    kind = _first(_AFTER_LAST, after)
    work = kind is None or (kind is Kind.BEFORE and _FOR.search(before))
    return Kind.DURATION if work or kind is None else kind


def _first(table: tuple[tuple[Kind, re.Pattern[str]], ...], after: str) -> Kind | None:
    return next((kind for kind, pattern in table if pattern.match(after)), None)


def is_about(plain: str, start: int, end: int) -> bool:
    """Tell whether the words call the length at plain[start:end] a rough one."""
    return bool(
        _ABOUT_BEFORE.search(plain[max(start - _LEAD, 0) : start])
        or _ABOUT_AFTER.match(plain[end : end + _LEAD])
    )


def is_other(plain: str, start: int, end: int) -> bool:
    """Tell whether the words are no length of cooking: the age of a thing, a name with a number."""
    return bool(_OLD.match(plain[end : end + _LEAD]) or _NAMED.search(plain[max(start - _LEAD, 0) : start]))
