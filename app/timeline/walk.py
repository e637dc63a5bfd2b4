"""Walking from bar to bar with the keys: along a lane, across lanes, along links."""

from __future__ import annotations

from app.timeline.bars import Bar, BarKind
from app.timeline.scene import Scene
from core.plan.ids import StepId

Place = tuple[int, Bar]
"""A lane's number and a bar in it."""


def first(scene: Scene) -> Place | None:
    """Return the first bar of the day."""
    bars = all_bars(scene)
    return min(bars, key=lambda place: (place[1].start, place[0]), default=None)


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
    if by > 0:
        steps = [link.after for link in scene.plan.links_from.get(bar.step, ())]
    else:
        steps = [link.before for link in scene.plan.links_to.get(bar.step, ())]
    found = [place for step in steps if (place := find(scene, step)) is not None]
    return min(found, key=lambda place: abs(place[1].start - bar.end), default=None)


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
