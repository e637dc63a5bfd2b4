"""A step of a dish as typed, and back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

from pydantic import (
    BeforeValidator,
    Field,
    ModelWrapValidatorHandler,
    PrivateAttr,
    WithJsonSchema,
    model_validator,
)

from core.intake.text.entry import Entry, OneOrMore, listed
from core.intake.text.follows import AfterText
from core.intake.text.foods import CareText, care_out
from core.intake.text.nearest import one_of
from core.intake.text.places import KIND_OF, Celsius, PlaceText, Typed, celsius_out, uses_out
from core.intake.text.scalars import Minutes, Offset, SpanText, minutes_out, offset_out, span_out
from core.intake.text.touches import LoadsText, TouchText, VesselUseText, loads_out, touch_out, vessel_use_out
from core.intake.text.waits import KeepText, WaitText, keep_out
from core.intake.text.windows import ClockText, clock_out
from core.intake.text.yields import YieldText, yield_out
from core.plan.ids import StepId
from core.plan.step import Alternative, Attention, Doneness, Step, Use

_ATTENTIONS = {each.value: each for each in Attention}


def attention_in(value: object) -> Attention:
    """Return the attention from its word."""
    return _ATTENTIONS[one_of(value, _ATTENTIONS, "a kind of attention")]


AttentionText = Annotated[
    Attention, BeforeValidator(attention_in), WithJsonSchema({"enum": list(_ATTENTIONS)})
]
Places = Annotated[list[PlaceText], BeforeValidator(listed), OneOrMore()]
Vessels = Annotated[list[VesselUseText], BeforeValidator(listed), OneOrMore()]
Touches = Annotated[list[TouchText], BeforeValidator(listed), OneOrMore()]
Afters = Annotated[list[AfterText], BeforeValidator(listed), OneOrMore()]


class Placed(Entry):
    """What happens somewhere: each kind of place has a key, and their order is kept."""

    oven: Places = Field(default=[], description="racks and temperature")
    grill: Places = Field(default=[], description="grate places")
    burner: Places = Field(default=[], description="rings")
    smoker: Places = Field(default=[], description="smoker")
    fridge: Places = Field(default=[], description="shelf area and height")
    freezer: Places = Field(default=[], description="freezer")
    cold_counter: Places = Field(default=[], description="cold counter")
    warm_drawer: Places = Field(default=[], description="warm drawer")
    hot_box: Places = Field(default=[], description="hot box, insulated box or flask")
    room: Places = Field(default=[], description="place at room temperature")
    machine: Places = Field(default=[], description="mixer, grinder and the like")
    uses: Places = Field(default=[], description="places in their order, each with its kind: the long way")
    _order: tuple[str, ...] = PrivateAttr(default=())

    @model_validator(mode="wrap")
    @classmethod
    def _keep_order(cls, data: Any, handler: ModelWrapValidatorHandler[Placed]) -> Placed:
        made = handler(data)
        if isinstance(data, dict):
            made._order = tuple(key for key in data if key in KIND_OF or key == "uses")
        for key in made._order:
            for place in getattr(made, key):
                place.use(KIND_OF.get(key))
        return made

    def places(self) -> tuple[Use, ...]:
        """Return the uses in the order typed."""
        return tuple(place.use(KIND_OF.get(key)) for key in self._order for place in getattr(self, key))


class WayText(Placed):
    """Another way to do a step: its own length and places."""

    name: str
    """What the way is called."""
    takes: SpanText
    """Length: quick/likely/slow."""

    def way(self) -> Alternative:
        """Return the alternative."""
        return Alternative(self.name, self.takes, self.places())


class StepText(Placed):
    """One step. It follows the step above it unless `after` says otherwise."""

    does: str
    """What is done, verb first."""
    takes: SpanText
    """Length, of one load where there are loads: 25, or quick/likely/slow "20/25/30"."""
    attention: AttentionText | None = None
    """hands-on, tended or hands-off; left out: tended where there are touches, else hands-on."""
    hands: int = 1
    """Cooks that a hands-on step takes."""
    skill: str = ""
    """Skill asked; left out: anybody."""
    touches: Touches = Field(default_factory=list)
    """Visits of a cook."""
    put_in: Minutes | None = None
    """Minutes of a cook for putting in; left out: the plan's usual."""
    take_out: Minutes | None = None
    """Minutes of a cook for taking out; left out: the plan's usual."""
    vessels: Vessels = Field(default_factory=list)
    """Vessels held."""
    loads: LoadsText | None = None
    """Load by load."""
    least_piece: Minutes | None = None
    """It can be done in pieces not shorter than this."""
    done_when: str | None = None
    """The cue by which it is done."""
    core: Celsius | None = None
    """Core temperature at which it is done."""
    rest: Minutes | None = None
    """Rest that belongs to the core temperature."""
    not_before: Offset | None = None
    """It starts not before this."""
    done_by: Offset | None = None
    """It ends not after this."""
    clock: ClockText | None = None
    """The world fixes its start: "day 0 16:00"."""
    keeps: KeepText | None = None
    """How long its food keeps until served, where this is a last step and the dish's limit does not fit."""
    yields: YieldText | None = None
    """A by-product that other dishes use."""
    food: CareText | None = None
    """What it does to its food and how that lies; left out: told from place, heat and words."""
    ways: list[WayText] = Field(default_factory=list)
    """Other ways to do it."""
    note: str = ""
    """A note."""
    wait: WaitText | None = None
    """How the food waits for the step below."""
    after: Afters | None = None
    """What it follows, instead of the step above; [] for nothing."""
    also_after: Afters = Field(default_factory=list)
    """What it follows besides the step above."""

    def step(self, step: StepId) -> Step:
        """Return the step, links apart."""
        attention = self.attention
        if attention is None:
            attention = Attention.TENDED if self.touches else Attention.HANDS_ON
        return Step(
            id=step,
            does=self.does,
            length=self.takes,
            attention=attention,
            hands=self.hands,
            skill=self.skill,
            touches=tuple(each.touch() for each in self.touches),
            put_in=self.put_in,
            take_out=self.take_out,
            uses=self.places(),
            vessels=tuple(each.use() for each in self.vessels),
            loads=None if self.loads is None else self.loads.loads(),
            least_piece=self.least_piece,
            doneness=self._doneness(),
            earliest=self.not_before,
            latest=self.done_by,
            clock=self.clock,
            keeps=None if self.keeps is None else self.keeps.keep(),
            alternatives=tuple(each.way() for each in self.ways),
            note=self.note,
            yields=None if self.yields is None else self.yields.made(),
            food=None if self.food is None else self.food.care(),
        )

    def _doneness(self) -> Doneness | None:
        if self.done_when is None and self.core is None and self.rest is None:
            return None
        return Doneness(self.done_when or "", self.core, self.rest)


