from __future__ import annotations

import pytest

from app.timeline import Timeline
from tests.app.timeline.feast import the_plan, the_timetable, waited_too_long
from tests.support.sizes import wanted_size


@pytest.fixture
def timeline(qtbot) -> Timeline:
    """Give a timeline on a window of 1280 x 720 that shows the last three hours of the small feast."""
    made = Timeline()
    qtbot.addWidget(made)
    made.resize(*wanted_size())
    with qtbot.waitExposed(made):
        made.show()
    made.set_plan(the_plan(), the_timetable(), (waited_too_long(),))
    made.sight.fit(-180, 10, 0.0)
    return made
