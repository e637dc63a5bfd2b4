"""What is wrong while a bar is held is read to its end: the sentence breaks into lines instead of being cut off."""

from __future__ import annotations

import pytest

from app.look.colours import LIGHT
from app.timeline.kit import Kit
from app.timeline.paint_held import _MOST_LINES, _WIDEST, _lines

LONG = (
    "Potato and celeriac gratin: Bake on the upper rack, foil on for the first 45 min and Roast squash, sage, chilli "
    "and honey: Roast on both racks are in the oven together from 18:35 to 18:55, at 165 and 215 °C."
)


@pytest.mark.parametrize("points", [9.0, 18.0])
def test_the_end_of_a_long_sentence_is_there_and_no_line_is_too_wide(qapp, points: float) -> None:
    kit = Kit(LIGHT, points=points)
    lines = _lines(kit, LONG)
    assert len(lines) <= _MOST_LINES
    assert all(kit.width(line, kit.small_face) <= _WIDEST for line in lines)
    if points < 10:
        assert " ".join(lines) == LONG
    else:
        assert LONG.startswith(" ".join(lines)[:-1])  # shortened after a word, with an ellipsis


def test_a_short_one_stays_one_line(qapp) -> None:
    assert _lines(Kit(LIGHT), "Ann is away.") == ["Ann is away."]
