"""Hands wanted in the model, before anybody is named."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.variables import Expr, Literal
from core.plan.ids import CookId


@dataclass(frozen=True, slots=True)
class Labour:
    """Hands wanted in the model: a piece of a task, one cut of it, or a chore. `key` names it in every model.

    `places` are where the hands may be with the literal by which they are there (None: surely); empty: anywhere.
    """

    key: str
    start: Expr
    size: Expr
    end: Expr
    people: int
    skill: str
    present: Literal | None
    task: int | None
    chore: str | None
    cook: CookId | None
    places: dict[str, Literal | None]
