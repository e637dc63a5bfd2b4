"""One draft step from the clauses that tell it."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from core.plan.kitchen import COLD, HEATED, StationKind
from core.plan.step import Attention, Holding, Loads, Span, Touch
from core.reading.phrases import Found, Kind, Warmth
from core.reading.phrases_text import AMOUNT, amount, even
from core.reading.sentence_clauses import Clause, span_of
from core.reading.sentence_draft import DraftStep, DraftWait, Origin
from core.reading.sentence_verbs import ALONE, COOKS, imperative
from core.reading.verbs import MOST_VISITS, often, stands_beside, words

Take = Callable[[str, Found | None], Found | None]
"""Notes which phrase a field was read from."""

_LEAD = 80  # signs before a phrase in which the words that lead up to it stand
_NIGHTS = ("overnight", "over night", "over-night")
_SHORTEST_NIGHT = 6 * 60
_LONGER_STAY = 4 * 60  # "2 hours or overnight": a second length so much longer is how long it may stay
_CONSTANT = re.compile(
    r"\bstirring (?:constantly|continuously|all the (?:time|while)|often|frequently|briskly|well)|"
    r"\bkeep stirring\b|, stirring(?=,| for|$)|\bwhisking\b"
)
_NOW_AND_THEN = re.compile(
    r"\b(?:occasionally|(?:every )?now and (?:then|again)|from time to time|once or twice|periodically|"
    r"every so often)\b"
)
_TURNED = re.compile(r"\b(?:turning|flipping|turn|flip|rotating|shaking|stirring|basting|swapping)\b[^.;,]*")
_HALFWAY = re.compile(
    r"\b(?:half[- ]?way(?: through)?(?! up| down)|turning (?:them |it |the \w+ )?once|flipping (?:them |it )?once)\b"
)
_LONG_TO_STIR = 10  # minutes; what is stirred now and then and takes less is stood beside
_WATCHED = re.compile(r"\breduc(?:e|ed|ing)\b|\brapidly\b|\bhard\b")
_FRIES_ON = words("cook fry brown soften sizzle caramelise caramelize bubble toast reduce")
_INSIDE = re.compile(r"\binside\b|\bin there\b|\bin the (?:same|residual)\b")
_PAN = re.compile(r"pan\b|skillet|wok|stockpot|dutch oven|griddle")
_COLD_WORK = words("combine mix whisk beat spread press pour squeeze slice put place arrange layer lay cut")
_SYRUP = 100  # °C; what boils hotter is sugar
_BATCHES = re.compile(
    rf"\bin (?P<many>{AMOUNT}) (?:batch|lot|load|round)(?:es|s)(?: of (?:about )?(?P<each>{AMOUNT})(?![a-z]))?"
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
        r"(?:,? ?\b(?:for|in|(?<!all )over|about|around|roughly|approximately|another|a further|at least|up to|or|"
        r"preferably|"
        r"ideally|of|the|then|more|a|an|to|give it|additional)\b)*,? ?"
    ),
    Kind.TEMPERATURE: r"(?:,? ?\b(?:at|to|in|in an?|set to|of|about|around|reads?|reach(?:es)?)\b)* ?",
    Kind.CUE: r",? ?(?:\bor\b ?)?",
}
_BEFORE = {kind: re.compile(f"(?:{words})$") for kind, words in _CUT_OUT.items()}
_TAIL = re.compile(
    r"^(?:'| (?:more|longer|or so|in total|altogether|(?:(?:on|per) )?(?:each|a|per|every|both|"
    r"either) (?:side|batch|lot|load)(?:e?s)?)\b| oven\b|\))*"
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
    if length is not None and not touches and (seldom := _often(text, plain, start, length)):
        take("touches", seldom)
        assert isinstance(seldom.value, int)
        touches = tuple(_every(seldom.value, length.low, _doing(plain, seldom.start - start)))
    led = _led(origins)
    return DraftStep(
        text=text[start:end],
        source=(sentence, start, end),
        does=before.does if before is not None and plain[0].isdigit() else _does(text, start, end, founds),
        length=length,
        attention=Attention.HANDS_OFF if led else _attention(plain, verb, kind, length, bool(touches), core),
        kind=kind,
        heat=heat.value if heat is not None and isinstance(heat.value, Warmth) else None,
        core=core.value.celsius if core is not None and isinstance(core.value, Warmth) else None,
        doneness=cue.text if cue is not None else "",
        touches=touches,
        wait=_stay(founds, kind, take),
        loads=_loads(text, plain, start, take) if length is not None else None,
        founds=founds,
        origins=tuple(origins),
    )


def _led(origins: list[Origin]) -> bool:
    """Tell whether the length is how long before the next work it is done: "take it out an hour before"."""
    return any(each.field == "length" and each.found.kind == Kind.BEFORE for each in origins)


def _kind(
    group: Sequence[Clause], founds: tuple[Found, ...], before: DraftStep | None, take: Take
) -> StationKind | None:
    inside = any(each.verb in ("leave", "keep", "cool") and _INSIDE.search(each.words) for each in group)
    if inside and before is not None and before.kind in HEATED:
        return before.kind
    timed = [clause for clause in group if clause.is_timed and clause.place] or [
        each for each in group if each.place and not _in_a_cold_pan(each)
    ]
    if timed:
        clause = timed[-1]
        found = next(each for each in clause.of(Kind.PLACE) if each.value is clause.place)
        take("kind", found)
        return clause.place
    if _heat(founds) is not None and _celsius(_heat(founds)) >= 90:
        return StationKind.OVEN
    if before is None or before.kind in (*COLD, StationKind.ROOM, None):
        return None
    on_the_hob = before.kind is StationKind.BURNER
    return before.kind if any(_goes_on(each) or (on_the_hob and _cooks_on(each)) for each in group) else None


def _goes_on(clause: Clause) -> bool:
    """Tell whether it is more of the work before: "cook for a further 10 minutes", "20 minutes at 180"."""
    if not (clause.is_timed or clause.of(Kind.CUE)):
        return False
    return clause.plain[clause.start].isdigit() or (
        clause.verb in COOKS and _NO_OBJECT.match(clause.words) is not None
    )


def _cooks_on(clause: Clause) -> bool:
    """Tell whether timed work, of something else too, goes on over the fire: "cook the leeks for 10 minutes"."""
    long = bool(clause.of(Kind.DURATION, Kind.LEAST, Kind.PER_SIDE))
    return (long and clause.verb in COOKS) or (
        (long or bool(clause.of(Kind.CUE))) and clause.verb in _FRIES_ON
    )


def _in_a_cold_pan(clause: Clause) -> bool:
    """Tell whether work only happens in a pan, with no word of heat: "spread the batter in the pan"."""
    places = clause.of(Kind.PLACE)
    return clause.verb in _COLD_WORK and all(_PAN.search(even(each.text)) for each in places)


def _celsius(found: Found | None) -> int:
    return found.value.celsius if found is not None and isinstance(found.value, Warmth) else 0


def _heat(founds: tuple[Found, ...]) -> Found | None:
    met = [each for each in founds if isinstance(each.value, Warmth) and not each.value.core]
    return met[-1] if met else None


def _length(founds: tuple[Found, ...], verb: str, take: Take) -> Span | None:
    """Return the first length that is told; a rate per weight tells none."""
    if any(found.kind == Kind.PER_WEIGHT for found in founds):
        return None
    told = founds
    nights = [each for each in founds if each.kind == Kind.DURATION and even(each.text) in _NIGHTS]
    hours = [each for each in founds if each.kind == Kind.DURATION and each not in nights]
    if nights and hours and span_of(hours[0]).low >= _SHORTEST_NIGHT and nights[0].end + 4 > hours[0].start:
        told = tuple(each for each in founds if each not in nights)  # "overnight, 8-10 hours" takes the hours
    for found in told:
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


def _often(text: str, plain: str, start: int, length: Span) -> Found | None:
    """Return "now and then" as so many minutes, None where it is not said or the length is short."""
    met = _NOW_AND_THEN.search(plain)
    if met is None or length.likely < _LONG_TO_STIR:
        return None
    minutes = length.likely // 2 if met[0] == "once or twice" else often(length)
    at, to = start + met.start(), start + met.end()
    return Found(Kind.OFTEN, text[at:to], at, to, minutes)


def _loads(text: str, plain: str, start: int, take: Take) -> Loads | None:
    """Return "in 4 batches of six" as loads; batches without pieces are pieces of their own."""
    met = _BATCHES.search(plain)
    if met is None:
        return None
    many, each = (amount(met[name]) if met[name] else None for name in ("many", "each"))
    if many is None or many.denominator != 1 or many < 2 or (each is not None and each.denominator != 1):
        return None
    at, to = start + met.start(), start + met.end()
    per = int(each or 1)
    found = Loads(int(many) * per, per)
    take("loads", Found(Kind.BATCHES, text[at:to], at, to, found))
    return found


def _is_pulse(plain: str, end: int) -> bool:
    return bool(re.match(r" (?:at a time|bursts?|blasts?|pulses?)", plain[end:]))


def _every(minutes: int, length: int, does: str) -> list[Touch]:
    count = (length - 1) // minutes
    return [Touch(minutes * at, 1, does) for at in range(1, count + 1)] if 0 < count <= MOST_VISITS else []


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
    plain: str, verb: str, kind: StationKind | None, length: Span | None, touched: bool, core: Found | None
) -> Attention:
    if _CONSTANT.search(plain) or _is_watched(plain, verb, length, core):
        return Attention.HANDS_ON
    seldom = _NOW_AND_THEN.search(plain)
    if touched or (seldom and length is None and verb in ALONE):
        return Attention.TENDED
    if seldom and length is not None:
        return Attention.HANDS_ON
    if verb in ALONE or _LEFT.match(plain) or (length is not None and kind in COLD):
        return Attention.HANDS_OFF
    looked_after = kind in (StationKind.OVEN, StationKind.SMOKER, StationKind.FREEZER)
    if length is not None and (looked_after or _UNWATCHED.search(plain)):
        return Attention.HANDS_OFF
    return Attention.HANDS_ON


def _is_watched(plain: str, verb: str, length: Span | None, core: Found | None) -> bool:
    """Tell whether a cook stands beside it: hot fat, sugar on the boil, liquid that boils away."""
    if stands_beside(verb, length):
        return True
    return verb == "boil" and (_celsius(core) > _SYRUP or _WATCHED.search(plain) is not None)


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
        near = max(at - _LEAD, 0)
        opened = cut.search(words[near:at].lower())
        tail = _TAIL.match(words[to:])
        words = words[: near + opened.start() if opened else at] + words[to + (tail.end() if tail else 0) :]
    words = re.sub(r" +", " ", re.sub(r" +(?=[,.;])|\(\s*\)|(?<=,),", "", words))
    words = re.sub(r"(?:,| and| or| for| until| at| to)+$", "", words.strip(" ,;.-")).strip(" ,;.-")
    words = words if len(words) >= 3 else text[start:end].strip(" ,;.")
    first, _, rest = words.partition(" ")
    words = f"{imperative(first)} {rest}".strip() if first.endswith("ing") else words
    return words[:1].upper() + words[1:]
