from __future__ import annotations

from datetime import datetime

import pytest
from PySide6.QtCore import QLocale, QRectF, Qt
from PySide6.QtGui import QColor, QFontInfo, QFontMetricsF, QGuiApplication, QImage, QPainter, QPalette

from app.look import DARK, LIGHT, apply, icons, words
from app.look.dress import palette_for
from app.look.type import face, register
from core.plan.kitchen import StationKind
from resources import FONT_FAMILY, shipped


@pytest.fixture
def dressed(qapp):
    """Give the application and put back its style and colours after."""
    palette, style, font = qapp.palette(), qapp.style().name(), qapp.font()
    yield qapp
    qapp.setStyle(style)
    qapp.setPalette(palette)
    qapp.setFont(font)


def test_light_and_dark_are_put_on(dressed) -> None:
    apply(dressed, "dark")
    assert dressed.palette().color(QPalette.ColorRole.Window) == QColor(DARK.ground)
    apply(dressed, "light")
    assert dressed.palette().color(QPalette.ColorRole.Window) == QColor(LIGHT.ground)
    assert dressed.style().name() == "fusion"
    assert dressed.font().family() == FONT_FAMILY


def test_the_system_is_followed_only_in_its_mode(dressed, monkeypatch) -> None:
    scheme = Qt.ColorScheme.Dark
    hints = QGuiApplication.styleHints()

    class Hints:
        def colorScheme(self):  # noqa: N802  Qt's name
            return scheme

        def accessibility(self):
            return hints.accessibility()

    monkeypatch.setattr("app.look.dress.QGuiApplication.styleHints", Hints)
    assert palette_for("system") is DARK
    assert palette_for("light") is LIGHT
    scheme = Qt.ColorScheme.Unknown
    assert palette_for("system") is LIGHT
    monkeypatch.undo()
    apply(dressed, "system")
    monkeypatch.setattr("app.look.dress.palette_for", lambda mode: DARK if mode == "system" else LIGHT)
    hints.colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert dressed.palette().color(QPalette.ColorRole.Window) == QColor(DARK.ground)
    apply(dressed, "light")
    hints.colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert dressed.palette().color(QPalette.ColorRole.Window) == QColor(LIGHT.ground)


def test_the_shipped_face_is_used_and_its_figures_are_of_one_width(qapp) -> None:
    assert register() == FONT_FAMILY
    assert QFontInfo(face()).family() == FONT_FAMILY
    for bold in (False, True):
        metrics = QFontMetricsF(face(bold=bold))
        assert len({round(metrics.horizontalAdvance(digit), 3) for digit in "0123456789"}) == 1
    assert face(1.35).pointSizeF() > face().pointSizeF() > face(0.86).pointSizeF()


@pytest.mark.parametrize("name", icons.NAMES)
def test_every_icon_draws_in_the_colour_asked(qapp, name: str) -> None:
    image = QImage(48, 48, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    icons.draw(painter, name, "#1D4E89", QRectF(0, 0, 48, 48))
    painter.end()
    seen = {QColor(image.pixel(x, y)).name().upper() for x in range(48) for y in range(48)}
    assert "#1D4E89" in seen
    border = [(x, y) for x in range(48) for y in (0, 47)] + [(x, y) for y in range(48) for x in (0, 47)]
    assert all(QColor(image.pixel(x, y)).name() == "#ffffff" for x, y in border), "nothing is cut off"


def test_every_icon_file_has_a_name_and_every_name_a_file() -> None:
    assert {path.stem for path in shipped("icons").glob("*.svg")} == set(icons.NAMES)


def test_an_icon_for_a_sharp_screen_has_more_points(qapp) -> None:
    picture = icons.pixmap("pot", "#000000", 24, 2.0)
    assert (picture.width(), picture.devicePixelRatio()) == (48, 2.0)
    assert not icons.icon("pot", "#000000").isNull()


def test_every_kind_of_station_has_a_word_and_an_icon() -> None:
    for kind in StationKind:
        assert words.kind_word(kind)
        assert words.KIND_ICON[kind] in icons.NAMES


def test_times_and_dates_are_the_locales(qapp) -> None:
    moment = datetime(2026, 9, 26, 19, 5)
    assert words.clock_text(moment) == "19:05"
    assert words.day_text(moment, long=True) == "Saturday 26 September"
    QLocale.setDefault(QLocale(QLocale.Language.English, QLocale.Country.UnitedStates))
    assert words.clock_text(moment).replace("\u202f", " ") == "7:05 PM"
    QLocale.setDefault(QLocale(QLocale.Language.German, QLocale.Country.Germany))
    assert words.day_text(moment).startswith("Sa")
    assert words.figure(1200) == "1.200"


def test_words_can_be_translated(qapp) -> None:
    from PySide6.QtCore import QTranslator

    class Danish(QTranslator):
        def translate(self, context, text, *_more):
            return "nat" if (context, text) == ("words", "night") else None

        def isEmpty(self):  # noqa: N802  Qt's name
            return False

    danish = Danish()
    qapp.installTranslator(danish)
    try:
        assert words.word("night") == "nat"
        assert words.word("plating") == "plating"
    finally:
        qapp.removeTranslator(danish)
