"""A sentence taken apart into clauses, each with one verb and the phrases that stand in it."""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import dataclass

from core.plan.kitchen import HEATED, StationKind
from core.plan.step import Span
from core.reading.phrases import Warmth, cues, durations, places, temperatures
from core.reading.phrases_text import Found, Kind, even
from core.reading.sentence_verbs import (
    ALONE,
    JOINS,
    MOVES,
    begins_work,
    imperative,
    lead_end,
    opens_only,
    verb_of,
)

_ADVERBS = r"(?:(?:\w+ly|now|again|finally|immediately|also) )?"
_GERUND = (
    r"(?:add|stir|pour|bak|roast|fry|grill|slic|carv|shap|turn|return|cutt|fold|whisk|fill|roll|simmer|"
    r"cook|drain|top|"
    r"glaz|divid|strain|portion|peel|chopp|mix|season)ing\b"
)
_CUT = re.compile(
    rf"(?P<stop>[.!?]+ +)|; *| - (?={JOINS})|,? (?<!now )(?:and |but )?(?<!now and )then\b,? ?(?!again\b)"
    rf"|, (?:and |but )?(?={_ADVERBS}{JOINS})| (?:and|but) (?={_ADVERBS}{JOINS})| (?=before {_GERUND})"
)
_OPENING = re.compile(r"[ ,]*(?:(?:step )?[0-9]{1,2}(?:[.):]|(?= - ))[ -]*)?[ ,*•-]*")
_THEN = re.compile(r"\bthen\b")
_REMARK = re.compile(
    r"(?:the|it|it's|they|this|these|those|you|your|note(?= ?:| that)|tips?(?= ?:)|there|that|serves|makes|a|"
    r"an|some|as|"
    r"because|"
    r"be|avoid|what|both|all|any)\b"
)
_NEVER = re.compile(
    r"(?:if|do not|don't|never|unless|try not|take care|be careful|make sure|optional|can|may|will|keeps|freezes|"
    r"leftovers|best (?:eaten|served|made|kept))\b"
)
_HOW_LONG_KEPT = re.compile(r"(?:the|this|these|it|they)(?: \w+){0,2} (?:will |should |can )?keeps?\b")
_BEFORE_DOING = re.compile(r"before (?=(\w+ing)\b)")
_MEANWHILE = re.compile(
    r"\W*(?:meanwhile|in the meantime|at the same time|while (?:the|it|they|that|this|your)\b|"
    r"during this time|as the \w+ (?:cooks?|bakes?|roasts?|simmers?|rests?))"
)
_ASIDE = re.compile(
    r"(?:set|put|lay|move) (?:\w+ ){0,2}?aside(?! to\b)|"
    r"(?:set|put|move) (?:it|them) to one side\b"
)
_OUT = re.compile(
    r"(?:lift|take|remove|scoop|transfer|move|fish)\b[^,;]{0,30}?\b"
    r"(?:out$|(?:on)?to an? (?:\w+ )?(?:plate|dish|bowl|board|tray)$)"
)
_TO_A_SETTING = re.compile(r"heat (?:it |them |this |both )?(?:up )?to [0-9]")
_RACKS = re.compile(
    r"(?:adjust|position|arrange|set|move|place|put) (?:the |an? |your |one )?(?:oven )?(?:rack|shelf|shelves)"
)
_HEATS_UP = re.compile(
    r"(?:the |your )?oven (?:to|on|at)\b|(?:.*, )?(?:preheat|pre-heat|(?:heat|set|"
    r"turn(?: on)?|get|light|fire up|prepare|have|bring|crank|"
    r"switch(?: on)?|start) "
    r"(?:up )?(?:the|your|an?|one)? ?(?:(?:over|smok|conventional |main |second )\w* )?(?:oven|grill|"
    r"smoker|barbecue|bbq|broiler|charcoal|coals|dial))\b"
)


