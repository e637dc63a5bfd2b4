"""What a sheet says of food limits that the plan breaks, of raw food, and of guests at risk: cautions, never more."""

from __future__ import annotations

from core.measures.refusal import Refusal
from core.measures.words import join_words, plural
from core.plan.plan import Plan
from core.safety import Finding, Level, RuleSet, food_report
from core.sheets.words import plain
from core.timetable.timetable import Timetable

_MOST = 6
"""Limits named one by one; the window and `cookday check` name them all."""


def food_said(plan: Plan, timetable: Timetable, rules: RuleSet | None = None) -> tuple[str, ...]:
    """Return cautions about this very plan: limits it breaks, figures it is short of, raw food, guests at risk.

    `rules` None: the shipped set that the plan chose.
    """
    try:
        report = food_report(plan, timetable, rules)
    except Refusal as refusal:
        return (f"Food limits were not looked at: {plain(str(refusal))}", *_at_risk(plan))
    found = [_limit("Food limit", each) for each in report.over[:_MOST]]
    if len(report.over) > _MOST:
        found.append(f"And {plural(len(report.over) - _MOST, 'more food limit')} that the plan breaks.")
    less = [each for each in report.findings if each.level is Level.CAUTION]
    found += [_limit("Short of a published figure", each) for each in less[:_MOST]]
    if len(less) > _MOST:
        found.append(f"And {plural(len(less) - _MOST, 'more figure')} that the plan is short of.")
    return (*found, *(plain(each) for each in report.cautions), *_at_risk(plan))


def _limit(head: str, each: Finding) -> str:
    """Return a finding with its source, which most sentences name already: once is enough."""
    sentence, source = plain(each.sentence), plain(each.source)
    return f"{head}: {sentence}" if source in sentence else f"{head}: {sentence} ({source})"


def _at_risk(plan: Plan) -> tuple[str, ...]:
    guests = [f"{plain(each.name)} ({plain(each.at_risk)})" for each in plan.menu.guests if each.at_risk]
    if not guests:
        return ()
    said = f"Illness from food would be worse for {join_words(guests)}: nothing raw, undercooked or kept long"
    return (f"{said}; ask somebody licensed what else they should not eat.",)
