"""The look of the window: colours, type, icons and shared words."""

from app.look.colours import (
    DARK,
    LIGHT,
    STRONG_DARK,
    STRONG_LIGHT,
    Palette,
    Tone,
    contrast,
    palette_named,
    palette_under,
)
from app.look.dress import Mode, apply

__all__ = [
    "DARK",
    "LIGHT",
    "STRONG_DARK",
    "STRONG_LIGHT",
    "Mode",
    "Palette",
    "Tone",
    "apply",
    "contrast",
    "palette_named",
    "palette_under",
]
