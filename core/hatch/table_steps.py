"""The table of steps: what the plan says of each, before anything is placed; and the table of ingredients."""

from __future__ import annotations

from core.food.scaling import scaled, written_amount
from core.hatch.table import Cell, Table, columns
from core.measures.minutes import show_span
from core.measures.quantity import Quantity
from core.plan import meaning
from core.plan.menu import Dish, Ingredient
from core.plan.plan import Plan
from core.plan.step import Step, Use
from core.sheets.serving_lines import allergens_of
from core.sheets.step_words import done_as
from core.sheets.words import plain

_STEPS = columns(
    ("dish", 24), ("code", 6), ("step", 20), ("does", 30), ("attention", 11), ("cooks", 6), ("skill", 10),
    ("quick min", 9), ("likely min", 9), ("slow min", 9), ("loads", 6), ("places", 30), ("recipe °C", 9),
    ("least °C", 9), ("most °C", 9), ("vessels", 26), ("touches", 24), ("done when", 26), ("core °C", 8),
    ("rest min", 8), ("follows", 26), ("other ways", 24), ("note", 30),
)  # fmt: skip
_INGREDIENTS = columns(
    ("dish", 24), ("code", 6), ("item", 24), ("amount", 10), ("unit", 8), ("written amount", 10),
    ("written unit", 8), ("preparation", 24), ("for step", 24), ("aisle", 14), ("on hand", 8),
    ("allergens noted", 24),
)  # fmt: skip
_MENU = columns(
    ("dish", 24), ("code", 6), ("id", 14), ("written for", 10), ("wanted for", 10), ("served", 17),
    ("plating", 30), ("allergens noted", 24), ("note", 30),
)  # fmt: skip


def menu_table(plan: Plan) -> Table:
    """Return a row for each dish; `served` empty: other dishes use it."""
    return Table("menu", _MENU, tuple(_dish(plan, dish) for dish in plan.menu.dishes))


def steps_table(plan: Plan) -> Table:
    """Return a row for each step, in the menu's order."""
    return Table("steps", _STEPS, tuple(_step(plan, dish, step) for dish in plan.menu.dishes for step in dish.steps))


def ingredients_table(plan: Plan) -> Table:
    """Return a row for each ingredient: for the servings wanted, and as the recipe is written."""
    rows = tuple(_ingredient(plan, dish, line) for dish in plan.menu.dishes for line in dish.ingredients)
    return Table("ingredients", _INGREDIENTS, rows)


def _dish(plan: Plan, dish: Dish) -> tuple[Cell, ...]:
    served = plan.wall(dish.course).replace(tzinfo=None) if dish.served else None
    return (
        _name(dish), plain(dish.code), dish.id, dish.written_for, dish.wanted, served, plain(dish.plating),
        ", ".join(allergens_of(dish)), plain(dish.note),
    )  # fmt: skip


def _step(plan: Plan, dish: Dish, step: Step) -> tuple[Cell, ...]:
    length, done, heat = step.length, step.doneness, meaning.heat_of(plan, step, 0)
    return (
        _name(dish), plain(dish.code), step.id, done_as(step), step.attention.value, step.hands, plain(step.skill),
        length.low, length.likely, length.high, meaning.load_count(dish, step),
        "; ".join(_place(plan, use) for use in step.uses),
        None if heat is None else heat.setting, None if heat is None else heat.low,
        None if heat is None else heat.high,
        "; ".join(_vessel(plan, str(each.vessel), each.count) for each in step.vessels),
        "; ".join(_touch(touch.at, touch.does, from_end=touch.from_end) for touch in step.touches),
        "" if done is None else plain(done.cue), None if done is None else done.core,
        None if done is None else done.rest, "; ".join(link.before for link in plan.links_to[step.id]),
        "; ".join(f"{plain(way.name)}: {show_span(way.length.low, way.length.likely, way.length.high)}"
                  for way in step.alternatives),
        plain(step.note),
    )  # fmt: skip


def _place(plan: Plan, use: Use) -> str:
    station = None if use.station is None else plan.kitchen.station.get(use.station)
    name = use.kind.value if station is None else plain(station.name) or station.id
    told = (
        name,
        str(use.units) if use.units > 1 else "",
        f"{use.area} cm2" if use.area else "",
        f"{use.height} cm high" if use.height else "",
        "raw" if use.raw else "",
    )
    return ", ".join(filter(None, told))


def _vessel(plan: Plan, vessel: str, count: int) -> str:
    known = next((each for each in plan.kitchen.vessels if each.id == vessel), None)
    name = vessel if known is None else plain(known.name) or vessel
    return f"{count} × {name}" if count > 1 else name


def _touch(at: int, does: str, *, from_end: bool) -> str:
    return f"{at} min {'before the end' if from_end else 'in'}: {plain(does) or 'look after it'}"


def _ingredient(plan: Plan, dish: Dish, line: Ingredient) -> tuple[Cell, ...]:
    written = written_amount(dish, line)
    wanted = scaled(line.item, written, dish.factor).measured
    step = None if line.step is None else plan.steps.get(line.step)
    return (
        _name(dish), plain(dish.code), plain(line.item), *amount_cells(wanted), *amount_cells(written),
        plain(line.preparation), "" if step is None else done_as(step), plain(line.aisle),
        "yes" if line.on_hand else "", ", ".join(map(plain, line.allergens)),
    )  # fmt: skip


def amount_cells(quantity: Quantity | None) -> tuple[Cell, Cell]:
    """Return a number and its unit; of what is added to taste there is no number."""
    if quantity is None or quantity.to_taste:
        return None, "to taste"
    return quantity.amount, quantity.unit


def _name(dish: Dish) -> str:
    return plain(dish.name) or dish.id
