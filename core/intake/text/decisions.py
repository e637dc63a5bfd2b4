"""What the cook decided, as typed, and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, Field, WithJsonSchema

from core.intake.text.entry import Entry
from core.intake.text.nearest import one_of
from core.intake.text.places import Typed
from core.intake.text.scalars import Offset, is_whole, offset_out
from core.intake.text.windows import MinuteOfDay, minute_of_day_out
from core.measures.refusal import Refusal, quoted
from core.plan.decisions import Choice, Decisions, LengthOf, Order, Pin, Wishes
from core.plan.ids import CookId, StationId, StepId
from core.plan.step import Manner, Step

_MANNERS = {each.value: each for each in Manner}


def manner_in(value: object) -> Manner:
    """Return which length is reserved from its words."""
    return _MANNERS[one_of(value, _MANNERS, "a way to reserve lengths")]


MannerText = Annotated[Manner, BeforeValidator(manner_in), WithJsonSchema({"enum": list(_MANNERS)})]


def way_in(value: object) -> object:
    """Return the number of a way as text."""
    return str(value) if is_whole(value) else value


WayName = Annotated[str, BeforeValidator(way_in)]


class PinText(Entry):
    """The cook put a step here."""

    step: str
    """The step, as dish.step."""
    load: int = 1
    """Which load, from 1."""
    start: Offset | None = None
    """When it starts: "2 h 17 min before"."""
    station: str | None = None
    """Id of its station."""
    cook: str | None = None
    """Id of its cook."""

    def pin(self) -> Pin:
        """Return the pin."""
        station = None if self.station is None else StationId(self.station)
        cook = None if self.cook is None else CookId(self.cook)
        return Pin(StepId(self.step), self.load - 1, self.start, station, cook)


class ChoiceText(Entry):
    """Which way a step is done."""

    short: ClassVar[str] = (
        'step and way: "gratin.bake: slow oven", or by number: "gratin.bake: 1" (0: as written)'
    )

    step: str
    """The step, as dish.step."""
    way: WayName
    """Name or number of the way."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        return _pair(text, "way", 'a choice as "gratin.bake: slow oven"')

    def choice(self, steps: Mapping[StepId, Step]) -> Choice:
        """Return the choice; raise Refusal when the step has no such way."""
        if self.way.isdecimal():
            return Choice(StepId(self.step), int(self.way))
        step = steps.get(StepId(self.step))
        names = [each.name for each in step.alternatives] if step else []
        if names.count(self.way) == 1:
            return Choice(StepId(self.step), names.index(self.way) + 1)
        raise Refusal(
            f"{quoted(self.way)} is no way to do {self.step}; write the name of one of its ways, or 0."
        )


class LengthText(Entry):
    """Which length is reserved for one step."""

    short: ClassVar[str] = 'step and length: "braise.simmer: high"'

    step: str
    """The step, as dish.step."""
    manner: MannerText
    """Which length is reserved."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        return _pair(text, "manner", 'a length as "braise.simmer: high"')


class OrderText(Entry):
    """One step only after another."""

    short: ClassVar[str] = 'two steps: "tart.bake then roots.roast"'

    first: str
    """The step that ends first, as dish.step."""
    then: str
    """The step that begins after it, as dish.step."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        first, then, second = text.partition(" then ")
        if not then:
            raise Refusal(f'{quoted(text)}: write an order as "tart.bake then roots.roast".')
        return {"first": first.strip(), "then": second.strip()}


class WishesText(Entry):
    """Weights from 0 (do not care) to 10, and until when to sleep."""

    fresh: int = Wishes().fresh
    """Little waiting at the end."""
    calm: int = Wishes().calm
    """Room around hands-on work."""
    oven: int = Wishes().oven
    """Few changes of the oven."""
    sleep: int = Wishes().sleep
    """No early rising."""
    keep: int = Wishes().keep
    """Keep what was seen."""
    sleep_until: MinuteOfDay = Wishes().sleep_until
    """Until when the cooks would sleep: "08:00"."""


class DecisionsText(Entry):
    """What the cook decided."""

    manner: MannerText = Manner.SAFE
    """Which length is reserved: likely, safe where it can wait, or high."""
    pins: list[PinText] = Field(default_factory=list)
    """Steps that stay where they were put."""
    choices: list[ChoiceText] = Field(default_factory=list)
    """Ways chosen."""
    lengths: list[LengthText] = Field(default_factory=list)
    """Steps whose length is reserved in another manner."""
    orders: list[OrderText] = Field(default_factory=list)
    """One step only after another."""
    wishes: WishesText = Field(default_factory=WishesText)
    """What makes a good day."""
    rules: str = ""
    """Id of the set of food rules, such as "uk"; left out: that of home cooks."""

    def decisions(self, choices: tuple[Choice, ...]) -> Decisions:
        """Return the decisions; the choices are read elsewhere, since the ways of the steps must be known."""
        return Decisions(
            self.manner,
            tuple(each.pin() for each in self.pins),
            choices,
            tuple(LengthOf(StepId(each.step), each.manner) for each in self.lengths),
            tuple(Order(StepId(each.first), StepId(each.then)) for each in self.orders),
            Wishes(**self.wishes.model_dump()),
            self.rules,
        )


def _pair(text: str, key: str, example: str) -> Typed:
    step, colon, value = text.partition(":")
    if not colon:
        raise Refusal(f"{quoted(text)}: write {example}.")
    return {"step": step.strip(), key: value.strip()}


def decisions_out(decisions: Decisions, steps: Mapping[StepId, Step]) -> Typed:
    """Return decisions as typed; {} when all are the usual ones."""
    found: Typed = {}
    if decisions.manner is not Manner.SAFE:
        found["manner"] = decisions.manner.value
    if decisions.pins:
        found["pins"] = [_pin_out(pin) for pin in decisions.pins]
    if decisions.choices:
        found["choices"] = [_choice_out(choice, steps) for choice in decisions.choices]
    if decisions.lengths:
        found["lengths"] = [f"{each.step}: {each.manner.value}" for each in decisions.lengths]
    if decisions.orders:
        found["orders"] = [f"{each.first} then {each.then}" for each in decisions.orders]
    if decisions.wishes != Wishes():
        usual = Wishes()
        weights = {each.name: getattr(decisions.wishes, each.name) for each in fields(Wishes)}
        unlike = {key: weight for key, weight in weights.items() if weight != getattr(usual, key)}
        if "sleep_until" in unlike:
            unlike["sleep_until"] = minute_of_day_out(unlike["sleep_until"])
        found["wishes"] = unlike
    if decisions.rules:
        found["rules"] = decisions.rules
    return found


def _pin_out(pin: Pin) -> Typed:
    found: Typed = {"step": str(pin.step)}
    if pin.load:
        found["load"] = pin.load + 1
    if pin.start is not None:
        found["start"] = offset_out(pin.start)
    if pin.station is not None:
        found["station"] = str(pin.station)
    if pin.cook is not None:
        found["cook"] = str(pin.cook)
    return found


def _choice_out(choice: Choice, steps: Mapping[StepId, Step]) -> Any:
    step = steps.get(choice.step)
    if step is not None and 0 < choice.way <= len(step.alternatives):
        text = f"{choice.step}: {step.alternatives[choice.way - 1].name}"
        try:
            if ChoiceText.model_validate(text).choice(steps) == choice:
                return text
        except ValueError:
            pass
    return f"{choice.step}: {choice.way}"
