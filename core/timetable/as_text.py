"""A timetable as JSON text and back, to keep, send and compare.

    {"cookday_timetable": 1,
     "placed": [{"step": "gratin.bake", "load": 0, "start": -137, "length": 75, "clock": "2026-09-26 17:13",
                 "spots": [{"station": "oven", "units": 1}], "setting": 160,
                 "hands": [{"start": -138, "minutes": 1, "cook": "ann", "clock": ...}]}],
     "stays": [{"before": "pork.rub", "after": "pork.temper", "load": 0, "start": ..., "end": ..., "clock": ...,
                "spots": [{"station": "fridge", "units": 1, "shelf": 0}], "setting": null}],
     "heatings": [{"station": "oven", "start": -162, "end": -137, "setting": 160, "cook": "ann", "clock": ...}],
     "washings": [{"vessel": "pot", "start": -40, "minutes": 5, "after": "soup.sweat", "cook": "ann", "clock": ...}]}

Starts and ends are whole minutes from plating, lengths minutes, settings °C, shelves counted from 0, the lowest.
"clock" is the start on the wall, written for people and ignored on reading. "load", "units", "shelf", "setting",
"cook", "spots", "hands" and "kind" may be left out; so may the "after" of a stay, which means until served. A load
that is not done as written has its "way". What has no washings, as older texts, has no list of them.
"""

from __future__ import annotations

import json
from typing import Any

from core.measures.refusal import Refusal, quoted
from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing

MARK = "cookday_timetable"
VERSION = 1
_MOST = 10**9
_PLACED = frozenset({"step", "load", "way", "start", "length", "spots", "setting", "hands", "clock"})
_STAY = frozenset({"before", "after", "load", "start", "end", "kind", "spots", "setting", "clock"})
_HEATING = frozenset({"station", "start", "end", "setting", "cook", "clock"})
_WASHING = frozenset({"vessel", "start", "minutes", "after", "cook", "clock"})
_SPOT = frozenset({"station", "units", "shelf"})
_HAND = frozenset({"start", "minutes", "cook", "clock"})

Record = dict[str, Any]


def write_timetable(plan: Plan, timetable: Timetable) -> str:
    """Return the text of a timetable, one thing to a line; the plan tells the clock times."""
    lists = {
        "placed": [_placed_record(plan, each) for each in timetable.placed],
        "stays": [_stay_record(plan, each) for each in timetable.stays],
        "heatings": [_heating_record(plan, each) for each in timetable.heatings],
    }
    if timetable.washings:
        lists["washings"] = [_washing_record(plan, each) for each in timetable.washings]
    parts = [f'"{MARK}": {VERSION}']
    for name, records in lists.items():
        lines = ",\n  ".join(json.dumps(record, ensure_ascii=False) for record in records)
        parts.append(f'"{name}": [\n  {lines}\n ]' if lines else f'"{name}": []')
    return "{" + ",\n ".join(parts) + "}\n"


def read_timetable(text: str) -> Timetable:
    """Return the timetable that a text holds; raise Refusal where it is none."""
    try:
        top = json.loads(text)
    except (ValueError, RecursionError):
        raise Refusal("This is no timetable: the text is not JSON. Write one from a plan again.") from None
    if not isinstance(top, dict) or MARK not in top:
        raise Refusal(f"This is no timetable: it does not begin with {quoted(MARK)}. Choose another file.")
    if top[MARK] != VERSION or isinstance(top[MARK], bool):
        raise Refusal(
            f"This timetable is of version {quoted(str(top[MARK]))}, and only version {VERSION} can be read here."
            " Write it again with this program, or read it with a newer one."
        )
    _only(top, frozenset({MARK, "placed", "stays", "heatings", "washings"}), "the timetable")
    return Timetable(
        tuple(_placed(*each) for each in _records(top, "placed", "the timetable", "placed")),
        tuple(_stay(*each) for each in _records(top, "stays", "the timetable", "stay")),
        tuple(_heating(*each) for each in _records(top, "heatings", "the timetable", "heating")),
        tuple(_washing(*each) for each in _records(top, "washings", "the timetable", "washing")),
    )


# ---- writing


def _clock(plan: Plan, offset: int) -> str:
    try:
        return f"{plan.wall(offset):%Y-%m-%d %H:%M}"
    except OverflowError:
        return "out of the calendar"


def _spots_record(spots: tuple[Spot, ...]) -> list[Record]:
    return [
        {"station": spot.station, "units": spot.units} | ({} if spot.shelf is None else {"shelf": spot.shelf})
        for spot in spots
    ]


def _placed_record(plan: Plan, placed: Placed) -> Record:
    hands = [
        {"start": hand.start, "minutes": hand.minutes, "cook": hand.cook, "clock": _clock(plan, hand.start)}
        for hand in placed.hands
    ]
    return {
        "step": placed.step,
        "load": placed.load,
        "start": placed.start,
        "length": placed.length,
        "clock": _clock(plan, placed.start),
        "spots": _spots_record(placed.spots),
        "setting": placed.setting,
        "hands": hands,
        **({"way": placed.way} if placed.way else {}),
    }


