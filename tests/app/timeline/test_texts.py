"""At no zoom and nowhere is a text cut to nonsense, half on a bar, or over another: measured on four feasts."""

from __future__ import annotations

from functools import cache
from threading import Event

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtGui import QFont

import demo_data
from app.look.colours import DARK
from app.timeline import Timeline
from app.timeline.kit import Kit
from app.timeline.lanes import READINGS
from bench.feasts import feast
from core.arrange import Effort, arrange
from core.intake.text_plan import read_text
from tests.app.timeline import texts
from tests.support.tries import tries

FEASTS = ("bench", *demo_data.files())
MANY = settings(
    max_examples=tries(60), suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None
)


@cache
def shown(name: str) -> tuple:
    """Return plan, timetable and clashes: planted for the bench's feast, the first that is found for a demo's."""
    if name == "bench":
        return feast(12).plan, feast(12).planted, ()
    plan = read_text(demo_data.text_of(name))
    stop = Event()
    stop.set()
    found = arrange(plan, Effort(work=5.0), stop=stop)
    return plan, found.timetable, found.clashes


def at(timeline: Timeline, zoom: float, across: float, down: float) -> None:
    """Show a part: zoom 0 is all days and 1 five minutes; across and down from 0 to 1."""
    least, most = timeline.scene.axis.scale_for(timeline.sight.field), timeline.sight.field / 5
    timeline.fit_all()
    timeline.sight.zoom((most / least) ** zoom)
    for bar, share in ((timeline.horizontalScrollBar(), across), (timeline.verticalScrollBar(), down)):
        bar.setValue(round(share * bar.maximum()))
    timeline.sight.moved_by_hand()


@pytest.fixture
def still(timeline: Timeline) -> Timeline:
    timeline.glide.wanted = lambda: False
    return timeline


@pytest.mark.parametrize("name", FEASTS)
@MANY
@given(
    reading=st.sampled_from(READINGS),
    zoom=st.floats(0, 1),
    across=st.floats(0, 1),
    down=st.floats(0, 1),
    wide=st.sampled_from([700, 1280, 1920]),
)
def test_every_text_is_whole_or_ends_after_a_telling_word_in_its_own_place(
    still: Timeline, name: str, reading, zoom: float, across: float, down: float, wide: int
) -> None:
    still.resize(wide, 720)
    if still.scene.plan is not shown(name)[0]:
        still.set_plan(*shown(name))
    still.set_reading(reading)
    at(still, zoom, across, down)
    page = texts.read(still)
    assert [each.text for each in texts.on_lanes(page) if texts.nonsense(each, still)] == []
    assert texts.outside(page) == []
    assert texts.overlapping(page) == []


def test_the_check_finds_what_is_wrong(still: Timeline) -> None:
    """Each of the three measures fails where it should."""
    still.set_plan(*shown("bench"))
    at(still, 0.5, 0.8, 0)
    kit, honest = still.kit, Kit.write

    def written_by(change) -> texts.Page:
        kit.write = lambda painter, where, text, font, colour, **how: honest(
            kit, painter, *change(where, text), font, colour, **how
        )
        page = texts.read(still)
        del kit.write
        return page

    cut = written_by(lambda where, text: (where, text[:-2] if len(text) > 4 else text))
    assert any(texts.nonsense(each, still) for each in texts.on_lanes(cut))
    shifted = written_by(lambda where, text: (where.translated(17, 0), text))
    assert texts.outside(shifted)
    heaped = written_by(lambda where, text: (where.translated(400 - where.left(), 0), text))
    assert texts.overlapping(heaped)


def test_texts_come_as_one_zooms_in(still: Timeline) -> None:
    """From far off codes or less, from near every bar's full text."""
    still.set_plan(*shown("bench"))
    counted = []
    for zoom in (0, 0.25, 0.5, 0.75):
        at(still, zoom, 0.97, 0)
        page = texts.read(still)
        full = {says for bar, _box in page.bars for says in bar.says[:1]}
        names = [each for each in texts.on_lanes(page) if each.text in full]
        counted.append(len(names) / max(1, len(page.bars)))
    assert counted[0] < counted[-1]
    assert counted[-1] > 0.6


@pytest.mark.parametrize("words", ["Potato gratin: Bake on the upper rack", "Fold in the cream, then chill"])
@given(width=st.floats(0, 400))
def test_shortened_is_whole_or_ends_after_a_telling_word_and_fits(qapp, words: str, width: float) -> None:
    kit = Kit(DARK)
    short = kit.shortened(words, kit.text_face, width)
    assert kit.width(short, kit.text_face) <= width or short == ""
    if short not in (words, ""):
        assert short.endswith("…")
        last = short[:-1].split()[-1]
        assert len(last) > 2
        assert last not in texts.HALF


def test_figures_are_all_of_one_width(qapp) -> None:
    kit = Kit(DARK)
    for font in (kit.text_face, kit.small_face, kit.small_bold):
        assert isinstance(font, QFont)
        assert len({round(kit.width(figure, font), 3) for figure in "0123456789"}) == 1
