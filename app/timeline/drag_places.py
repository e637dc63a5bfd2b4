"""Where each load has its bars: an index of the lanes shown, so that a move looks at what moves and at nothing else."""

from __future__ import annotations

from collections.abc import Mapping

from app.timeline.bars import Bar, BarKind, Key
from app.timeline.scene import Scene
from core.plan.ids import StepId

Places = Mapping[Key, tuple[tuple[int, Bar], ...]]
"""Lanes' numbers and bars of each load."""


def places_of(scene: Scene) -> Places:
    """Return the steps' own bars by load; worked out once for the lanes that are shown."""
    known = scene.__dict__.get("_places")
    if known is not None and known[0] is scene.lanes:
        found: Places = known[1]
        return found
    bars: dict[Key, list[tuple[int, Bar]]] = {}
    for at, lane in enumerate(scene.lanes):
        for bar in lane.bars:
            if bar.kind is BarKind.STEP and bar.key is not None:
                bars.setdefault(bar.key, []).append((at, bar))
    made = {key: tuple(there) for key, there in bars.items()}
    scene.__dict__["_places"] = (scene.lanes, made)
    return made


def bar_of(scene: Scene, step: StepId, load: int) -> tuple[int, Bar] | None:
    """Return the lane's number and the first bar of a load; None where it is not shown."""
    there = places_of(scene).get((step, load))
    return there[0] if there else None
