"""Pictures of texts and signs look as the texts and signs themselves do, at one and at two pixels a point."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.look import colours
from app.timeline import Timeline
from app.timeline.kit import Kit
from app.timeline.paint import paint
from tests.app.timeline.feast import the_plan, the_timetable, waited_too_long

PALETTES = [each for each in vars(colours).values() if isinstance(each, colours.Palette)]


def painted(timeline: Timeline, kit: Kit, pixels: int, ratio: int) -> QImage:
    image = QImage(timeline.viewport().size() * pixels, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(pixels)
    kit.ratio = ratio
    painter = QPainter(image)
    scene = timeline.scene
    paint(painter, scene, kit, QRectF(0, 0, scene.width, scene.height))
    painter.end()
    return image


def unlike(one: QImage, other: QImage, box: QRectF, pixels: int) -> float:
    """Return the mean difference of lightness in a box, 0 to 255."""
    found = [
        abs(QColor(one.pixel(x, y)).lightness() - QColor(other.pixel(x, y)).lightness())
        for x in range(round(box.left() * pixels), round(box.right() * pixels))
        for y in range(round(box.top() * pixels), round(box.bottom() * pixels))
    ]
    return sum(found) / max(1, len(found))


@pytest.mark.parametrize("pixels", [1, 2])
@pytest.mark.parametrize("palette", PALETTES, ids=lambda palette: palette.name)
def test_a_text_from_its_picture_is_the_text(timeline: Timeline, palette, pixels: int) -> None:
    timeline.set_plan(the_plan(), the_timetable(), (waited_too_long(),))
    timeline.sight.fit(-180, 10, 0)
    kit = Kit(palette)
    kit.written = []
    as_text = painted(timeline, kit, pixels, 0)
    written, kit.written = kit.written, None
    from_picture = painted(timeline, kit, pixels, pixels)
    assert len(written) > 30
    for each in written:
        assert unlike(as_text, from_picture, each.box, pixels) < 2.0, each.text


@pytest.mark.parametrize("palette", PALETTES, ids=lambda palette: palette.name)
def test_texts_stand_out_from_what_they_are_written_on(timeline: Timeline, palette) -> None:
    """In every look the ink of each text is there: darkest and lightest in its box differ by the contrast of text."""
    kit = Kit(palette)
    kit.written = []
    image = painted(timeline, kit, 2, 2)
    assert kit.written
    for each in kit.written:
        box = each.box
        if box.right() > timeline.scene.width or box.left() < 0 or box.bottom() > timeline.scene.height:
            continue
        shades = {
            QColor(image.pixel(x, y)).name()
            for x in range(round(2 * box.left()), round(2 * box.right()))
            for y in range(round(2 * box.top() + box.height() / 2), round(2 * box.bottom() - box.height() / 2))
        }
        lights = sorted(shades, key=colours.luminance)
        assert colours.contrast(lights[0], lights[-1]) >= colours.TEXT_CONTRAST, each.text
