"""Heat flow into one piece of food: slab, cylinder or sphere, by finite differences. Says when to look, never done.

Fourier's law with the film at the surface: dT/dt = alpha (T'' + beta/r T'), k T' = h (around - T) at r = half, beta 0
for a slab, 1 for a long cylinder, 2 for a sphere and between for other shapes (Cengel, Heat Transfer, transient
conduction; beta as in Baldwin, A Practical Guide to Sous Vide Cooking). No crust, no water lost, no bone: a model.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise
from math import ceil, isfinite

from core.food.heat_flow_series import first_root
from core.measures.refusal import Refusal

NODES = 20
"""From the middle to the surface."""
_STEPS = 100
"""Steps in the time in which what is missing falls to 1/e, once the piece warms as a whole."""
_SETTLED = 10
"""So many of those times later nothing changes any more (a ten-thousandth is missing): the rest is one step."""
_GENTLE = 4
"""Half steps at a change of what is around, fully implicit: else the jump rings through the middle."""


class Form(Enum):
    """A shape and its beta."""

    SLAB = 0.0
    CYLINDER = 1.0
    SPHERE = 2.0


@dataclass(frozen=True, slots=True)
class Thermal:
    """What heat meets: conductivity W/(m K), density kg/m3, specific heat J/(kg K), and where the numbers are from."""

    conductivity: float
    density: float
    heat: float
    source: str

    @property
    def diffusivity(self) -> float:
        """Return m2/s."""
        return self.conductivity / (self.density * self.heat)


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece: half its thickness or its radius in m, beta of its shape, what it is made of, its °C at first."""

    half: float
    beta: float
    stuff: Thermal
    start: float = 5.0

    def biot(self, film: float) -> float:
        """Return h R / k for a heat transfer coefficient in W/(m2 K)."""
        return film * self.half / self.stuff.conductivity


@dataclass(frozen=True, slots=True)
class Around:
    """What is around the piece: °C, heat transfer coefficient in W/(m2 K); for how many minutes, None: for ever."""

    celsius: float
    film: float
    minutes: float | None = None


@dataclass(frozen=True, slots=True)
class Warming:
    """How a piece warms: minutes, and °C of its middle, of its surface and of the whole on average at each."""

    minutes: tuple[float, ...]
    core: tuple[float, ...]
    surface: tuple[float, ...]
    mean: tuple[float, ...]

    def core_at(self, minutes: float) -> float:
        """Return °C of the middle, between two steps in a straight line; the ends hold outside."""
        place = bisect_left(self.minutes, minutes)
        if place == 0:
            return self.core[0]
        if place == len(self.minutes):
            return self.core[-1]
        share = (minutes - self.minutes[place - 1]) / (self.minutes[place] - self.minutes[place - 1])
        return self.core[place - 1] + share * (self.core[place] - self.core[place - 1])

    def reaches(self, celsius: float) -> float | None:
        """Return the minutes until the middle is first so warm; None where it never is."""
        for place, now in enumerate(self.core):
            if now >= celsius:
                if place == 0:
                    return self.minutes[0]
                before = self.core[place - 1]
                share = (celsius - before) / (now - before)
                return self.minutes[place - 1] + share * (self.minutes[place] - self.minutes[place - 1])
        return None

    @property
    def peak(self) -> tuple[float, float]:
        """Return the highest °C of the middle and the minutes at which it is."""
        best = max(range(len(self.core)), key=self.core.__getitem__)
        return self.core[best], self.minutes[best]


class Solver:
    """A piece in steps of time: cells with the nodes in their middles, half cells at the middle and at the surface."""

    def __init__(self, piece: Piece, nodes: int = NODES) -> None:
        _refuse_odd_piece(piece)
        self.piece = piece
        self.time = 0.0
        self.temperatures = [piece.start] * nodes
        wide, beta, stuff = piece.half / (nodes - 1), piece.beta, piece.stuff
        walls = [0.0, *((node + 0.5) * wide for node in range(nodes - 1)), piece.half]
        power = beta + 1
        volumes: list[float] = [(out**power - into**power) / power for into, out in pairwise(walls)]
        self._volume: float = sum(volumes)
        self._volumes = volumes
        self._capacity = [stuff.density * stuff.heat * each for each in volumes]
        self._pass = [stuff.conductivity * wall**beta / wide for wall in walls[1:-1]]
        self._skin = piece.half**beta

    def mean(self) -> float:
        """Return °C of the whole on average."""
        held: float = sum(v * t for v, t in zip(self._volumes, self.temperatures, strict=True))
        return held / self._volume

    def stepper(self, around: Around, seconds: float, now: float) -> _Stepper:
        """Return steps of so many seconds; `now`: 0.5 weighs before and after alike, 1 is fully implicit."""
        return _Stepper(self._capacity, self._pass, self._skin * around.film, (around.celsius, seconds, now))


