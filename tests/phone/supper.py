"""What the tests of the phone page do again and again: the supper on its day, ticked off up to a minute."""

from __future__ import annotations

from typing import Any

from core.hatch.marks import Marked, marked
from tests.core.hatch.handed import of_harvest
from tests.support.chromium import Page

PHONE, TABLET = (390, 844), (820, 1180)


def lines() -> tuple[Marked, ...]:
    plan, _timetable, sheet = of_harvest()
    return marked(plan, sheet)


def at_harvest(opened: Any, minute: float, **about: Any) -> Page:
    plan, timetable, _sheet = of_harvest()
    page: Page = opened(plan, timetable, minute, **about)
    return page


def tick_all_before(page: Page, minute: int) -> None:
    """Tick off what lies before a minute as if it had been done in time, and end the timers that this began."""
    page.run(f"for (const l of sheet.lines) if (l.at < sheet.plating + {minute} * MINUTE) tick(l.mark, l.at)")
    page.run("keep.held.timers = []; changed(clock.now())")


def first_after(minute: int) -> Marked:
    return next(each for each in lines() if each.line.at >= minute)


def row(each: Marked) -> str:
    return f"[data-mark='{each.mark.hex}']"


def reload(page: Page) -> None:
    """Load the page anew at the time that it has, and wait until it works."""
    page.prepare(f"setNow({page.run('Date.now()')})")
    page.reload()
    page.until("document.documentElement.dataset.alive")
