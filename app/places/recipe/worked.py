"""A recipe while the cook works on it: its text, and the lines read of it and corrected since. Values only."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from core.intake.draft import Draft, dish_of, draft_of, without_length
from core.intake.pages.pieces import RecipeText
from core.measures.heat import parse_heat_range
from core.measures.refusal import Refusal, quoted
from core.plan.ids import DishId, StepId
from core.plan.kitchen import Kitchen
from core.plan.menu import Dish, Link
from core.plan.step import Span, Step, Use
from core.reading.line import read_line, with_chip
from core.reading.line_names import Names
from core.reading.line_value import Line, LineWait, Says
from core.reading.line_write import write_line

MOST_ROWS = 200
"""Steps, and ingredients, of the longest recipe that is worked on."""
GUESS = Span(5, 10, 20)
"""Minutes that stand for a length nobody told, where the cook asks for it."""
_ANY = Span.of(1)
_UNTIL = re.compile(r"\A(?:(?:until|till|til)\b *)+", re.IGNORECASE)
_TRAIL = re.compile(r"(?:[,;:]? +(?:approx\.?|about|approximately|for)|\s*[(\[]\s*[)\]]?)+\Z", re.IGNORECASE)
_LEAD = re.compile(r"\A(?:(?:meanwhile|then|next|finally|now|afterwards?|at last)\b,? *)+(?=\w)", re.IGNORECASE)


class Reader:
    """Reads lines with the names of a kitchen, each only once."""

    def __init__(self, kitchen: Kitchen) -> None:
        self.names = Names.of_kitchen(kitchen)
        self._read: dict[str, Line] = {}

    def line(self, text: str) -> Line:
        """Return what a line says."""
        if text not in self._read:
            self._read[text] = read_line(text, self.names)
        return self._read[text]

    def written(self, values: Mapping[str, object], wait: LineWait | None = None) -> str:
        """Return the line of a step's values; without a length where there is none."""
        fields = {"does": "", **values}
        fields.setdefault("length", _ANY)
        here, below = StepId("x.here"), StepId("x.below")
        link = None if wait is None else wait.link(here, below)
        text = write_line(Step(id=here, **fields), link, self.names)  # type: ignore[arg-type]
        chip = next((each for each in self.line(text).chips if each.kind is Says.LENGTH), None)
        if chip is None:
            return text
        if "length" not in values:
            return with_chip(text, chip, "")
        parted = f"{text[: chip.start].rstrip(' ,')}, {text[chip.start :]}"
        return parted if _same(self.line(parted), self.line(text)) else text


def _same(one: Line, other: Line) -> bool:
    return (one.step_values, one.wait, one.faults) == (other.step_values, other.wait, other.faults)


@dataclass(frozen=True, slots=True)
class Row:
    """A step as a line. `start` and `end` are where its words stand in the text, `steps` the numbers in the draft.

    `after` are the keys of the rows that it follows. `guess`: the cook takes it without knowing its length.
    """

    key: int
    line: str
    start: int
    end: int
    steps: tuple[int, ...] = ()
    after: tuple[int, ...] = ()
    out: bool = False
    understood: bool = False
    guess: bool = False


@dataclass(frozen=True, slots=True)
class Thing:
    """An ingredient as a line; `number` is the draft's, `step` the key of the row that it goes into."""

    number: int
    line: str
    step: int | None = None
    out: bool = False
    understood: bool = False


@dataclass(frozen=True)
class Worked:
    """One recipe with all that the cook did to it. `settled` are the numbers of the draft's questions put aside."""

    recipe: RecipeText
    system: str
    name: str
    servings: int | None
    rows: tuple[Row, ...] = ()
    things: tuple[Thing, ...] = ()
    settled: frozenset[int] = frozenset()
    read: Draft | None = field(default=None, compare=False)

    @cached_property
    def draft(self) -> Draft:
        """Return what was read of the text at first."""
        return self.read or draft_of(self.recipe, self.system)

    def row(self, key: int) -> Row:
        """Return a row by its key."""
        return next(each for each in self.rows if each.key == key)

    def row_of_step(self, number: int) -> Row | None:
        """Return the row that a step of the draft became; None where it is left out."""
        return next((each for each in self.rows if number in each.steps and not each.out), None)


def begun(recipe: RecipeText, reader: Reader, system: str = "us") -> Worked:
    """Return a recipe as it was read; refuse one that is longer than any cook would work through."""
    draft = draft_of(recipe, system)
    for count, what in ((len(draft.steps), "steps"), (len(draft.ingredients), "ingredients")):
        if count > MOST_ROWS:
            raise Refusal(
                f"{quoted(draft.name)} has {count} {what}, more than {MOST_ROWS}; that is more than one recipe. "
                "Copy the words of a single recipe and paste them."
            )
    missing = without_length(draft, {})
    dish, links = dish_of(draft, DishId("x"), dict.fromkeys(missing, _ANY))
    lines = (_line(dish, links, number, reader, number in missing) for number in range(len(draft.steps)))
    rows = tuple(
        Row(number, line, *draft.place_of(number), (number,), draft.steps[number].after)
        for number, line in enumerate(lines)
    )
    things = tuple(
        Thing(number, draft.words(each.start, each.end), each.step) for number, each in enumerate(draft.ingredients)
    )
    return Worked(recipe, system, draft.name, draft.servings, rows, things, read=draft)


def _line(dish: Dish, links: tuple[Link, ...], number: int, reader: Reader, untimed: bool) -> str:
    """Return the line of a step as it was read."""
    step = dish.steps[number]
    link = next((each for each in links if each.before == step.id), None)
    values = {
        name: getattr(step, name)
        for name in ("does", "length", "attention", "touches", "doneness", "keeps")
        if not (untimed and name == "length")
    }
    values["does"] = _TRAIL.sub("", _LEAD.sub("", step.does)) or step.does
    values["does"] = values["does"][:1].upper() + values["does"][1:]
    if step.doneness is not None:
        cue = _UNTIL.sub("", step.doneness.cue)
        values["doneness"] = replace(step.doneness, cue=cue or step.doneness.cue)
    values["uses"] = tuple(_with_range(each) for each in step.uses)
    return reader.written(values, None if link is None else LineWait(link.least, link.most, link.wait))


def _with_range(use: Use) -> Use:
    """Return a use with the usual range around a lone setting: what a line means that tells only the setting."""
    if use.heat is None or use.heat.low != use.heat.high:
        return use
    low, setting, high = parse_heat_range(f"{use.heat.setting}C")
    return replace(use, heat=replace(use.heat, setting=setting, low=low, high=high))
