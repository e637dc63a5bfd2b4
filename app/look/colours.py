"""Colours of the window and of the timeline, light and dark, and the contrast between two of them.

The dishes' hues start from the eight-colour set of Okabe and Ito (2008), which people with every common
kind of colour blindness tell apart; they are tuned here until text on them and edges around them reach
WCAG 2.2 AA (4.5:1 for text, 3:1 for marks). The two strong palettes, for those who ask their system or the planner
for more contrast, reach AAA for text (7:1) and 4.5:1 for marks; hands-on and hands-off differ by 3:1 in them.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QColor, QPalette

TEXT_CONTRAST = 4.5
MARK_CONTRAST = 3.0
STRONG_TEXT_CONTRAST = 7.0
STRONG_MARK_CONTRAST = 4.5


@dataclass(frozen=True, slots=True)
class Tone:
    """The colours of one dish: full (hands on), soft (cooks by itself), edge, and the text on the two fills."""

    hue: str
    full: str
    on_full: str
    soft: str
    on_soft: str
    edge: str


@dataclass(frozen=True, slots=True)
class Palette:
    """All colours of one theme, as #RRGGBB.

    `ground` is the paper, `lane` the strip things lie on, `panel` rulers and gutters, `night` the shade of hours
    when nobody is there; `rail` marks racks, `line` separates; `accent` is enamel blue; `clash` is the alarm.
    """

    name: str
    ground: str
    lane: str
    panel: str
    night: str
    ink: str
    faint: str
    line: str
    rail: str
    accent: str
    on_accent: str
    clash: str
    on_clash: str
    legal: str
    heat: str
    heat_fill: str
    tones: tuple[Tone, ...]

    @property
    def dark(self) -> bool:
        """Tell whether this is the dark theme."""
        return luminance(self.ground) < luminance(self.ink)

    def tone(self, index: int) -> Tone:
        """Return the tone of the dish at this place in the menu; the tones come round again after seven."""
        return self.tones[index % len(self.tones)]


_INK = "#2A2420"
_NIGHT_INK = "#1A1613"
_CREAM = "#F1E9DC"

LIGHT = Palette(
    name="light",
    ground="#F7F2E8",
    lane="#FCF9F3",
    panel="#EDE5D6",
    night="#E4DBC9",
    ink=_INK,
    faint="#5E544A",
    line="#D9CDB8",
    rail="#8C7C60",
    accent="#1D4E89",
    on_accent="#FFFFFF",
    clash="#A8201A",
    on_clash="#FFFFFF",
    legal="#CFE0D2",
    heat="#A63A12",
    heat_fill="#F6DFCD",
    tones=(
        Tone("orange", "#E69F00", _INK, "#F6E2B4", _INK, "#8A5A00"),
        Tone("blue", "#0068A8", "#FFFFFF", "#BAD3E0", _INK, "#00426E"),
        Tone("green", "#12A87C", _INK, "#BFE4D4", _INK, "#00664A"),
        Tone("purple", "#D184AF", _INK, "#F1DBE1", _INK, "#8A3D66"),
        Tone("sky", "#56B4E9", _INK, "#D1E7F0", _INK, "#1B6A98"),
        Tone("vermilion", "#BF5200", "#FFFFFF", "#ECCEB4", _INK, "#7F3500"),
        Tone("yellow", "#F0E442", _INK, "#F8F2B7", _INK, "#736800"),
    ),
)

DARK = Palette(
    name="dark",
    ground="#221E1A",
    lane="#28231E",
    panel="#322B24",
    night="#191613",
    ink=_CREAM,
    faint="#BDB1A0",
    line="#40382F",
    rail="#85776A",
    accent="#9CC2EE",
    on_accent=_NIGHT_INK,
    clash="#FF9281",
    on_clash=_NIGHT_INK,
    legal="#34473A",
    heat="#F0A27C",
    heat_fill="#43301F",
    tones=(
        Tone("orange", "#E8A51C", _NIGHT_INK, "#624A1D", _CREAM, "#EBB23E"),
        Tone("blue", "#4593D6", _NIGHT_INK, "#314555", _CREAM, "#61A3DC"),
        Tone("green", "#22B98C", _NIGHT_INK, "#26503F", _CREAM, "#43C49D"),
        Tone("purple", "#DB93BC", _NIGHT_INK, "#5E454D", _CREAM, "#E0A3C6"),
        Tone("sky", "#7CC6F2", _NIGHT_INK, "#41545E", _CREAM, "#90CFF4"),
        Tone("vermilion", "#E8743A", _NIGHT_INK, "#623B26", _CREAM, "#EB8958"),
        Tone("yellow", "#EFE35A", _NIGHT_INK, "#645D30", _CREAM, "#F1E773"),
    ),
)


STRONG_LIGHT = Palette(
    name="light strong",
    ground="#FFFFFF",
    lane="#FFFFFF",
    panel="#F0F0F0",
    night="#DEDEDE",
    ink="#000000",
    faint="#333333",
    line="#757575",
    rail="#4A4A4A",
    accent="#003A80",
    on_accent="#FFFFFF",
    clash="#8F0000",
    on_clash="#FFFFFF",
    legal="#C4EDCF",
    heat="#7A2A00",
    heat_fill="#FFE2CC",
    tones=(
        Tone("orange", "#7A4500", "#FFFFFF", "#FFE7BD", "#000000", "#7A4500"),
        Tone("blue", "#003F73", "#FFFFFF", "#D3E7FF", "#000000", "#003F73"),
        Tone("green", "#005237", "#FFFFFF", "#CDF5E2", "#000000", "#005237"),
        Tone("purple", "#75205A", "#FFFFFF", "#FBE0F0", "#000000", "#75205A"),
        Tone("sky", "#1B5675", "#FFFFFF", "#DAF2FF", "#000000", "#1B5675"),
        Tone("vermilion", "#872000", "#FFFFFF", "#FFDDCC", "#000000", "#872000"),
        Tone("yellow", "#574D00", "#FFFFFF", "#FFF8BD", "#000000", "#574D00"),
    ),
)

STRONG_DARK = Palette(
    name="dark strong",
    ground="#000000",
    lane="#000000",
    panel="#161616",
    night="#2A2A2A",
    ink="#FFFFFF",
    faint="#DEDEDE",
    line="#767676",
    rail="#B4B4B4",
    accent="#9CD0FF",
    on_accent="#000000",
    clash="#FFB3A6",
    on_clash="#000000",
    legal="#0F4D22",
    heat="#FFC39A",
    heat_fill="#4A2A10",
    tones=(
        Tone("orange", "#FFB838", "#000000", "#3F2C00", "#FFFFFF", "#FFB838"),
        Tone("blue", "#6FBBFF", "#000000", "#0B2D4A", "#FFFFFF", "#6FBBFF"),
        Tone("green", "#3FE0AE", "#000000", "#04382A", "#FFFFFF", "#3FE0AE"),
        Tone("purple", "#FFB0DC", "#000000", "#47203A", "#FFFFFF", "#FFB0DC"),
        Tone("sky", "#A5DDFF", "#000000", "#1F3A4A", "#FFFFFF", "#A5DDFF"),
        Tone("vermilion", "#FF9A66", "#000000", "#4A1F0A", "#FFFFFF", "#FF9A66"),
        Tone("yellow", "#FFF35C", "#000000", "#3F3A00", "#FFFFFF", "#FFF35C"),
    ),
)

PALETTES = (LIGHT, DARK, STRONG_LIGHT, STRONG_DARK)
_BY_GROUND = {
    ground: each
    for each in PALETTES
    for ground in (each.ground, each.lane, each.panel, each.night, each.legal, each.line, each.accent, each.clash)
}
"""Which palette a widget wears by the colour it stands on; a style sheet may have put it on any of these."""


def luminance(colour: str) -> float:
    """Return the relative luminance of #RRGGBB, 0 to 1 (WCAG 2.2, 'relative luminance')."""

    def linear(part: str) -> float:
        value = int(part, 16) / 255
        return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)

    red, green, blue = (linear(colour[at : at + 2]) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21 (WCAG 2.2, 'contrast ratio')."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def palette_named(name: str) -> Palette:
    """Return the palette of a theme by its name; light where there is none of that name."""
    return next((each for each in PALETTES if each.name == name), LIGHT)


def palette_under(palette: QPalette) -> Palette:
    """Return the palette that matches what a widget stands on, so that no global theme is needed."""
    ground = palette.color(QPalette.ColorRole.Window)
    return _BY_GROUND.get(ground.name().upper()) or (DARK if ground.lightness() < 128 else LIGHT)


def qpalette(palette: Palette) -> QPalette:
    """Return the Qt palette of a theme, for the Fusion style."""
    role = QPalette.ColorRole
    made = QPalette()
    for name, colour in (
        (role.Window, palette.ground),
        (role.WindowText, palette.ink),
        (role.Base, palette.lane),
        (role.AlternateBase, palette.panel),
        (role.Text, palette.ink),
        (role.PlaceholderText, palette.faint),
        (role.Button, palette.panel),
        (role.ButtonText, palette.ink),
        (role.BrightText, palette.clash),
        (role.ToolTipBase, palette.lane),
        (role.ToolTipText, palette.ink),
        (role.Highlight, palette.accent),
        (role.HighlightedText, palette.on_accent),
        (role.Accent, palette.accent),
        (role.Link, palette.accent),
        (role.LinkVisited, palette.accent),
        (role.Light, palette.lane),
        (role.Midlight, palette.panel),
        (role.Mid, palette.line),
        (role.Dark, palette.rail),
        (role.Shadow, palette.night),
    ):
        made.setColor(name, QColor(colour))
    for name in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, name, QColor(palette.rail))
    return made
