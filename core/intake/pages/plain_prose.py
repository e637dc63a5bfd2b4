"""A recipe told in running prose: "Onion gravy. Take 4 onions, 50 g butter and a pint of stock. Slice ..."."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from core.intake.draft_sentences import sentences
from core.intake.pages.pieces import Piece, PieceKind
from core.reading.ingredient import plain_of
from core.reading.ingredient_amount import amount_at
from core.reading.sentence_verbs import BEGINS

_LISTS = re.compile(
    r"(?:first,? )?(?:take|gather|have ready|(?:for (?:this|it|the \w+),? )?"
    r"you(?:'ll| will|’ll)? (?:also )?need)\b:? *",
    re.IGNORECASE,
)
_APART = re.compile(r", and |, | and |; ")
_DOES = re.compile(rf"(?:\w+ly )?{BEGINS}", re.IGNORECASE)
_LONGEST_TITLE = 60
_FEWEST = 2


def from_prose(text: str, pieces: Sequence[Piece]) -> list[Piece]:
    """Return the pieces of a recipe without a list of ingredients: sentences that list them become lines of one.

    A first sentence that tells no work is the title, where there is none.
    """
    if any(each.kind is PieceKind.INGREDIENT for each in pieces):
        return list(pieces)
    titled = any(each.kind is PieceKind.TITLE for each in pieces)
    found: list[Piece] = []
    for each in pieces:
        if each.kind is not PieceKind.METHOD:
            found.append(each)
            continue
        told = list(_told(text, each, titled or bool(found)))
        found += [each] if all(one.kind is PieceKind.METHOD for one in told) else told
    return found


def _told(text: str, piece: Piece, titled: bool) -> Iterator[Piece]:
    for start, end in sentences(text, piece.start, piece.end):
        if not titled and _is_title(text[start:end]):
            yield Piece(PieceKind.TITLE, start, start + len(text[start:end].rstrip(".!: ")))
        elif lines := _lines(text, start, end):
            yield from (Piece(PieceKind.INGREDIENT, low, high, piece.section) for low, high in lines)
        else:
            yield Piece(PieceKind.METHOD, start, end, piece.section)
        titled = True


def _is_title(words: str) -> bool:
    return len(words) <= _LONGEST_TITLE and not _DOES.match(words)


def _lines(text: str, start: int, end: int) -> list[tuple[int, int]]:
    """Return where the things stand that a sentence lists; none where it lists no amounts."""
    met = _LISTS.match(text, start, end)
    return [] if met is None else listed(text, met.end(), end)


def listed(text: str, start: int, end: int) -> list[tuple[int, int]]:
    """Return where the things stand that are listed with commas between: "500 g flour, 2 eggs and salt"."""
    stop = start + len(text[start:end].rstrip(" .!"))
    cuts = [start]
    ends: list[int] = []
    for gap in _APART.finditer(text, start, stop):
        last = _begins_amount(text[cuts[-1] : gap.start()]) and ", " not in text[gap.end() : stop]
        if gap[0] != " and " or last or _begins_amount(text[gap.end() : stop]):  # "salt and pepper" is one
            ends.append(gap.start())
            cuts.append(gap.end())
    lines = list(zip(cuts, [*ends, stop], strict=True))
    amounts = sum(_begins_amount(text[low:high]) for low, high in lines)
    return lines if amounts >= max(_FEWEST, len(lines) / 2) else []


def _begins_amount(words: str) -> bool:
    return amount_at(plain_of(words[:200]), 0) is not None
