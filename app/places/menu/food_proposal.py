"""What the words of an ingredient suggest of it as food: proposals, never known, taken by a click or not at all."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from app.places.menu.food_words import arrival_said, kind_said, read_mm, show_mm, tr
from core.measures.number import NUMBER
from core.measures.refusal import Refusal
from core.plan.food import Arrival, FoodKind
from core.plan.menu import Ingredient

_THICK = re.compile(rf"(?P<length>{NUMBER} ?(?:mm|cm|inch(?:es)?|in))[ -](?:thick|slices?|steaks?|chops?)\b")


@dataclass(frozen=True, slots=True)
class Proposal:
    """What is not told and may be so; None and 0: nothing is suggested."""

    kind: FoodKind | None = None
    arrives: Arrival | None = None
    thick: int = 0

    def __bool__(self) -> bool:
        """Tell whether anything is suggested."""
        return self != Proposal()

    def said(self) -> str:
        """Return it in words."""
        parts = [
            kind_said(self.kind) if self.kind is not None else "",
            tr("comes {how}").format(how=arrival_said(self.arrives)) if self.arrives is not None else "",
            tr("{length} thick").format(length=show_mm(self.thick)) if self.thick else "",
        ]
        return "; ".join(filter(None, parts))


def proposal_for(ingredient: Ingredient) -> Proposal:
    """Return what the words of an ingredient suggest beyond what is told of it."""
    from core.safety import proposed_kind

    words = f"{ingredient.item} {ingredient.preparation}".casefold()
    return Proposal(
        proposed_kind(ingredient.item) if ingredient.food is None else None,
        Arrival.FROZEN if ingredient.arrives is None and "frozen" in words.split() else None,
        0 if ingredient.thick else _thick(words),
    )


def with_proposal(ingredient: Ingredient, proposal: Proposal) -> Ingredient:
    """Return an ingredient of which the proposal is told."""
    return replace(
        ingredient,
        food=proposal.kind if proposal.kind is not None else ingredient.food,
        arrives=proposal.arrives if proposal.arrives is not None else ingredient.arrives,
        thick=proposal.thick or ingredient.thick,
    )


def _thick(words: str) -> int:
    met = _THICK.search(words)
    if met is None:
        return 0
    try:
        return read_mm(met["length"])
    except Refusal:
        return 0
