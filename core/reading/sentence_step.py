"""One draft step from the clauses that tell it."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from core.plan.kitchen import COLD, StationKind
from core.plan.step import Attention, Holding, Span, Touch
from core.reading.phrases import Found, Kind, Warmth
from core.reading.sentence_clauses import Clause, span_of
from core.reading.sentence_draft import DraftStep, DraftWait, Origin
from core.reading.sentence_verbs import ALONE, COOKS, imperative

Take = Callable[[str, Found | None], Found | None]
"""Notes which phrase a field was read from."""

_MOST_TOUCHES = 12
_LONGER_STAY = 4 * 60  # "2 hours or overnight": a second length so much longer is how long it may stay
_CONSTANT = re.compile(
    r"\bstirring (?:constantly|continuously|all the (?:time|while)|often|frequently|briskly|well)|"
    r"\bkeep stirring\b|, stirring(?=,| for|$)|\bwhisking\b"
)
_NOW_AND_THEN = re.compile(
    r"\b(?:occasionally|now and then|now and again|from time to time|once or twice|periodically|"
    r"every so often|every now)\b"
)
_TURNED = re.compile(r"\b(?:turning|flipping|turn|flip|rotating|shaking|stirring|basting|swapping)\b[^.;,]*")
_HALFWAY = re.compile(
    r"\b(?:half[- ]?way(?: through)?|turning (?:them |it |the \w+ )?once|flipping (?:them |it )?once)\b"
)
_UNWATCHED = re.compile(
    r"\b(?:covered|lid on|with the lid|with a lid|half[- ]covered|partially covered)\b|\bcover\b"
)
_NO_OBJECT = re.compile(
    r"(?:\w+ly )?\w+(?: (?:it|them|everything|all|gently|slowly|uncovered|covered|on|again|together|"
    r"through|the other side))*"
    r"(?:,|$| (?:for|until|till|over|another|a|about|around|at|to|[0-9]|one|two|three|four|five|ten|"
    r"stirring)\b)"
)
_LEFT = re.compile(r"\b(?:leave|let|allow|set aside|left)\b")
_BEFORE_TOUCH = re.compile(r"(?:^|[,;] |\band |\bbut |: )(?P<does>(?:\w+ly )?\w+(?:ing)?\b[^,;]*)$")

_CUT_OUT = {
    Kind.DURATION: (
        r"(?:,? ?\b(?:for|in|over|about|around|roughly|approximately|another|a further|at least|up to|or|preferably|"
        r"ideally|of|the|then|more|a|an|to|give it|additional)\b)*,? ?"
    ),
    Kind.TEMPERATURE: r"(?:,? ?\b(?:at|to|in|in an?|set to|of|about|around|reads?|reach(?:es)?)\b)* ?",
    Kind.CUE: r",? ?(?:\bor\b ?)?",
}
_BEFORE = {kind: re.compile(f"(?:{words})$") for kind, words in _CUT_OUT.items()}
_TAIL = re.compile(
    r"^(?:'| (?:more|longer|or so|in total|altogether|(?:(?:on|per) )?(?:each|a|per|every|both|"
    r"either) side(?:s)?)\b| oven\b|\))*"
)


def step_of(text: str, sentence: int, group: Sequence[Clause], before: DraftStep | None) -> DraftStep:
    """Return the draft step of the clauses; `before` is the step before it, whose place it may go on in."""
    founds = tuple(found for clause in group for found in clause.founds)
    start, end = group[0].start, group[-1].end
    plain = group[0].plain[start:end]
    verb = next((clause.verb for clause in reversed(group) if clause.is_timed), group[-1].verb)
    origins: list[Origin] = []

    def take(field: str, found: Found | None) -> Found | None:
        if found is not None:
            origins.append(Origin(field, sentence, found))
        return found

    kind = _kind(group, founds, before, take)
    heat = take("heat", _heat(founds))
    core = take(
        "core", next((each for each in founds if isinstance(each.value, Warmth) and each.value.core), None)
    )
    cue = take("doneness", next((each for each in founds if each.kind == Kind.CUE), None))
    length = _length(founds, verb, take)
    touches = _touches(plain, start, founds, length)
    return DraftStep(
        text=text[start:end],
        source=(sentence, start, end),
        does=before.does if before is not None and plain[0].isdigit() else _does(text, start, end, founds),
        length=length,
        attention=_attention(plain, verb, kind, length, bool(touches))
        if not _led(origins)
        else Attention.HANDS_OFF,
        kind=kind,
        heat=heat.value if heat is not None and isinstance(heat.value, Warmth) else None,
        core=core.value.celsius if core is not None and isinstance(core.value, Warmth) else None,
        doneness=cue.text if cue is not None else "",
        touches=touches,
        wait=_stay(founds, kind, take),
        founds=founds,
        origins=tuple(origins),
    )


def _led(origins: list[Origin]) -> bool:
    """Tell whether the length is how long before the next work it is done: "take it out an hour before"."""
    return any(each.field == "length" and each.found.kind == Kind.BEFORE for each in origins)


def _kind(
    group: Sequence[Clause], founds: tuple[Found, ...], before: DraftStep | None, take: Take
) -> StationKind | None:
    timed = [clause for clause in group if clause.is_timed and clause.place] or [
        each for each in group if each.place
    ]
    if timed:
        clause = timed[-1]
        found = next(each for each in clause.of(Kind.PLACE) if each.value is clause.place)
        take("kind", found)
        return clause.place
    if _heat(founds) is not None and _celsius(_heat(founds)) >= 90:
        return StationKind.OVEN
    if before is not None and any(_goes_on(clause) for clause in group):
        return before.kind if before.kind not in (*COLD, StationKind.ROOM, None) else None
    return None


def _goes_on(clause: Clause) -> bool:
    """Tell whether it is more of the work before: "cook for a further 10 minutes", "20 minutes at 180"."""
    if not (clause.is_timed or clause.of(Kind.CUE)):
        return False
    return clause.plain[clause.start].isdigit() or (
        clause.verb in COOKS and _NO_OBJECT.match(clause.words) is not None
    )


def _celsius(found: Found | None) -> int:
    return found.value.celsius if found is not None and isinstance(found.value, Warmth) else 0


def _heat(founds: tuple[Found, ...]) -> Found | None:
    met = [each for each in founds if isinstance(each.value, Warmth) and not each.value.core]
    return met[-1] if met else None


def _length(founds: tuple[Found, ...], verb: str, take: Take) -> Span | None:
    """Return the first length that is told; a rate per weight tells none."""
    if any(found.kind == Kind.PER_WEIGHT for found in founds):
        return None
    for found in founds:
        if found.kind in (Kind.DURATION, Kind.LEAST, Kind.PER_SIDE) or (
            found.kind == Kind.MOST and verb not in ("keep", "hold", "store")
        ):
            take("length", found)
            span = span_of(found)
            return Span(2 * span.low, 2 * span.likely, 2 * span.high) if found.kind == Kind.PER_SIDE else span
    opening = next((found for found in founds if found.kind == Kind.BEFORE), None)
    if opening is not None and verb in (
        "take",
        "remove",
        "bring",
        "leave",
        "let",
        "light",
        "rest",
        "stand",
        "start",
    ):
        take("length", opening)
        return span_of(opening)
    return None


def _stay(founds: tuple[Found, ...], kind: StationKind | None, take: Take) -> DraftWait | None:
    """Return how much longer it may stay than its length: "at least 2 hours, up to 2 days"."""
    told = [found for found in founds if found.kind in (Kind.DURATION, Kind.LEAST, Kind.MOST)]
    if len(told) < 2 or kind not in (*COLD, StationKind.ROOM, None):
        return None
    least, most = span_of(told[0]).likely, span_of(told[1]).high
    if most - least < _LONGER_STAY and told[1].kind != Kind.MOST:
        return None
    if most <= least:
        return None
    take("wait", told[1])
    return DraftWait(0, most - least, holding_at(kind), kind)


def holding_at(kind: StationKind | None) -> Holding:
    """Return how food waits in a kind of place."""
    holdings = {
        StationKind.FRIDGE: Holding.FRIDGE,
        StationKind.FREEZER: Holding.FREEZER,
        StationKind.OVEN: Holding.HOT,
        StationKind.WARM_DRAWER: Holding.HOT,
        StationKind.HOT_BOX: Holding.HOT,
    }
    return holdings.get(kind, Holding.COUNTER) if kind is not None else Holding.COUNTER


def _touches(plain: str, start: int, founds: tuple[Found, ...], length: Span | None) -> tuple[Touch, ...]:
    if length is None:
        return ()
    touches: list[Touch] = []
    for found in founds:
        if found.kind == Kind.EVERY and not _is_pulse(plain, found.end - start):
            touches += _every(span_of(found).likely, length.low, _doing(plain, found.start - start))
        elif found.kind == Kind.PART:
            touches.append(Touch(span_of(found).likely, 1, _doing(plain, found.start - start), from_end=True))
        elif found.kind == Kind.AFTER and found.start > start + 8 and span_of(found).likely < length.low:
            touches.append(Touch(span_of(found).likely, 1, _doing(plain, found.start - start)))
        elif found.kind == Kind.PER_SIDE:
            touches.append(Touch(length.likely // 2, 1, "turn"))
    met = _HALFWAY.search(plain)
    if met and not touches:
        turned = _TURNED.search(plain[: met.end()])
        does = (
            turned[0][: met.start() - turned.start()].strip()
            if turned and turned.start() < met.start()
            else "turn"
        )
        touches.append(Touch(length.likely // 2, 1, does or "turn"))
    return tuple(touch for touch in touches if touch.at > 0 and touch.at + touch.minutes <= length.low)


def _is_pulse(plain: str, end: int) -> bool:
    return bool(re.match(r" (?:at a time|bursts?|blasts?|pulses?)", plain[end:]))


def _every(minutes: int, length: int, does: str) -> list[Touch]:
    count = (length - 1) // minutes
    return [Touch(minutes * at, 1, does) for at in range(1, count + 1)] if 0 < count <= _MOST_TOUCHES else []


def _doing(plain: str, at: int) -> str:
    """Return the words that stand before "every 20 minutes": "basting"."""
    words = re.sub(
        r"(?:,? ?\b(?:every|each|for|in|after|the|last|final|first|about|of|during|once)\b)+ ?$",
        "",
        plain[:at].rstrip() + " ",
    )
    met = _BEFORE_TOUCH.search(words.strip(" ,"))
    return met["does"].strip()[:60] if met else "see to it"


def _attention(
    plain: str, verb: str, kind: StationKind | None, length: Span | None, touched: bool
) -> Attention:
    if _CONSTANT.search(plain):
        return Attention.HANDS_ON
    if touched or (_NOW_AND_THEN.search(plain) and (length is not None or verb in ALONE)):
        return Attention.TENDED
    if verb in ALONE or _LEFT.match(plain) or (length is not None and kind in COLD):
        return Attention.HANDS_OFF
    looked_after = kind in (StationKind.OVEN, StationKind.SMOKER, StationKind.FREEZER)
    if length is not None and (looked_after or _UNWATCHED.search(plain)):
        return Attention.HANDS_OFF
    return Attention.HANDS_ON


def _outermost(founds: tuple[Found, ...]) -> list[Found]:
    """Return the phrases that no longer phrase holds, last first."""
    kept: list[Found] = []
    for found in sorted(founds, key=lambda each: (each.start, -each.end)):
        if not kept or found.end > kept[-1].end:
            kept.append(found)
    return kept[::-1]


def _does(text: str, start: int, end: int, founds: tuple[Found, ...]) -> str:
    """Return the words without lengths, temperatures and cues; all of them where too few are left."""
    words = text[start:end]
    for found in _outermost(tuple(each for each in founds if each.kind != Kind.PLACE)):
        kind = (
            Kind.DURATION
            if found.kind in (Kind.DURATION, Kind.LEAST, Kind.MOST, Kind.PER_SIDE)
            else found.kind
        )
        cut = _BEFORE.get(Kind(kind))
        at, to = found.start - start, found.end - start
        if cut is None or to > len(words):
            continue
        opened = cut.search(words[:at].lower())
        tail = _TAIL.match(words[to:])
        words = words[: opened.start() if opened else at] + words[to + (tail.end() if tail else 0) :]
    words = re.sub(r" +", " ", re.sub(r" +(?=[,.;])|\(\s*\)|(?<=,),", "", words))
    words = re.sub(r"(?:,| and| or| for| until| at| to)+$", "", words.strip(" ,;.-")).strip(" ,;.-")
    words = words if len(words) >= 3 else text[start:end].strip(" ,;.")
    first, _, rest = words.partition(" ")
    words = f"{imperative(first)} {rest}".strip() if first.endswith("ing") else words
    return words[:1].upper() + words[1:]
