"""Everything the window can be told, in one table: words, keys, what runs. Menus and the key page come from it."""

from __future__ import annotations

from dataclasses import dataclass


def QT_TRANSLATE_NOOP(_context: str, words: str) -> str:  # the name that the translator's tool reads
    """Mark words for translation and return them; Qt's own is typed as an object."""
    return words


@dataclass(frozen=True, slots=True)
class Command:
    """One command: its name in code (a method of the window's `Acts`), menu, words and keys."""

    name: str
    menu: str
    words: str
    keys: str = ""
    icon: str = ""
    line_after: bool = False


MENUS = (
    QT_TRANSLATE_NOOP("commands", "&Plan"),
    QT_TRANSLATE_NOOP("commands", "&Change"),
    QT_TRANSLATE_NOOP("commands", "&Go to"),
    QT_TRANSLATE_NOOP("commands", "&Arrange"),
    QT_TRANSLATE_NOOP("commands", "&Help"),
)
_PLAN, _CHANGE, _GO, _ARRANGE, _HELP = MENUS

COMMANDS = (
    Command("begin_empty", _PLAN, QT_TRANSLATE_NOOP("commands", "Begin an &empty plan"), "Ctrl+N"),
    Command("open_plan", _PLAN, QT_TRANSLATE_NOOP("commands", "&Open a plan…"), "Ctrl+O"),
    Command("bring_recipe", _PLAN, QT_TRANSLATE_NOOP("commands", "Bring in a &recipe"), "Ctrl+I"),
    Command("open_recipe", _PLAN, QT_TRANSLATE_NOOP("commands", "Open a sa&ved recipe…"), "Ctrl+Shift+I"),
    Command("open_demo", _PLAN, QT_TRANSLATE_NOOP("commands", "Open the &demo feast"), line_after=True),
    Command("keep_copy", _PLAN, QT_TRANSLATE_NOOP("commands", "Keep a &copy as…"), "Ctrl+Shift+S", "save"),
    Command("print_sheets", _PLAN, QT_TRANSLATE_NOOP("commands", "&Print sheets…"), "Ctrl+P", "print"),
    Command("write_text", _PLAN, QT_TRANSLATE_NOOP("commands", "Write as &text…"), line_after=True),
    Command("close_plan", _PLAN, QT_TRANSLATE_NOOP("commands", "&Close the plan"), "Ctrl+W"),
    Command("leave", _PLAN, QT_TRANSLATE_NOOP("commands", "&Leave"), "Ctrl+Q"),
    Command("undo", _CHANGE, QT_TRANSLATE_NOOP("commands", "&Undo"), "Ctrl+Z", "undo"),
    Command("redo", _CHANGE, QT_TRANSLATE_NOOP("commands", "&Redo"), "Ctrl+Y", "redo", line_after=True),
    Command("look_system", _CHANGE, QT_TRANSLATE_NOOP("commands", "Colours as the &system")),
    Command("look_light", _CHANGE, QT_TRANSLATE_NOOP("commands", "&Light colours")),
    Command("look_dark", _CHANGE, QT_TRANSLATE_NOOP("commands", "&Dark colours")),
    Command("look_light_strong", _CHANGE, QT_TRANSLATE_NOOP("commands", "Light colours, strong &contrast")),
    Command("look_dark_strong", _CHANGE, QT_TRANSLATE_NOOP("commands", "Dark colours, stron&g contrast")),
    Command("move_as_system", _CHANGE, QT_TRANSLATE_NOOP("commands", "Bars glide as the s&ystem says")),
    Command("move_less", _CHANGE, QT_TRANSLATE_NOOP("commands", "Bars &jump, nothing glides")),
    Command("move_full", _CHANGE, QT_TRANSLATE_NOOP("commands", "Bars glide al&ways")),
    Command("go_menu", _GO, QT_TRANSLATE_NOOP("commands", "&Menu"), "Ctrl+1", "pot"),
    Command("go_kitchen", _GO, QT_TRANSLATE_NOOP("commands", "&Kitchen"), "Ctrl+2", "oven"),
    Command("go_timeline", _GO, QT_TRANSLATE_NOOP("commands", "&Timeline"), "Ctrl+3", "plate"),
    Command("go_sheets", _GO, QT_TRANSLATE_NOOP("commands", "&Sheets"), "Ctrl+4", "print"),
    Command("go_cure_desk", _GO, QT_TRANSLATE_NOOP("commands", "&Curing and brining desk"), "Ctrl+B"),
    Command("arrange", _ARRANGE, QT_TRANSLATE_NOOP("commands", "&Arrange the day"), "Ctrl+R", "arrange"),
    Command(
        "arrange_around",
        _ARRANGE,
        QT_TRANSLATE_NOOP("commands", "Arrange a&round what is seen"),
        "Ctrl+Shift+R",
        "arrange",
    ),
    Command("stop", _ARRANGE, QT_TRANSLATE_NOOP("commands", "&Stop, keep the best"), "Ctrl+.", "stop"),
    Command("how_it_stands", _ARRANGE, QT_TRANSLATE_NOOP("commands", "&How the day stands"), "F6"),
    Command("go_clashes", _ARRANGE, QT_TRANSLATE_NOOP("commands", "List of &clashes and food limits"), "F7", "clash"),
    Command("food_days", _ARRANGE, QT_TRANSLATE_NOOP("commands", "One food over the &days"), "F8"),
    Command("what_moved", _ARRANGE, QT_TRANSLATE_NOOP("commands", "What &moved"), "Ctrl+M"),
    Command("keep_day", _ARRANGE, QT_TRANSLATE_NOOP("commands", "&Keep this day…"), "Ctrl+K"),
    Command("kept_day_1", _ARRANGE, QT_TRANSLATE_NOOP("commands", "The &first day kept"), "Alt+1"),
    Command("kept_day_2", _ARRANGE, QT_TRANSLATE_NOOP("commands", "The s&econd day kept"), "Alt+2"),
    Command("kept_day_3", _ARRANGE, QT_TRANSLATE_NOOP("commands", "The &third day kept"), "Alt+3"),
    Command("lift_pins", _ARRANGE, QT_TRANSLATE_NOOP("commands", "&Lift all pins"), "", "pin"),
    Command("show_keys", _HELP, QT_TRANSLATE_NOOP("commands", "&Keys"), "F1"),
    Command("about", _HELP, QT_TRANSLATE_NOOP("commands", "&About")),
)
