"""The times that a page tells, and what does not agree with them."""

from __future__ import annotations

from core.intake.draft_value import Draft, Open, Question, Told
from core.intake.pages.pieces import Piece, PieceKind, RecipeText
from core.measures.minutes import parse_span, show_minutes
from core.measures.refusal import Refusal

_FIELDS = {PieceKind.PREPARING: "preparing", PieceKind.COOKING: "cooking", PieceKind.ALL_TIME: "in_all"}
_LABELS = {
    PieceKind.PREPARING: "preparing time",
    PieceKind.COOKING: "cooking time",
    PieceKind.ALL_TIME: "time in all",
}
_NEAR = 10
"""Minutes, and per cent, that times may be apart and still agree: pages round to tens."""


def told_by(recipe: RecipeText) -> tuple[Told, tuple[Question, ...], tuple[Piece, ...]]:
    """Return the times of a page, questions about those that cannot be read, and the pieces that were read."""
    found: dict[str, int] = {}
    questions: list[Question] = []
    read: list[Piece] = []
    for piece in recipe.pieces:
        field = _FIELDS.get(piece.kind)
        if field is None or field in found:
            continue
        words = recipe.words(piece)
        try:
            minutes = parse_span(words)[2]
        except Refusal as refusal:
            sentence = f"The page's {_LABELS[piece.kind]} is not taken. {refusal.text}"
            questions.append(Question(Open.TIMES, sentence, piece.start, piece.end))
            continue
        if minutes > 0:  # pages say PT0M where nobody filled it in
            found[field] = minutes
            read.append(piece)
    return Told(**found), tuple(questions), tuple(read)


def differences(draft: Draft) -> tuple[Question, ...]:
    """Return what of the page's times does not agree with the steps, or with each other."""
    told, places = draft.told, {each.what: each for each in draft.origins}
    origin = next((places[each] for each in ("in_all", "cooking", "preparing") if each in places), None)
    at = (origin.start, origin.end) if origin else (0, 0)
    sentences: list[str] = []
    parts = [each for each in (told.preparing, told.cooking) if each is not None]
    if told.in_all is not None and len(parts) == 2 and not _agree(sum(parts), told.in_all):
        sentences.append(
            f"The page's parts come to {show_minutes(sum(parts))}, its time in all is {show_minutes(told.in_all)}."
        )
    if told.total is not None and draft.steps:
        sentences += _against_steps(draft, told.total)
    return tuple(Question(Open.TIMES, each, *at) for each in sentences)


def _against_steps(draft: Draft, total: int) -> list[str]:
    likely = draft.step_sum().likely
    missing = sum(each.length is None for each in draft.steps)
    if not likely:
        return []
    in_all = (
        "tells"
        if draft.told.in_all is not None or None in (draft.told.preparing, draft.told.cooking)
        else "has times that make"
    )
    said = f"The page {in_all} {show_minutes(total)} in all; the lengths in its steps come to {show_minutes(likely)}"
    if likely > total and not _agree(likely, total):
        return [f"{said}, which is longer. Are some done at the same time?"]
    if likely < total and not missing and not _agree(likely, total):
        return [f"{said}, which is shorter. Is a step missing?"]
    if likely < total and missing:
        left = f"{show_minutes(total - likely)} would be left for the {missing} without a length"
        return [
            f"{said}; {left}."
            if missing > 1
            else f"{said}; {show_minutes(total - likely)} would be left for the one without a length."
        ]
    return []


def _agree(one: int, other: int) -> bool:
    return abs(one - other) <= max(_NEAR, max(one, other) * _NEAR // 100)
