"""How hard to try: a budget of solver work (repeatable), a seed, and a wall-clock limit that only guards."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Effort:
    """The same plan, seed and work give the same timetable on any machine.

    `work` is the solver's deterministic time, about a second of one core each; `limit` is wall-clock seconds
    after which it stops regardless.
    """

    work: float = 10.0
    seed: int = 0
    limit: float | None = None

    @classmethod
    def seconds(cls, seconds: float, seed: int = 0) -> Effort:
        """Return the effort that takes about so many seconds; the clock guards at three times that."""
        return cls(work=max(0.05, seconds), seed=seed, limit=3 * seconds + 5)
