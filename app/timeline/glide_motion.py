"""Whether things on the screen may move: the cook's own wish, the environment, the platform, whether there is a screen.

Qt 6.11 tells of no wish for less motion (`QStyleHints.accessibility()` has the contrast only), so the cook's setting
and the environment's `COOKDAY_MOTION` (`less` or `full`) come first, and then how long the platform's style lets its
own widgets move: 0 is a wish for none.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from functools import partial
from typing import Literal, cast, get_args

import platformdirs
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QStyle

Motion = Literal["system", "less", "full"]
_COMMANDS: dict[str, Motion] = {"move_as_system": "system", "move_less": "less", "move_full": "full"}
NAME = "COOKDAY_MOTION"
_UNSEEN = frozenset({"offscreen", "minimal"})


class MotionSetting:
    """The cook's wish, kept in the window's own settings file."""

    def __init__(self) -> None:
        folder = platformdirs.user_config_path("cookday", appauthor=False)
        self._store = QSettings(str(folder / "window.ini"), QSettings.Format.IniFormat)

    @property
    def motion(self) -> Motion:
        """Return whether things move: as the system, less, or in full."""
        found = str(self._store.value("motion", "system"))
        return cast("Motion", found if found in get_args(Motion) else "system")

    @motion.setter
    def motion(self, motion: Motion) -> None:
        self._store.setValue("motion", motion)


def set_motion(motion: Motion) -> None:
    """Keep the cook's wish; it counts from the next change on."""
    MotionSetting().motion = motion


def motion_runs() -> dict[str, Callable[[], None]]:
    """Return what the commands for the cook's wish run, by their names."""
    return {name: partial(set_motion, motion) for name, motion in _COMMANDS.items()}


def wanted() -> bool:
    """Tell whether things may move. Where nobody sees the screen nothing does, unless the environment asks for it."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        return False
    told = os.environ.get(NAME, "")
    if told in ("less", "full"):
        return told == "full"
    if app.platformName() in _UNSEEN:
        return False
    wish = MotionSetting().motion
    if wish != "system":
        return wish == "full"
    return _platform_lasts(app) > 0


def _platform_lasts(app: QApplication) -> int:
    """Return the milliseconds for which the platform lets a widget move."""
    return app.style().styleHint(QStyle.StyleHint.SH_Widget_Animation_Duration)
