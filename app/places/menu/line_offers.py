"""What a phrase of a line may be instead, to choose from: phrases of the grammar, with the kitchen's names."""

from __future__ import annotations

from core.plan.ids import local_part
from core.plan.step import Attention
from core.reading.line_names import Names
from core.reading.line_value import Chip, Says

_MOST = 14

_FIXED: dict[Says, tuple[str, ...]] = {
    Says.ATTENTION: tuple(each.value for each in Attention),
    Says.WAIT: (
        *("then at once", "then up to 15 min", "then up to 30 min", "then up to 1 h in its vessel"),
        *("then up to 1 h held hot", "then up to 1 day in the fridge"),
    ),
    Says.KEEP: (
        *("serve within 5 min", "serve within 15 min", "keeps up to 1 h held hot"),
        "keeps up to 1 day in the fridge",
    ),
    Says.UNITS: ("1 rack", "2 racks", "1 ring", "2 rings"),
    Says.HANDS: ("1 cook", "2 cooks", "3 cooks"),
    Says.PUT_IN: ("put in 0", "put in 1 min", "put in 3 min"),
    Says.TAKE_OUT: ("take out 0", "take out 1 min", "take out 3 min"),
}


def offers(chip: Chip, names: Names) -> list[str]:
    """Return phrases that may stand in a chip's place."""
    if chip.kind in _FIXED:
        return list(_FIXED[chip.kind])
    if chip.kind in (Says.PLACE, Says.NO_PLACE):
        kinds = dict.fromkeys(each.kind.value for each in names.stations)
        stations = [f"at {each.id}" for each in names.stations if list(kinds).count(each.id) == 0]
        return [*kinds, "no place", *stations][:_MOST]
    if chip.kind is Says.VESSEL:
        return [f"in the {each.id.replace('-', ' ')}" for each in names.vessels][:_MOST]
    if chip.kind is Says.SKILL:
        return [f"skill {each}" for each in names.skill_of]
    if chip.kind is Says.FOLLOWS:
        here = [f"after {local_part(at)}" for at, _does in names.steps if at.partition(".")[0] == names.dish]
        return ["after nothing", *here[-_MOST:]]
    return []
