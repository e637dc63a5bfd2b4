"""Makes a set of wishes that cannot all be kept as small as can be (QuickXplain; Junker 2004)."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import TypeVar

Wish = TypeVar("Wish", bound=Hashable)


def narrowed(
    wishes: Sequence[Wish], impossible: Callable[[Sequence[Wish]], bool | None]
) -> tuple[tuple[Wish, ...], bool]:
    """Return a set that is impossible, and whether it is sure that none of it could be left out.

    `wishes` (or kinds of them) are known to be impossible together; earlier ones are rather kept. `impossible` tells
    whether some alone, all others given up, cannot be kept; None: not found out, and what cannot be stays in.
    """
    sure = True

    def asked(some: Sequence[Wish]) -> bool:
        nonlocal sure
        answer = impossible(some)
        sure = sure and answer is not None
        return bool(answer)

    def part(held: list[Wish], fresh: bool, among: list[Wish]) -> list[Wish]:
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
