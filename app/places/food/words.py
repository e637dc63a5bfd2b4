"""Food limits in words: how many there are, one without its source, its source in lines, what a stretch is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from app.look.words import clock_text, day_text
from app.timeline.food_marks import FoodMark, FoodMarks

if TYPE_CHECKING:
    from core.plan.plan import Plan
    from core.safety import Finding, Report, Stretch


def said(text: str) -> str:
    """Return a text in the reader's language."""
    return QCoreApplication.translate("food", text)


def is_over(finding: Finding) -> bool:
    """Tell whether a limit is missed; else it is a caution."""
    return finding.level.name == "OVER"


def food_words(findings: Iterable[Finding]) -> str:
    """Return how many limits are missed and how many cautions there are; "" where there are none."""
    levels = [is_over(each) for each in findings]
    over, less = levels.count(True), levels.count(False)
    found = []
    if over:
        found.append(said("1 food limit") if over == 1 else said("{count} food limits").format(count=over))
    if less:
        found.append(said("1 food caution") if less == 1 else said("{count} food cautions").format(count=less))
    return ", ".join(found)


def sentence_of(finding: Finding) -> str:
    """Return what is missed, without its source, and of how many more foods that is true."""
    words = finding.sentence.replace(f" ({finding.source})", "")
    others = len(finding.foods) - 1
    if others:
        more = said("So does 1 more of its foods.") if others == 1 else said("So do {count} more of its foods.")
        words = f"{words} {more.format(count=others)}"
    return words


def source_lines(finding: Finding) -> tuple[tuple[str, str], ...]:
    """Return publisher, document, section and how the value became known, each with its label."""
    source = finding.rule.source
    known = {
        "READ": said("read on {day}"),
        "SECOND_HAND": said("read second-hand on {day}"),
        "MEMORY": said("from memory"),
        "PRACTICE": said("common practice"),
    }[source.tag.name]
    day = None if source.read is None else source.read.isoformat()
    known = known.replace(" on {day}", "") if day is None else known.format(day=day)
    rows = (
        (said("Publisher"), source.publisher),
        (said("Document"), source.document),
        (said("Section"), source.section),
        (said("Known"), known),
    )
    return tuple(row for row in rows if row[1])


def same(one: Finding, other: Finding) -> bool:
    """Tell whether two findings, perhaps of two states of a plan, speak of the same limit at the same food."""
    return (one.rule.id, one.dish, one.steps[-1]) == (other.rule.id, other.dish, other.steps[-1])


def marks_of(report: Report | None) -> FoodMarks:
    """Return the marks of a report for the timeline."""
    found = () if report is None else report.findings
    return FoodMarks(FoodMark(each.steps, each.start, each.end, is_over(each), sentence_of(each)) for each in found)


def when_words(plan: Plan, start: int, end: int) -> str:
    """Return day, start and end."""
    begin, until = plan.wall(start), plan.wall(end)
    if until.date() == begin.date():
        return f"{day_text(begin)} {clock_text(begin)}–{clock_text(until)}"
    return f"{day_text(begin)} {clock_text(begin)} –\n{day_text(until)} {clock_text(until)}"


def place_words(plan: Plan, stretch: Stretch) -> str:
    """Return where a food is in a stretch: its station, else the room."""
    station = plan.kitchen.station.get(stretch.station) if stretch.station is not None else None
    return station.name if station is not None else said("in the room")


def warmth_words(stretch: Stretch) -> str:
    """Return what a food meets in a stretch."""
    return said(_WARMTH[stretch.warmth.name])


_WARMTH = {
    "COLD": "cold",
    "BETWEEN": "neither cold nor hot",
    "COOKING": "cooks",
    "HOT": "held hot",
    "COOLING": "cools",
    "FROZEN": "frozen",
    "THAWING": "thaws",
    "FERMENTING": "ferments",
}