def _stay_record(plan: Plan, stay: Stay) -> Record:
    kind = {} if stay.kind is LinkKind.END_TO_START else {"kind": stay.kind.value}
    return {
        "before": stay.before,
        "after": stay.after,
        "load": stay.load,
        "start": stay.start,
        "end": stay.end,
        "clock": _clock(plan, stay.start),
        "spots": _spots_record(stay.spots),
        "setting": stay.setting,
        **kind,
    }


def _heating_record(plan: Plan, heating: Heating) -> Record:
    return {
        "station": heating.station,
        "start": heating.start,
        "end": heating.end,
        "clock": _clock(plan, heating.start),
        "setting": heating.setting,
        "cook": heating.cook,
    }


def _washing_record(plan: Plan, washing: Washing) -> Record:
    return {
        "vessel": washing.vessel,
        "start": washing.start,
        "minutes": washing.minutes,
        "clock": _clock(plan, washing.start),
        "after": washing.after,
        "cook": washing.cook,
    }


# ---- reading


def _records(record: Record, key: str, where: str, each: str) -> list[tuple[Record, str]]:
    """Return the records of a list with the words for each ("placed 3")."""
    found = record.get(key, [])
    if not isinstance(found, list) or not all(isinstance(one, dict) for one in found):
        raise Refusal(f'In {where} "{key}" must be a list of records in curly brackets.')
    return [(one, f"{each} {number}") for number, one in enumerate(found, 1)]


def _only(record: Record, keys: frozenset[str], where: str) -> None:
    for key in record:
        if key not in keys:
            raise Refusal(f"In {where} {quoted(key)} is unknown; leave it out.")


def _number(record: Record, key: str, where: str, default: int | None = None) -> int:
    value = record.get(key, default)
    if value is None and key not in record:
        raise Refusal(f'In {where} "{key}" is missing; give it a whole number.')
    if not isinstance(value, int) or isinstance(value, bool):
        raise Refusal(f'In {where} "{key}" is {_shown(value)}; it must be a whole number.')
    if abs(value) > _MOST:
        raise Refusal(f'In {where} "{key}" is {_shown(value)}; that is more than {_MOST:,}.')
    return value


def _number_or_none(record: Record, key: str, where: str) -> int | None:
    return None if record.get(key) is None else _number(record, key, where)


def _text(record: Record, key: str, where: str) -> str:
    value = record.get(key)
    if not isinstance(value, str):
        raise Refusal(f'In {where} "{key}" is {_shown(value)}; it must be a name in quotes.')
    return value


def _text_or_none(record: Record, key: str, where: str) -> str | None:
    return None if record.get(key) is None else _text(record, key, where)


def _shown(value: object) -> str:
    if value is None:
        return "missing"
    return quoted(value if isinstance(value, str) else json.dumps(value, ensure_ascii=False))


def _cook(record: Record, where: str) -> CookId | None:
    cook = _text_or_none(record, "cook", where)
    return None if cook is None else CookId(cook)


def _spots(record: Record, where: str) -> tuple[Spot, ...]:
    found = []
    for one, name in _records(record, "spots", where, "spot"):
        place = f"{name} of {where}"
        _only(one, _SPOT, place)
        station, units = StationId(_text(one, "station", place)), _number(one, "units", place, 1)
        found.append(Spot(station, units, _number_or_none(one, "shelf", place)))
    return tuple(found)


def _hands(record: Record, where: str) -> tuple[Hand, ...]:
    found = []
    for one, name in _records(record, "hands", where, "hand"):
        place = f"{name} of {where}"
        _only(one, _HAND, place)
        start, minutes = _number(one, "start", place), _number(one, "minutes", place)
        found.append(Hand(start, minutes, _cook(one, place)))
    return tuple(found)


def _placed(record: Record, where: str) -> Placed:
    _only(record, _PLACED, where)
    return Placed(
        StepId(_text(record, "step", where)),
        _number(record, "start", where),
        _number(record, "length", where),
        _number(record, "load", where, 0),
        _spots(record, where),
        _number_or_none(record, "setting", where),
        _hands(record, where),
        _number(record, "way", where, 0),
    )


def _stay(record: Record, where: str) -> Stay:
    _only(record, _STAY, where)
    after = _text_or_none(record, "after", where)
    kind = _text_or_none(record, "kind", where) or LinkKind.END_TO_START.value
    if kind not in {each.value for each in LinkKind}:
        raise Refusal(f'In {where} "kind" is {quoted(kind)}; write "end to start", or leave it out.')
    return Stay(
        StepId(_text(record, "before", where)),
        None if after is None else StepId(after),
        _number(record, "start", where),
        _number(record, "end", where),
        _number(record, "load", where, 0),
        LinkKind(kind),
        _spots(record, where),
        _number_or_none(record, "setting", where),
    )


def _heating(record: Record, where: str) -> Heating:
    _only(record, _HEATING, where)
    return Heating(
        StationId(_text(record, "station", where)),
        _number(record, "start", where),
        _number(record, "end", where),
        _number(record, "setting", where),
        _cook(record, where),
    )


def _washing(record: Record, where: str) -> Washing:
    _only(record, _WASHING, where)
    return Washing(
        VesselId(_text(record, "vessel", where)),
        _number(record, "start", where),
        _number(record, "minutes", where),
        StepId(_text(record, "after", where)),
        _cook(record, where),
    )
