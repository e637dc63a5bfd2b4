"""What cooks by itself beside the work: for each line of the sheet, which dishes are on the heat, lane by lane."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.plan import meaning
from core.plan.ids import StepId
from core.plan.kitchen import HEATED, StationKind
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Attention
from core.sheets.lines import Act, Line
from core.sheets.names import brief_names
from core.sheets.places import kinds_of
from core.sheets.words import plain, shortened
from core.timetable.timetable import Placed, Timetable

_COOKING = HEATED | {StationKind.BURNER}
_ENDS = frozenset({Act.OUT, Act.OFF, Act.READY})
LANES = 6
"""Most lanes beside the lines of a day; what finds none is told by its own lines only."""
_MARK, _NAME = 3, 60
_FEW = 16
"""Signs of a name that still tell a dish."""


@dataclass(slots=True)
class _Span:
    """A dish on the heat from line to line, counted in the whole sheet."""

    mark: str
    first: int
    end: int


def with_beside(plan: Plan, timetable: Timetable, lines: Sequence[Line]) -> list[Line]:
    """Return the lines of a whole sheet, each with the marks of the dishes that are on the heat from it on."""
    spans = _spans(plan, timetable, lines)
    found = []
    days: dict[object, list[int]] = {}
    for at, line in enumerate(lines):
        days.setdefault(plan.wall(line.at).date(), []).append(at)
    for numbers in days.values():
        lanes = _lanes([each for each in spans if each.first <= numbers[-1] and each.end > numbers[0]])
        for at in numbers:
            marks = (next((each.mark for each in lane if each.first <= at < each.end), "") for lane in lanes)
            found.append(replace(lines[at], heat=tuple(marks)))
    return found


def mark_of(dish: Dish) -> str:
    """Return a dish's code, else the first letters of its name: what stands in a lane."""
    return shortened(dish.code, _MARK) if dish.code.strip() else (plain(dish.name) or dish.id)[:2]


def marks_of(dish: Dish) -> tuple[str, ...]:
    """Return what may stand for a dish in little room, the longest first: code and name, the name cut, the mark."""
    name = shortened(dish.name, _NAME) or dish.id
    lead = f"{mark_of(dish)} " if dish.code.strip() else ""
    brief = brief_names([name])[name]
    return f"{lead}{name}", f"{lead}{brief}", f"{lead}{shortened(brief, _FEW)}", mark_of(dish)


def _spans(plan: Plan, timetable: Timetable, lines: Sequence[Line]) -> list[_Span]:
    keys = [(line.step, line.load) for line in lines]
    begins = {key: at for at, key in enumerate(keys) if lines[at].begins}
    ends = {key: at for at, key in enumerate(keys) if lines[at].act in _ENDS}
    found: list[_Span] = []
    for placed in sorted(timetable.placed, key=lambda each: begins.get((each.step, each.load), 0)):
        key: tuple[StepId | None, int] = placed.key
        if key not in begins or not _cooks_by_itself(plan, placed):
            continue
        late = next((at for at, line in enumerate(lines) if line.at >= placed.end), len(lines))
        mark, first, end = mark_of(plan.dish_of[placed.step]), begins[key], ends.get(key, late)
        same = next((each for each in found if each.mark == mark and first <= each.end), None)
        if same is not None:
            same.end = max(same.end, end)
        else:
            found.append(_Span(mark, first, end))
    return found


def _cooks_by_itself(plan: Plan, placed: Placed) -> bool:
    step = plan.steps[placed.step]
    if step.attention is Attention.HANDS_ON or not kinds_of(plan, placed) & _COOKING:
        return False
    hands = meaning.hands_of(plan, step, placed.length, placed.way)
    return not (len(hands) == 1 and (hands[0].start, hands[0].minutes) == (0, placed.length))


def _lanes(spans: list[_Span]) -> list[list[_Span]]:
    lanes: list[list[_Span]] = []
    for span in sorted(spans, key=lambda each: each.first):
        free = next((lane for lane in lanes if lane[-1].end <= span.first), None)
        if free is not None:
            free.append(span)
        elif len(lanes) < LANES:
            lanes.append([span])
    return lanes
