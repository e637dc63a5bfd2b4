"""Recipes in: from a page or pasted words to drafts, and from a draft that is confirmed to a dish."""

from __future__ import annotations

from pathlib import Path

from core.intake.draft_dish import dish_of, fitted, require_lengths, without_length
from core.intake.draft_reading import draft_of
from core.intake.draft_value import Draft, DraftIngredient, Open, Origin, Question, Told
from core.intake.pages.read import pasted, read_page

__all__ = [
    "Draft",
    "DraftIngredient",
    "Open",
    "Origin",
    "Question",
    "Told",
    "dish_of",
    "draft_of",
    "drafts_in",
    "drafts_of_text",
    "fitted",
    "require_lengths",
    "without_length",
]


def drafts_in(path: Path, system: str = "us") -> tuple[Draft, ...]:
    """Return the drafts of a page in a file; raise Refusal where it holds no recipe."""
    return tuple(draft_of(each, system) for each in read_page(path))


def drafts_of_text(text: str, system: str = "us") -> tuple[Draft, ...]:
    """Return the drafts of a text that was pasted; raise Refusal where it holds no recipe."""
    return tuple(draft_of(each, system) for each in pasted(text))
