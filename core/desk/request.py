"""A request for an arrangement: plain values that can be handed to another thread or process."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.plan.plan import Plan
from core.timetable.timetable import Timetable


class Aim(StrEnum):
    """What the cook asked for."""

    ARRANGE = "arrange everything"
    AROUND = "arrange, moving little of what is seen"
    FOLLOW = "let the others follow what was moved"


@dataclass(frozen=True, slots=True)
class Request:
    """The plan to arrange, the timetable seen, what is aimed at and how hard to try (about so many seconds).

    Answers come back with the `number`; an answer to another number than the desk's latest is late.
    """

    number: int
    plan: Plan
    seen: Timetable | None = None
    aim: Aim = Aim.ARRANGE
    effort: float = 10.0
