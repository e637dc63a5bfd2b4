"""The phone page under axe-core 4.14 (an automated checker of WCAG 2.2): nothing to complain of, by day or by night.

The checker is fetched by scripts/accessibility-checker (make test runs it); it is not ours and not in the repository.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from core.timetable.on_paper import on_paper
from tests.core.sheets.feasts import WEEKNIGHT, counted_back, harvest
from tests.support.hostile import HOSTILE, hostile_plan

CHECKER = Path(sys.prefix) / "axe-core" / "axe.min.js"
MISSING = "The accessibility checker is not here; make test fetches it, and so does scripts/accessibility-checker."
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def checker() -> str:
    """Return the checker's own text; fail with a clear sentence where it has not been fetched."""
    assert CHECKER.exists(), MISSING
    return CHECKER.read_text(encoding="utf-8")


def violations(page, checker):
    """Return what the checker complains of: rule and element."""
    page.run(checker + "; 0")  # run from outside: the page's policy would not let it in
    found = page.run(
        f"axe.run(document, {{runOnly: {TAGS}, resultTypes: ['violations']}})"
        ".then((all) => ({passed: all.passes.length, wrong: all.violations.map("
        "(each) => [each.id, each.nodes.map((node) => node.html.slice(0, 160))])}))"
    )
    assert found["passed"] > 20, "the checker has looked at hardly anything"
    return found["wrong"]


@pytest.mark.parametrize("look", ["light", "dark"])
@pytest.mark.parametrize(("name", "size"), [("supper", (390, 844)), ("weeknight", (820, 1180))])
def test_a_plan_on_its_day(opened, checker, name, size, look):
    plan, timetable = harvest() if name == "supper" else counted_back(WEEKNIGHT)
    page = opened(plan, timetable, -62, size=size, look=look)
    page.run("for (const line of sheet.lines) if (line.at < sheet.plating - 70 * MINUTE) tick(line.mark, line.at)")
    page.tap("[data-start='1']")
    page.run("pass(65)")
    page.until("!document.querySelector('#ringing').hidden", 3)
    assert page.run("document.documentElement.dataset.look") == look
    page.run("for (const each of document.getAnimations()) each.cancel()")  # colours as they stand
    assert violations(page, checker) == []


@pytest.mark.parametrize("look", ["light", "dark"])
def test_a_plan_with_clashes_that_is_over(opened, checker, look):
    plan, timetable = counted_back(WEEKNIGHT)
    page = opened(plan, timetable, 60, look=look)
    page.run("document.querySelector('.clashes').open = true")
    assert violations(page, checker) == []


def test_hostile_words(opened, checker):
    plan = hostile_plan(HOSTILE["markup"] + HOSTILE["arabic"] + HOSTILE["long"])
    page = opened(plan, on_paper(plan), -40)
    assert violations(page, checker) == []


def test_the_checker_sees_what_is_wrong(opened, checker):
    plan = hostile_plan("Stew")
    page = opened(plan, on_paper(plan), -40)
    page.run("document.querySelector('#done').textContent = ''")
    page.run("document.querySelector('#done').removeAttribute('aria-label')")
    page.run("document.querySelector('h1').style.color = '#f0e8dc'")
    assert {name for name, _nodes in violations(page, checker)} >= {"button-name", "color-contrast"}
