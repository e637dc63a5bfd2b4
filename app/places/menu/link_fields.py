"""The fields of a link, declared: which steps, how long the food waits, how, and what is counted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QCoreApplication

from app.bridge import OpenPlan
from app.fields import Picked, Spec
from app.fields.typed_places import how_of, how_of_link
from app.fields.typed_times import MINUTES, MINUTES_IF_ANY
from core.plan.ids import DishId, StepId
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("LinkFields", words)


def step_options(plan: Plan, dish: DishId | None) -> list[tuple[StepId | None, str]]:
    """Return all steps with their words, those of one dish first and without the dish's name."""
    first = [each for each in plan.menu.dishes if each.id == dish]
    others = [each for each in plan.menu.dishes if each.id != dish]
    found: list[tuple[StepId | None, str]] = []
    for each in [*first, *others]:
        for number, step in enumerate(each.steps, 1):
            own = each.id == dish
            words = f"{number}  {step.does}" if own else f"{each.name}: {step.does}"
            found.append((step.id, words))
    return found


def end_specs(opened: OpenPlan, dish: Callable[[], DishId | None]) -> tuple[Spec, Spec]:
    """Return the fields of the two steps of a link."""
    options = Picked(lambda: step_options(opened.plan, dish()))
    return (
        Spec("before", tr("What comes before"), options, width=140),
        Spec("after", tr("What follows"), options, width=140),
    )


def wait_specs(opened: OpenPlan) -> tuple[Spec, Spec, Spec, Spec]:
    """Return the fields of a link's wait."""
    kinds = [
        (LinkKind.END_TO_START, tr("end to start")),
        (LinkKind.START_TO_START, tr("start to start")),
        (LinkKind.END_TO_END, tr("end to end")),
    ]
    return (
        Spec("least", tr("Waits at least"), MINUTES, width=76, grows=0),
        Spec("most", tr("Waits at most"), MINUTES_IF_ANY, tr("Empty: as long as you like"), tr("no limit"), 76, 0),
        Spec(
            "how",
            tr("How the food waits"),
            how_of(lambda: opened.plan.kitchen),
            tr("Such as: on the counter; in the fridge, 600 cm2, 12 cm; a by-product: …, brings 300 ml"),
            width=130,
            grows=3,
        ),
        Spec("kind", tr("What is counted"), Picked(lambda: kinds), width=118, grows=0),
    )


def link_values(link: Link) -> dict[str, Any]:
    """Return what the fields show of a link."""
    return {
        "before": link.before,
        "after": link.after,
        "least": link.least,
        "most": link.most,
        "how": how_of_link(link),
        "kind": link.kind,
    }


def link_with(link: Link, key: str, value: Any) -> Link:
    """Return a link with one field changed."""
    if key == "how":
        wait, brings = value
        return replace(link, wait=wait, brings=brings)
    return replace(link, **{key: value})
