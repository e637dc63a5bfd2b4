from __future__ import annotations

import pytest

from app.look.colours import (
    DARK,
    LIGHT,
    MARK_CONTRAST,
    TEXT_CONTRAST,
    Palette,
    contrast,
    luminance,
    palette_named,
    palette_under,
    qpalette,
)

BOTH = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda palette: palette.name)


def below(least: float, pairs: list[tuple[str, str]]) -> list[tuple[str, str, float]]:
    """Return the pairs with less contrast, and how much they have."""
    return [(one, other, round(contrast(one, other), 2)) for one, other in pairs if contrast(one, other) < least]


def test_contrast_is_that_of_the_standard() -> None:
    # WCAG 2.2: black on white is 21:1, a colour on itself 1:1; #767676 is the lightest grey with 4.5:1 on white
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#808080", "#808080") == 1
    assert contrast("#767676", "#FFFFFF") >= 4.5 > contrast("#777777", "#FFFFFF")
    assert contrast("#FFFFFF", "#000000") == contrast("#000000", "#FFFFFF")
    assert luminance("#FF0000") == pytest.approx(0.2126)


@BOTH
def test_text_reaches_double_a_on_every_ground(palette: Palette) -> None:
    pairs = [
        (ink, ground)
        for ink in (palette.ink, palette.faint, palette.accent, palette.clash)
        for ground in (palette.ground, palette.lane, palette.panel, palette.night)
    ]
    pairs += [(palette.on_accent, palette.accent), (palette.on_clash, palette.clash)]
    pairs += [(palette.ink, palette.legal), (palette.ink, palette.line), (palette.heat, palette.lane)]
    pairs += [(palette.ink, palette.heat_fill), (palette.lane, palette.ink)]
    for tone in palette.tones:
        pairs += [(tone.on_full, tone.full), (tone.on_soft, tone.soft)]
    assert not below(TEXT_CONTRAST, pairs)


@BOTH
def test_marks_reach_three_to_one(palette: Palette) -> None:
    pairs = [
        (mark, ground)
        for mark in (palette.rail, palette.accent, palette.clash, palette.heat)
        for ground in (palette.lane, palette.ground, palette.panel)
    ]
    for tone in palette.tones:
        pairs += [(tone.edge, ground) for ground in (palette.lane, palette.ground, palette.panel, palette.night)]
        pairs += [(tone.edge, tone.soft)]
    assert not below(MARK_CONTRAST, pairs)


@BOTH
def test_hands_on_and_hands_off_differ_by_more_than_hue(palette: Palette) -> None:
    for tone in palette.tones:
        assert contrast(tone.full, tone.soft) > 1.15, tone.hue
        assert tone.full != tone.soft


@BOTH
def test_dishes_have_seven_different_tones_and_come_round_again(palette: Palette) -> None:
    assert len({tone.full for tone in palette.tones}) == 7
    assert palette.tone(7) == palette.tone(0)
    assert palette.tone(3) != palette.tone(4)


def test_a_palette_is_known_by_what_a_widget_stands_on() -> None:
    assert palette_under(qpalette(LIGHT)) is LIGHT
    assert palette_under(qpalette(DARK)) is DARK
    assert palette_named("dark").dark
    assert not palette_named("light").dark
