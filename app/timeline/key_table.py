"""The timeline's keys as one table: what answers a key and what the page of keys says are read from the same rows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from PySide6.QtCore import QCoreApplication, QKeyCombination, Qt
from PySide6.QtGui import QKeySequence


def QT_TRANSLATE_NOOP(_context: str, words: str) -> str:  # the name that the translator's tool reads
    """Mark words for translation and return them; Qt's own is typed as an object."""
    return words


@dataclass(frozen=True, slots=True)
class Row:
    """One line: what is done (a method of key_acts and what it is given), its words, and the keys that do it."""

    act: str
    words: str
    keys: tuple[str, ...]
    given: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Group:
    """Lines that belong together under a heading."""

    words: str
    rows: tuple[Row, ...]


def _row(act: str, words: str, *keys: str, given: tuple[int, ...] = ()) -> Row:
    return Row(act, words, keys, given)


_NOOP = QT_TRANSLATE_NOOP
GROUPS = (
    Group(
        _NOOP("keys", "From bar to bar"),
        (
            _row("along", _NOOP("keys", "the one before in this lane"), "Left", given=(-1,)),
            _row("along", _NOOP("keys", "the next one in this lane"), "Right", given=(1,)),
            _row("across", _NOOP("keys", "the lane above"), "Up", given=(-1,)),
            _row("across", _NOOP("keys", "the lane below"), "Down", given=(1,)),
            _row("in_time", _NOOP("keys", "the next one in time, whatever its lane"), "T", given=(1,)),
            _row("in_time", _NOOP("keys", "the one before in time"), "Shift+T", given=(-1,)),
            _row("linked", _NOOP("keys", "what it hangs on"), "Ctrl+Left", "Ctrl+Up", given=(-1,)),
            _row("linked", _NOOP("keys", "what hangs on it"), "Ctrl+Right", "Ctrl+Down", given=(1,)),
            _row("first", _NOOP("keys", "the first of the day"), "Home"),
            _row("last", _NOOP("keys", "the last of the day"), "End"),
            _row("clash", _NOOP("keys", "the next clash"), "N", given=(1,)),
            _row("clash", _NOOP("keys", "the clash before"), "Shift+N", given=(-1,)),
            _row("open", _NOOP("keys", "open the step"), "Return", "Enter"),
        ),
    ),
    Group(
        _NOOP("keys", "Choosing several"),
        (
            _row("more_along", _NOOP("keys", "also the one before"), "Shift+Left", given=(-1,)),
            _row("more_along", _NOOP("keys", "also the next one"), "Shift+Right", given=(1,)),
            _row("more_across", _NOOP("keys", "also the lane above"), "Shift+Up", given=(-1,)),
            _row("more_across", _NOOP("keys", "also the lane below"), "Shift+Down", given=(1,)),
            _row("chain", _NOOP("keys", "also all that it hangs on"), "H", given=(-1,)),
            _row("chain", _NOOP("keys", "also all that hangs on it"), "Shift+H", given=(1,)),
            _row("let_go", _NOOP("keys", "let go: of a drag, a mark, of what is chosen along"), "Escape"),
        ),
    ),
    Group(
        _NOOP("keys", "Moving what is chosen"),
        (
            _row("nudge", _NOOP("keys", "5 minutes earlier"), "Alt+Left", given=(-5,)),
            _row("nudge", _NOOP("keys", "5 minutes later"), "Alt+Right", given=(5,)),
            _row("nudge", _NOOP("keys", "1 minute earlier"), "Alt+Shift+Left", given=(-1,)),
            _row("nudge", _NOOP("keys", "1 minute later"), "Alt+Shift+Right", given=(1,)),
            _row("other_lane", _NOOP("keys", "to the station or cook above"), "Alt+Up", given=(-1,)),
            _row("other_lane", _NOOP("keys", "to the station or cook below"), "Alt+Down", given=(1,)),
            _row("stretch", _NOOP("keys", "5 minutes shorter"), "<", given=(-5,)),
            _row("stretch", _NOOP("keys", "5 minutes longer"), ">", given=(5,)),
            _row("stretch", _NOOP("keys", "1 minute shorter"), ",", given=(-1,)),
            _row("stretch", _NOOP("keys", "1 minute longer"), ".", given=(1,)),
            _row("plate", _NOOP("keys", "plating 5 minutes sooner"), "Ctrl+PgUp", given=(-5,)),
            _row("plate", _NOOP("keys", "plating 5 minutes later"), "Ctrl+PgDown", given=(5,)),
            _row("plate_all", _NOOP("keys", "plating 5 minutes sooner, the day with it"), "Alt+PgUp", given=(-5,)),
            _row("plate_all", _NOOP("keys", "plating 5 minutes later, the day with it"), "Alt+PgDown", given=(5,)),
            _row("plate", _NOOP("keys", "plating 1 minute sooner"), "Ctrl+Shift+PgUp", given=(-1,)),
            _row("plate", _NOOP("keys", "plating 1 minute later"), "Ctrl+Shift+PgDown", given=(1,)),
        ),
    ),
    Group(
        _NOOP("keys", "Deciding about it"),
        (
            _row("pin", _NOOP("keys", "pin it here, or lift the pin"), "P"),
            _row("lift", _NOOP("keys", "lift the pin"), "Delete"),
            _row("way", _NOOP("keys", "choose the way to do it"), "W"),
            _row("length", _NOOP("keys", "choose how much time to allow"), "G"),
            _row("order", _NOOP("keys", "mark it; on another one: the marked one goes before it, or not"), "O"),
            _row("join", _NOOP("keys", "mark it; on another one: link the two, or unlink them"), "J"),
            _row("menu", _NOOP("keys", "menu of the bar"), "Menu", "Shift+F10"),
        ),
    ),
    Group(
        _NOOP("keys", "Seeing"),
        (
            _row("zoom", _NOOP("keys", "closer"), "+", "=", given=(1,)),
            _row("zoom", _NOOP("keys", "wider"), "-", given=(-1,)),
            _row("fit_all", _NOOP("keys", "all days"), "0"),
            _row("fit_chosen", _NOOP("keys", "what is chosen"), "1"),
            _row("fit_last", _NOOP("keys", "the last two hours"), "2"),
            _row("page", _NOOP("keys", "earlier by a view"), "PgUp", given=(-1,)),
            _row("page", _NOOP("keys", "later by a view"), "PgDown", given=(1,)),
            _row("reading", _NOOP("keys", "the next reading: stations, dishes, cooks"), "R", given=(1,)),
            _row("reading", _NOOP("keys", "the reading before"), "Shift+R", given=(-1,)),
            _row("fold", _NOOP("keys", "fold idle stretches, or show them"), "F"),
            _row("lane", _NOOP("keys", "fold this lane to a line, or open it"), "L"),
            _row("page_of_keys", _NOOP("keys", "these keys"), "?"),
        ),
    ),
)

