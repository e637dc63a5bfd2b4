"""Small things of a step as typed: touches, loads, by-products, core temperature."""

from __future__ import annotations

from typing import Any

from app.fields.short_form import each_read, each_shown, read_short, shown
from app.fields.spec import Typed
from app.fields.typed_text import if_any, optional


def _read_touch(text: str) -> Any:
    from core.intake.text.touches import TouchText

    return read_short(TouchText, text).touch()


def _show_touch(touch: Any) -> Any:
    from core.intake.text.touches import touch_out

    return touch_out(touch)


def _read_loads(text: str) -> Any:
    from core.intake.text.touches import LoadsText

    return read_short(LoadsText, text).loads()


def _show_loads(loads: Any) -> str:
    from core.intake.text.touches import loads_out

    return shown(loads_out(loads))


def _read_yield(text: str) -> Any:
    from core.intake.text.yields import YieldText

    return read_short(YieldText, text).made()


def _show_yield(made: Any) -> str:
    from core.intake.text.yields import yield_out

    return shown(yield_out(made))


def _read_heat(text: str) -> int:
    from core.measures.heat import parse_heat

    return parse_heat(text)


def _show_heat(celsius: int) -> str:
    from core.measures.heat import show_heat

    return show_heat(celsius)


TOUCHES = Typed(
    each_read(_read_touch),
    each_shown(_show_touch),
    lambda: ["at 10 min, 1 min: stir", "at 15 min, 2 min: turn", "5 min before the end, 1 min: probe"],
    "; ",
    wraps=True,
)
LOADS_IF_ANY = Typed(optional(_read_loads), if_any(_show_loads), wraps=True)
YIELD_IF_ANY = Typed(optional(_read_yield), if_any(_show_yield), wraps=True)
CORE_IF_ANY = Typed(optional(_read_heat), if_any(_show_heat))
