"""Names of things inside a plan: short, stable strings that survive edits, storage and text."""

from __future__ import annotations

import re
import secrets
from collections.abc import Container
from typing import NewType

DishId = NewType("DishId", str)
StepId = NewType("StepId", str)
StationId = NewType("StationId", str)
VesselId = NewType("VesselId", str)
CookId = NewType("CookId", str)

WORD = re.compile(r"[a-z0-9][a-z0-9_-]{0,63}\Z")
"""What an id looks like: lower-case letters, digits, - and _; a step's id is `dish.step`."""


def slug(text: str) -> str:
    """Return a short id made from a name as people write it ('Roast squash' -> 'roast-squash')."""
    plain = re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:40].strip("-")
    return plain or "x" + secrets.token_hex(3)


def fresh(wanted: str, taken: Container[str]) -> str:
    """Return the slug of `wanted`, numbered if another thing already bears it."""
    stem = slug(wanted)
    if stem not in taken:
        return stem
    number = 2
    while f"{stem}-{number}" in taken:
        number += 1
    return f"{stem}-{number}"


def step_id(dish: DishId, local: str) -> StepId:
    """Return the plan-wide id of a dish's step."""
    return StepId(f"{dish}.{local}")


def local_part(step: StepId) -> str:
    """Return the step's id inside its dish ('gratin.bake' -> 'bake')."""
    return step.partition(".")[2]


def dish_part(step: StepId) -> DishId:
    """Return the dish that a step's id belongs to ('gratin.bake' -> 'gratin')."""
    return DishId(step.partition(".")[0])
