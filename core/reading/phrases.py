"""Phrases of a recipe's sentences: lengths, temperatures, places, cues; each with where it stands."""

from core.reading.phrases_cue import cues
from core.reading.phrases_heat import OVEN_WORDS, Warmth, temperatures
from core.reading.phrases_place import places
from core.reading.phrases_text import Found, Kind
from core.reading.phrases_time import OVERNIGHT, durations

__all__ = [
    "OVEN_WORDS",
    "OVERNIGHT",
    "Found",
    "Kind",
    "Warmth",
    "cues",
    "durations",
    "places",
    "temperatures",
]
