"""Steps that belong to others: a rest between two is a wait after the first, hot fat is the beginning of what fries."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from core.plan.kitchen import StationKind
from core.plan.step import Holding, Span
from core.reading.phrases import Found, Kind
from core.reading.sentence_draft import DraftStep, DraftWait, Origin

_RESTS = re.compile(r"\b(?:rest|stand|sit)\b")
_FAT = r"(?:oils?|butter|ghee|fat|dripping|lard|margarine)"
_OPENS = re.compile(
    rf"(?:meanwhile,? |then |next,? )?(?:heat|melt|warm)(?: up)?(?: [\w½¼¾/.-]+){{0,5}}? {_FAT}\b"
    rf"(?: (?:and|with) (?:[\w½¼¾/.-]+ ){{0,4}}{_FAT}\b)?(?: (?:in|over|on|until|till)\b[^,;:]{{0,80}})?"
)


def is_opening(words: str) -> bool:
    """Tell whether even words only heat fat, as the beginning of work that follows: "heat the oil in a wide pan"."""
    return _OPENS.fullmatch(words.strip(" .!,;")) is not None


def rests_as_waits(steps: Sequence[DraftStep]) -> tuple[DraftStep, ...]:
    """Turn a rest between two steps into a wait after the first."""
    followers = _followers(steps)
    kept: list[DraftStep] = []
    place: dict[int, int] = {}
    for at, step in enumerate(steps):
        alone = len(step.after) == 1 and followers.get(step.after[0]) == [at] and followers.get(at)
        if alone and _is_rest(step) and kept[place[step.after[0]]].wait is None:
            place[at] = place[step.after[0]]
            kept[place[at]] = _with_rest(kept[place[at]], step)
            continue
        place[at] = len(kept)
        kept.append(replace(step, after=tuple(sorted({place[each] for each in step.after}))))
    return tuple(kept)


def openings_joined(steps: Sequence[DraftStep]) -> tuple[DraftStep, ...]:
    """Let a step that only heats fat be the beginning of the one right after it on the burner."""
    followers = _followers(steps)
    kept: list[DraftStep] = []
    place: dict[int, int] = {}
    for at, step in enumerate(steps):
        after = tuple(sorted({place[each] for each in step.after}))
        before = steps[at - 1] if step.after == (at - 1,) and followers.get(at - 1) == [at] else None
        if before is not None and step.kind is StationKind.BURNER and _only_opens(before):
            place[at] = place[at - 1]
            kept[place[at]] = _opened(kept[place[at]], step)
            continue
        place[at] = len(kept)
        kept.append(replace(step, after=after))
    return tuple(kept)


def _followers(steps: Sequence[DraftStep]) -> dict[int, list[int]]:
    followers: dict[int, list[int]] = {}
    for at, step in enumerate(steps):
        for before in step.after:
            followers.setdefault(before, []).append(at)
    return followers


def _only_opens(step: DraftStep) -> bool:
    told = step.length or step.core is not None or step.wait or step.touches
    return not told and step.kind is StationKind.BURNER and is_opening(step.text.casefold())


def _opened(opening: DraftStep, step: DraftStep) -> DraftStep:
    sentence, start, end = opening.source
    found = Found(Kind.OPENING, opening.text, start, end, opening.text)
    does = f"{opening.does}; {step.does[:1].lower()}{step.does[1:]}"
    origins = (*step.origins, Origin("opening", sentence, found))
    return replace(step, does=does, after=opening.after, origins=origins)


def _is_rest(step: DraftStep) -> bool:
    told = step.origin("length")
    free = (
        step.kind in (StationKind.ROOM, None) and not step.doneness and not step.touches and step.wait is None
    )
    return (
        free
        and told is not None
        and told.found.kind != Kind.BEFORE
        and bool(_RESTS.search(step.text.casefold()))
    )


def _with_rest(step: DraftStep, rest: DraftStep) -> DraftStep:
    span, told = rest.length, rest.origin("length")
    assert isinstance(span, Span)
    assert told is not None
    least, most = span.low, span.high if span.high > span.low else None
    if told.found.kind == Kind.MOST:
        least, most = 0, span.high
    wait = DraftWait(least, most, Holding.COUNTER, rest.kind)
    return replace(step, wait=wait, origins=(*step.origins, Origin("wait", told.sentence, told.found)))
