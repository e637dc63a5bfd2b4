"""What a step does to its food: as told, else from its place, its heat, its doneness and its first word."""

from __future__ import annotations

import re
from dataclasses import dataclass

from core.measures.heat import celsius_of
from core.plan.food import Effect
from core.plan.ids import StationId
from core.plan.kitchen import StationKind
from core.plan.meaning import way_of
from core.plan.plan import Plan
from core.plan.step import Step
from core.timetable.timetable import Placed

WARM = 57
"""°C below which a step at a burner only warms: the cold side of hot holding (Food Code 3-501.16)."""
_WORD = re.compile(r"[a-z]+(?:-[a-z]+)?")
_CELSIUS = re.compile(r"(?<![\d-])(\d{1,3}) ?°? ?([CF])\b")
_HEATED = frozenset({StationKind.OVEN, StationKind.GRILL, StationKind.BURNER, StationKind.SMOKER})
_COLD = frozenset({StationKind.FRIDGE, StationKind.COLD_COUNTER})
_HELD = frozenset({StationKind.WARM_DRAWER, StationKind.HOT_BOX})
_FIRST: dict[str, Effect] = {
    **dict.fromkeys(("thaw", "defrost"), Effect.THAW),
    **dict.fromkeys(("marinate", "brine", "dry-brine", "souse"), Effect.MARINATE),
    "cure": Effect.CURE,
    **dict.fromkeys(("culture", "ferment", "proof", "prove", "rise", "sour", "ripen"), Effect.FERMENT),
    "freeze": Effect.FREEZE,
    **dict.fromkeys(("reheat", "re-heat", "rewarm", "re-warm"), Effect.REHEAT),
    **dict.fromkeys(("hold", "keep"), Effect.HOLD),
    **dict.fromkeys(("cool", "chill", "shock", "refresh", "ice"), Effect.COOL),
    **dict.fromkeys(("wash", "wipe", "scrub", "clean", "sanitise", "sanitize", "disinfect"), Effect.CLEAN),
}
_BEFORE = frozenset({"first", "second", "final", "bulk", "cold", "long", "slow", "then"})
"""Words that may stand before the one that says what is done."""
_REST = frozenset({"rest", "stand", "tent", "cool"})


@dataclass(frozen=True, slots=True)
class Done:
    """What a step does; `target`: °C that its food is brought to where that is told; where it stands."""

    effect: Effect
    target: int | None = None
    core: int | None = None
    rest: int | None = None
    kinds: frozenset[StationKind] = frozenset()
    station: StationId | None = None
    rests: bool = False


def done_by(plan: Plan, step: Step, placed: Placed | None) -> Done:
    """Return what a step does to its food in the way in which it is placed."""
    _length, uses = way_of(plan, step, placed.way if placed is not None else None)
    kinds = frozenset(use.kind for use in uses)
    station = placed.spots[0].station if placed is not None and placed.spots else None
    words = _WORD.findall(step.does.casefold())
    first = next((word for word in words if word not in _BEFORE), "")
    core = step.doneness.core if step.doneness is not None else None
    rest = step.doneness.rest if step.doneness is not None else None
    target = core if core is not None else _told(step)
    return Done(
        _effect(step, kinds, first, target, words), target, core, rest, kinds, station, first in _REST
    )


def _effect(
    step: Step, kinds: frozenset[StationKind], first: str, target: int | None, words: list[str]
) -> Effect:
    if step.food is not None and step.food.effect is not None:
        return step.food.effect
    named = _FIRST.get(first)
    if StationKind.FREEZER in kinds:
        return Effect.FREEZE
    if kinds & _COLD:
        return named if named in (Effect.THAW, Effect.MARINATE, Effect.CURE) else Effect.CHILL
    if kinds & _HELD:
        return Effect.HOLD
    if kinds & _HEATED:
        if named in (Effect.HOLD, Effect.REHEAT):
            return named
        return (
            Effect.PREPARE
            if StationKind.BURNER in kinds and target is not None and target < WARM
            else Effect.COOK
        )
    if named is Effect.THAW and "water" in words:
        return Effect.THAW_IN_WATER
    if named is Effect.COOL:
        return Effect.COOL_IN_ICE if {"ice", "iced"} & set(words) else Effect.COOL
    if named is not None:
        return named
    return Effect.COOK if step.doneness is not None and (step.doneness.core or 0) >= WARM else Effect.PREPARE


def _told(step: Step) -> int | None:
    """Return the highest °C, up to 100, that the words of a step name for its food."""
    text = step.does + (f" {step.doneness.cue}" if step.doneness is not None else "")
    found = [
        round(celsius_of(int(number))) if scale == "F" else int(number)
        for number, scale in _CELSIUS.findall(text)
    ]
    return max((each for each in found if each <= 100), default=None)
