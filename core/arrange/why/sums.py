"""All reasons that a sum shows, of a whole plan or of some of its wishes alone."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from core.arrange.demand import Demand
from core.arrange.problem import Problem
from core.arrange.why.chains import chains
from core.arrange.why.crowds import crowds
from core.arrange.why.fires import fires
from core.arrange.why.heats import heats
from core.arrange.why.labels import Labels, labels_of
from core.arrange.why.reason import Reason, ReasonKind
from core.arrange.why.shelves import shelves
from core.arrange.why.work import work


def by_sums(problem: Problem, labels: Labels | None = None) -> list[Reason]:
    """Return the reasons that a sum shows; chains first, since the labels of the others go without them."""
    found, left = chains(problem, labels if labels is not None else labels_of(problem))
    if left.circle:  # facts alone, or more chains than are told
        return found
    crowded = [*crowds(problem, left), *shelves(problem, left)]
    return [
        *found,
        *crowded,
        *heats(problem, left),
        *fires(problem, left),
        *work(problem, left, crowded),
    ]


def shown(problem: Problem, labels: Labels, kept: Collection[Demand], like: Reason) -> bool:
    """Tell whether a chain, or a sum like that of a reason, shows that some wishes alone cannot all be kept."""
    left = labels.with_only(kept)
    if left.circle:
        return True
    found: Iterable[Reason]
    match like.kind:
        case ReasonKind.WORK:
            found = work(problem, left, about=like.about)
        case ReasonKind.SHELVES:
            found = shelves(problem, left, like.about)
        case ReasonKind.HEATS:
            found = heats(problem, left)
        case ReasonKind.FIRE:
            found = fires(problem, left)
        case _:
            found = crowds(problem, left, like.about)
    wishes = set(kept)
    return any(wishes.issuperset(reason.demands) for reason in found)
