"""From a recipe's text to a draft: lines, sentences and times are read; what they leave open becomes questions."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from core.intake.draft_names import named_by
from core.intake.draft_sentences import sentences
from core.intake.draft_times import differences, told_by
from core.intake.draft_value import Draft, DraftIngredient, Open, Origin, Question
from core.intake.draft_yield import how_unsure, servings_in
from core.intake.pages.pieces import PieceKind, RecipeText
from core.measures.minutes import show_minutes
from core.measures.refusal import quoted
from core.reading.ingredient_each import read_ingredients
from core.reading.sentence import steps_of

_LONGEST_NAME = 80
_UNNAMED = "Recipe"
_KEEPS = re.compile(
    r"(?:(?:it|this|they|these|the \w+) )?(?:keeps?|freezes?|(?:can|will|may) (?:be )?\w+)\b",
    re.IGNORECASE,
)
_SOME_BATCHES = re.compile(
    r"\bin (?:(?:small |several |a few |two or three )?batches|\w+ lots)\b"
    r"|\b(?:[0-9]+|a few|two|three|four|five|six|eight|ten|twelve)(?: \w+)? at a time\b",
    re.IGNORECASE,
)
_TIME_WORDS = {PieceKind.PREPARING: "preparing", PieceKind.COOKING: "cooking", PieceKind.ALL_TIME: "in_all"}


def draft_of(recipe: RecipeText, system: str = "us") -> Draft:
    """Return the draft of a recipe. The system (measures.unit_names.SYSTEMS) says whose cups and spoons it means."""
    told, time_questions, time_pieces = told_by(recipe)
    name, name_questions, name_origins = _name(recipe)
    yields, servings, yield_questions, yield_origins = _yields(recipe)
    spans, sections = _sentences(recipe)
    steps = steps_of([" ".join(recipe.text[start:end].split("\n")) for start, end in spans])
    draft = Draft(
        name=name,
        text=recipe.text,
        yields=yields,
        servings=servings,
        told=told,
        ingredients=tuple(_ingredients(recipe, system)),
        steps=steps,
        sections=tuple(sections[each.source[0]] for each in steps),
        sentences=spans,
    )
    draft = replace(draft, ingredients=_bound(draft))
    times = [Origin(_TIME_WORDS[each.kind], each.start, each.end) for each in time_pieces]
    draft = replace(draft, origins=(*name_origins, *yield_origins, *times, *_origins(draft)))
    remarks = [Question(Open.PAGE, each) for each in recipe.remarks]
    asked = (*remarks, *name_questions, *yield_questions, *time_questions, *differences(draft))
    return replace(draft, questions=(*asked, *_of_ingredients(draft), *_of_steps(draft)))


# ---------------------------------------------------------------- what the head of the page says


def _name(recipe: RecipeText) -> tuple[str, tuple[Question, ...], tuple[Origin, ...]]:
    titles = recipe.of(PieceKind.TITLE)
    if not titles:
        return _UNNAMED, (Question(Open.NAME, "The page does not say what the dish is called."),), ()
    words = recipe.words(titles[0])
    name = words if len(words) <= _LONGEST_NAME else words[:_LONGEST_NAME].rsplit(" ", 1)[0]
    return name, (), (Origin("name", titles[0].start, titles[0].end),)


def _yields(recipe: RecipeText) -> tuple[str, int | None, tuple[Question, ...], tuple[Origin, ...]]:
    pieces = recipe.of(PieceKind.SERVES)
    piece = min(pieces, key=lambda each: how_unsure(recipe.words(each)), default=None)  # "makes 24, serves 6"
    words = recipe.words(piece) if piece else ""
    servings, sentence = servings_in(words)
    place = (piece.start, piece.end) if piece else (0, 0)
    questions = (Question(Open.SERVINGS, sentence, *place),) if sentence else ()
    return words, servings, questions, (Origin("servings", *place),) if piece else ()


# ---------------------------------------------------------------- ingredients


def _ingredients(recipe: RecipeText, system: str) -> Iterator[DraftIngredient]:
    for piece in recipe.of(PieceKind.INGREDIENT):
        for line in read_ingredients(recipe.text[piece.start : piece.end], system):
            yield DraftIngredient(line, piece.start, piece.end, piece.section)


def _bound(draft: Draft) -> tuple[DraftIngredient, ...]:
    """Return the ingredients, each with the step that names it."""
    items = [(each.line.item, each.section) for each in draft.ingredients]
    steps = [(_words(draft, number), section) for number, section in enumerate(draft.sections)]
    numbers = named_by(items, steps)
    return tuple(replace(each, step=step) for each, step in zip(draft.ingredients, numbers, strict=True))


def _words(draft: Draft, number: int) -> str:
    """Return the words of a step, those that open it before them."""
    opening = draft.steps[number].origin("opening")
    return " ".join([*([opening.found.text] if opening else []), draft.words(*draft.place_of(number))])


# ---------------------------------------------------------------- method


def _sentences(recipe: RecipeText) -> tuple[tuple[tuple[int, int], ...], tuple[str, ...]]:
    """Return where the method's sentences stand, and notes behind it on how long it keeps; the section of each."""
    spans: list[tuple[int, int]] = []
    sections: list[str] = []
    last = max((each.end for each in recipe.of(PieceKind.METHOD)), default=0)
    for piece in recipe.pieces:
        found = list(sentences(recipe.text, piece.start, piece.end))
        if piece.kind is PieceKind.NOTE and piece.start >= last > 0:
            found = [each for each in found if _KEEPS.match(recipe.text[slice(*each)])]
        elif piece.kind is not PieceKind.METHOD:
            continue
        spans += found
        sections += [piece.section] * len(found)
    return tuple(spans), tuple(sections)


