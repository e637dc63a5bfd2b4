"""Random plans with something broken in them: a number, a text or an id spoilt, a part missing or doubled."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

from hypothesis import strategies as st

from core.plan.plan import Plan
from tests.support.random_plans import plans

_WORSE: dict[type, tuple[Any, ...]] = {
    int: (-1, 0, 7, 10**6, -(10**6), 10**30),
    float: (0.0, -1.0, float("nan"), float("inf")),
    str: ("", "\x00", "\ud800", "stray.step", "soup", "."),
}
Path = tuple[str | int, ...]


@st.composite
def broken_plans(draw: st.DrawFn) -> Plan:
    """Draw a plan with one to three parts spoilt, dropped or doubled."""
    plan = draw(plans(most_dishes=3, most_steps=3))
    for _each in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from(list(_paths(plan, ()))))
        old = _at(plan, path)
        if isinstance(old, tuple):
            place = draw(st.integers(0, len(old) - 1))
            new: Any = draw(st.sampled_from((old[:place] + old[place + 1 :], (*old, old[place]))))
        else:
            new = draw(st.sampled_from(_WORSE[type(old)]))
        plan = _put(plan, path, new)
    return plan


def _paths(thing: Any, path: Path) -> Iterator[Path]:
    """Yield where the numbers, texts and filled tuples of a value are; enumerations and dates stay whole."""
    if type(thing) in _WORSE:
        yield path
    elif isinstance(thing, tuple):
        if thing and not isinstance(thing[0], int):  # a night and a point on a curve have always two numbers
            yield path
        for place, each in enumerate(thing):
            yield from _paths(each, (*path, place))
    elif is_dataclass(thing):
        for field in fields(thing):
            yield from _paths(getattr(thing, field.name), (*path, field.name))


def _at(thing: Any, path: Path) -> Any:
    for part in path:
        thing = thing[part] if isinstance(part, int) else getattr(thing, part)
    return thing


def _put(thing: Any, path: Path, new: Any) -> Any:
    if not path:
        return new
    part, rest = path[0], path[1:]
    if isinstance(part, int):
        return (*thing[:part], _put(thing[part], rest, new), *thing[part + 1 :])
    return replace(thing, **{part: _put(getattr(thing, part), rest, new)})
