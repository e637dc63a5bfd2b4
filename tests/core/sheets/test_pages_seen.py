"""Pages of every kind of sheet as pictures, against those that were looked at and approved (`make pictures`)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.sheets.printing import sheet_pdf
from tests.gallery.sheet_pages import drawn, feast, read_approved, sheet_views, unlike

VIEWS = {view.name: view for view in sheet_views()}
FEW = 6
"""Places of some 3,500 on a page that may differ: another poppler draws a hair's breadth otherwise."""


@pytest.mark.parametrize("name", VIEWS)
def test_pages_look_as_they_were_approved(name: str) -> None:
    view = VIEWS[name]
    found, approved = drawn(view.pdf()), read_approved(view.approved)
    assert len(found) == len(approved)
    for number, (page, wanted) in enumerate(zip(found, approved, strict=True), 1):
        places = unlike(page, wanted)
        assert len(places) <= FEW, f"page {number} of {name}: look at it, then approve it; first at {places[:5]}"


def test_a_line_that_went_missing_is_seen() -> None:
    """The comparison can fail: without its first step the page is another one."""
    view = VIEWS["feast-run"]
    plan, timetable = feast(view.plan)
    first = min(timetable.placed, key=lambda each: each.start)
    fewer = replace(timetable, placed=tuple(each for each in timetable.placed if each is not first))
    pages = drawn(sheet_pdf(view.kind, plan, fewer, (), page=view.page))
    wanted = read_approved(view.approved)
    assert any(len(unlike(page, other)) > FEW for page, other in zip(pages, wanted, strict=False))


def test_no_page_is_black_or_empty() -> None:
    for view in VIEWS.values():
        for page in read_approved(view.approved):
            dark = sum(int(sign, 16) for row in page for sign in row) / (15 * sum(map(len, page)))
            assert 0.003 < dark < 0.5, view.name
