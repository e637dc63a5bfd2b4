"""How fast food cools, by the depth at which it lies: a proposal of when it falls to a limit. Readings decide.

Conduction in a slab (a tray, cold above and below) or a round as wide as it is deep (a pot), by `core.food.heat_flow`;
what is stirred or poured over begins anew at its mean. Food between water and lean meat: the values of water-rich food.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from core.food.heat_flow import Around, Form, Piece, Thermal, warming
from core.plan.food import Container

FOOD = Thermal(0.52, 1030, 3800, "water-rich cooked food, order of handbooks' tables, from memory")
FILMS = {"air": 10.0, "fridge": 8.0, "ice": 250.0}
"""W/m2K of still air with radiation, of a fridge's, of an ice bath that is stirred: from memory."""
ICE = 1.0
"""°C of an ice bath."""
SHALLOWEST, DEEPEST = 5, 500


@dataclass(frozen=True, slots=True)
class Phase:
    """So many minutes of cooling: what is around ("air", "fridge", "ice"), its °C, mm of depth and the container.

    `told`: °C at its end by the plan's own words, where a probe is to be read; it goes before the sum.
    """

    minutes: float
    around: str
    celsius: float
    depth: int
    container: Container | None
    told: float | None = None


@dataclass(frozen=True, slots=True)
class CoolingCurve:
    """Minutes and °C of the warmest place."""

    minutes: tuple[float, ...]
    core: tuple[float, ...]

    def falls_to(self, celsius: float) -> float | None:
        """Return the minute at which the warmest place is first as cold as that; None: never on this curve."""
        for at, now in enumerate(self.core):
            if now <= celsius:
                if at == 0:
                    return self.minutes[0]
                before, begun = self.core[at - 1], self.minutes[at - 1]
                return begun + (before - celsius) / (before - now) * (self.minutes[at] - begun)
        return None


def cools(start: float, phases: Sequence[Phase]) -> CoolingCurve:
    """Return how food at so many °C cools through phases, each with its depth in mm."""
    return _cools(start, tuple(phases))


@lru_cache(maxsize=512)
def _cools(start: float, phases: tuple[Phase, ...]) -> CoolingCurve:
    minutes, core = [0.0], [start]
    begun, warm = 0.0, start
    at = 0
    while at < len(phases):
        if (given := phases[at].told) is not None:
            begun, warm = begun + phases[at].minutes, min(warm, given)
            minutes.append(begun)
            core.append(warm)
            at += 1
            continue
        end = at
        while end < len(phases) and _lies(phases[end]) == _lies(phases[at]):
            if end > at and (
                phases[end].told is not None or "ice" in (phases[end].around, phases[end - 1].around)
            ):
                break
            end += 1
        together = phases[at:end]
        form = Form.CYLINDER if phases[at].container is Container.POT else Form.SLAB
        half = max(SHALLOWEST, min(DEEPEST, phases[at].depth)) / 2000
        curve = warming(
            Piece(half, form.value, FOOD, warm),
            tuple(Around(each.celsius, FILMS[each.around], each.minutes) for each in together),
        )
        minutes += [begun + each for each in curve.minutes[1:]]
        core += curve.core[1:]
        begun += sum(each.minutes for each in together)
        warm = curve.mean[-1]
        at = end
    return CoolingCurve(tuple(minutes), tuple(core))


def _lies(phase: Phase) -> tuple[int, Container | None]:
    return phase.depth, phase.container
