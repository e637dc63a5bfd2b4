"""An edit of how long a step takes: the length that the timetable reserves for it."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, replace

from core.measures.minutes import show_minutes
from core.measures.refusal import Refusal
from core.plan.check_words import Words
from core.plan.edits.edit import Edit
from core.plan.edits.parts import step_in, with_steps
from core.plan.edits.said import Said
from core.plan.ids import StepId
from core.plan.meaning import reserved, way_of
from core.plan.plan import Plan
from core.plan.step import Span, Step


@dataclass(frozen=True, slots=True)
class StretchStep(Edit):
    """Let a step, done in a way, reserve so many minutes; the other two of its lengths give way where they must.

    The length that the plan's manner reserves is set: the likely one, or the high one where that is reserved.
    """

    step: StepId
    minutes: int
    way: int = 0

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Let {words.step(self.step)} take {show_minutes(self.minutes)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the length."""
        step = step_in(plan, self.step)
        if self.minutes < 1:
            raise Refusal(f"{Words(plan).step(self.step)} would take no time; give it a minute or more.")
        if not 0 <= self.way <= len(step.alternatives):
            raise Refusal(f"{Words(plan).step(self.step)} has no way number {self.way + 1}.")
        span, _uses = way_of(plan, step, self.way)
        now = reserved(plan, self.step, self.way)
        high = now.length == span.high and (now.early > 0 or now.length != span.likely)
        likely = _with_likely(span, self.minutes)
        new = _with_high(span, self.minutes) if high else likely
        for each in (new, likely):
            after = self._put(plan, _with_length(step, self.way, each))
            if reserved(after, self.step, self.way).length == self.minutes:
                return after
        # the wait after it bears so wide a spread no longer, or bears it only now: then there is none
        return self._put(plan, _with_length(step, self.way, Span.of(self.minutes)))

    def _put(self, plan: Plan, step: Step) -> Plan:
        return with_steps(
            plan, self.step, lambda steps: tuple(step if each.id == self.step else each for each in steps)
        )

    @property
    def merge_key(self) -> Hashable | None:
        """Return step and way: a bar's end that is drawn along is one undo step."""
        return ("stretch", self.step, self.way)


def _with_likely(span: Span, minutes: int) -> Span:
    if span.low == span.high:
        return Span.of(minutes)
    return Span(min(span.low, minutes), minutes, max(span.high, minutes))


def _with_high(span: Span, minutes: int) -> Span:
    return Span(min(span.low, minutes), min(span.likely, minutes), minutes)


def _with_length(step: Step, way: int, span: Span) -> Step:
    if way == 0:
        return replace(step, length=span)
    others = list(step.alternatives)
    others[way - 1] = replace(others[way - 1], length=span)
    return replace(step, alternatives=tuple(others))