@dataclass(frozen=True, slots=True)
class Clause:
    """A piece of sentence `start` to `end` (half-open) with its verb and phrases."""

    start: int
    end: int
    verb: str
    plain: str
    founds: tuple[Found, ...]
    meanwhile: bool = False

    @property
    def words(self) -> str:
        """Return the clause in even text, without the words before its verb."""
        return self.plain[lead_end(self.plain, self.start, self.end) : self.end]

    def of(self, *kinds: Kind) -> tuple[Found, ...]:
        """Return the phrases of some kinds, in order."""
        return tuple(found for found in self.founds if found.kind in kinds)

    @property
    def place(self) -> StationKind | None:
        """Return the first place of work that is named or implied; on a rack in the fridge is in the fridge."""
        kinds = [found.value for found in self.of(Kind.PLACE) if isinstance(found.value, StationKind)]
        cold = next((kind for kind in kinds if kind in (StationKind.FRIDGE, StationKind.FREEZER)), None)
        return cold if cold and kinds[0] is StationKind.ROOM else kinds[0] if kinds else None

    @property
    def setting(self) -> Found | None:
        """Return the last temperature that a place is set to."""
        met = [
            each
            for each in self.of(Kind.TEMPERATURE)
            if isinstance(each.value, Warmth) and not each.value.core
        ]
        return met[-1] if met else None

    @property
    def measured(self) -> Found | None:
        """Return the first temperature that is measured in the food."""
        met = (
            each for each in self.of(Kind.TEMPERATURE) if isinstance(each.value, Warmth) and each.value.core
        )
        return next(met, None)

    @property
    def is_timed(self) -> bool:
        """Tell whether it says how long, or goes on without a cook."""
        lengths = self.of(Kind.DURATION, Kind.LEAST, Kind.MOST, Kind.PER_SIDE, Kind.PER_WEIGHT, Kind.BEFORE)
        return bool(lengths) or (self.verb in ALONE)

    @property
    def heats_up(self) -> bool:
        """Tell whether it only heats a place up, or sets it to another temperature."""
        timed = self.of(Kind.DURATION, Kind.LEAST, Kind.PER_SIDE)
        if timed or self.of(Kind.CUE):
            return False
        if _HEATS_UP.match(self.words) or _RACKS.match(self.words):
            return True
        turned = self.verb in ("lower", "reduce", "raise", "increase", "turn", "drop", "set", "preheat")
        return (turned or _TO_A_SETTING.match(self.words) is not None) and self.setting is not None

    @property
    def only_moves(self) -> bool:
        """Tell whether it only puts in or takes out: a place's transfer, no step."""
        if self.verb not in MOVES or self.of(Kind.CUE, Kind.DURATION, Kind.BEFORE, Kind.AHEAD):
            return False
        named = self.place in HEATED or self.place in (StationKind.FRIDGE, StationKind.FREEZER)
        if _ASIDE.match(self.words) or _OUT.match(self.words):
            return True
        leaves = re.search(
            r"\b(?:from|out of|off) (?:the |your )?(?:\w+ )?(?:oven|heat|grill|fridge|freezer|smoker|hob|"
            r"pan)\b",
            self.words,
        )
        return named or leaves is not None


def clauses_of(text: str) -> tuple[Clause, ...]:
    """Return the clauses of a sentence in order; none for a remark that tells no work and no length."""
    plain = even(text)
    founds = sorted(
        (*durations(text), *temperatures(text), *places(text), *cues(text)), key=lambda each: each.start
    )
    held = {at for each in founds if each.kind != Kind.CUE for at in range(each.start + 1, each.end)}
    led = {each.end for each in founds if each.kind == Kind.BEFORE}
    starts = [each.start for each in founds]
    cuts = [0]
    ends = []
    for met in _CUT.finditer(plain):
        numbered = plain[cuts[-1] : met.start()].strip().isdigit()
        if met["stop"] and (numbered or not text[met.end() : met.end() + 1].isupper()):
            continue
        leads = "," in met[0] or plain.startswith("before ", met.end())
        if leads and opens_only(plain, cuts[-1], met.start()) and not _THEN.search(met[0]):
            continue
        if met.start() in led or met.start() in held:
            continue
        ends.append(met.start())
        cuts.append(met.end())
    ends.append(len(plain))
    clauses = []
    for start, end in zip(cuts, ends, strict=True):
        if _OPENING.sub("", plain[start:end]).strip(" .,;:!?"):
            inside = founds[bisect_left(starts, start) : bisect_left(starts, end)]
            clauses.append(_clause(plain, start, end, tuple(inside)))
    return tuple(clauses)


def _clause(plain: str, start: int, end: int, inside: tuple[Found, ...]) -> Clause:
    start = _OPENING.match(plain, start, end).end()  # type: ignore[union-attr]
    end = start + len(plain[start:end].rstrip(" .,;:!?"))
    meanwhile = _MEANWHILE.match(plain, start) is not None
    if meanwhile and (comma := plain.find(", ", start, end)) >= 0:
        inside = tuple(each for each in inside if each.kind != Kind.PLACE or each.start > comma)
    verb = verb_of(plain, start, end)
    if before := _BEFORE_DOING.match(plain, start, end):
        start, verb = before.end(), imperative(before[1])
    return Clause(start, end, verb, plain, inside, meanwhile)


def is_remark(clauses: tuple[Clause, ...]) -> bool:
    """Tell whether a sentence tells no work: a warning, a condition, or how something is, without a length."""
    words = clauses[0].words
    rates = any(found.kind == Kind.PER_WEIGHT for each in clauses for found in each.founds)
    if (
        _NEVER.match(words)
        or _HOW_LONG_KEPT.match(words)
        or (rates and clauses[0].verb in ("allow", "calculate", "reckon", ""))
    ):
        return True
    if not _REMARK.match(words):
        return False
    lengths = [found for each in clauses for found in each.of(Kind.DURATION, Kind.LEAST)]
    known = any(each.verb in ALONE for each in clauses)
    return not (lengths and known) and not (_after_comma(clauses))


def _after_comma(clauses: tuple[Clause, ...]) -> bool:
    """Tell whether work follows an opening such as "A day ahead, "."""
    led = clauses[0].of(Kind.AHEAD, Kind.BEFORE)
    if not led:
        return False
    words = clauses[0].plain
    comma = words.find(", ", led[0].end, clauses[0].end)
    return len(clauses) > 1 or (comma >= 0 and begins_work(words, comma + 2, clauses[0].end))


def span_of(found: Found) -> Span:
    """Return the span of a phrase that tells a length."""
    assert isinstance(found.value, Span)
    return found.value
