"""What must be told of a timetable, from the plan and the timetable alone: each thing once, at its minute."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from zoneinfo import ZoneInfo

from core.plan import meaning
from core.plan.ids import StationId
from core.plan.kitchen import Station, StationKind
from core.plan.menu import Dish, LinkKind
from core.plan.plan import Plan
from core.plan.step import Attention, Step
from core.timetable.timetable import Placed, Timetable
from tests.core.sheets.feasts import FEASTS
from tests.core.sheets.paper_rows import Row
from tests.core.sheets.reading import on_the_wall, squeezed

_STANDING = frozenset({StationKind.ROOM, StationKind.MACHINE})
_HEAD = 6


@dataclass(frozen=True)
class Told:
    """One thing to be told: its minute, how its words begin (squeezed, as a pattern), what they hold, by whom.

    `must` False: it may be told, where a step ends by itself and nobody need come for it.
    """

    at: int
    opens: str
    holds: tuple[str, ...] = ()
    cooks: frozenset[str] = frozenset()
    stations: frozenset[StationId] = frozenset()
    must: bool = True
    begins: Placed | None = None


def day_said(plan: Plan, at: int) -> str:
    """Return the day of the wall clock as rows know it: "25 October"."""
    return f"{on_the_wall(plan, at):%-d %B}"


def clock_said(plan: Plan, at: int) -> str:
    """Return "02:30", or "02:30 CET" where the clock shows that time twice, worked out by zoneinfo alone."""
    wall, zone = on_the_wall(plan, at), ZoneInfo(plan.plating.zone)
    both = {wall.replace(fold=fold, tzinfo=zone).utcoffset() for fold in (0, 1)}
    return f"{wall:%H:%M} {wall.tzname()}" if len(both) > 1 else f"{wall:%H:%M}"


def tminus_said(at: int) -> str:
    """Return "T-1d 5:00", "T-0:30", "T", "T+0:15"."""
    if at == 0:
        return "T"
    days, left = divmod(abs(at), 1440)
    return f"T{'-' if at < 0 else '+'}{f'{days}d ' if days else ''}{left // 60}:{left % 60:02}"


def when_said(plan: Plan, at: int, now: int) -> str:
    """Return a later time as a row says it, squeezed: the weekday before it where it is another day's."""
    then, today = on_the_wall(plan, at), on_the_wall(plan, now)
    if then.date() == today.date():
        return squeezed(clock_said(plan, at))
    far = abs((then.date() - today.date()).days) > 6
    return squeezed(f"{then:%a} {f'{then:%-d %b} ' if far else ''}{clock_said(plan, at)}")


def minutes_said(minutes: int) -> str:
    """Return "45 min", "1 h 20 min", "2 days 3 h"."""
    days, left = divmod(minutes, 1440) if minutes >= 2880 else (0, minutes)
    hours, left = divmod(left, 60)
    said = [f"{days} days"] * (days > 0) + [f"{hours} h"] * (hours > 0) + [f"{left} min"] * (left > 0)
    return " ".join(said) or "0 min"


def dish_said(dish: Dish) -> str:
    """Return how a dish is named at least: its code and the head of its name."""
    return re.escape(squeezed(dish.code) + squeezed(dish.name)[:_HEAD])


def load_said(plan: Plan, placed: Placed) -> str:
    step = plan.steps[placed.step]
    count = meaning.load_count(plan.dish_of[step.id], step)
    return f"(load{placed.load + 1}of{count})" if count > 1 else ""


def does_said(plan: Plan, placed: Placed) -> str:
    """Return what is done, squeezed: by the words of the step, and of another way of doing it."""
    step = plan.steps[placed.step]
    does = " ".join(step.does.split())
    if placed.way:
        way = step.alternatives[placed.way - 1].name
        does = way if way.split()[0].casefold() == does.split()[0].casefold() else f"{does}: {way}"
    return squeezed(does)


