"""What a step does to its food: as told, else from its place, its heat, its doneness and its first word.

An oven or smoker set below what holds food hot cooks nothing unless a core temperature is told; to keep or hold food
where nothing heats is no holding hot.
"""

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
_OVENS = frozenset({StationKind.OVEN, StationKind.SMOKER})
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
_KEPT_COLD = frozenset({"fridge", "refrigerator", "refrigerated", "cold", "chilled"})
_KEPT_HOT = frozenset({"hot", "warm"})
_REST = frozenset({"rest", "stand", "tent", "cool"})


@dataclass(frozen=True, slots=True)
class Done:
    """What a step does; `target`: °C that its food is brought to where that is told; where it stands.

    `rubbed`: with dry salt, so that nothing is left over of what it lay in.
    """

    effect: Effect
    target: int | None = None
    core: int | None = None
    rest: int | None = None
    kinds: frozenset[StationKind] = frozenset()
    station: StationId | None = None
    rests: bool = False
    rubbed: bool = False


def done_by(plan: Plan, step: Step, placed: Placed | None) -> Done:
    """Return what a step does to its food in the way in which it is placed."""
    _length, uses = way_of(plan, step, placed.way if placed is not None else None)
    kinds = frozenset(use.kind for use in uses)
    station = placed.spots[0].station if placed is not None and placed.spots else None
    words = _WORD.findall(step.does.casefold())
    first = _first(words)
    core = step.doneness.core if step.doneness is not None else None
    rest = step.doneness.rest if step.doneness is not None else None
    target = core if core is not None else _told(step)
    setting = placed.setting if placed is not None else None
    if setting is None:
        setting = next((use.heat.setting for use in uses if use.heat is not None), None)
    lukewarm = bool(kinds & _OVENS) and setting is not None and setting < WARM and core is None
    effect = _effect(step, kinds, words, target, lukewarm)
    return Done(effect, target, core, rest, kinds, station, first in _REST, first == "dry-brine")


def _effect(
    step: Step, kinds: frozenset[StationKind], words: list[str], target: int | None, lukewarm: bool
) -> Effect:
    if step.food is not None and step.food.effect is not None:
        return step.food.effect
    named = _FIRST.get(_first(words))
    if StationKind.FREEZER in kinds:
        return Effect.FREEZE
    if kinds & _COLD:
        return named if named in (Effect.THAW, Effect.MARINATE, Effect.CURE) else Effect.CHILL
    if kinds & _HELD:
        return Effect.HOLD
    if kinds & _HEATED:
        lukewarm = lukewarm or (StationKind.BURNER in kinds and target is not None and target < WARM)
        return _heated(named, lukewarm)
    if named is Effect.THAW and "water" in words:
        return Effect.THAW_IN_WATER
    if named is Effect.COOL:
        return Effect.COOL_IN_ICE if {"ice", "iced"} & set(words) else Effect.COOL
    if named is not None:
        return _kept(words) if named is Effect.HOLD else named
    return Effect.COOK if step.doneness is not None and (step.doneness.core or 0) >= WARM else Effect.PREPARE


def _heated(named: Effect | None, lukewarm: bool) -> Effect:
    """Return what is done over a fire or in an oven; `lukewarm`: too cool to cook."""
    if named in (Effect.HOLD, Effect.REHEAT) or (lukewarm and named is Effect.FERMENT):
        return named
    return Effect.PREPARE if lukewarm else Effect.COOK


def _first(words: list[str]) -> str:
    return next((word for word in words if word not in _BEFORE), "")


def _kept(words: list[str]) -> Effect:
    """Return how food is kept in no place of heat or cold: as its words say, else it stands in the room."""
    if "freezer" in words:
        return Effect.FREEZE
    if _KEPT_COLD & set(words):
        return Effect.CHILL
    return Effect.HOLD if _KEPT_HOT & set(words) else Effect.PREPARE


def _told(step: Step) -> int | None:
    """Return the highest °C, up to 100, that the words of a step name for its food."""
    text = step.does + (f" {step.doneness.cue}" if step.doneness is not None else "")
    found = [
        round(celsius_of(int(number))) if scale == "F" else int(number)
        for number, scale in _CELSIUS.findall(text)
    ]
    return max((each for each in found if each <= 100), default=None)
