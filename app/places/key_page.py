"""The page of keys: the window's commands and the timeline's, from the tables that answer them, and each place's."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QCoreApplication, QSize, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QTextBrowser, QVBoxLayout, QWidget

from app.look.colours import Palette, palette_under
from app.places.commands import COMMANDS, MENUS
from app.places.days.keeper import BY_COMMAND
from app.places.days.what_moved import KEY
from app.places.kitchen import kitchen_keys
from app.places.library import library_keys
from app.places.lists import list_keys
from app.places.menu import menu_keys
from app.places.recipe import recipe_keys
from app.timeline import key_table
from core.desk.kept import MOST_KEPT

_TWO = 42
"""Heights of a line that two columns need across."""

Section = tuple[str, tuple[tuple[str, str], ...]]
"""A heading, and under it keys and what they do."""


def command_sections() -> list[Section]:
    """Return the window's commands that have keys, menu by menu."""
    native = QKeySequence.SequenceFormat.NativeText
    found: list[Section] = []
    for menu in MENUS:
        rows = tuple(
            (QKeySequence(each.keys).toString(native), _plain(each.words))
            for each in COMMANDS
            if each.menu == menu and each.keys
        )
        if rows:
            found.append((_plain(menu), rows))
    return found


def timeline_sections() -> list[Section]:
    """Return the timeline's keys, group by group."""
    return [
        (key_table.said(group.words), tuple((key_table.shown(row), key_table.said(row.words)) for row in group.rows))
        for group in key_table.GROUPS
    ] + [_days_section()]


def _days_section() -> Section:
    """Return the keys of kept days and of what moved that are no commands of a menu."""
    native = QKeySequence.SequenceFormat.NativeText
    later = [QKeySequence(f"Alt+{number}").toString(native) for number in range(BY_COMMAND + 1, MOST_KEPT + 1)]
    return QCoreApplication.translate("keys", "Days kept"), (
        (QKeySequence(KEY).toString(native), QCoreApplication.translate("keys", "what moved; held down, for a glance")),
        (", ".join(later), QCoreApplication.translate("keys", "the later days kept, by their number")),
    )


def parts_of(place: str = "timeline") -> list[tuple[str, list[Section]]]:
    """Return the parts of the page, that of a place of the window first and what holds everywhere last."""
    parts = {
        "timeline": (QCoreApplication.translate("keys", "On the timeline"), timeline_sections()),
        "menu": (
            QCoreApplication.translate("keys", "On the menu"),
            [*menu_keys.sections(), *library_keys.sections()],
        ),
        "recipe": (QCoreApplication.translate("keys", "Where recipes come in"), recipe_keys.sections()),
        "kitchen": (QCoreApplication.translate("keys", "In the kitchen"), kitchen_keys.sections()),
        "sheets": (QCoreApplication.translate("keys", "On the sheets"), list_keys.sections()),
    }
    first = [place] if place in parts else []
    everywhere = (QCoreApplication.translate("keys", "In the whole window"), command_sections())
    return [*(parts[each] for each in dict.fromkeys([*first, *parts])), everywhere]


def page_html(palette: Palette, columns: int = 2, place: str = "timeline") -> str:
    """Return the page as rich text, each part in one column or two."""
    parts = parts_of(place)
    return "".join(
        f"<h3 style='color:{palette.ink}'>{escape(heading)}</h3>{_columns(sections, palette, columns)}"
        for heading, sections in parts
    )


class KeyPage(QDialog):
    """Shows the keys; it stays open beside the window while the cook tries them."""

    def __init__(self, parent: QWidget | None = None, place: str = "timeline") -> None:
        """Show the keys, those of `place` first: the name that the rail knows it by."""
        super().__init__(parent)
        self.setWindowTitle(QCoreApplication.translate("keys", "Keys"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        column = QVBoxLayout(self)
        self.text = QTextBrowser()
        self.text.setAccessibleName(self.windowTitle())
        column.addWidget(self.text)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.close)
        column.addWidget(buttons)
        line = self.fontMetrics().height()
        there = self.screen().availableSize()
        size = QSize(line * 58, line * 40).boundedTo(QSize(there.width() - 60, there.height() - 80))
        self.resize(size)
        columns = 2 if size.width() > line * _TWO else 1
        self.text.setHtml(page_html(palette_under(self.palette()), columns, place))


def _columns(sections: list[Section], palette: Palette, columns: int) -> str:
    """Return sections in columns, two of about the same length where there is room."""
    if columns == 1:
        return "".join(_section(each, palette) for each in sections)
    total = sum(len(rows) + 2 for _heading, rows in sections)
    left: list[Section] = []
    right: list[Section] = []
    count = 0
    for section in sections:
        (left if count < total / 2 else right).append(section)
        count += len(section[1]) + 2
    cells = "".join(
        f"<td width='50%' style='padding-right:18px'>{''.join(_section(each, palette) for each in half)}</td>"
        for half in (left, right)
    )
    return f"<table width='100%'><tr>{cells}</tr></table>"


def _section(section: Section, palette: Palette) -> str:
    heading, rows = section
    lines = "".join(
        f"<tr><td style='padding-right:14px; color:{palette.accent}'><b>{escape(keys).replace(' ', '&nbsp;')}</b></td>"
        f"<td>{escape(words)}</td></tr>"
        for keys, words in rows
    )
    return f"<p style='color:{palette.faint}; margin-bottom:2px'>{escape(heading)}</p><table>{lines}</table>"


def _plain(words: str) -> str:
    return QCoreApplication.translate("commands", words).replace("&", "").rstrip("…")