def stations_of(plan: Plan, placed: Placed) -> list[Station]:
    return [plan.kitchen.station[each] for each in dict.fromkeys(spot.station for spot in placed.spots)]


def told(plan: Plan, timetable: Timetable) -> list[Told]:
    """Return all that a run sheet must tell but serving, in no order."""
    found = [each for placed in timetable.placed for each in _of_load(plan, timetable, placed)]
    for station in plan.kitchen.stations:
        found += _of_heat(plan, timetable, station)
    for each in timetable.washings:
        vessel = plan.kitchen.vessel[each.vessel]
        opens = rf"(?i:(?:Wash|Put)(?:the|\d+×){re.escape(squeezed(vessel.name))})"
        cooks = frozenset() if each.cook is None else frozenset({each.cook})
        found.append(Told(each.start, opens, (minutes_said(each.minutes),), cooks))
    return found


def _of_load(plan: Plan, timetable: Timetable, placed: Placed) -> Iterator[Told]:
    step, dish = plan.steps[placed.step], plan.dish_of[placed.step]
    does, load, head = re.escape(does_said(plan, placed)), re.escape(load_said(plan, placed)), dish_said(dish)
    does_head = re.escape(does_said(plan, placed)[:25])
    stations = frozenset(spot.station for spot in placed.spots)
    where = tuple(station.name for station in stations_of(plan, placed))
    heat = () if placed.setting is None else (f"{placed.setting}°C",)
    parts = sorted(placed.hands, key=lambda hand: hand.start) if _in_parts(step, placed) else []
    first = [hand for hand in placed.hands if hand.start == placed.start]
    part = rf",part1of{len(parts)}" if parts else ""
    until = () if parts else (f"until{when_said(plan, placed.end, placed.start)}", minutes_said(placed.length))
    yield Told(
        placed.start, rf"(?:IN|ON|START)?{does}{load}{part}(?::[^·]{{1,80}}?)?{head}", (*where, *heat, *until),
        _cooks(first[:1] if parts else first), stations, begins=placed,
    )  # fmt: skip
    for number, hand in enumerate(parts[1:], 2):
        opens = rf"GOON{does}{load},part{number}of{len(parts)}{head}"
        yield Told(hand.start, opens, (*where, minutes_said(hand.minutes)), _cooks([hand]), stations)
    if parts or step.attention is Attention.HANDS_ON:
        return
    if any((hand.start, hand.minutes) == (placed.start, placed.length) for hand in placed.hands):
        return
    later = [hand for hand in placed.hands if hand.start > placed.start]
    take = meaning.transfers(plan, step, placed.way)[1]
    taking = (placed.end - take, take)
    out = [hand for hand in later if take and (hand.start, hand.minutes) == taking]
    for at in sorted({hand.start for hand in later if hand not in out}):
        hands = [hand for hand in later if hand.start == at]
        asked = meaning.hands_of(plan, step, placed.length, placed.way)
        named = [each.does for each in asked if placed.start + each.start == at and each.does]
        touch = re.escape(squeezed(named[0] if named else "Look after it"))
        opens = rf"(?i:{touch}){load}{head}.*?{does_head}"
        yield Told(at, opens, (*where, minutes_said(hands[0].minutes)), _cooks(hands), stations)
    at = out[0].start if out else placed.end
    opens = rf"(?:OUT|OFF|READY){re.escape(squeezed(dish.code) + squeezed(dish.name)[:25])}.*?{load}{does_head}"
    yield Told(at, opens, (), _cooks(out), stations, must=bool(out) or _must_end(plan, timetable, placed))


def _in_parts(step: Step, placed: Placed) -> bool:
    may_be = step.least_piece is not None and step.attention is Attention.HANDS_ON and step.hands == 1
    return may_be and len(placed.hands) > 1


def _cooks(hands: list) -> frozenset[str]:  # type: ignore[type-arg]
    return frozenset(hand.cook for hand in hands if hand.cook is not None)


