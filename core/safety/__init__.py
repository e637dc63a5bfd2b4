"""Food safety over a timetable: published limits as data, each food's temperature story, what a plan breaks.

It names limits with their sources and what would mend a plan. It never says that food is safe.
"""

from core.safety.band import BandPoint, band
from core.safety.checking import DEFER, food_report
from core.safety.finding import Finding, FoodWay, Level, Report, as_clash
from core.safety.foods import Food, foods_of
from core.safety.proposals import proposed_kind
from core.safety.rules import Family, Measure, Rule, RuleSet, Source, Tag
from core.safety.rules_reading import read_rules, rules_in
from core.safety.rules_there import (
    USUAL,
    chosen_rules,
    rules_at_hand,
    rules_beside,
    rules_in_folder,
    shipped_rules,
)
from core.safety.story import Story, Stretch, Warmth, stories

__all__ = [
    "DEFER",
    "USUAL",
    "BandPoint",
    "Family",
    "Finding",
    "Food",
    "FoodWay",
    "Level",
    "Measure",
    "Report",
    "Rule",
    "RuleSet",
    "Source",
    "Story",
    "Stretch",
    "Tag",
    "Warmth",
    "as_clash",
    "band",
    "chosen_rules",
    "food_report",
    "foods_of",
    "proposed_kind",
    "read_rules",
    "rules_at_hand",
    "rules_beside",
    "rules_in",
    "rules_in_folder",
    "shipped_rules",
    "stories",
]
