"""What every kind of page becomes: one plain text, and what its pieces are."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from enum import StrEnum

from core.measures.refusal import Refusal

MOST_CHARACTERS = 100_000
"""Characters of the longest recipe that is looked at."""
MOST_INGREDIENTS = 300
MOST_METHOD = 500
"""Ingredient lines and lines of method of the longest recipe."""
LONGEST_LINE = 900
"""Characters of an ingredient line, title or heading; what is longer is cut."""
LONGEST_PARAGRAPH = 5_000

_HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})


class PieceKind(StrEnum):
    """What a piece of a recipe's text is."""

    TITLE = "title"
    SERVES = "serves"
    PREPARING = "preparing time"
    COOKING = "cooking time"
    ALL_TIME = "time in all"
    HEADING = "heading"
    INGREDIENT = "ingredient"
    METHOD = "method"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the text from `start` to `end`; `section` is the heading that it stands under ("": none)."""

    kind: PieceKind
    start: int
    end: int
    section: str = ""


@dataclass(frozen=True, slots=True)
class RecipeText:
    """A recipe as plain text, with its pieces in the text's order. `remarks`: sentences on what was odd."""

    text: str
    pieces: tuple[Piece, ...]
    remarks: tuple[str, ...] = ()

    def of(self, kind: PieceKind) -> tuple[Piece, ...]:
        """Return the pieces of a kind."""
        return tuple(each for each in self.pieces if each.kind is kind)

    def words(self, piece: Piece) -> str:
        """Return what a piece says, on one line."""
        return " ".join(self.text[piece.start : piece.end].split())


def fit(text: str) -> str:
    """Return a text without what cannot be shown: controls, half characters and hidden marks; lines stay."""
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    for mark in ("\x0b", "\x0c", "\x85", "\u2028", "\u2029"):
        plain = plain.replace(mark, "\n")
    plain = plain.replace("\u00ad", "").replace("\t", " ")
    if plain.replace("\n", "").isprintable():
        return plain
    return "".join(_shown(sign) for sign in plain)


def _shown(sign: str) -> str:
    if sign == "\n" or unicodedata.category(sign) not in _HIDDEN:
        return sign
    return "\N{REPLACEMENT CHARACTER}" if unicodedata.category(sign) == "Cs" else ""


class Writer:
    """Writes a recipe's text piece by piece, in order, within the limits."""

    def __init__(self) -> None:
        self._lines: list[str] = []
        self._length = 0
        self._pieces: list[Piece] = []
        self._cut: set[str] = set()
        self.remarks: list[str] = []

    def line(self, before: str, words: str, kind: PieceKind | None = None, section: str = "") -> None:
        """Write one line, of which `words` are a piece of a kind, after `before`, which is none."""
        longest = LONGEST_PARAGRAPH if kind in (PieceKind.METHOD, PieceKind.NOTE) else LONGEST_LINE
        words = " ".join(fit(words).split())
        if len(words) > longest:
            words = words[:longest].rstrip()
            self._cut.add(
                f"A line of the page is longer than {longest} characters; the rest of it was left out."
            )
        if not words and kind is not None:
            return
        if self._is_full(kind, len(before) + len(words)):
            return
        start = self._length + len(before)
        if kind is not None:
            self._pieces.append(Piece(kind, start, start + len(words), section))
        self._lines.append(before + words)
        self._length = start + len(words) + 1

    def gap(self) -> None:
        """Leave a line free, unless one is."""
        if self._lines and self._lines[-1]:
            self._lines.append("")
            self._length += 1

    def recipe(self) -> RecipeText:
        """Return what was written."""
        return RecipeText(
            "\n".join(self._lines) + "\n", tuple(self._pieces), (*self.remarks, *sorted(self._cut))
        )

    def _is_full(self, kind: PieceKind | None, more: int) -> bool:
        most = {PieceKind.INGREDIENT: MOST_INGREDIENTS, PieceKind.METHOD: MOST_METHOD}.get(
            kind or PieceKind.NOTE
        )
        full = most is not None and sum(each.kind is kind for each in self._pieces) >= most
        if full or self._length + more > MOST_CHARACTERS:
            self._cut.add(
                "The recipe is longer than any that can be read at once; the end of it was left out."
            )
            return True
        return False


def require_recipe(recipe: RecipeText, name: str) -> RecipeText:
    """Return a recipe that says something; refuse one without ingredients and method."""
    if not recipe.of(PieceKind.INGREDIENT) and not recipe.of(PieceKind.METHOD):
        raise Refusal(
            f"There is no recipe in {name}: neither ingredients nor a method. Choose another page, "
            "or copy the recipe's words and paste them."
        )
    return recipe
