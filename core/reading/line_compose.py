"""Makes of a line's chips the values of a step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any

from core.measures.minutes import show_minutes
from core.plan.kitchen import StationKind
from core.plan.step import Attention, Doneness, Heat, Holding, Keep, Loads, Span, Touch, Use, Wait
from core.reading.line_rules_wait import FollowSaid, WaitSaid
from core.reading.line_rules_work import TouchSaid
from core.reading.line_value import Chip, Fault, Follow, LineWait, PlaceSaid, Says
from core.reading.line_verbs import attention_of, attention_with_touches, place_of
from core.reading.verbs import often

_ONCE = {
    Says.LENGTH: "length",
    Says.ATTENTION: "attention",
    Says.HANDS: "hands",
    Says.SKILL: "skill",
    Says.PUT_IN: "put_in",
    Says.TAKE_OUT: "take_out",
    Says.PIECE: "least_piece",
    Says.EARLIEST: "earliest",
    Says.LATEST: "latest",
    Says.CLOCK: "clock",
}
"""What is said at most once, and the field of the step that it sets as it is."""
_DONENESS = {Says.CUE: "cue", Says.CORE: "core", Says.RESTED: "rest"}
_WAITING = (Says.WAIT, Says.KEEP, Says.FOLLOWS)
_TWICE = "This says the {} a second time; write it once, or put the words in quotes."
_TWO_STEPS = (
    "This is a second length: write a second step on a line of its own, a wait as then up to 1 h, "
    "or put the words in quotes."
)


@dataclass
class _Parts:
    """What has been put together so far. `at` is the place that sizes belong to: a use's index or a waiting chip."""

    text: str
    uses: list[Use] = field(default_factory=list)
    units_said: list[bool] = field(default_factory=list)
    heat: tuple[Chip, Heat] | None = None
    at: int | Chip | None = None
    waits: list[tuple[Chip, WaitSaid, Use | None]] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    before: Chip | None = None

    def twice(self, chip: Chip) -> None:
        """Note that a thing is said a second time."""
        sentence = _TWO_STEPS if chip.kind is Says.LENGTH else _TWICE.format(chip.kind.value)
        self.faults.append(Fault(chip.start, chip.end, sentence))


@dataclass(frozen=True)
class Composed:
    """The values of a line, the chips that follow from its verb, and what is wrong between phrases."""

    values: dict[str, Any]
    implied: tuple[Chip, ...]
    unsaid: frozenset[str]
    doneness: dict[str, Any]
    wait: LineWait | None
    follows: tuple[Follow, ...]
    faults: tuple[Fault, ...]


def composed(text: str, chips: list[Chip], does: str, verb_at: tuple[int, int]) -> Composed:
    """Return the values that chips and words say together; `verb_at` is where the words begin."""
    parts = _Parts(text)
    values: dict[str, Any] = {}
    doneness: dict[str, Any] = {}
    for chip in chips:
        _simple(parts, chip, values, doneness)
        _place(parts, chip)
        parts.before = chip
    if does:
        values["does"] = does
    _loads(parts, chips, values)
    touches = _touches(parts, chips, values.get("length"))
    if touches:
        values["touches"] = touches
    if vessels := tuple(chip.value for chip in chips if chip.kind is Says.VESSEL):
        values["vessels"] = vessels
    if doneness:
        values["doneness"] = Doneness(doneness.get("cue", ""), doneness.get("core"), doneness.get("rest"))
    hot = parts.heat is not None
    implied = _implied(parts, chips, does, values, verb_at)
    fields = {Says.PLACE: "uses", Says.ATTENTION: "attention"}
    unsaid = frozenset(fields[chip.kind] for chip in implied if not (chip.kind is Says.PLACE and hot))
    wait = _waiting(parts, values)
    return Composed(values, implied, unsaid, doneness, wait, _follows(parts, chips), tuple(parts.faults))


def _simple(parts: _Parts, chip: Chip, values: dict[str, Any], doneness: dict[str, Any]) -> None:
    if chip.kind in _ONCE:
        name = _ONCE[chip.kind]
        if name in values:
            parts.twice(chip)
        else:
            values[name] = chip.value
    if chip.kind in _DONENESS:
        name = _DONENESS[chip.kind]
        if name in doneness:
            parts.twice(chip)
        else:
            doneness[name] = chip.value


# ---------------------------------------------------------------- places


