"""Walking from bar to bar with the keys: along a lane, across lanes, along links."""

from __future__ import annotations

from collections.abc import Callable

from app.timeline.bars import Bar, BarKind
from app.timeline.scene import Scene
from core.plan.ids import StepId

Place = tuple[int, Bar]
"""A lane's number and a bar in it."""
Way = Callable[[Scene, Place, int], Place | None]
"""A way of walking: from a bar on by one, or back."""


def first(scene: Scene) -> Place | None:
    """Return the first bar of the day."""
    bars = all_bars(scene)
    return min(bars, key=lambda place: (place[1].start, place[0]), default=None)


def first_in_sight(scene: Scene) -> Place | None:
    """Return the first bar, in time and then by lane, of which anything is in sight; where nothing is, the first."""
    low, high = scene.seen
    bars = [
        (at, bar)
        for at, bar in all_bars(scene)
        if bar.end > low and bar.start < high and scene.ruler < scene.box(at, bar).bottom <= scene.height
    ]
    return min(bars, key=lambda place: (place[1].start, place[0]), default=None) or first(scene)


def last(scene: Scene) -> Place | None:
    """Return the bar that ends last; a fire may burn on after everything is over."""
    bars = [place for place in all_bars(scene) if place[1].kind is not BarKind.FIRE]
    return max(bars, key=lambda place: (place[1].end, -place[0]), default=None)


def along(scene: Scene, here: Place, by: int) -> Place | None:
    """Return the next bar (`by` 1) or the one before (-1) in the same lane."""
    at, bar = here
    bars = [each for each in scene.lanes[at].bars if each.told]
    if bar not in bars:
        return None
    number = bars.index(bar) + by
    return (at, bars[number]) if 0 <= number < len(bars) else None


def across(scene: Scene, here: Place, by: int) -> Place | None:
    """Return the bar nearest in time in the next lane up (-1) or down (1) that has any."""
    at, bar = here
    middle = (bar.start + bar.end) / 2
    lane = at + by
    while 0 <= lane < len(scene.lanes):
        bars = [each for each in scene.lanes[lane].bars if each.told]
        if bars:
            return lane, min(bars, key=lambda each: (_away(each, middle), each.start))
        lane += by
    return None


def linked(scene: Scene, here: Place, by: int) -> Place | None:
    """Return the bar of a step that follows (1) or comes before (-1) by a link, the nearest in time."""
    _at, bar = here
    if bar.step is None:
        return None
    steps = neighbours(scene, bar.step, before=by < 0)
    found = [place for step in steps if (place := find(scene, step)) is not None]
    return min(found, key=lambda place: abs(place[1].start - bar.end), default=None)


def neighbours(scene: Scene, step: StepId, *, before: bool) -> tuple[StepId, ...]:
    """Return the steps linked to one: those that it hangs on (`before`), or those that hang on it."""
    if before:
        steps = [link.before for link in scene.plan.links_to.get(step, ())]
    else:
        steps = [link.after for link in scene.plan.links_from.get(step, ())]
    return tuple(dict.fromkeys(steps))


def chain(scene: Scene, step: StepId, *, before: bool) -> frozenset[StepId]:
    """Return all steps that one hangs on (`before`), near and far, or all that hang on it; without itself."""
    found: set[StepId] = set()
    ahead = [step]
    while ahead:
        for other in neighbours(scene, ahead.pop(), before=before):
            if other not in found:
                found.add(other)
                ahead.append(other)
    return frozenset(found - {step})


def in_time(scene: Scene, here: Place | None, by: int) -> Place | None:
    """Return the bar that begins next (`by` 1) or before (-1), whatever its lane; of equals the upper one first."""
    bars = sorted(all_bars(scene), key=lambda place: (place[1].start, place[0], place[1].row))
    at = next((number for number, place in enumerate(bars) if here is not None and place[1] is here[1]), None)
    if at is None:
        return first(scene) if by > 0 else last(scene)
    return bars[at + by] if 0 <= at + by < len(bars) else None


def find(scene: Scene, step: StepId, load: int | None = None) -> Place | None:
    """Return where a step is shown: its own bar before waits and hands."""
    found = [
        (at, bar)
        for at, bar in all_bars(scene)
        if bar.step == step and (load is None or bar.load == load)
    ]
    return min(found, key=lambda place: (_RANKS[place[1].kind], place[1].load, place[0]), default=None)


def again(scene: Scene, step: StepId, old: Bar | None) -> Place | None:
    """Return the bar of a new scene that is what the old one was, else another of its step."""
    if old is not None:
        known = (old.kind, old.key, old.station, old.cook)
        for at, bar in all_bars(scene):
            if (bar.kind, bar.key, bar.station, bar.cook) == known:
                return at, bar
        return find(scene, step, old.load) or find(scene, step)
    return find(scene, step)


def all_bars(scene: Scene) -> list[Place]:
    """Return every bar of a step, a fire or a chore with its lane's number."""
    return [(at, bar) for at, lane in enumerate(scene.lanes) for bar in lane.bars if bar.told]


_RANKS = {kind: rank for rank, kind in enumerate((BarKind.STEP, BarKind.HAND, BarKind.STAY))}


def _away(bar: Bar, minute: float) -> float:
    return max(bar.start - minute, minute - bar.end, 0.0)
