"""The pictures of stations: as many racks, rings, places and shelves as there are, clear on light and dark paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication

from app.look import apply
from app.look.colours import DARK, LIGHT, MARK_CONTRAST, PALETTES, TEXT_CONTRAST, Palette, contrast
from app.places.kitchen.station_picture import StationPicture
from app.places.kitchen.station_words import holds_words
from core.plan.ids import StationId
from core.plan.kitchen import Heater, Shelf, Station, StationKind

OVEN = Station(StationId("oven"), "Oven", StationKind.OVEN, 2, heater=Heater())
RINGS = Station(StationId("rings"), "Rings", StationKind.BURNER, 4)
GRILL = Station(StationId("grill"), "Grill", StationKind.GRILL, 6)
FRIDGE = Station(
    StationId("fridge"),
    "Fridge",
    StationKind.FRIDGE,
    shelves=(Shelf(2000, 30), Shelf(2000, 10), Shelf(1000, 10)),
)


@pytest.fixture(params=[LIGHT, DARK], ids=["light", "dark"])
def colours(request, qapp) -> Iterator[Palette]:
    apply(QApplication.instance(), request.param.name)
    yield request.param
    apply(QApplication.instance(), "light")


@pytest.fixture
def painted(qtbot):
    def paint(station: Station) -> QImage:
        picture = StationPicture()
        qtbot.addWidget(picture)
        picture.resize(picture.sizeHint())
        picture.show_station(station)
        return picture.grab().toImage()

    return paint


def stretches(found: list[bool]) -> int:
    """Count the stretches of True."""
    return sum(here and not before for before, here in zip([False, *found], found, strict=False))


def is_colour(image: QImage, x: int, y: int, colour: str) -> bool:
    return image.pixelColor(x, y) == QColor(colour)


def islands(image: QImage, colour: str) -> int:
    """Count the patches of a colour that do not touch."""
    left = {
        (x, y) for x in range(image.width()) for y in range(image.height()) if is_colour(image, x, y, colour)
    }
    count = 0
    while left:
        count += 1
        edge = [left.pop()]
        while edge:
            x, y = edge.pop()
            near = {(x + dx, y + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)} & left
            left -= near
            edge += near
    return count


@pytest.mark.parametrize("racks", [1, 2, 4, 7, 12])
def test_an_oven_shows_its_racks(colours: Palette, painted, racks: int) -> None:
    image = painted(replace(OVEN, units=racks))
    rows = [
        sum(is_colour(image, x, y, colours.heat) for x in range(image.width())) > image.width() / 2
        for y in range(image.height())
    ]
    assert stretches(rows) == racks


@pytest.mark.parametrize("rings", [1, 2, 4, 6])
def test_a_hob_shows_its_rings(colours: Palette, painted, rings: int) -> None:
    assert islands(painted(replace(RINGS, units=rings)), colours.heat) == rings


@pytest.mark.parametrize("places", [1, 2, 6, 8, 12])
def test_a_grate_shows_its_places(colours: Palette, painted, places: int) -> None:
    assert islands(painted(replace(GRILL, units=places)), colours.heat) == places
    assert islands(painted(replace(GRILL, units=places, wide=80, deep=40)), colours.heat) == places


def test_shelves_are_as_high_as_they_are(colours: Palette, painted) -> None:
    image = painted(FRIDGE)
    middle = image.width() // 4
    boards = [is_colour(image, middle, y, colours.accent) for y in range(image.height())]
    assert stretches(boards) == 3
    ends = [y for y, board in enumerate(boards) if board and (y + 1 == len(boards) or not boards[y + 1])]
    top, second, lowest = ends
    high = lowest - second
    assert high == pytest.approx(3 * (second - top), abs=3), "30 cm and 10 cm"


@pytest.mark.parametrize("kind", list(StationKind))
def test_every_kind_has_a_picture_and_a_name(colours: Palette, painted, kind: StationKind) -> None:
    image = painted(Station(StationId("it"), "It", kind, 2, heater=Heater()))
    ink = sum(
        is_colour(image, x, y, colours.ink) for x in range(image.width()) for y in range(image.height())
    )
    assert ink > 100


def test_more_than_can_be_told_apart_are_counted(colours: Palette, painted) -> None:
    assert painted(replace(GRILL, units=40)) != painted(replace(GRILL, units=12))
    assert painted(replace(GRILL, units=40)) != painted(replace(GRILL, units=50))


def test_lines_stand_out_in_every_palette() -> None:
    for palette in PALETTES:
        for ground in (palette.panel, palette.lane, palette.heat_fill):
            assert contrast(palette.ink, ground) >= TEXT_CONTRAST
            assert contrast(palette.heat, ground) >= MARK_CONTRAST
        assert contrast(palette.accent, palette.lane) >= MARK_CONTRAST


def test_what_is_drawn_is_said_too() -> None:
    assert (
        holds_words(replace(OVEN, fan=True, wide=46, deep=38)) == "oven, 2 racks, 46x38 cm inside, with a fan"
    )
    assert holds_words(replace(RINGS, units=1)) == "burner, 1 ring"
    assert holds_words(FRIDGE) == "fridge, 3 shelves, 5,000 cm² in all"
    assert (
        holds_words(Station(StationId("room"), "Room", StationKind.ROOM, 0))
        == "room, as many places as needed"
    )