class _Stepper:
    """The three diagonals of one kind of step, eliminated once and used many times."""

    def __init__(
        self, capacity: list[float], passes: list[float], film: float, step: tuple[float, float, float]
    ) -> None:
        self._around, seconds, self._after = step
        self._film = film
        self._passes = passes
        self._stores = [each / seconds for each in capacity]
        last = len(capacity) - 1
        self._factors: list[float] = []
        self._pivots: list[float] = []
        for node, store in enumerate(self._stores):
            flows = (passes[node - 1] if node else 0.0) + (passes[node] if node < last else film)
            pivot = store + self._after * flows
            if node:
                factor = self._after * passes[node - 1] / self._pivots[-1]
                pivot -= factor * self._after * passes[node - 1]
                self._factors.append(factor)
            self._pivots.append(pivot)
        self._backs = [self._after * each for each in passes]

    def __call__(self, old: list[float]) -> list[float]:
        """Return the temperatures one step later."""
        before = 1.0 - self._after
        right = [store * now for store, now in zip(self._stores, old, strict=True)]
        if before:
            for node, passed in enumerate(self._passes):
                flow = before * passed * (old[node + 1] - old[node])
                right[node] += flow
                right[node + 1] -= flow
        right[-1] += self._film * (self._around - before * old[-1])
        for node, factor in enumerate(self._factors):
            right[node + 1] += factor * right[node]
        pivots, backs = self._pivots, self._backs
        right[-1] /= pivots[-1]
        for node in range(len(backs) - 1, -1, -1):
            right[node] = (right[node] + backs[node] * right[node + 1]) / pivots[node]
        return right


def warming(
    piece: Piece,
    phases: tuple[Around, ...],
    until: float | None = None,
    longest: float = 48 * 60,
    nodes: int = NODES,
) -> Warming:
    """Return how a piece warms through phases, one after another.

    `until`: stops once the middle is so warm. A phase without minutes lasts for ever, that is until then or until
    `longest` minutes are over. Refuse sizes, temperatures and coefficients that are none.
    """
    solver = Solver(piece, nodes)
    seen = [(0.0, piece.start, piece.start, piece.start)]
    for phase in phases:
        _refuse_odd_phase(phase)
        last = longest * 60 if phase.minutes is None else min(longest * 60, solver.time + phase.minutes * 60)
        if _phase(solver, phase, last, until, seen):
            break
    minutes, core, surface, mean = zip(*seen, strict=True)
    return Warming(tuple(each / 60 for each in minutes), core, surface, mean)


def _phase(
    solver: Solver,
    phase: Around,
    last: float,
    until: float | None,
    seen: list[tuple[float, float, float, float]],
) -> bool:
    """Go through one phase; tell whether the middle is as warm as wanted."""
    left = last - solver.time
    if left <= 0:
        return False
    usual_step = _step_of(solver.piece, phase)
    settles = left > usual_step * _STEPS * _SETTLED
    count = _STEPS * _SETTLED if settles else max(_GENTLE, ceil(left / usual_step))
    step = usual_step if settles else left / count
    gentle = solver.stepper(phase, step / 2, 1.0)
    usual = solver.stepper(phase, step, 0.5)
    for number in range(count):
        if number < _GENTLE // 2:
            solver.temperatures = gentle(gentle(solver.temperatures))
        else:
            solver.temperatures = usual(solver.temperatures)
        solver.time += step
        core = solver.temperatures[0]
        seen.append((solver.time, core, solver.temperatures[-1], solver.mean()))
        if until is not None and core >= until:
            return True
    if settles:
        solver.time = last
        seen.append((last, *seen[-1][1:]))
    return False


def _step_of(piece: Piece, phase: Around) -> float:
    """Return seconds of a step: a share of the time in which what is missing falls to 1/e."""
    root = first_root(piece.beta, piece.biot(phase.film))
    return piece.half**2 / piece.stuff.diffusivity / root**2 / _STEPS


def _refuse_odd_piece(piece: Piece) -> None:
    if not (isfinite(piece.half) and 0.0005 <= piece.half <= 0.5):
        raise Refusal(
            f"The piece is {piece.half * 2000:g} mm thick;"
            " write its thickness or weight so that it is 1 mm to 1 m thick."
        )
    if not 0 <= piece.beta <= 2:
        raise Refusal(f"The shape has beta {piece.beta:g}; write one from 0 (a slab) to 2 (a sphere).")
    if not -40 <= piece.start <= 150:
        raise Refusal(
            f"The piece starts at {piece.start:g} °C; write from −40 to 150, such as 5 from the fridge."
        )
    stuff = piece.stuff
    if min(stuff.conductivity, stuff.density, stuff.heat) <= 0:
        raise Refusal(
            "Conductivity, density and specific heat of the food must be more than 0; correct them."
        )


def _refuse_odd_phase(phase: Around) -> None:
    if not (isfinite(phase.film) and 0 < phase.film <= 20_000):
        raise Refusal(
            f"The heat transfer coefficient is {phase.film:g} W/m2K; write more than 0, such as 20 for an oven."
        )
    if not -80 <= phase.celsius <= 800:
        raise Refusal(f"Around the piece it is {phase.celsius:g} °C; write from −80 to 800 °C.")
    if phase.minutes is not None and not (isfinite(phase.minutes) and phase.minutes >= 0):
        raise Refusal(f"A phase lasts {phase.minutes:g} min; write 0 or more.")
