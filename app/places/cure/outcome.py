"""What the desk says of what is typed: a headline, how it was reckoned, cautions, and what may be noted on a dish."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from PySide6.QtCore import QCoreApplication


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("CureDesk", words)


class Mood(StrEnum):
    """How a headline is shown. There is none for "good": no sum makes food safe."""

    PLAIN = "plain"
    OPEN = "open"
    LITTLE = "little"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class Rule:
    """Where a dose stands in ppm: against the limit and, where it has one of its own, the minimum."""

    ppm: Fraction
    limit: Fraction
    least: Fraction | None


@dataclass(frozen=True, slots=True)
class Noting:
    """What may be put on a dish: lines under a heading, (item, grams) to weigh; both are found again by their marks."""

    head: str
    lines: tuple[str, ...]
    mark: str = ""
    weighed: tuple[tuple[str, Fraction], ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """One answer of the desk. `noting` None: not to be put on a dish."""

    headline: str
    mood: Mood = Mood.PLAIN
    lines: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    rule: Rule | None = None
    noting: Noting | None = None

    @property
    def reckoned(self) -> bool:
        """Tell whether there is a result to copy."""
        return self.mood is not Mood.OPEN

    def as_text(self) -> str:
        """Return it as plain text."""
        cautions = [f"- {each}" for each in self.cautions]
        head = [tr("Cautions"), *cautions] if cautions else []
        return "\n".join((self.headline, "", *self.lines, *([""] if head else []), *head)).strip() + "\n"


def waiting(missing: Sequence[str]) -> Outcome:
    """Return what stands there while fields are empty."""
    names = "; ".join(missing)
    return Outcome(tr("Still to be written: {fields}").format(fields=names), Mood.OPEN)


def to_mend(wrong: Sequence[str]) -> Outcome:
    """Return what stands there while fields hold what cannot be read."""
    names = "; ".join(wrong)
    return Outcome(
        tr("No result yet. To be mended: {fields}").format(fields=names),
        Mood.OPEN,
        (tr("What is wrong stands under the field once you stop typing."),),
    )


def refused(sentence: str) -> Outcome:
    """Return what stands there where the values do not go together."""
    return Outcome(tr("No result: this cannot be so"), Mood.OPEN, (sentence,))
