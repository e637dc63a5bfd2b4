"""For whom there are copies of a sheet: everybody, each cook, each station that is used, or one of them."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QCoreApplication

from app.places.paper.choice import ALL, EACH_COOK, EACH_STATION, ONLY, Choice
from core.measures.words import plural_of
from core.plan.kitchen import HEATED, StationKind
from core.plan.plan import Plan
from core.sheets.bundle import Wanted
from core.sheets.kinds import CUT, SheetKind
from core.sheets.page import Page
from core.sheets.whose import EVERYBODY, Whose, whose
from core.sheets.words import shortened
from core.timetable.timetable import Timetable

NAME = 40
"""Characters of a name in a choice."""


def options_of(plan: Plan, timetable: Timetable | None, kind: SheetKind) -> list[tuple[str, str]]:
    """Return the copies that there may be of a kind, each with its words; a kind that is not cut has one."""
    if kind not in CUT:
        return [(ALL, _said("one for everybody"))]
    cooks = _cooks(plan) if kind is not SheetKind.STATION else []
    stations = _stations(plan, timetable)
    found = [(ALL, _said("one for everybody") if cooks else _said("all stations"))]
    if len(cooks) > 1:
        found.append((EACH_COOK, _said("one for each cook")))
    if len(stations) > 1 and kind is not SheetKind.STATION:
        found.append((EACH_STATION, _said("one for each station")))
    names = dict.fromkeys((*cooks, *stations))
    return found + [(f"{ONLY}{each}", _said("only {name}").format(name=shortened(each, NAME))) for each in names]


def copies_of(plan: Plan, timetable: Timetable | None, kind: SheetKind, copies: str) -> tuple[Whose, ...]:
    """Return for whom a kind is printed; a name that is nobody's in this plan gives one copy for everybody."""
    if copies not in {value for value, _words in options_of(plan, timetable, kind)} or copies == ALL:
        return (EVERYBODY,)
    if copies == EACH_COOK:
        return tuple(Whose(whose(plan, each.id).name, cook=each.id) for each in plan.kitchen.cooks)
    names = _stations(plan, timetable) if copies == EACH_STATION else [copies.removeprefix(ONLY)]
    return tuple(whose(plan, name) for name in names)


def wanted_of(
    choice: Choice, kinds: Iterable[SheetKind], plan: Plan, timetable: Timetable | None, printed: str = ""
) -> tuple[Wanted, ...]:
    """Return the sheets of some kinds as the cook chose them; `printed` goes into the foot."""
    found: list[Wanted] = []
    for kind in kinds:
        layout = choice.layout(kind)
        page = Page(choice.paper, layout.landscape, layout.dense, printed)
        found += [Wanted(kind, page, of) for of in copies_of(plan, timetable, kind, layout.copies)]
    return tuple(found)


def _cooks(plan: Plan) -> list[str]:
    return [each.name for each in plan.kitchen.cooks if each.name.strip()]


def _stations(plan: Plan, timetable: Timetable | None) -> list[str]:
    """Return the names of what is heated and used, the burners as one."""
    there = plan.kitchen.station
    used = {spot.station for placed in (timetable.placed if timetable is not None else ()) for spot in placed.spots}
    names = []
    for station in plan.kitchen.stations:
        if station.id not in used or station.id not in there:
            continue
        if station.kind is StationKind.BURNER:
            names.append(plural_of(station.kind.value))
        elif station.kind in HEATED and station.name.strip():
            names.append(station.name)
    return list(dict.fromkeys(names))


def _said(words: str) -> str:
    return QCoreApplication.translate("Paper", words)
