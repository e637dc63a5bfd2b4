"""Raw before ready to eat: on shelves, on places for one thing, and in vessels and on boards without washing between.

A worktop that holds as much as one likes has room for two boards: nothing is said of it. Vessels and tools that are
washed are told by the timetable's washings; one that needs none is as raw as what it held. Fish in a cure that nothing
cooks counts as ready to eat, as fish for eating raw does (Food Code 3-302.11(A)(1)(a), from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from core.plan.food import Effect, FoodKind
from core.plan.ids import StationId, StepId
from core.plan.kitchen import COLD, StationKind
from core.plan.runs import Run, vessel_runs
from core.safety.case import Case
from core.safety.finding import Finding, FoodWay
from core.safety.rules import Measure, Rule
from core.safety.story import Story, Stretch, Warmth
from core.timetable.timetable import Placed, Spot

_SURFACES = frozenset({StationKind.ROOM, StationKind.MACHINE, StationKind.COLD_COUNTER, StationKind.GRILL})


@dataclass(frozen=True, slots=True)
class _Met:
    """A food in a stretch that touches a surface: raw animal, or ready to eat (nothing cooks it any more)."""

    story: Story
    stretch: Stretch
    raw: bool


def raw_first(case: Case) -> Iterator[Finding]:
    """Find ready food that meets what raw food has touched."""
    met = [each for story in case.stories for each in _meetings(story)]
    for rule in case.rules.by_measure[Measure.RAW_BELOW]:
        yield from _below(case, rule, met)
    for rule in case.rules.by_measure[Measure.RAW_WASH]:
        yield from _places(case, rule, met)
        yield from _vessels(case, rule, met)


def _meetings(story: Story) -> Iterator[_Met]:
    if story.food.kind in (None, FoodKind.KEEPS):
        return
    last = max((n for n, each in enumerate(story.stretches) if each.warmth is Warmth.COOKING), default=-1)
    cured = False
    for number, each in enumerate(story.stretches):
        cured = cured or (each.done.effect is Effect.CURE and last < 0)
        raw = story.food.raw_animal and not each.cooked and not cured
        if raw or (number > last and not raw):
            yield _Met(story, each, raw)


def _finding(case: Case, rule: Rule, ready: _Met, sentence: str, way: str) -> Finding:
    return case.finding(rule, ready.story, (ready.stretch,), (0, ""), sentence, (FoodWay(way),))


# ---------------------------------------------------------------- shelves


def _below(case: Case, rule: Rule, met: list[_Met]) -> Iterator[Finding]:
    for raw in (each for each in met if each.raw):
        for ready in (each for each in met if not each.raw):
            one, other = _spot(case, raw.stretch), _spot(case, ready.stretch)
            if one is None or other is None or one.station != other.station:
                continue
            together = raw.stretch.start < ready.stretch.end and ready.stretch.start < raw.stretch.end
            if together and (one.shelf is None or other.shelf is None):
                _ask_for_shelves(case, one.station, raw, ready)
                continue
            if one.shelf is None or other.shelf is None or one.shelf <= other.shelf:
                continue
            if together:
                sentence = (
                    f"{case.name(raw.story.food)} is raw and stands above {case.name(ready.story.food)}, which is ready"
                    f" to eat, from {case.clock(max(raw.stretch.start, ready.stretch.start))}"
                )
                yield _finding(case, rule, ready, sentence, "Put what is raw on the lowest shelf.")


def _ask_for_shelves(case: Case, station: StationId, raw: _Met, ready: _Met) -> None:
    place = case.plan.kitchen.station.get(station)
    if place is not None and place.kind in COLD:
        case.ask(
            f"{case.name(raw.story.food)}, which is raw, and {case.name(ready.story.food)}, which is ready to eat,"
            " stand in one cold place without shelves: say which shelves it has, or keep the raw in a box of its own,"
            " below."
        )


def _spot(case: Case, stretch: Stretch) -> Spot | None:
    if not stretch.waits:
        placed = next(
            (each for each in case.timetable.loads_of[stretch.step] if each.start == stretch.start), None
        )
        return placed.spots[0] if placed is not None and placed.spots else None
    stays = (each for each in case.timetable.stays if each.before == stretch.step and each.end == stretch.end)
    stay = next(stays, None)
    return stay.spots[0] if stay is not None and stay.spots else None


# ---------------------------------------------------------------- places for one thing


def _places(case: Case, rule: Rule, met: list[_Met]) -> Iterator[Finding]:
    by_place: dict[StationId, list[_Met]] = {}
    for each in met:
        station = None if each.stretch.waits else each.stretch.station
        place = case.plan.kitchen.station.get(station) if station is not None else None
        if place is not None and place.kind in _SURFACES and place.units == 1:
            by_place.setdefault(place.id, []).append(each)
    cleans = _cleanings(case)
    for place_id, there in by_place.items():
        raws, readies = [each for each in there if each.raw], [each for each in there if not each.raw]
        for ready in readies:
            before = [each for each in raws if each.stretch.start < ready.stretch.end]
            dirty = [each for each in before if not _washed(cleans, place_id, each.stretch, ready.stretch)]
            if dirty and _touches(ready):
                raw = max(dirty, key=lambda each: each.stretch.end)
                where = case.facts.words.station(place_id)
                sentence = (
                    f"{case.name(ready.story.food)} comes to {where} at {case.clock(ready.stretch.start)}, after"
                    f" {case.name(raw.story.food)}, which is raw, with no washing between"
                )
                yield _finding(
                    case, rule, ready, sentence, "Do what is ready to eat first, or wash it between."
                )


def _touches(ready: _Met) -> bool:
    return ready.stretch.warmth is not Warmth.COOKING


def _cleanings(case: Case) -> list[tuple[Placed, frozenset[StationId]]]:
    found = []
    for placed in case.timetable.placed:
        step = case.plan.steps.get(placed.step)
        if step is None:
            continue
        words = step.does.casefold().split()
        told = step.food is not None and step.food.effect is Effect.CLEAN
        if told or (
            words and words[0] in ("wash", "wipe", "scrub", "clean", "sanitise", "sanitize", "disinfect")
        ):
            found.append((placed, frozenset(spot.station for spot in placed.spots)))
    return found


def _washed(
    cleans: list[tuple[Placed, frozenset[StationId]]], place: StationId, raw: Stretch, ready: Stretch
) -> bool:
    return any(
        raw.end <= placed.start and placed.end <= ready.start and (not there or place in there)
        for placed, there in cleans
    )


# ---------------------------------------------------------------- vessels and boards


def _vessels(case: Case, rule: Rule, met: list[_Met]) -> Iterator[Finding]:
    washed = {(each.vessel, each.after): each.end for each in case.timetable.washings}
    by_step: dict[StepId, list[_Met]] = {}
    for each in met:
        if not each.stretch.waits:
            by_step.setdefault(each.stretch.step, []).append(each)
    runs = vessel_runs(case.plan)
    for one, other in combinations(runs, 2):
        if one.vessel != other.vessel:
            continue
        pairs = [_raw_then_ready(by_step, first, then) for first, then in ((one, other), (other, one))]
        for run, pair in zip((one, other), pairs, strict=True):
            if pair is None:
                continue
            raw, ready = pair
            clean = washed.get((run.vessel, run.steps[0]))
            vessel = case.plan.kitchen.vessel[run.vessel]
            enough = vessel.count >= one.count + other.count
            if enough or (clean is not None and raw.stretch.end <= clean <= ready.stretch.start):
                continue
            name = case.facts.words.vessel(run.vessel)
            sentence = (
                f"{case.name(ready.story.food)} comes into {name} at {case.clock(ready.stretch.start)}, after"
                f" {case.name(raw.story.food)}, which is raw, and it is not washed between"
            )
            yield _finding(case, rule, ready, sentence, f"Wash {name} between, or take another one.")


def _raw_then_ready(by_step: dict[StepId, list[_Met]], first: Run, then: Run) -> tuple[_Met, _Met] | None:
    """Return raw food that leaves a vessel raw, and ready food that comes into it later; None where it is not so."""
    raws = [each for step in first.steps for each in by_step.get(step, ()) if each.raw]
    readies = [each for step in then.steps for each in by_step.get(step, ()) if not each.raw]
    cooks = any(
        each.warmth is Warmth.COOKING and each.step in first.steps
        for met in raws
        for each in met.story.stretches
    )
    if not raws or not readies or cooks:
        return None
    raw = max(raws, key=lambda each: each.stretch.end)
    ready = min(readies, key=lambda each: each.stretch.start)
    return (raw, ready) if raw.stretch.end <= ready.stretch.start else None
