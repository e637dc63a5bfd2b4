"""The paper that a sheet is printed on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Paper = Literal["a4", "us-letter"]


@dataclass(frozen=True, slots=True)
class Page:
    """Which paper, which way round, whether in small type, and words for the foot (when it was made)."""

    paper: Paper = "a4"
    landscape: bool = False
    dense: bool = False
    printed: str = ""


PAGE = Page()
"""A4 upright, in large type."""
