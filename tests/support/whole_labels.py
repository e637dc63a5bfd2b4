"""Whole recipes of our own invention with labels set by hand before they were first read, and their scores.

`whole_recipes/NAME.txt` (or .html, .json) is the recipe, `NAME.label` beside it what a cook wants of it, a line each:

    name WORDS                         the dish's name
    serves NUMBER
    i QUANTITY | ITEM                  an ingredient, in order; - for no quantity
    s WORDS | LENGTH | HEAT | PLACE | HANDS | WAIT

A step is known by WORDS in its sentence. LENGTH is minutes, "30" or "least/likely/most" (? where none is told), HEAT
whole °C ("core 74": in the food or its oil), PLACE a kind of place, HANDS on, off or tended, WAIT the least minutes,
or least/most, before the next step or before serving. A rest between two steps is a wait; so is keeping.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from core.intake.draft import Draft, dish_of, drafts_in, without_length
from core.measures import parse_quantity
from core.plan.ids import DishId
from core.plan.step import Attention, Span

FOLDER = Path(__file__).parent / "whole_recipes"
_HANDS = {Attention.HANDS_ON: "on", Attention.HANDS_OFF: "off", Attention.TENDED: "tended"}
KINDS = ("length", "heat", "place", "hands", "wait")


@dataclass(frozen=True, slots=True)
class StepLabel:
    """What is wanted of a step, in the words of the label; "" where nothing is told."""

    words: str
    length: str = ""
    heat: str = ""
    place: str = ""
    hands: str = ""
    wait: str = ""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a recipe."""

    page: Path
    serves: str
    name: str
    ingredients: tuple[tuple[str, str], ...]
    steps: tuple[StepLabel, ...]


def all_wanted() -> tuple[Wanted, ...]:
    """Return the labels of all recipes."""
    return tuple(_wanted(each) for each in sorted(FOLDER.glob("*.label")))


def _wanted(label: Path) -> Wanted:
    page = next(each for each in FOLDER.glob(f"{label.stem}.*") if each.suffix != ".label")
    serves, name = "", ""
    ingredients: list[tuple[str, str]] = []
    steps: list[StepLabel] = []
    for line in label.read_text(encoding="utf-8").splitlines():
        kind, _, rest = line.partition(" ")
        fields = ["" if each.strip() in ("-", "?") else each.strip() for each in rest.split("|")]
        if kind == "serves":
            serves = rest
        elif kind == "name":
            name = rest
        elif kind == "i":
            ingredients.append((fields[0], fields[1]))
        elif kind == "s":
            steps.append(StepLabel(*fields))
    return Wanted(page, serves, name, tuple(ingredients), tuple(steps))


def read(wanted: Wanted) -> Draft:
    """Return the one draft of a recipe."""
    (found,) = drafts_in(wanted.page)
    return found


def as_labels(draft: Draft) -> tuple[StepLabel, ...]:
    """Return a draft's steps in the words of labels; what the cook looks after is that of the dish made of it."""
    lengths = dict.fromkeys(without_length(draft, {}), Span.of(10))
    dish, _links = dish_of(draft, DishId("dish"), lengths)
    found = []
    for number, (step, made) in enumerate(zip(draft.steps, dish.steps, strict=True)):
        heat = f"core {step.core}" if step.core is not None else ""
        heat = str(step.heat.celsius) if step.heat is not None else heat
        wait = ""
        if step.wait is not None:
            least, most = step.wait.least, step.wait.most
            wait = str(least or "") if most is None else f"{least}/{most}"
        words = draft.words(*draft.place_of(number)).casefold()
        place = step.kind.value if step.kind is not None else ""
        found.append(StepLabel(words, _span(step.length), heat, place, _HANDS[made.attention], wait))
    return tuple(found)


def _span(span: Span | None) -> str:
    if span is None:
        return ""
    return str(span.likely) if span.low == span.high else f"{span.low}/{span.likely}/{span.high}"


def pairs(wanted: tuple[StepLabel, ...], got: tuple[StepLabel, ...]) -> tuple[tuple[int, int], ...]:
    """Return which label is which step: in order, each once, so that most labels and then most values agree."""
    best: dict[tuple[int, int], tuple[int, tuple[tuple[int, int], ...]]] = {}
    for at in range(len(wanted), -1, -1):
        for to in range(len(got), -1, -1):
            if at == len(wanted) or to == len(got):
                best[at, to] = (0, ())
                continue
            options = [best[at + 1, to], best[at, to + 1]]
            if wanted[at].words in got[to].words:
                score, rest = best[at + 1, to + 1]
                same = sum(getattr(wanted[at], kind) == getattr(got[to], kind) for kind in KINDS)
                options.append((score + 10 + same, ((at, to), *rest)))
            best[at, to] = max(options, key=lambda each: each[0])
    return best[0, 0][1]


@dataclass
class Score:
    """Right, and told by the label or by the draft, of each kind of value; `faults` names what is not right."""

    right: Counter[str]
    told: Counter[str]
    faults: list[str]

    def share(self, kind: str) -> float:
        """Return right of told."""
        return self.right[kind] / self.told[kind]

    def note(self, kind: str, want: str, got: str, where: str) -> None:
        """Count one value."""
        if not want and not got:
            return
        self.told[kind] += 1
        self.right[kind] += want == got
        if want != got:
            self.faults.append(f"{where}: {kind} {got or 'none'}, wanted {want or 'none'}")


def score_of(wanted: tuple[Wanted, ...]) -> Score:
    """Return how much of all labels is read."""
    score = Score(Counter(), Counter(), [])
    for each in wanted:
        draft = read(each)
        _count_steps(score, each, as_labels(draft))
        _count_lines(score, each, draft)
        where = each.page.stem
        score.note("servings", each.serves, str(draft.servings or ""), where)
        score.note("name", each.name, draft.name, where)
    return score


def _count_steps(score: Score, wanted: Wanted, got: tuple[StepLabel, ...]) -> None:
    where = wanted.page.stem
    paired = pairs(wanted.steps, got)
    met = dict(paired)
    for at, label in enumerate(wanted.steps):
        score.note("step", label.words, label.words if at in met else "", where)
        for kind in KINDS:
            value = getattr(got[met[at]], kind) if at in met else ""
            score.note(kind, getattr(label, kind), value, f"{where}, {label.words}")
    for to, step in enumerate(got):
        if to not in met.values():
            score.note("step", "", step.words, where)
            for kind in ("length", "wait"):
                score.note(kind, "", getattr(step, kind), f"{where}, {step.words[:40]}")


def _count_lines(score: Score, wanted: Wanted, draft: Draft) -> None:
    lines = [each.line for each in draft.ingredients]
    for at in range(max(len(lines), len(wanted.ingredients))):
        label = wanted.ingredients[at] if at < len(wanted.ingredients) else ("", "")
        line = lines[at] if at < len(lines) else None
        amount = parse_quantity(label[0]).as_text() if label[0] else ""
        got = line.quantity.as_text() if line is not None and line.quantity is not None else ""
        score.note("amount", amount, got, f"{wanted.page.stem}, {label[1]}")
        score.note("item", label[1], line.item if line is not None else "", wanted.page.stem)
