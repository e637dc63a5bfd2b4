"""The benchmark files of a folder, or a few made here where there are none at hand."""

from __future__ import annotations

from pathlib import Path

from bench.project import Project
from bench.random_projects import drawn, shapes
from bench.read_sch import read_sch
from bench.read_sm import read_sm
from core.measures.refusal import Refusal

READERS = {".sm": read_sm, ".sch": read_sch}
MADE = ((30, 8, False), (60, 4, False), (120, 4, False), (50, 6, True), (100, 4, True))
"""Activities, how many, whether with maximum lags."""


def sets_of(folder: Path, most: int) -> dict[str, list[Project]]:
    """Return the projects of a folder by kind and size, evenly chosen where there are more than `most` of a set."""
    if not folder.is_dir():
        raise Refusal(f"{folder.name} is no folder; give one that holds .sm or .sch files.")
    files = sorted(each for each in folder.rglob("*") if each.suffix.lower() in READERS)
    if not files:
        raise Refusal(f"There is no .sm or .sch file in {folder.name}; give a folder that holds some.")
    sets: dict[str, list[Project]] = {}
    for file in files:
        kind = file.suffix.lower()
        project = READERS[kind](file)
        sets.setdefault(f"{kind} {project.end - 1}", []).append(project)
    return {name: every[:: max(1, -(-len(every) // most))][:most] for name, every in sets.items()}


def made() -> dict[str, list[Project]]:
    """Return projects made here, seeded: the same ones every time."""
    return {
        f"made {activities}{' lags' if lags else ''}": [
            drawn(shape, seed) for seed, shape in enumerate(shapes(activities, count, lags=lags), 1)
        ]
        for activities, count, lags in MADE
    }
