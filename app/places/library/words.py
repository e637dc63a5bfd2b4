"""What is said of a dish of the cook's own: how long, where, in what, from when."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from app.look.words import day_text, kind_word, word
from core.measures.minutes import show_minutes
from core.measures.quantity_show import show_quantity
from core.plan.menu import Ingredient
from core.plan.step import Step

if TYPE_CHECKING:
    from core.store.library_values import OwnDish


def _said(words: str) -> str:
    return QCoreApplication.translate("library", words)


def times_words(own: OwnDish) -> str:
    """Return how long a dish takes, and how much of it is work."""
    times = own.times
    if not own.copy.dish.steps:
        return _said("no steps yet")
    if times.whole == times.hands:
        return _said("{whole}, all of it hands on").format(whole=show_minutes(times.whole))
    return _said("{whole}, hands on {hands}").format(
        whole=show_minutes(times.whole), hands=show_minutes(times.hands) if times.hands else _said("not at all")
    )


def equipment_words(own: OwnDish) -> str:
    """Return the kinds of places and the vessels that a dish asks for; "" where it asks for none."""
    kinds = [kind_word(kind) for kind in own.kinds]
    return ", ".join([*kinds, *(vessel.name for vessel in own.copy.vessels)])


def facts_words(own: OwnDish) -> str:
    """Return times and equipment on one line."""
    return " · ".join(each for each in (times_words(own), equipment_words(own)) if each)


def step_words(step: Step) -> str:
    """Return how long a step takes, whose hands it takes and where it happens."""
    span = step.length
    kinds = dict.fromkeys(kind_word(use.kind) for use in step.uses)
    heat = next((use.heat for use in step.uses if use.heat is not None), None)
    degrees = [f"{heat.setting} °C"] if heat is not None else []
    least, most = show_minutes(span.low), show_minutes(span.high)
    long = most if span.low == span.high else _said("{least} to {most}").format(least=least, most=most)
    return ", ".join([long, word(step.attention.value), *kinds, *degrees])


def ingredient_words(each: Ingredient) -> str:
    """Return an ingredient with how much of it."""
    if each.quantity is None or each.quantity.to_taste:
        return each.item
    return f"{show_quantity(each.quantity)} {each.item}"


def origin_words(own: OwnDish) -> str:
    """Return when a dish was kept and from which plan, and when it was replaced last."""
    kept = _said("Kept {day}").format(day=day_words(own.kept))
    if own.origin:
        kept = _said("{kept} from “{plan}”").format(kept=kept, plan=own.origin)
    if own.changed == own.kept:
        return kept
    return _said("{kept}, changed {day}").format(kept=kept, day=day_words(own.changed))


def day_words(moment: datetime) -> str:
    """Return the day of a moment with its year."""
    here = moment.astimezone()
    return f"{day_text(here)} {here.year}"
