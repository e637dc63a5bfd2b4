"""Makes a set of wishes that cannot all be kept as small as can be (QuickXplain; Junker 2004)."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from core.arrange.demand import Demand

Impossible = Callable[[Sequence[Demand]], bool | None]
"""Tells whether wishes alone, all others given up, cannot be kept; None: not found out."""


def narrowed(wishes: Sequence[Demand], impossible: Impossible) -> tuple[tuple[Demand, ...], bool]:
    """Return a set that is impossible, and whether it is sure that none of it could be left out.

    `wishes` are known to be impossible together; earlier ones are rather kept. What cannot be found out stays in.
    """
    sure = True

    def asked(some: Sequence[Demand]) -> bool:
        nonlocal sure
        answer = impossible(some)
        sure = sure and answer is not None
        return bool(answer)

    def part(held: list[Demand], fresh: bool, among: list[Demand]) -> list[Demand]:
        if fresh and asked(held):
            return []
        if len(among) == 1:
            return among
        middle = len(among) // 2
        first, second = among[:middle], among[middle:]
        of_second = part([*held, *first], bool(first), second)
        of_first = part([*held, *of_second], bool(of_second), first)
        return [*of_first, *of_second]

    wanted = list(dict.fromkeys(wishes))
    if not wanted or asked([]):
        return (), sure
    kept = part([], False, wanted)
    return tuple(each for each in wanted if each in kept), sure
