"""A dish and its ingredients as typed, and back."""

from __future__ import annotations

from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, Field

from core.intake.text.entry import Entry, OneOrMore, listed
from core.intake.text.foods import ArrivalText, KindOfFood, Millimetres, millimetres_out
from core.intake.text.places import Typed
from core.intake.text.scalars import Offset, QuantityText, ShareText, offset_out, quantity_out, share_out
from core.intake.text.steps import StepText
from core.intake.text.waits import KeepText, keep_out
from core.plan.ids import DishId, StepId, local_part, step_id
from core.plan.menu import Dish, Ingredient
from core.plan.step import Keep

_PER_KG = " per kg of "
Words = Annotated[list[str], BeforeValidator(listed), OneOrMore()]


class IngredientText(Entry):
    """One line of a dish's ingredients."""

    short: ClassVar[str] = (
        'what, a colon, how much, a comma, how prepared: "potatoes: 1.6 kg, peeled"; "nutmeg: to taste"; '
        '"fine salt: 12 g per kg of rack of pork"'
    )

    item: str
    """What it is."""
    quantity: QuantityText = None
    """How much; left out: to taste."""
    preparation: str = ""
    """How it is prepared."""
    step: str | None = None
    """The step that uses it."""
    aisle: str = ""
    """Where the shop has it."""
    on_hand: bool = False
    """True: it need not be bought."""
    allergens: Words = Field(default_factory=list)
    """Allergens in it."""
    per_kg_of: str = ""
    """The quantity is for each kilogram of this other ingredient."""
    pieces: int = 0
    """The amount is so many pieces that are each cooked whole: a roast, a bird."""
    food: KindOfFood | None = None
    """What kind of food it is; left out: not told."""
    arrives: ArrivalText | None = None
    """How it is when its first step begins; left out: not told."""
    thick: Millimetres = 0
    """How thick one piece is: "40 mm"; left out: not told."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        item, _, rest = text.partition(":")
        found: Typed = {"item": item.strip()}
        quantity, _, preparation = rest.strip().partition(", ")
        amount, per_kg, of = quantity.partition(_PER_KG)
        if amount.strip():
            found["quantity"] = amount.strip()
        if per_kg:
            found["per_kg_of"] = of.strip()
        if preparation.strip():
            found["preparation"] = preparation.strip()
        return found

    def ingredient(self, dish: DishId) -> Ingredient:
        """Return the ingredient."""
        return Ingredient(
            self.item,
            self.quantity,
            self.preparation,
            None if self.step is None else named_step(dish, self.step),
            self.aisle,
            self.on_hand,
            tuple(self.allergens),
            self.per_kg_of,
            self.pieces,
            self.food,
            self.arrives,
            self.thick,
        )


def named_step(dish: DishId, text: str) -> StepId:
    """Return the id of a step named inside a dish: bake, or with its dish gratin.bake."""
    return StepId(text) if "." in text else step_id(dish, text)


def ingredient_out(each: Ingredient, dish: DishId) -> Any:
    """Return an ingredient as typed: one line where nothing else is known of it."""
    quantity = "to taste" if each.quantity is None else each.quantity.as_text()
    per_kg = f"{_PER_KG}{each.per_kg_of}" if each.per_kg_of else ""
    text = f"{each.item}: {quantity}{per_kg}" + (f", {each.preparation}" if each.preparation else "")
    try:
        if IngredientText.model_validate(text).ingredient(dish) == each:
            return text
    except ValueError:
        pass
    found: Typed = {"item": each.item}
    if each.quantity is not None:
        found["quantity"] = quantity_out(each.quantity)
    if each.per_kg_of:
        found["per_kg_of"] = each.per_kg_of
    if each.preparation:
        found["preparation"] = each.preparation
    if each.step is not None:
        found["step"] = step_name(each.step, dish)
    if each.aisle:
        found["aisle"] = each.aisle
    if each.on_hand:
        found["on_hand"] = True
    if each.allergens:
        found["allergens"] = list(each.allergens)
    return found | _food_out(each)


def _food_out(each: Ingredient) -> Typed:
    found: Typed = {"pieces": each.pieces} if each.pieces else {}
    if each.food is not None:
        found["food"] = each.food.value
    if each.arrives is not None:
        found["arrives"] = each.arrives.value
    if each.thick:
        found["thick"] = millimetres_out(each.thick)
    return found


def step_name(step: StepId, dish: DishId) -> str:
    """Return how a step is named inside a dish."""
    return local_part(step) if step.startswith(f"{dish}.") else str(step)


class DishText(Entry):
    """A dish: for whom, when it is served, how long it keeps, and its steps in order."""

    name: str
    """What the dish is called."""
    code: str = ""
    """A short code for the sheets."""
    serves: int = 4
    """Servings that it is written for."""
    wanted: int | None = None
    """Servings wanted; left out: as many as it is written for."""
    course: Offset = 0
    """When it is served, from plating: "75 min after", "3 min before"."""
    served: bool = True
    """False: other dishes use it, it is not served by itself."""
    keeps: KeepText = Field(default_factory=KeepText)
    """How long it may wait when done, and how; left out: without limit, on the counter."""
    ingredients: list[IngredientText] = Field(default_factory=list)
    """What goes in."""
    allergens: Words = Field(default_factory=list)
    """Allergens of the whole dish."""
    plating: str = ""
    """How it is plated and garnished."""
    note: str = ""
    """A note."""
    scale: ShareText | None = None
    """How much of the recipe is made: 1.5; left out: servings wanted over servings written for."""
    pan: str = ""
    """The tin that the recipe is written for: "round 26 cm", "35x25x6 cm", "GN 1/2-65"."""
    pan_wanted: str = ""
    """The tin that it is made in."""
    step: dict[str, StepText] = Field(default_factory=dict, description="steps by id, in order")

    def dish(self, dish: DishId) -> Dish:
        """Return the dish, links apart."""
        return Dish(
            id=dish,
            name=self.name,
            steps=tuple(each.step(step_id(dish, local)) for local, each in self.step.items()),
            code=self.code,
            written_for=self.serves,
            wanted=self.serves if self.wanted is None else self.wanted,
            course=self.course,
            served=self.served,
            keep=self.keeps.keep(),
            ingredients=tuple(each.ingredient(dish) for each in self.ingredients),
            allergens=tuple(self.allergens),
            plating=self.plating,
            note=self.note,
            scale=self.scale,
            pan=self.pan,
            pan_wanted=self.pan_wanted,
        )


def dish_out(dish: Dish) -> Typed:
    """Return a dish as typed, its steps apart."""
    found: Typed = {"name": dish.name}
    if dish.code:
        found["code"] = dish.code
    found["serves"] = dish.written_for
    if dish.wanted != dish.written_for:
        found["wanted"] = dish.wanted
    if dish.course:
        found["course"] = offset_out(dish.course)
    if not dish.served:
        found["served"] = False
    if dish.keep != Keep():
        found["keeps"] = keep_out(dish.keep)
    if dish.allergens:
        found["allergens"] = list(dish.allergens)
    if dish.scale is not None:
        found["scale"] = share_out(dish.scale)
    found |= {key: text for key in ("pan", "pan_wanted", "plating", "note") if (text := getattr(dish, key))}
    if dish.ingredients:
        found["ingredients"] = [ingredient_out(each, dish.id) for each in dish.ingredients]
    return found
