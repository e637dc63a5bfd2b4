"""What of a recipe is still open: what was asked when it was read, and what its lines leave out now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.places.recipe.worked import Reader, Row, Worked
from core.intake.draft import Open, Question
from core.measures.refusal import quoted
from core.reading.phrases import Kind

_LENGTHS = frozenset({Kind.DURATION, Kind.LEAST, Kind.MOST})


@dataclass(frozen=True, slots=True)
class Asked:
    """One open question: its sentence, its place in the text, and the row or ingredient that it is about.

    `number` is that of the draft's question, None for what is asked of a line. `must`: the dish waits for it.
    `lacks`: "length" or "line", what field answers it.
    """

    sentence: str
    start: int
    end: int
    row: int | None = None
    thing: int | None = None
    number: int | None = None
    must: bool = False
    lacks: str = ""


def asked(worked: Worked, reader: Reader) -> tuple[Asked, ...]:
    """Return what is open, what the dish waits for first."""
    found = [*_of_lines(worked, reader), *_unused(worked), *_of_draft(worked)]
    return tuple(sorted(found, key=lambda each: not each.must))


def untimed(worked: Worked, reader: Reader) -> tuple[int, ...]:
    """Return the keys of the rows that have no length, and none that was guessed."""
    return tuple(
        each.key
        for each in worked.rows
        if not each.out and not each.guess and "length" not in reader.line(each.line).step_values
    )


def _of_lines(worked: Worked, reader: Reader) -> Iterator[Asked]:
    bare = set(untimed(worked, reader))
    for number, row in enumerate(worked.rows, 1):
        if row.out:
            continue
        line = reader.line(row.line)
        if not line.step_values.get("does"):
            sentence = f"Step {number} does not say what is done; begin it with a verb."
            yield Asked(sentence, row.start, row.end, row.key, must=True, lacks="line")
        elif row.key in bare:
            does = quoted(str(line.step_values["does"]))
            yield Asked(f"How long does {does} take?", row.start, row.end, row.key, must=True, lacks="length")
        if not row.understood:
            for fault in line.faults:
                if line.step_values.get("does"):
                    yield Asked(f"Step {number}: {fault.sentence}", row.start, row.end, row.key, lacks="line")


def _unused(worked: Worked) -> Iterator[Asked]:
    """Ask about lengths in a step's words that became no value of it: there may be another step in them."""
    draft = worked.draft
    used = {(each.sentence, each.found.start) for step in draft.steps for each in step.origins}
    for number, step in enumerate(draft.steps):
        row = worked.row_of_step(number)
        if row is None or row.understood or len(_rows_of(worked, number)) > 1:
            continue
        sentence, start, end = step.source
        for each in step.founds:
            if each.kind in _LENGTHS and start <= each.start < end and (sentence, each.start) not in used:
                first = draft.sentences[sentence][0]
                said = f"{quoted(each.text.strip())} is not taken up. Is there a second step in it? Split it (Alt+S)."
                yield Asked(said, first + each.start, first + each.end, row.key, lacks="line")


def _rows_of(worked: Worked, number: int) -> list[Row]:
    return [each for each in worked.rows if number in each.steps]


def _of_draft(worked: Worked) -> Iterator[Asked]:
    for number, each in enumerate(worked.draft.questions):
        if each.about is Open.LENGTH or number in worked.settled or _answered(worked, each):
            continue
        row = worked.row_of_step(each.step) if each.step is not None else None
        if each.step is not None and (row is None or row.understood):
            continue
        if each.ingredient is not None:
            thing = worked.things[each.ingredient]
            first = worked.draft.ingredients[each.ingredient]
            if thing.out or thing.understood or thing.line != worked.draft.words(first.start, first.end):
                continue
        yield Asked(
            each.sentence, each.start, each.end, row.key if row else None, each.ingredient, number,
            lacks={Open.NAME: "name", Open.SERVINGS: "servings"}.get(each.about, "line"),
        )  # fmt: skip


def _answered(worked: Worked, question: Question) -> bool:
    if question.about is Open.NAME:
        return worked.name != worked.draft.name
    if question.about is Open.SERVINGS:
        return worked.servings != worked.draft.servings
    return False