Chord = tuple[int, int]
"""A key and the modifiers held, as numbers."""
_KNOWN = (
    Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier
)


def rows() -> tuple[Row, ...]:
    """Return all lines in the order of the page."""
    return tuple(row for group in GROUPS for row in group.rows)


def combination(keys: str) -> QKeyCombination:
    """Return the key and modifiers that a text like "Alt+Shift+Left" names."""
    return QKeySequence(keys)[0]  # type: ignore[index]  # the stubs lack it


def chord(key: int, held: Qt.KeyboardModifier) -> Chord:
    """Return a pressed key as it is known in the table: a sign counts however it is typed on a keyboard."""
    held &= _KNOWN
    if _is_sign(key):
        held &= ~Qt.KeyboardModifier.ShiftModifier
    return key, held.value


@cache
def by_chord() -> Mapping[Chord, Row]:
    """Return the line that each chord stands for; two lines for one chord are an error of ours."""
    found: dict[Chord, Row] = {}
    for row in rows():
        for keys in row.keys:
            pressed = combination(keys)
            known = chord(pressed.key().value, pressed.keyboardModifiers())
            if known in found:
                raise ValueError(f"{keys} is given twice: {found[known].words}, {row.words}")
            found[known] = row
    return found


def shown(row: Row) -> str:
    """Return the keys of a line as this system writes them."""
    native = QKeySequence.SequenceFormat.NativeText
    return " ".join(dict.fromkeys(QKeySequence(keys).toString(native) for keys in row.keys))


def said(words: str) -> str:
    """Return words of the table in the cook's language."""
    return QCoreApplication.translate("keys", words)


def _is_sign(key: int) -> bool:
    """Tell whether a key is a sign such as ? or +, for which some keyboards need Shift and others do not."""
    return 0x21 <= key <= 0xFF and not chr(key).isalnum()