# ---------------------------------------------------------------- places of values, and questions


def _origins(draft: Draft) -> Iterator[Origin]:
    for number, each in enumerate(draft.ingredients):
        for part in each.line.spans:
            yield Origin(part.what, each.start + part.start, each.start + part.end, ingredient=number)
    for number, step in enumerate(draft.steps):
        yield Origin("step", *draft.place_of(number), step=number)
        for told in step.origins:
            first = draft.sentences[told.sentence][0]
            yield Origin(told.field, first + told.found.start, first + told.found.end, step=number)


def _of_ingredients(draft: Draft) -> Iterator[Question]:
    for number, each in enumerate(draft.ingredients):
        if not each.line.item:
            sentence = f"{quoted(draft.words(each.start, each.end))} does not say of what."
            yield Question(Open.ITEM, sentence, each.start, each.end, ingredient=number)
        for doubt in each.line.doubts:
            yield Question(Open.AMOUNT, doubt, each.start, each.end, ingredient=number)


def _of_steps(draft: Draft) -> Iterator[Question]:
    above = draft.sections[0] if draft.sections else ""
    for number, step in enumerate(draft.steps):
        start, end = draft.place_of(number)
        if draft.sections[number] != above:
            above = draft.sections[number]
            words = f"{quoted(above)} is" if above else "What comes next is"
            sentence = f"{words} taken to follow what stands above it; free it where it can be made beside."
            yield Question(Open.ORDER, sentence, start, end, step=number)
        if batches := step.origin("loads"):
            sentence = f"In {quoted(batches.found.text)} each load is taken to be as long as the step says."
            yield Question(Open.LENGTH, sentence, start, end, step=number)
        elif step.length is not None and (vague := _SOME_BATCHES.search(draft.words(start, end))):
            sentence = f"{quoted(vague[0])} does not say how many; the length is taken for one. Write the loads down."
            yield Question(Open.LENGTH, sentence, start, end, step=number)
        if often := step.origin("touches"):
            every = (
                f"every {show_minutes(often.found.value)}"
                if isinstance(often.found.value, int)
                else "at times"
            )
            sentence = f"{quoted(often.found.text)} is written down as {every}; say if it is more often."
            yield Question(Open.TOUCHES, sentence, start, end, step=number)
        if step.length is None:
            sentence = f"{quoted(step.does)} has no length in the text. How long does it take?"
            yield Question(Open.LENGTH, sentence, start, end, step=number, must=True)
