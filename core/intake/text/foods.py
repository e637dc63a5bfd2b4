"""What is known of foods, as typed, and back."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Annotated, Any, ClassVar, TypeVar

from pydantic import BeforeValidator, WithJsonSchema

from core.intake.text.entry import Entry
from core.intake.text.nearest import one_of
from core.intake.text.places import Typed
from core.intake.text.scalars import is_whole, wrong
from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind

Word = TypeVar("Word", bound=StrEnum)
_MILLIMETRES = re.compile(r"(\d{1,4})(?: ?(mm|cm))?(?: deep| thick)?")


def _word(value: object, words: type[Word], what: str) -> Word:
    known = {each.value: each for each in words}
    return known[one_of(value, known, what)]


def millimetres_in(value: object) -> int:
    """Return whole mm from 40, "40 mm" or "4 cm"."""
    if is_whole(value):
        return int(str(value))
    met = _MILLIMETRES.fullmatch(value.strip()) if isinstance(value, str) else None
    if met is None:
        raise wrong(value, 'a thickness; write "40 mm"')
    return int(met[1]) * (10 if met[2] == "cm" else 1)


def millimetres_out(millimetres: int) -> str | int:
    """Return mm as typed; what is none as a bare number."""
    return f"{millimetres} mm" if 0 <= millimetres <= 9999 else millimetres


KindOfFood = Annotated[
    FoodKind,
    BeforeValidator(lambda value: _word(value, FoodKind, "a kind of food")),
    WithJsonSchema({"enum": [each.value for each in FoodKind]}),
]
ArrivalText = Annotated[
    Arrival,
    BeforeValidator(lambda value: _word(value, Arrival, "a way in which food arrives")),
    WithJsonSchema({"enum": [each.value for each in Arrival]}),
]
EffectText = Annotated[
    Effect,
    BeforeValidator(lambda value: _word(value, Effect, "what a step does to food")),
    WithJsonSchema({"enum": [each.value for each in Effect]}),
]
ContainerText = Annotated[
    Container,
    BeforeValidator(lambda value: _word(value, Container, "a container")),
    WithJsonSchema({"enum": [each.value for each in Container]}),
]
Millimetres = Annotated[
    int,
    BeforeValidator(millimetres_in),
    WithJsonSchema({"type": ["integer", "string"], "description": 'whole mm: 40, "40 mm", "4 cm"'}),
]


class CareText(Entry):
    """What a step does to its food."""

    short: ClassVar[str] = (
        'what it does, how deep the food lies, in what: "cool in ice, 40 mm deep, tray"; "ferment"'
    )

    effect: EffectText | None = None
    """What it does to the food; left out: told from place, heat and words."""
    depth: Millimetres = 0
    """How deep the food lies while it cools, its smallest measure; left out: not told."""
    container: ContainerText | None = None
    """In what it cools."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        found: Typed = {}
        for part in (each.strip() for each in text.split(",")):
            if part in set(Container):
                found["container"] = part
            elif _MILLIMETRES.fullmatch(part):
                found["depth"] = part
            else:
                found["effect"] = part
        return found

    def care(self) -> FoodCare:
        """Return the value."""
        return FoodCare(self.effect, self.depth, self.container)


def care_out(care: FoodCare) -> Any:
    """Return it as typed: one line where that says all."""
    parts = [care.effect.value] if care.effect is not None else []
    if 0 < care.depth <= 9999:
        parts.append(f"{care.depth} mm deep")
    if care.container is not None:
        parts.append(care.container.value)
    text = ", ".join(parts)
    if text and CareText.model_validate(text).care() == care:
        return text
    found: Typed = {} if care.effect is None else {"effect": care.effect.value}
    if care.depth:
        found["depth"] = millimetres_out(care.depth)
    if care.container is not None:
        found["container"] = care.container.value
    return found
