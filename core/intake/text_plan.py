"""A whole plan as a text that is written by hand in an editor: TOML, or JSON of the same structure.

The form is described by core.intake.schema; demo_data holds plans written in it. Reading lists all
faults at once, each with its line, and never accepts a plan that core.plan.check would refuse.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from core.intake.text.faults import Fault, Lines, Place, TextRefusal, faults_of
from core.intake.text.lines import json_lines, toml_lines
from core.intake.text.page import toml_page
from core.intake.text.read import plan_of
from core.intake.text.whole import PlanText
from core.intake.text.write import tables_of
from core.measures.refusal import Refusal, quoted
from core.plan import check
from core.plan.plan import Plan

FORMS = ("toml", "json")
"""Forms of the text, which are also the endings of its files."""

_MOST_CHARACTERS = 5_000_000


def read_text(text: str, form: str = "toml") -> Plan:
    """Return the plan that a text describes; raise Refusal with all its faults, one to a line."""
    data = _parsed(text, _known(form))
    faults: list[Fault] = []
    try:
        whole = PlanText.model_validate(data)
    except ValidationError as error:
        faults += faults_of(error, PlanText, data)
        raise TextRefusal(tuple(faults), _lines(text, form)) from None
    plan = plan_of(whole, faults)
    faults += [Fault(_place_of(plan, each.about), each.sentence) for each in check.found(plan)]
    if faults:
        raise TextRefusal(tuple(faults), _lines(text, form))
    return plan


def write_text(plan: Plan, form: str = "toml") -> str:
    """Return the text of a valid plan; read_text gives the same plan back."""
    tables = tables_of(plan)
    if _known(form) == "json":
        return json.dumps(tables, ensure_ascii=False, indent=2) + "\n"
    return toml_page(tables)


def read_file(path: Path) -> Plan:
    """Return the plan in a file whose name ends in .toml or .json; raise Refusal with the file's name."""
    form = _form_of(path)
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise Refusal(f"{path.name} is not plain text in UTF-8; save it again as UTF-8.") from None
    except OSError as error:
        raise Refusal(
            f"{path.name} cannot be read ({error.strerror or error}); choose another file."
        ) from None
    try:
        return read_text(text, form)
    except TextRefusal as refusal:
        raise refusal.named(path.name) from None
    except Refusal as refusal:
        raise Refusal(f"{path.name}: {refusal.text}") from None


def write_file(plan: Plan, path: Path) -> None:
    """Write a plan to a file whose name ends in .toml or .json; raise Refusal when it cannot be written."""
    text = write_text(plan, _form_of(path))
    try:
        path.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise Refusal(
            f"{path.name} cannot be written ({error.strerror or error}); choose another folder."
        ) from None


def _known(form: str) -> str:
    if form not in FORMS:
        raise ValueError(f"unknown form of text: {form}")
    return form


def _form_of(path: Path) -> str:
    form = path.suffix.lower().lstrip(".")
    if form not in FORMS:
        raise Refusal(f"{path.name} is not a plan as text; its name must end in .toml or .json.")
    return form


def _parsed(text: str, form: str) -> Any:
    if len(text) > _MOST_CHARACTERS:
        raise Refusal(
            "The text is longer than five million characters, which no plan is; choose another file."
        )
    try:
        return tomllib.loads(text) if form == "toml" else json.loads(text, object_pairs_hook=_once)
    except tomllib.TOMLDecodeError as error:
        said = str(error)
    except json.JSONDecodeError as error:
        said = f"{error.msg} (line {error.lineno}, column {error.colno})"
    except RecursionError:
        raise Refusal(
            "The brackets of this text stand too deep in each other; a plan needs only a few."
        ) from None
    raise Refusal(
        f"This is not well-formed {form.upper()}: {_in_one(said)}. Mend it there and read it again."
    )


def _lines(text: str, form: str) -> Lines:
    try:
        return toml_lines(text) if form == "toml" else json_lines(text)
    except RecursionError:
        return {}


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Return a table; refuse a key that it has twice, of which the first would be lost."""
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise Refusal(f"The key {quoted(key)} stands twice in the same table; keep one of them.")
        found[key] = value
    return found


def _in_one(message: str) -> str:
    plain = " ".join(message.replace("(at ", "(").split()).rstrip(".")
    return plain[:1].lower() + plain[1:]


def _place_of(plan: Plan, about: frozenset[str]) -> Place:
    """Return the place of the last of some ids in the text; () when they name nothing there."""
    return max(_places(plan, about), key=len, default=())


def _places(plan: Plan, about: frozenset[str]) -> Iterator[Place]:
    for key, ids in (
        ("station", plan.kitchen.station),
        ("vessel", plan.kitchen.vessel),
        ("cook", plan.kitchen.cook),
        ("dish", plan.dishes),
    ):
        yield from ((key, each) for each in about if each in ids)
    for each in about:
        if each in plan.steps:
            dish, _, local = each.partition(".")
            yield ("dish", dish, "step", local)
