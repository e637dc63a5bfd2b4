"""Text at 200 % of the user's usual size (WCAG 2.2, success criterion 1.4.4): everything grows, nothing is cut."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtWidgets import QApplication

from app.look.type import face
from app.timeline import Timeline
from tests.app.timeline.decided import decided_plan
from tests.app.timeline.feast import the_timetable, waited_too_long

USUAL = 10.0


@pytest.fixture
def sized(qapp, qtbot):
    """Give a maker of timelines at a share of the usual text size; put the face back after."""
    before = qapp.font()

    def made(share: float, width: int = 1280, height: int = 720) -> Timeline:
        qapp.setFont(face(points=USUAL * share))
        timeline = Timeline()
        qtbot.addWidget(timeline)
        timeline.resize(width, height)
        with qtbot.waitExposed(timeline):
            timeline.show()
        timeline.set_plan(decided_plan(), the_timetable(), (waited_too_long(),))
        timeline.sight.fit(-180, 10, 0.0)
        return timeline

    yield made
    qapp.setFont(before)


Written = list[tuple[str, QRectF, float, float, str]]


def written(timeline: Timeline) -> Written:
    """Return every text that is painted, its box, its width and height, and where it is put."""
    found: Written = []
    kit, write = timeline.kit, timeline.kit.write

    def watched(painter, where, text, font, colour, *, right=False, centre=False) -> None:
        how = "right" if right else "centre" if centre else "left"
        # where the painter stands turned or scaled does not matter here: nothing of ours does while writing
        found.append((text, QRectF(where), kit.width(text, font), kit.metrics(font).height(), how))
        write(painter, where, text, font, colour, right=right, centre=centre)

    kit.write = watched  # type: ignore[method-assign]
    timeline.viewport().grab()
    kit.write = write  # type: ignore[method-assign]
    return found


@pytest.mark.parametrize("reading", ["station", "dish", "cook"])
@pytest.mark.parametrize("share", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080)])
def test_no_text_is_wider_than_its_room_or_higher_than_its_row(sized, share: float, size, reading: str) -> None:
    timeline = sized(share, *size)
    timeline.set_reading(reading)
    QApplication.processEvents()
    for span in ((-180, 10), (-60, 10), (-1060, 45)):
        timeline.sight.fit(*span, 0.0)
        texts = written(timeline)
        assert len(texts) > 8
        for text, where, width, height, how in texts:
            assert width <= where.width() + 1, (text, where, width, how)
            assert height <= where.height() + 7, (text, where, height)  # a face's height has leading of a quarter


def test_rows_ruler_names_and_tabs_grow_with_the_text(sized) -> None:
    def measures(timeline: Timeline) -> dict[str, float]:
        kit, scene = timeline.kit, timeline.scene
        return {"row": kit.row, "tab": kit.tab, "ruler": scene.ruler, "gutter": scene.gutter}

    small, large = measures(sized(1.0)), measures(sized(2.0))  # the first one follows the second size too
    shares = {name: large[name] / small[name] for name in small}
    assert all(1.5 < share <= 2.2 for share in shares.values()), shares


def test_names_of_lanes_are_whole(sized) -> None:
    timeline = sized(2.0, 1280, 1000)
    texts = [text for text, *_more in written(timeline)]
    for name in ("Oven", "Second oven", "Burner 1", "Fridge", "Worktop", "Ann"):
        assert name in texts or all(word in texts for word in name.split()), name


def test_the_buttons_at_the_bar_grow_and_stay_in_sight(sized) -> None:
    sides = {}
    for share in (1.0, 2.0):
        timeline = sized(share)
        timeline.select("pork.roast")
        timeline.buttons.follow()
        buttons = (timeline.buttons.pin, timeline.buttons.way, timeline.buttons.length)
        assert all(button.isVisible() for button in buttons)
        sides[share] = min(min(button.width(), button.height()) for button in buttons)
        assert timeline.viewport().rect().contains(timeline.buttons.geometry())
        assert sides[share] >= 24, "a target is 24 by 24 at least (WCAG 2.2, 2.5.8)"
    assert sides[2.0] > 1.4 * sides[1.0]


def test_the_card_wraps_and_is_whole(sized) -> None:
    from PySide6.QtGui import QTextDocument

    from app.timeline.spoken import tip_of

    timeline = sized(2.0)
    lane, bar, _box = next(each for each in timeline.bar_rects() if each[1].step == "pork.roast")
    own = next(each for each in timeline.scene.lanes if each.id == lane)
    document = QTextDocument()
    document.setDefaultFont(QApplication.font())
    document.setHtml(tip_of(timeline.scene, bar, own))
    assert document.size().width() < 900
    assert document.size().height() < 700
