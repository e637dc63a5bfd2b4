"""What a checker finds: which published limit a plan breaks, by how much, and what would mend it. Never "safe"."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import ceil

from core.plan.edits.edit import Edit
from core.plan.ids import DishId, StepId
from core.safety.rules import Family, Rule, RuleSet
from core.safety.story import Story
from core.timetable.clash import Clash, ClashKind


class Level(StrEnum):
    """How grave a finding is."""

    OVER = "over the limit"
    CAUTION = "caution"


@dataclass(frozen=True, slots=True)
class FoodWay:
    """Something that would mend it, in words; `edit`: the change of the plan that does it, where there is one."""

    sentence: str
    edit: Edit | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One limit that foods miss in [start, end) (minutes from plating): by how much, in which unit, in words.

    `rule` names its row and source; `steps`: where it shows, in order of time; `proposed`: the kind of food was
    guessed from its name. Unit: "min", "°C", "s", "days" or "kJ", "" where nothing is counted.
    """

    rule: Rule
    level: Level
    dish: DishId
    foods: tuple[str, ...]
    steps: tuple[StepId, ...]
    start: int
    end: int
    over: Fraction
    unit: str
    sentence: str
    proposed: bool = False
    ways: tuple[FoodWay, ...] = ()

    @property
    def family(self) -> Family:
        """Return what the rule is about."""
        return self.rule.family

    @property
    def source(self) -> str:
        """Return where the limit is from."""
        return str(self.rule.source)


@dataclass(frozen=True)
class Report:
    """What a set of rules finds on a timetable.

    `untold`: sentences on what could not be judged, for it is not told; `cautions`: the usual ones that the plan's
    foods ask for; `stories` are what was judged.
    """

    rules: RuleSet
    findings: tuple[Finding, ...]
    untold: tuple[str, ...]
    cautions: tuple[str, ...]
    stories: tuple[Story, ...]

    @property
    def over(self) -> tuple[Finding, ...]:
        """Return the findings that are over a limit."""
        return tuple(each for each in self.findings if each.level is Level.OVER)


def as_clash(finding: Finding) -> Clash:
    """Return a finding as it stands among the clashes of a timetable: its kind is that of food-safety limits."""
    return Clash(
        ClashKind.FOOD_SAFETY,
        finding.sentence,
        finding.start,
        finding.end,
        finding.steps,
        by=ceil(finding.over),
    )
