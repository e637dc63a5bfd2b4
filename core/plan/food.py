"""What is known of a food: its kind, how it comes, and what a step does to it where its words do not say so.

The kinds are those that published limits tell apart (`core.safety`). None means "not told" everywhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class FoodKind(StrEnum):
    """Kinds of food, as published limits tell them apart. Raw unless the kind says otherwise."""

    POULTRY = "poultry"
    GROUND_POULTRY = "ground poultry"
    GROUND_MEAT = "ground meat"
    CUBED_MEAT = "cubed meat"
    WHOLE_CUT = "whole cut of meat"
    FISH = "fish"
    SHELLFISH = "shellfish"
    EGGS = "eggs"
    DAIRY = "milk and cream"
    READY = "ready to eat, perishable"
    CUT_PRODUCE = "cut leaves, melon or tomatoes"
    PRODUCE = "vegetables and fruit"
    GRAIN = "rice, pasta and pulses"
    KEEPS = "keeps at room temperature"


class Arrival(StrEnum):
    """How a food is when its first step begins."""

    FRIDGE = "cold"
    FROZEN = "frozen"
    ROOM = "at room temperature"


class Effect(StrEnum):
    """What a step does to its food."""

    PREPARE = "prepare"
    COOK = "cook"
    REHEAT = "reheat"
    HOLD = "hold hot"
    COOL = "cool"
    COOL_IN_ICE = "cool in ice"
    CHILL = "chill"
    FREEZE = "freeze"
    THAW = "thaw"
    THAW_IN_WATER = "thaw in cold water"
    MARINATE = "marinate"
    CURE = "cure"
    FERMENT = "ferment"
    CLEAN = "clean"


class Container(StrEnum):
    """What a food cools in: open and shallow on all its width, or as deep as it is wide."""

    TRAY = "tray"
    POT = "pot"


@dataclass(frozen=True, slots=True)
class FoodCare:
    """What a step does to its food (None: told from its place, heat and words), and how that lies as it cools.

    `depth`: mm of food in its container, its smallest measure; 0: not told.
    """

    effect: Effect | None = None
    depth: int = 0
    container: Container | None = None
