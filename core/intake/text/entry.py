"""What all parts of a written plan share: a table of known keys that may also be typed as one line."""

from __future__ import annotations

import ast
import inspect
from itertools import pairwise
from textwrap import dedent
from typing import Any, ClassVar

from pydantic import BaseModel, ConfigDict, GetJsonSchemaHandler, model_validator
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema


def said_of(entry: type[BaseModel]) -> dict[str, str]:
    """Return what stands below the fields of an entry in its source, by name, those that it takes over among them.

    Read when a schema is asked for only: of all models together it takes as long as to make them.
    """
    found: dict[str, str] = {}
    for each in reversed(entry.__mro__):
        if not issubclass(each, BaseModel) or each is BaseModel:
            continue
        (body,) = ast.parse(dedent(inspect.getsource(each))).body
        assert isinstance(body, ast.ClassDef)
        for field, below in pairwise(body.body):
            if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
                continue
            if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant):
                found[field.target.id] = inspect.cleandoc(str(below.value.value))
    return {name: words for name, words in found.items() if name in entry.model_fields}


class Entry(BaseModel):
    """One table of a written plan. Unknown keys are refused; a value is never bent into another type."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)

    short: ClassVar[str] = ""
    """How the entry is typed on one line, with an example; "" where only the table will do."""

    @classmethod
    def from_short(cls, text: str) -> dict[str, Any]:
        """Return the table that a short line stands for; raise Refusal when it cannot be read."""
        raise NotImplementedError

    @model_validator(mode="before")
    @classmethod
    def _expand(cls, data: Any) -> Any:
        if not cls.short or isinstance(data, bool):
            return data
        if isinstance(data, int):
            data = str(data)
        return cls.from_short(data) if isinstance(data, str) else data

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """Say what each key is, and allow the short line beside the table."""
        table = handler(core)
        whole = handler.resolve_ref_schema(table)
        for name, words in said_of(cls).items():
            if (told := whole["properties"].get(cls.model_fields[name].alias or name)) is not None:
                told["description"] = words
        if not cls.short:
            return table
        inner = dict(whole)
        whole.clear()
        whole.update({"anyOf": [{"type": ["string", "integer"], "description": cls.short}, inner]})
        return table


class OneOrMore:
    """Mark a list of which a single entry may be typed without brackets."""

    def __get_pydantic_json_schema__(
        self, core: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Allow the single entry beside the list."""
        several = handler(core)
        return {"anyOf": [several["items"], several]}


def listed(value: Any) -> Any:
    """Return a single entry as a list of one, so that brackets need not be typed."""
    return value if isinstance(value, list) else [value]