_OPTIONAL: tuple[tuple[str, str, Callable[[Any], Any]], ...] = (
    ("put_in", "put_in", minutes_out),
    ("take_out", "take_out", minutes_out),
    ("least_piece", "least_piece", minutes_out),
    ("not_before", "earliest", offset_out),
    ("done_by", "latest", offset_out),
    ("clock", "clock", clock_out),
    ("keeps", "keeps", keep_out),
    ("loads", "loads", loads_out),
    ("yields", "yields", yield_out),
    ("food", "food", care_out),
)


def step_out(step: Step) -> Typed:
    """Return a step as typed, links apart."""
    found: Typed = {"does": step.does, "takes": span_out(step.length)}
    usual = Attention.TENDED if step.touches else Attention.HANDS_ON
    if step.attention is not usual:
        found["attention"] = step.attention.value
    if step.hands != 1:
        found["hands"] = step.hands
    if step.skill:
        found["skill"] = step.skill
    found |= uses_out(step.uses)
    if step.touches:
        found["touches"] = [touch_out(each) for each in step.touches]
    if step.vessels:
        found["vessels"] = [vessel_use_out(each) for each in step.vessels]
    for key, field, show in _OPTIONAL:
        value = getattr(step, field)
        if value is not None:
            found[key] = show(value)
    if step.doneness is not None:
        found |= _doneness_out(step.doneness)
    if step.alternatives:
        found["ways"] = [
            {"name": each.name, "takes": span_out(each.length)} | dict(uses_out(each.uses))
            for each in step.alternatives
        ]
    if step.note:
        found["note"] = step.note
    return found


def _doneness_out(doneness: Doneness) -> Typed:
    found: Typed = {}
    if doneness.cue or (doneness.core is None and doneness.rest is None):
        found["done_when"] = doneness.cue
    if doneness.core is not None:
        found["core"] = celsius_out(doneness.core)
    if doneness.rest is not None:
        found["rest"] = minutes_out(doneness.rest)
    return found
