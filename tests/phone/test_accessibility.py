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


STATES = {
    "come late to it": ("scrollTo(0, 0)", 20),
    "cooking": ("for (const l of sheet.lines) if (l.at < clock.now()) tick(l.mark, l.at)", -15),
    "all is everybody's": ("part('whose-other').click()", -30),
    "at the pass": ("for (const l of sheet.lines) if (!l.serves) tick(l.mark, l.at)", 0),
    "all is done": ("for (const l of sheet.lines) tick(l.mark, l.at)", 120),
    "asked to forget": ("part('forget').click()", -30),
}
PHONE, TABLET = (390, 844), (1180, 820)
SHOWN = [(state, PHONE, 100, look) for state in STATES for look in ("light", "dark")]
SHOWN += [(state, PHONE, 200, "dark") for state in ("cooking", "at the pass")]
SHOWN += [(state, TABLET, 100, "dark") for state in ("cooking", "at the pass")]


@pytest.mark.parametrize(("state", "size", "text", "look"), SHOWN)
def test_every_state(opened, checker, state, size, text, look):
    plan, timetable = counted_back(WEEKNIGHT)
    script, minute = STATES[state]
    page = opened(plan, timetable, minute, size=size, text=text, look=look, cook=plan.kitchen.cooks[0].name)
    page.run(f"{script}; 0")
    page.run(f"keep.held.look = '{look}'; draw(clock.now())")
    page.run("for (const each of document.getAnimations()) each.cancel()")
    assert page.run("document.documentElement.dataset.look") == look
    assert violations(page, checker) == []


def test_where_nothing_may_be_stored(opened, checker):
    before = "Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } });"
    plan, timetable = counted_back(WEEKNIGHT)
    page = opened(plan, timetable, -30, before=before)
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
