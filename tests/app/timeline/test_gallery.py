"""The views of the demo plans stand as they were approved by eye: bars and texts by place, not by pixel.

`make pictures` writes them all to out/gallery; once they have been looked at, `python -m tests.gallery --approve`.
"""

from __future__ import annotations

import pytest

from app.timeline import Timeline
from tests.gallery.views import View, approved, read_structure, shown, structure, views

NEAR = 2.5
"""Points by which a text or a bar may stand elsewhere: another machine's rounding."""


@pytest.mark.parametrize("view", list(views()), ids=lambda view: view.name)
def test_a_view_stands_as_approved(qtbot, view: View) -> None:
    timeline = Timeline()
    qtbot.addWidget(timeline)
    timeline.show()
    shown(view, timeline)
    found, wanted = structure(timeline), read_structure(approved(view))
    for part, named in (("bars", 3), ("texts", 1)):
        assert [row[:named] for row in found[part]] == [row[:named] for row in wanted[part]], part
        for row, there in zip(found[part], wanted[part], strict=True):
            away = [abs(a - b) for a, b in zip(row[named:], there[named:], strict=True)]
            assert max(away) <= NEAR, (row, there)
