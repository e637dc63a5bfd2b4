"""The checker: a set of rules held against every food's story on a timetable. It names limits; it never says "safe"."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from core.measures.words import join_words
from core.plan.check_words import short
from core.plan.ids import DishId, StepId
from core.plan.plan import Plan
from core.safety.case import Case
from core.safety.check_between import between, marinating
from core.safety.check_cooling import cooling, reheating
from core.safety.check_doneness import cautions, doneness
from core.safety.check_fridge import fridge_load
from core.safety.check_holding import holding
from core.safety.check_raw import raw_first
from core.safety.check_thawing import storage, thawing
from core.safety.finding import Finding, Level, Report
from core.safety.foods import foods_of
from core.safety.rules import Family, RuleSet
from core.safety.rules_there import chosen_rules
from core.safety.story import MOST_PATHS, Story, stories, with_more_ways
from core.safety.usual import usual_cautions
from core.timetable.timetable import Timetable

DEFER = (
    "These are published limits against the times of the plan: they name what it breaks, and nothing here says that"
    " food is fit to eat. Your local food code and a probe go first."
)
_OF_STORY = (between, marinating, thawing, cooling, reheating, holding, storage, doneness)


def food_report(plan: Plan, timetable: Timetable, rules: RuleSet | None = None) -> Report:
    """Return what a set of rules finds on a timetable; `rules` None: the shipped set that the plan chose.

    `plan` must be one that passes core.plan.check; the timetable may be anything, and what is not placed is not
    judged. Raise Refusal where the plan's rules are not among the shipped ones.
    """
    chosen = rules if rules is not None else chosen_rules(plan.decisions.rules)
    case = Case(plan, timetable, chosen, stories(plan, timetable))
    found = [finding for story in case.stories for finding in _of(case, story)]
    found += [*fridge_load(case), *raw_first(case)]
    for food in with_more_ways(plan, timetable):
        ways = f"{MOST_PATHS} ways through the menu: only the first {MOST_PATHS} were looked at."
        case.ask(f"{case.name(food)} goes more than {ways}")
    known = [food for food in foods_of(plan) if food.kind is None]
    if known:
        names = join_words(list(dict.fromkeys(short(food.item) for food in known)))
        case.ask(f"The kind of food is not told of {names}: no limit was held against them.")
    order = sorted(_merged(found), key=lambda each: (each.level is not Level.OVER, each.start, each.rule.id))
    return Report(
        chosen, tuple(order), tuple(case.untold), (*cautions(case), *usual_cautions(case)), case.stories
    )


def _of(case: Case, story: Story) -> Iterator[Finding]:
    for check in _OF_STORY:
        yield from check(case, story)


def _merged(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Yield the worst of the findings that say the same of several foods of a dish, with all their names."""
    found: dict[tuple[str, DishId, StepId, Family], Finding] = {}
    for each in findings:
        key = (each.rule.id, each.dish, each.steps[-1], each.family)
        other = found.get(key)
        if other is None:
            found[key] = each
            continue
        worst = each if each.over > other.over else other
        foods = tuple(dict.fromkeys((*other.foods, *each.foods)))
        found[key] = replace(worst, foods=foods, proposed=worst.proposed)
    yield from found.values()
