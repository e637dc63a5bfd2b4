"""The strong palettes: their contrast by the numbers of WCAG 2.2, and when they are worn."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QGuiApplication, QPalette

from app.look import DARK, LIGHT, STRONG_DARK, STRONG_LIGHT, apply
from app.look.colours import (
    PALETTES,
    STRONG_MARK_CONTRAST,
    STRONG_TEXT_CONTRAST,
    Palette,
    contrast,
    palette_named,
    palette_under,
    qpalette,
)
from app.look.dress import palette_for
from tests.app.look.test_look import dressed  # noqa: F401  a fixture

STRONG = pytest.mark.parametrize("palette", [STRONG_LIGHT, STRONG_DARK], ids=lambda palette: palette.name)


def below(least: float, pairs: list[tuple[str, str]]) -> list[tuple[str, str, float]]:
    return [(one, other, round(contrast(one, other), 2)) for one, other in pairs if contrast(one, other) < least]


@STRONG
def test_text_reaches_triple_a_on_every_ground(palette: Palette) -> None:
    # WCAG 2.2, success criterion 1.4.6: 7:1
    inks = (palette.ink, palette.faint, palette.accent, palette.clash)
    grounds = (palette.ground, palette.lane, palette.panel, palette.night)
    pairs = [(ink, ground) for ink in inks for ground in grounds]
    pairs += [(palette.on_accent, palette.accent), (palette.on_clash, palette.clash), (palette.heat, palette.lane)]
    pairs += [(palette.ink, palette.legal), (palette.ink, palette.heat_fill)]
    for tone in palette.tones:
        pairs += [(tone.on_full, tone.full), (tone.on_soft, tone.soft)]
    assert not below(STRONG_TEXT_CONTRAST, pairs)
    assert not below(4.5, [(palette.ink, palette.line)])


@STRONG
def test_marks_reach_four_and_a_half_and_lines_too(palette: Palette) -> None:
    grounds = (palette.ground, palette.lane, palette.panel)
    marks = (palette.rail, palette.accent, palette.clash, palette.heat)
    pairs = [(mark, ground) for mark in marks for ground in grounds]
    pairs += [(palette.line, ground) for ground in (palette.ground, palette.lane)]
    for tone in palette.tones:
        pairs += [(tone.edge, ground) for ground in (*grounds, palette.night, tone.soft)]
    assert not below(STRONG_MARK_CONTRAST, pairs)


@STRONG
def test_hands_on_and_hands_off_differ_by_three_to_one(palette: Palette) -> None:
    assert not below(3.0, [(tone.full, tone.soft) for tone in palette.tones])


@STRONG
def test_there_are_seven_tones_in_the_order_of_the_usual_ones(palette: Palette) -> None:
    assert [tone.hue for tone in palette.tones] == [tone.hue for tone in LIGHT.tones]
    assert len({tone.full for tone in palette.tones}) == 7


def test_every_palette_is_known_by_its_ground_and_by_its_name() -> None:
    for palette in PALETTES:
        assert palette_under(qpalette(palette)) is palette
        assert palette_named(palette.name) is palette
    grounds = [(each.ground, each.lane, each.panel, each.night, each.legal) for each in PALETTES]
    for palette, known in zip(PALETTES, grounds, strict=True):
        for ground in known:  # a style sheet may put a widget on any of them
            made = QPalette()
            made.setColor(QPalette.ColorRole.Window, QColor(ground))
            assert palette_under(made) is palette, ground
    assert (STRONG_LIGHT.dark, STRONG_DARK.dark) == (False, True)


class Asked:
    """A desktop that can be asked for its colours and its contrast."""

    def __init__(self, scheme: Qt.ColorScheme, wish: Qt.ContrastPreference) -> None:
        self._scheme, self._wish = scheme, wish

    def colorScheme(self) -> Qt.ColorScheme:  # noqa: N802  Qt's name
        return self._scheme

    def accessibility(self) -> Asked:
        return self

    def contrastPreference(self) -> Qt.ContrastPreference:  # noqa: N802  Qt's name
        return self._wish


@pytest.mark.parametrize(
    ("mode", "dark", "wish", "worn"),
    [
        ("system", False, "NoPreference", LIGHT),
        ("system", True, "NoPreference", DARK),
        ("system", False, "HighContrast", STRONG_LIGHT),
        ("system", True, "HighContrast", STRONG_DARK),
        ("light", True, "HighContrast", STRONG_LIGHT),
        ("dark", False, "HighContrast", STRONG_DARK),
        ("light", True, "NoPreference", LIGHT),
        ("light strong", True, "NoPreference", STRONG_LIGHT),
        ("dark strong", False, "NoPreference", STRONG_DARK),
    ],
)
def test_more_contrast_is_worn_when_the_system_or_the_cook_asks(monkeypatch, mode, dark, wish, worn) -> None:
    scheme = Qt.ColorScheme.Dark if dark else Qt.ColorScheme.Light
    asked = Asked(scheme, Qt.ContrastPreference[wish])
    monkeypatch.setattr("app.look.dress.QGuiApplication.styleHints", lambda: asked)
    assert palette_for(mode) is worn


def test_the_window_changes_at_once_when_the_system_asks_for_contrast(dressed, monkeypatch) -> None:  # noqa: F811
    hints = QGuiApplication.styleHints()
    apply(dressed, "light")
    monkeypatch.setattr("app.look.dress.palette_for", lambda _mode: STRONG_LIGHT)
    hints.accessibility().contrastPreferenceChanged.emit(Qt.ContrastPreference.HighContrast)
    assert dressed.palette().color(QPalette.ColorRole.Window) == QColor(STRONG_LIGHT.ground)
    monkeypatch.setattr("app.look.dress.palette_for", lambda _mode: LIGHT)
    apply(dressed, "dark strong")
    monkeypatch.setattr("app.look.dress.palette_for", lambda _mode: DARK)
    hints.accessibility().contrastPreferenceChanged.emit(Qt.ContrastPreference.NoPreference)
    assert dressed.palette().color(QPalette.ColorRole.Window) == QColor(LIGHT.ground), "it says itself how strong"
