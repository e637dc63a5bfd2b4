"""Reads steps into tasks: one for each load, with the ways it may be done and the hands each way needs."""

from __future__ import annotations

from collections.abc import Iterator

from core.arrange.problem import BarredUse, Begun, Piece, Task, Way
from core.arrange.settings import settings_of
from core.plan import meaning
from core.plan.day import Day, Fact, State
from core.plan.fits import Barred, barred
from core.plan.ids import StepId
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Attention, Step, Use
from core.timetable.timetable import Placed, Timetable

_MOST_CUTS = 24  # pieces of one step: more make a model too large


def tasks_of(plan: Plan, day: Day | None = None, seen: Timetable | None = None) -> Iterator[Task]:
    """Return the tasks of all steps in the menu's order; dropped loads are left out."""
    settings = settings_of(plan)
    index = 0
    for dish in plan.menu.dishes:
        for step in dish.steps:
            ways = tuple(_way(plan, step, number, settings) for number in meaning.ways_open(plan, step))
            loads = meaning.load_count(dish, step)
            for load in range(loads):
                fact = day.of.get((step.id, load)) if day is not None else None
                if fact is not None and fact.state is State.DROPPED:
                    continue
                if fact is None or day is None:
                    yield _task(plan, dish, step, (index, load, loads), ways)
                else:
                    placed = seen.at.get(fact.key) if seen is not None else None
                    yield _begun_task(plan, dish, step, (index, load, loads), ways, (fact, day.now, placed))
                index += 1


def _way(plan: Plan, step: Step, number: int, settings: dict[tuple[StepId, int], tuple[int, ...]]) -> Way:
    kept = meaning.reserved(plan, step.id, number)
    _span, uses = meaning.way_of(plan, step, number)
    heat = meaning.heat_of(plan, step, number)
    lengths = tuple(
        (celsius, meaning.length_at(kept.length, heat, celsius))
        for celsius in settings.get((step.id, number), ())
        if heat is not None
    )
    return Way(number, kept.length, kept.early, _as_vessels_leave(plan, step, uses), lengths)


def _as_vessels_leave(plan: Plan, step: Step, uses: tuple[Use, ...]) -> tuple[Use, ...]:
    """Return the shares of stations, without the stations that the step's vessels do not fit."""
    outs = barred(plan.kitchen, step, uses)
    return tuple(_narrowed(use, out) if out.stations else use for use, out in zip(uses, outs, strict=True))


def _narrowed(use: Use, out: Barred) -> Use:
    return BarredUse(use.kind, use.units, use.station, use.area, use.height, use.raw, use.heat, out.stations)


def _begun(fact: Fact, now: int, usual: int) -> Begun:
    """Return when it began and ends: as said, or after its usual minutes, not before now while it goes on."""
    end = fact.start + usual if fact.end is None else fact.end
    if fact.state is State.DONE:
        return Begun(fact.start, end, over=True)
    return Begun(fact.start, max(end, now), over=False)


def _begun_task(
    plan: Plan,
    dish: Dish,
    step: Step,
    number: tuple[int, int, int],
    ways: tuple[Way, ...],
    known: tuple[Fact, int, Placed | None],
) -> Task:
    """Return a task as the day has it, in the way and at the setting it was placed. `known`: fact, now, placed."""
    index, load, loads = number
    fact, now, placed = known
    way = next((each for each in ways if placed is not None and each.number == placed.way), ways[0])
    setting = placed.setting if placed is not None else None
    settings = tuple(each for each in way.settings if each[0] == setting) or way.settings[:1]
    usual = settings[0][1] if settings else way.length
    begun = _begun(fact, now, usual)
    minutes = begun.end - begun.start
    way = Way(way.number, minutes, 0, way.uses, tuple((celsius, minutes) for celsius, _length in settings))
    cut = placed is not None and len(placed.hands) > 1 and meaning.most_pieces(step, usual) > 1
    if placed is not None and cut and placed.end == begun.end:
        pieces = tuple(_rest_of_pieces((index, way.number, step.skill), placed, begun, now))
    else:
        pieces = tuple(
            _left(piece, begun, now, placed)
            for piece in _pieces(plan, step, index, way)
            if _ahead(piece, begun, now)
        )
    return Task(index, step, dish, load, loads, (way,), pieces, begun=begun)