def _place(parts: _Parts, chip: Chip) -> None:
    """Put one chip that speaks of a place where it belongs."""
    if chip.kind is Says.HEAT:
        _heat(parts, chip)
    elif chip.kind in (Says.PLACE, Says.UNITS):
        _named(parts, chip)
    elif chip.kind in _WAITING:
        said = chip.value.wait if isinstance(chip.value, FollowSaid) else chip.value
        if said is not None:
            parts.waits.append((chip, said, None))
            parts.at = chip
    elif chip.kind in (Says.AREA, Says.HEIGHT, Says.RAW, Says.STEADY):
        _size(parts, chip)


def _named(parts: _Parts, chip: Chip) -> None:
    said: PlaceSaid = chip.value
    use = Use(said.kind, 1 if said.units is None else said.units, said.station)
    close = parts.before is not None and not _comma(parts, parts.before, chip)
    if isinstance(parts.at, Chip):
        _chip, waiting, held = parts.waits[-1]
        fits = parts.before is not None and parts.before.kind in (*_WAITING, Says.PLACE, Says.UNITS) and close
        if fits and held is None:
            parts.waits[-1] = (_chip, waiting, use)
            return
        if held is not None and fits and held.kind is said.kind:
            parts.waits[-1] = (_chip, waiting, _refined(held, said))
            return
    at = parts.at if isinstance(parts.at, int) else None
    if at is not None and parts.uses[at].kind is said.kind:
        more_units = chip.kind is Says.UNITS and not parts.units_said[at]
        the_station = said.station is not None and parts.uses[at].station is None and close
        after_place = parts.before is not None and parts.before.kind in (Says.PLACE, Says.UNITS)
        if more_units or (the_station and after_place):
            parts.uses[at] = _refined(parts.uses[at], said)
            parts.units_said[at] = parts.units_said[at] or said.units is not None
            return
    parts.uses.append(use)
    parts.units_said.append(said.units is not None)
    parts.at = len(parts.uses) - 1


def _refined(use: Use, said: PlaceSaid) -> Use:
    units = use.units if said.units is None else said.units
    return replace(use, units=units, station=said.station or use.station)


def _comma(parts: _Parts, before: Chip, chip: Chip) -> bool:
    return "," in parts.text[before.end : chip.start]


def _on_current(parts: _Parts, change: Callable[[Use], Use]) -> bool:
    """Change the use that sizes belong to; False where there is none."""
    if isinstance(parts.at, int):
        parts.uses[parts.at] = change(parts.uses[parts.at])
        return True
    if isinstance(parts.at, Chip):
        chip, waiting, held = parts.waits[-1]
        kind = {Holding.FRIDGE: StationKind.FRIDGE, Holding.FREEZER: StationKind.FREEZER}.get(waiting.how)
        if held is None and kind is None:
            return False
        parts.waits[-1] = (chip, waiting, change(held or Use(kind or StationKind.FRIDGE)))
        return True
    return False


def _size(parts: _Parts, chip: Chip) -> None:
    if chip.kind is Says.STEADY:
        done = _on_current(
            parts, lambda use: use if use.heat is None else replace(use, heat=replace(use.heat, steady=False))
        )
        if not done and parts.heat is not None:
            parts.heat = (parts.heat[0], replace(parts.heat[1], steady=False))
        return
    name = {Says.AREA: "area", Says.HEIGHT: "height", Says.RAW: "raw"}[chip.kind]
    if not _on_current(parts, lambda use: replace(use, **{name: chip.value})):
        parts.faults.append(
            Fault(
                chip.start,
                chip.end,
                f"Say where {chip.words} is needed; write the place before it, such as fridge.",
            )
        )


def _heat(parts: _Parts, chip: Chip) -> None:
    heat: Heat = chip.value
    if isinstance(parts.at, Chip) and parts.waits[-1][2] is not None:
        _on_current(parts, lambda use: replace(use, heat=heat))
        return
    if isinstance(parts.at, int) and parts.uses[parts.at].heat is None:
        parts.uses[parts.at] = replace(parts.uses[parts.at], heat=heat)
        return
    if parts.heat is not None or (parts.uses and all(use.heat for use in parts.uses)):
        parts.twice(chip)
        return
    parts.heat = (chip, heat)


