"""A recipe as a draft: what was read of its text, each value with its place there, and what is left open."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.plan.step import Span
from core.reading.ingredient import IngredientLine
from core.reading.sentence import DraftStep


class Open(StrEnum):
    """What a question is about."""

    LENGTH = "how long a step takes"
    SERVINGS = "how many it serves"
    AMOUNT = "an amount"
    ITEM = "what an ingredient is"
    TIMES = "the times of the page"
    ORDER = "what follows what"
    NAME = "what the dish is called"
    PAGE = "the page itself"
    TOUCHES = "how often a step is seen to"


@dataclass(frozen=True, slots=True)
class Question:
    """Something the cook should say or look at: a sentence, and the place in the draft's text that it is about.

    `step` or `ingredient` is the number of the one concerned. `must`: no dish is made before it is answered.
    """

    about: Open
    sentence: str
    start: int = 0
    end: int = 0
    step: int | None = None
    ingredient: int | None = None
    must: bool = False


@dataclass(frozen=True, slots=True)
class Origin:
    """Where in the draft's text the words of a value stand: `what` of a step's, an ingredient's or the dish's."""

    what: str
    start: int
    end: int
    step: int | None = None
    ingredient: int | None = None


@dataclass(frozen=True, slots=True)
class DraftIngredient:
    """An ingredient line with its place in the text; `step` is the number of the step that names it (None: none)."""

    line: IngredientLine
    start: int
    end: int
    section: str = ""
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """Times that the page tells, in minutes (None: not told)."""

    preparing: int | None = None
    cooking: int | None = None
    in_all: int | None = None

    @property
    def total(self) -> int | None:
        """Return the whole time that is told: in all, else the parts together."""
        if self.in_all is not None:
            return self.in_all
        parts = [each for each in (self.preparing, self.cooking) if each is not None]
        return sum(parts) if parts else None


@dataclass(frozen=True, slots=True)
class Draft:
    """A recipe read from `text`. Nothing here is invented: what the text does not tell is None or a question.

    `yields`: what it makes in the page's words; `servings`: the number in them. `sentences`: where the method's
    sentences stand in the text, to whose numbers the steps refer. `sections`: the heading over each step.
    """

    name: str
    text: str
    yields: str = ""
    servings: int | None = None
    told: Told = Told()
    ingredients: tuple[DraftIngredient, ...] = ()
    steps: tuple[DraftStep, ...] = ()
    sections: tuple[str, ...] = ()
    sentences: tuple[tuple[int, int], ...] = ()
    questions: tuple[Question, ...] = ()
    origins: tuple[Origin, ...] = ()

    def words(self, start: int, end: int) -> str:
        """Return what stands at a place of the text, on one line."""
        return " ".join(self.text[start:end].split())

    def place_of(self, step: int) -> tuple[int, int]:
        """Return where the words of a step stand in the text."""
        sentence, start, end = self.steps[step].source
        first = self.sentences[sentence][0]
        return first + start, first + end

    def step_sum(self) -> Span:
        """Return the lengths that steps tell, added: minutes one after the other, loads and waits apart."""
        spans = [each.length for each in self.steps if each.length is not None]
        return Span(*(sum(getattr(each, name) for each in spans) for name in ("low", "likely", "high")))
