"""Reads what is typed for the steps of a dish: one line, or several pasted at once, each knowing those above it."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from core.measures.refusal import Refusal
from core.plan.ids import DishId, StepId, fresh, local_part, step_id
from core.plan.plan import Plan
from core.reading.line import read_line
from core.reading.line_names import Names
from core.reading.line_value import Fault, Line

_BULLET = re.compile(r"[ \t]*(?:[-*•]|\d{1,2}[.)])[ \t]+(?=\S)")


@dataclass(frozen=True)
class TypedLine:
    """One line that says something: where its text begins in all that is typed, the id of its step, what it says."""

    start: int
    step: StepId
    line: Line

    @property
    def end(self) -> int:
        """Return where its text ends."""
        return self.start + len(self.line.text)

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Return what is wrong, with places counted in all that is typed."""
        return tuple(
            replace(each, start=each.start + self.start, end=each.end + self.start) for each in self.line.faults
        )

    def missing(self) -> Fault | None:
        """Return what it leaves open that a new step must say, at its end."""
        try:
            self.line.step(self.step)
        except Refusal as refusal:
            return Fault(self.end, self.end, str(refusal))
        return None


class LineReader:
    """Reads for one dish of the plan of the moment. What can be named is worked out once for each plan."""

    def __init__(self) -> None:
        self._of: tuple[Plan, DishId | None, StepId | None] | None = None
        self._names = Names()

    def names(self, plan: Plan, dish: DishId | None, but: StepId | None = None) -> Names:
        """Return what a line of a dish may name; `but`: the step that the line stands for."""
        of = self._of
        if of is None or of[0] is not plan or of[1:] != (dish, but):
            self._of = (plan, dish, but)
            self._names = Names.of(plan, dish, but)
        return self._names

    def read(self, text: str, plan: Plan, dish: DishId | None, but: StepId | None = None) -> tuple[TypedLine, ...]:
        """Read every line that is not empty; with `but`, the line of a step that there is."""
        names = self.names(plan, dish, but)
        there = plan.dishes.get(dish) if dish is not None else None
        taken = {local_part(each.id) for each in there.steps if each.id != but} if there is not None else set()
        found: list[TypedLine] = []
        at = 0
        for row in text.split("\n"):
            bullet = _BULLET.match(row)
            start = bullet.end() if bullet is not None else 0
            if row.strip():
                line = read_line(row[start:].rstrip(), names)
                does = str(line.step_values.get("does", ""))
                local = local_part(but) if but is not None else fresh(line.label or does, taken)
                taken.add(local)
                id_ = step_id(dish or DishId("dish"), local)
                found.append(TypedLine(at + start, id_, line))
                if "\n" in text:
                    names = replace(names, steps=(*names.steps, (id_, does)))
            at += len(row) + 1
        return tuple(found)