def _task(
    plan: Plan, dish: Dish, step: Step, number: tuple[int, int, int], ways: tuple[Way, ...]
) -> Task:
    index, load, loads = number
    pieces = tuple(piece for way in ways for piece in _pieces(plan, step, index, way))
    cuts = min(_MOST_CUTS, max(meaning.most_pieces(step, way.longest) for way in ways))
    fuller = tuple(sorted({percent for way in ways for percent in _fuller(plan, way)}))
    return Task(index, step, dish, load, loads, ways, pieces, cuts, fuller)


def _fuller(plan: Plan, way: Way) -> set[int]:
    kinds = {use.kind for use in way.uses}
    heaters = (each.heater for each in plan.kitchen.stations if each.kind in kinds)
    return {heater.full for heater in heaters if heater is not None and heater.full}


def _rest_of_pieces(
    what: tuple[int, int, str], placed: Placed, begun: Begun, now: int
) -> Iterator[Piece]:
    """Return what is left of work in pieces: as it was to be, and who is at a piece goes on with it."""
    index, way, skill = what
    for hand in placed.hands:
        start, end = max(hand.start, now), hand.start + hand.minutes
        if end > start and not begun.over:
            cook = hand.cook if hand.start < now else None
            yield Piece(index, start - begun.start, end - start, 1, skill, way=way, cook=cook)


def _ahead(piece: Piece, begun: Begun, now: int) -> bool:
    """Tell whether a piece of a task that has begun is still to be done."""
    return not begun.over and _span(piece, begun)[1] > now


def _left(piece: Piece, begun: Begun, now: int, placed: Placed | None) -> Piece:
    """Return what is left of a piece from now on; who is at it goes on with it."""
    since, end = _span(piece, begun)
    start, cook = max(since, now), None
    if since < now and placed is not None and piece.people == 1:
        cook = next((hand.cook for hand in placed.hands if hand.start == since), None)
    return Piece(piece.task, start - begun.start, end - start, piece.people, piece.skill, way=piece.way, cook=cook)


def _span(piece: Piece, begun: Begun) -> tuple[int, int]:
    start = begun.end - piece.offset - piece.minutes if piece.from_end else begun.start + piece.offset
    return start, begun.end if piece.whole else start + piece.minutes


def _pieces(plan: Plan, step: Step, task: int, way: Way) -> Iterator[Piece]:
    length = way.length
    put_in, take_out = meaning.transfers(plan, step, way.number)
    most = max(_most_minutes(plan, way), way.longest)
    if length <= put_in + take_out < most:  # one visit as it is, two where it lasts longer
        length = most
    hands = meaning.hands_of(plan, step, length, way.number)
    for hand in hands:
        from_end = step.attention is not Attention.HANDS_ON and _counts_from_end(
            step, hand.does, hand.start, length
        )
        offset = length - hand.start - hand.minutes if from_end else hand.start
        whole = hand.minutes == length and len(hands) == 1
        yield Piece(task, offset, hand.minutes, hand.people, hand.skill, from_end, whole, way.number)


def _most_minutes(plan: Plan, way: Way) -> int:
    return meaning.longer_by(way.longest, max(_fuller(plan, way), default=0))


def _counts_from_end(step: Step, does: str, start: int, length: int) -> bool:
    """Tell whether a touch moves with the step's end when its length changes."""
    if does == "out" and start > 0:
        return True
    return any(touch.from_end and length - touch.at - touch.minutes == start for touch in step.touches)
