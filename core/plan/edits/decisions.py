"""Edits of what the cook decided: pins, ways, lengths, orders, wishes."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, replace

from core.measures.refusal import Refusal
from core.plan.check_words import Words
from core.plan.decisions import Choice, LengthOf, Order, Pin, Wishes
from core.plan.edits.edit import Edit
from core.plan.edits.parts import cook_in, station_in, step_in, swapped, with_decisions
from core.plan.edits.said import Said
from core.plan.edits.strays import without_strays
from core.plan.ids import CookId, StationId, StepId
from core.plan.plan import Plan
from core.plan.step import Manner


@dataclass(frozen=True, slots=True)
class PinStep(Edit):
    """Pin a step (one load of it) to a start, a station, a cook; what is not given stays as it was pinned."""

    step: StepId
    load: int = 0
    start: int | None = None
    station: StationId | None = None
    cook: CookId | None = None

    def said(self, words: Said) -> str:
        """Return what is done."""
        what = words.step(self.step) + (f", load {self.load + 1}," if self.load else "")
        at = f" on {words.station(self.station)}" if self.station is not None else ""
        by = f" for {words.cook(self.cook)}" if self.cook is not None else ""
        if self.start is not None:
            return f"Move {what} to {words.clock(self.start)}{at}{by}"
        return f"Put {what}{at}{by}" if at or by else f"Pin {what}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the pin."""
        step_in(plan, self.step)
        if self.station is not None:
            station_in(plan, self.station)
        if self.cook is not None:
            cook_in(plan, self.cook)
        if (self.start, self.station, self.cook) == (None, None, None):
            return plan
        before = plan.pins.get((self.step, self.load))
        if before is None:
            new = Pin(self.step, self.load, self.start, self.station, self.cook)
            return with_decisions(plan, pins=(*plan.decisions.pins, new))
        return with_decisions(plan, pins=swapped(plan.decisions.pins, lambda pin: pin == before, self._onto))

    def _onto(self, before: Pin) -> Pin:
        """Return a former pin with what is given now."""
        return replace(
            before,
            start=before.start if self.start is None else self.start,
            station=before.station if self.station is None else self.station,
            cook=before.cook if self.cook is None else self.cook,
        )

    @property
    def merge_key(self) -> Hashable | None:
        """Return the step and load: nudges of one pin are one undo step."""
        return ("pin", self.step, self.load)


@dataclass(frozen=True, slots=True)
class LiftPin(Edit):
    """Let a step be arranged again: one load, or all of them."""

    step: StepId
    load: int | None = None

    def said(self, words: Said) -> str:
        """Return what is done."""
        load = "" if self.load is None else f", load {self.load + 1}"
        return f"Lift the pin of {words.step(self.step)}{load}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the pins."""
        pins = tuple(each for each in plan.decisions.pins if not self._lifts(each))
        if pins == plan.decisions.pins:
            step_in(plan, self.step)
            raise Refusal(f"{Words(plan).step(self.step)} is not pinned; there is nothing to lift.")
        return with_decisions(plan, pins=pins)

    def _lifts(self, pin: Pin) -> bool:
        return pin.step == self.step and self.load in (None, pin.load)


@dataclass(frozen=True, slots=True)
class LiftAllPins(Edit):
    """Let every step be arranged again."""

    def said(self, words: Said) -> str:  # noqa: ARG002  it is about no one thing
        """Return what is done."""
        return "Lift all pins"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without pins."""
        return with_decisions(plan, pins=())


@dataclass(frozen=True, slots=True)
class Choose(Edit):
    """Choose the way to do a step: 0 as written, 1 its first other way, None leaves it open again."""

    step: StepId
    way: int | None

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Choose a way to do {words.step(self.step)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the choice, without a pin to a station where this way does not happen."""
        step_in(plan, self.step)
        choices = tuple(each for each in plan.decisions.choices if each.step != self.step)
        if self.way is None:
            return without_strays(with_decisions(plan, choices=choices))
        ways = len(plan.steps[self.step].alternatives) + 1
        if not 0 <= self.way < ways:
            raise Refusal(
                f"{Words(plan).step(self.step)} has no way number {self.way + 1}; choose one of its {ways}."
            )
        return without_strays(with_decisions(plan, choices=(*choices, Choice(self.step, self.way))))


@dataclass(frozen=True, slots=True)
class SetLength(Edit):
    """Choose which of a step's lengths is reserved; None: as the plan has it for all."""

    step: StepId
    manner: Manner | None

    def said(self, words: Said) -> str:
        """Return what is done."""
        length = "the plan's length" if self.manner is None else f"the length “{self.manner}”"
        return f"Give {words.step(self.step)} {length}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the choice."""
        step_in(plan, self.step)
        lengths = tuple(each for each in plan.decisions.lengths if each.step != self.step)
        if self.manner is not None:
            lengths = (*lengths, LengthOf(self.step, self.manner))
        return with_decisions(plan, lengths=lengths)


@dataclass(frozen=True, slots=True)
class AddOrder(Edit):
    """Let one step begin only after another has ended."""

    first: StepId
    then: StepId

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Do {words.step(self.first)} before {words.step(self.then)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the order."""
        step_in(plan, self.first)
        step_in(plan, self.then)
        order = Order(self.first, self.then)
        if order in plan.decisions.orders:
            return plan
        return with_decisions(plan, orders=(*plan.decisions.orders, order))


@dataclass(frozen=True, slots=True)
class RemoveOrder(Edit):
    """Take an order between two steps out."""

    first: StepId
    then: StepId

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Do {words.step(self.first)} before or after {words.step(self.then)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the order."""
        orders = tuple(each for each in plan.decisions.orders if each != Order(self.first, self.then))
        if orders == plan.decisions.orders:
            words = Words(plan)
            pair = f"{words.step(self.first)} and {words.step(self.then)}"
            raise Refusal(f"There is no order between {pair}; there is nothing to take out.")
        return with_decisions(plan, orders=orders)


@dataclass(frozen=True, slots=True)
class SetWishes(Edit):
    """Weigh what makes a good day."""

    wishes: Wishes

    def said(self, words: Said) -> str:  # noqa: ARG002  it is about no one thing
        """Return what is done."""
        return "Change the wishes"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the wishes."""
        return with_decisions(plan, wishes=self.wishes)

    @property
    def merge_key(self) -> Hashable | None:
        """Return one key: a slider that is drawn along is one undo step."""
        return "wishes"


@dataclass(frozen=True, slots=True)
class SetManner(Edit):
    """Choose which of their lengths steps get reserved throughout the plan."""

    manner: Manner

    def said(self, words: Said) -> str:  # noqa: ARG002  it is about no one thing
        """Return what is done."""
        return f"Reserve the length “{self.manner}”"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the manner."""
        return with_decisions(plan, manner=self.manner)
