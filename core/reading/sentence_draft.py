"""What a recipe's sentences come to: draft steps, each value with the phrase it was read from. Minutes, whole °C."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.kitchen import StationKind
from core.plan.step import Attention, Holding, Loads, Span, Touch
from core.reading.phrases import Found, Warmth


@dataclass(frozen=True, slots=True)
class Origin:
    """Which field of a draft step was read from which phrase of which sentence."""

    field: str
    sentence: int
    found: Found


@dataclass(frozen=True, slots=True)
class DraftWait:
    """How long food waits after a step before the next, in minutes (`most` None: not told), how and where."""

    least: int = 0
    most: int | None = None
    how: Holding = Holding.COUNTER
    kind: StationKind | None = None


@dataclass(frozen=True, slots=True)
class DraftStep:
    """A step as the sentences tell it. What they do not tell is None or empty: nothing is invented.

    `text` are its words, `source` their place as (sentence, start, end) half-open, `does` the words without
    lengths, temperatures and cues. `after` are the places in the list of the steps it follows; two of them meet
    after a "meanwhile". `wait` lies before the step that follows; on a last step it tells how long the dish keeps.
    `loads`: so many pieces, so many at a time, each load as long as `length`.
    `core` is a temperature to be reached in the food, in °C. `founds` are the phrases of its own sentence.
    """

    text: str
    source: tuple[int, int, int]
    does: str
    length: Span | None = None
    attention: Attention = Attention.HANDS_ON
    kind: StationKind | None = None
    heat: Warmth | None = None
    core: int | None = None
    doneness: str = ""
    touches: tuple[Touch, ...] = ()
    wait: DraftWait | None = None
    after: tuple[int, ...] = ()
    loads: Loads | None = None
    founds: tuple[Found, ...] = ()
    origins: tuple[Origin, ...] = ()

    def origin(self, field: str) -> Origin | None:
        """Return where the value of a field was read, None where no phrase tells it."""
        return next((each for each in self.origins if each.field == field), None)
