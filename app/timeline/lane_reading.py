"""The choice between the three readings: three buttons side by side, the one that is shown held down."""

from __future__ import annotations

import platformdirs
from PySide6.QtCore import QSettings, Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from app.timeline.lanes import READINGS, Reading


class ReadingSetting:
    """The reading that was looked at last, kept in the window's own settings file."""

    def __init__(self) -> None:
        folder = platformdirs.user_config_path("cookday", appauthor=False)
        self._store = QSettings(str(folder / "window.ini"), QSettings.Format.IniFormat)

    @property
    def reading(self) -> Reading:
        """Return the reading; by station at first."""
        found = str(self._store.value("reading", READINGS[0]))
        return found if found in READINGS else READINGS[0]

    @reading.setter
    def reading(self, reading: Reading) -> None:
        self._store.setValue("reading", reading)


class ReadingChoice(QWidget):
    """Tells which reading is wanted by `chosen`; `show_reading` follows what is shown."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        self._group = QButtonGroup(self)
        self.buttons: dict[Reading, QPushButton] = {}
        words = {
            "station": (self.tr("Stations"), self.tr("What is on which station (R goes on to the next)")),
            "dish": (self.tr("Dishes"), self.tr("How each dish gets done (R goes on to the next)")),
            "cook": (self.tr("Cooks"), self.tr("Whose hands are where (R goes on to the next)")),
        }
        for reading in READINGS:
            button = QPushButton(words[reading][0])
            button.setToolTip(words[reading][1])
            button.setCheckable(True)
            button.setMinimumHeight(30)
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            button.clicked.connect(lambda _down=False, wanted=reading: self.chosen.emit(wanted))
            self._group.addButton(button)
            self.buttons[reading] = button
            row.addWidget(button)
        self.setAccessibleName(self.tr("How the day is read"))
        self.show_reading(READINGS[0])

    def show_reading(self, reading: str) -> None:
        """Hold down the button of the reading that is shown."""
        for known, button in self.buttons.items():
            button.setChecked(known == reading)
