"""Walks: between a cook's hands in two places of the house lies the way from one to the other."""

from __future__ import annotations

from collections.abc import Iterator

from core.plan.ids import CookId
from core.timetable import sentences_walk as sentences
from core.timetable.clash import Clash, ClashKind
from core.timetable.duties import Duty, duty_name
from core.timetable.facts import Facts
from core.timetable.sweep import Held


def walk_clashes(facts: Facts, cook: CookId, held: list[Held[Duty]]) -> Iterator[Clash]:
    """Find any two hands of a cook, one done before the other begins, with less than the walk between them.

    Work in no place does not shorten the way; hands that overlap are told as two things at once.
    """
    if not facts.walk or len(held) < 2:
        return
    recent: list[Held[Duty]] = []
    for each in sorted(held, key=_rank):
        if each.what.place is None:
            continue
        recent = [other for other in recent if other.end + facts.walk > each.start]
        for other in recent:
            if other.end <= each.start and other.what.place != each.what.place:
                yield _missed(facts, cook, other, each)
        recent.append(each)


def _missed(facts: Facts, cook: CookId, one: Held[Duty], other: Held[Duty]) -> Clash:
    there = other.start - one.end
    names = (duty_name(facts, one.what), duty_name(facts, other.what))
    places = (one.what.place or "", other.what.place or "")
    sentence = sentences.no_walk(facts, cook, names, places, (one.end, other.start))
    steps = tuple(dict.fromkeys((*one.what.steps, *other.what.steps)))
    stretch = (other.start, one.end + facts.walk)
    return Clash(ClashKind.NO_WALK, sentence, *stretch, steps, cooks=(cook,), by=facts.walk - there)


def _rank(held: Held[Duty]) -> tuple[object, ...]:
    duty = held.what
    return held.start, held.end, duty.steps, duty.load, duty.does, duty.station or ""