def _must_end(plan: Plan, timetable: Timetable, placed: Placed) -> bool:
    """Return whether somebody must come at the end: to take it out of where it stood, or to read the probe.

    Where food goes on or waits in the same place, nobody need.
    """
    step = plan.steps[placed.step]
    if step.doneness is not None and step.doneness.core is not None:
        return True
    here = {spot.station for spot in placed.spots}
    if not here or {plan.kitchen.station[each].kind for each in here} <= _STANDING:
        return False
    for link in plan.links_from[step.id]:
        for after in timetable.loads_of.get(link.after, ()):
            same = {spot.station for spot in after.spots} == here
            if link.kind is LinkKind.END_TO_START and after.start == placed.end and same:
                return False
    stays = (stay for stay in timetable.stays if stay.before == step.id and stay.start <= placed.end < stay.end)
    return not any({spot.station for spot in stay.spots} == here for stay in stays)


def _of_heat(plan: Plan, timetable: Timetable, station: Station) -> Iterator[Told]:
    """Yield what is lit, switched on, set to another temperature and switched off at a station."""
    name, only = re.escape(squeezed(station.name)), frozenset({station.id})
    own = [each for each in timetable.heatings if each.station == station.id]
    for each in own:
        cooks = frozenset() if each.cook is None else frozenset({each.cook})
        if station.is_fire:
            ready = f"readyat{when_said(plan, each.end, each.start)}"
            yield Told(each.start, rf"(?i:Lightthe{name})", (ready,), cooks, only)
        else:
            holds = (minutes_said(each.end - each.start), f"hotby{when_said(plan, each.end, each.start)}")
            yield Told(each.start, rf"ON{name}to{each.setting}°C", holds, cooks, only)
    if station.heater is None or station.is_fire:
        return
    held = sorted(
        (each.start, each.end, each.setting)
        for each in (*timetable.placed, *timetable.stays)
        if each.setting is not None and any(spot.station == station.id for spot in each.spots)
    )
    out, setting = 0, None
    for start, end, wanted in held:
        anew = setting is None or any(each.end == start for each in own)
        if anew and setting is not None:
            yield Told(out, rf"OFF{name}off", (), frozenset(), only)
        if not anew and wanted != setting:
            yield Told(min(out, start), rf"SET{name}to{wanted}°C", (f"from{setting}°C",), frozenset(), only)
        out, setting = end if anew else max(out, end), wanted
    if setting is not None:
        yield Told(out, rf"OFF{name}off", (), frozenset(), only)


@cache
def all_told(name: str) -> tuple[Told, ...]:
    """Return all that must be told of a feast."""
    return tuple(told(*FEASTS[name]()))


def require(plan: Plan, wanted: Iterable[Told], rows: Iterable[Row], *, timed: bool = True) -> None:
    """Find each thing told on one row at its day and clock time, with its words; and no row beside them."""
    left: dict[tuple[str, ...], list[Row]] = {}
    for row in rows:
        left.setdefault((row.day, row.clock, row.second if timed else ""), []).append(row)
    for each in sorted(wanted, key=lambda one: (not one.must, -len(one.opens))):
        key = day_said(plan, each.at), clock_said(plan, each.at), tminus_said(each.at) if timed else ""
        alone = len(plan.kitchen.cooks) == 1  # nobody need be named then
        names = [] if alone else [squeezed(plan.kitchen.cook[cook].name) for cook in each.cooks]
        holds = [squeezed(text).casefold() for text in (*each.holds, *names)]
        found = [
            row
            for row in left.get(key, [])
            if re.match(each.opens, row.text) and all(text in row.text.casefold() for text in holds)
        ]
        assert found or not each.must, (key, each.opens, each.holds, each.cooks, left.get(key))
        if found:
            left[key].remove(found[0])
    over = [row for some in left.values() for row in some]
    assert not over, over
