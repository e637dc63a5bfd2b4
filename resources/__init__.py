"""The files shipped with the program: fonts, icons, page templates."""

from pathlib import Path
from typing import Final

FONT_FAMILY: Final = "Noto Sans"
"""One family for the window, the sheets and the pictures, so that all three look alike on every machine."""

_HERE: Final = Path(__file__).resolve().parent


def shipped(*parts: str) -> Path:
    """Give the path of a shipped file or folder; FileNotFoundError when the installation lacks it."""
    path = _HERE.joinpath(*parts)
    if not path.exists():
        raise FileNotFoundError(
            f"{'/'.join(parts)} is missing from this installation of Cook-Day Planner: install it again."
        )
    return path


def fonts_folder() -> Path:
    """Give the folder with the font files, as the typesetter wants it."""
    return shipped("fonts")


def fonts_more_folder() -> Path:
    """Give the folder with fonts for scripts that few plans have: large, and looked at only for these."""
    return shipped("fonts_more")


def font_files() -> tuple[Path, ...]:
    """Give the font files in a fixed order, as the window wants them."""
    return tuple(sorted(fonts_folder().glob("*.ttf")))
