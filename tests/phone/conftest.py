"""A browser for the tests of a file, and pages on a clock that a test sets."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from core.hatch.phone import as_page
from core.plan.plan import Plan
from core.sheets.run_sheet import run_sheet
from core.timetable.timetable import Timetable
from tests.phone.kitchen_clock import CLOCK, LISTENS
from tests.support.chromium import Chromium, Page, chromium

Opened = Callable[..., Page]
_made: dict[tuple[int, int, str], tuple[Plan, Timetable, bytes]] = {}


def written(plan: Plan, timetable: Timetable, cook: str = "") -> bytes:
    """Return a plan's page; it is made once for all tests of the same two values (which it keeps, so ids hold)."""
    key = (id(plan), id(timetable), cook)
    if key not in _made:
        _made[key] = (plan, timetable, as_page(plan, timetable, run_sheet(plan, timetable), cook=cook))
    return _made[key][2]


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Chromium]:
    """Give one real browser for a file's tests: starting it takes most of the time."""
    with chromium(tmp_path_factory.mktemp("browser")) as found:
        yield found


@pytest.fixture
def opened(browser: Chromium, tmp_path: Path) -> Iterator[Opened]:
    """Give what opens the page of a plan at a minute from its plating, on a screen of a size; all are closed after.

    `text`: the reader's own size of text, per cent. `before`: a script that runs before the page's.
    """
    pages: list[Page] = []

    def at(
        plan: Plan,
        timetable: Timetable,
        minute: float,
        size: tuple[int, int] = (390, 844),
        look: str = "light",
        *,
        cook: str = "",
        text: int = 100,
        before: str = "",
    ) -> Page:
        file = tmp_path / "page.html"
        file.write_bytes(written(plan, timetable, cook))
        page = Page(browser, *size)
        pages.append(page)
        page.prepare(CLOCK)
        page.prepare(LISTENS)
        page.prepare(before)
        page.ask("Page.setFontSizes", fontSizes={"standard": 16 * text // 100})
        page.ask("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": look}])
        page.ask(
            "Network.emulateNetworkConditions", offline=True, latency=0, downloadThroughput=0, uploadThroughput=0
        )
        page.prepare(f"setNow({int(plan.plating.utc().timestamp() * 1000 + minute * 60_000)})")
        page.open(file.as_uri())
        page.until("document.documentElement.dataset.alive")
        return page

    yield at
    for page in pages:
        page.run("try { localStorage.clear() } catch (blocked) {}")
        wrong = page.told("Runtime.exceptionThrown")
        said = [each["entry"]["text"] for each in page.told("Log.entryAdded")]
        asked = [each["request"]["url"] for each in page.told("Network.requestWillBeSent")]
        page.close()
        assert not wrong
        assert not said, "the browser complained (a policy that is broken says so here)"
        assert {url.partition(":")[0] for url in asked} <= {"file", "data"}, asked