def _implied(
    parts: _Parts, chips: list[Chip], does: str, values: dict[str, Any], verb_at: tuple[int, int]
) -> tuple[Chip, ...]:
    """Add what the verb says where the words do not; return it as chips."""
    found: list[Chip] = []
    kind = place_of(does)
    nowhere = any(chip.kind is Says.NO_PLACE for chip in chips)
    if not parts.uses and kind is not None and not nowhere:
        parts.uses.append(Use(kind))
        found.append(
            Chip(Says.PLACE, f"{kind.value}, as usual", *verb_at, PlaceSaid(kind), implied=True)
        )
    if parts.heat is not None:
        _settle_heat(parts)
    if parts.uses or nowhere:
        values["uses"] = tuple(parts.uses)
    if does and "attention" not in values:
        length = values.get("length")
        touched = bool(values.get("touches"))
        attention = attention_with_touches(does, length) if touched else attention_of(does)
        values["attention"] = attention
        why = "for its visits" if attention is Attention.TENDED else "as usual"
        found.append(Chip(Says.ATTENTION, f"{attention.value}, {why}", *verb_at, attention, implied=True))
    return tuple(found)


def _settle_heat(parts: _Parts) -> None:
    assert parts.heat is not None
    chip, heat = parts.heat
    at = next((n for n, use in enumerate(parts.uses) if use.heat is None), None)
    if at is None:
        sentence = f"Say what is at {chip.words}; write the place before it, such as oven."
        parts.faults.append(Fault(chip.start, chip.end, sentence))
    else:
        parts.uses[at] = replace(parts.uses[at], heat=heat)


# ---------------------------------------------------------------- loads, touches, waits


def _loads(parts: _Parts, chips: list[Chip], values: dict[str, Any]) -> None:
    said = [chip for chip in chips if chip.kind is Says.LOADS]
    between = [chip for chip in chips if chip.kind is Says.BETWEEN]
    for extra in (*said[1:], *between[1:]):
        parts.twice(extra)
    if said:
        values["loads"] = Loads(
            said[0].value.pieces, said[0].value.per_load, between[0].value if between else 0
        )
    elif between:
        mend = "say the loads too, such as 24 pieces 8 at a time."
        parts.faults.append(Fault(between[0].start, between[0].end, f"Of which loads? Please {mend}"))


def _touches(parts: _Parts, chips: list[Chip], length: Span | None) -> tuple[Touch, ...]:
    found: list[Touch] = []
    for chip in chips:
        if chip.kind is not Says.TOUCH:
            continue
        said: TouchSaid = chip.value
        first = said.touches[0]
        if said.often and length is not None:
            said = TouchSaid((replace(first, at=often(length)),), every=True)
            first = said.touches[0]
        if (said.every or said.half or said.often) and length is None:
            parts.faults.append(
                Fault(chip.start, chip.end, "Say how long the step takes too, such as 60 min.")
            )
        elif said.every and length is not None:
            times = range(first.at, length.low - first.minutes + 1, max(1, first.at))
            if first.at < 1 or not times:
                sentence = f"No visit fits: the step takes {show_minutes(length.low)} at least; write a shorter time."
                parts.faults.append(Fault(chip.start, chip.end, sentence))
            found += [replace(first, at=at) for at in times if first.at]
        elif said.half and length is not None:
            found.append(replace(first, at=length.likely // 2))
        else:
            found += said.touches
            parts.faults += _outside(chip, said, length)
    return tuple(found)


def _outside(chip: Chip, said: TouchSaid, length: Span | None) -> list[Fault]:
    last = max(said.touches, key=lambda touch: touch.at)
    if length is None or last.at <= length.high:
        return []
    sentence = (
        f"The visit {show_minutes(last.at)} {'before the end' if last.from_end else 'after the start'} lies outside "
        f"the step, which takes {show_minutes(length.high)} at most; write another time, or C after a temperature."
    )
    return [Fault(chip.start, chip.end, sentence)]


def _waiting(parts: _Parts, values: dict[str, Any]) -> LineWait | None:
    found: LineWait | None = None
    for chip, said, use in parts.waits:
        if chip.kind is Says.KEEP:
            if "keeps" in values:
                parts.twice(chip)
            values["keeps"] = Keep(said.most, Wait(said.how, use))
        elif chip.kind is Says.WAIT:
            if found is not None:
                parts.twice(chip)
            found = LineWait(said.least, said.most, Wait(said.how, use))
    return found


def _follows(parts: _Parts, chips: list[Chip]) -> tuple[Follow, ...]:
    waits = {
        id(chip): LineWait(said.least, said.most, Wait(said.how, use)) for chip, said, use in parts.waits
    }
    return tuple(
        Follow(chip.value.step, chip.value.kind, chip.value.also, waits.get(id(chip)))
        for chip in chips
        if chip.kind is Says.FOLLOWS
    )
