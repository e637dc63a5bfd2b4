"""A report in lines, for the command and for sheets: what is over a limit, cautions, what could not be judged."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from core.plan.plan import Plan
from core.safety.checking import DEFER, food_report
from core.safety.finding import Finding, Level, Report
from core.safety.rules_there import rules_beside
from core.timetable.timetable import Timetable


@dataclass(frozen=True)
class Told:
    """Headed lines in order, and whether anything is over a limit."""

    parts: tuple[tuple[str, tuple[str, ...]], ...]
    over: bool


def told_food(plan: Plan, timetable: Timetable, folder: Path | None = None) -> Told:
    """Return the findings on a timetable as lines, by the plan's rules: shipped ones, or a user's own in a folder.

    Refuse rules that are not there and files that hold none.
    """
    return told_report(food_report(plan, timetable, rules_beside(plan.decisions.rules, folder)))


def told_report(report: Report) -> Told:
    """Return a report as headed lines, findings with the first thing that would mend them; none where all is quiet."""
    over = tuple(_line(each) for each in report.findings if each.level is Level.OVER)
    less = (*(_line(each) for each in report.findings if each.level is Level.CAUTION), *report.cautions)
    if not over and not less and not report.untold:
        return Told((), over=False)
    name = report.rules.name
    nothing = f"Of what is told of the food, nothing is over the limits of the set “{name}”."
    parts = [(f"Food over the limits of the set “{name}”:", over) if over else (nothing, (DEFER,))]
    if over:
        parts.append((DEFER, ()))
    parts += [("Cautions about food:", less), ("Not judged, for it is not told:", report.untold)]
    return Told(tuple(part for part in parts if part[1] or part[0] == DEFER), bool(over))


def _line(finding: Finding) -> str:
    mend = f" {finding.ways[0].sentence}" if finding.ways else ""
    others = len(finding.foods) - 1
    more = f" So {'do' if others > 1 else 'does'} {others} more of its foods." if others else ""
    return f"{finding.sentence}{'' if finding.sentence.endswith('.') else '.'}{more}{mend}"
