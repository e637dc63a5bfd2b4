"""The form of a written plan as JSON Schema, for editors that complete and check while typing."""

from __future__ import annotations

from typing import Any

from core.intake.text.whole import PlanText

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""JSON Schema, draft 2020-12 (core specification, section 8.1.1)."""


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a written plan: TOML and JSON have the same structure.

    It says which keys there are and what may stand in them; that short lines can be read, that steps and
    stations named are there, and that the plan is sound, only reading finds out.
    """
    return {"$schema": DIALECT, **PlanText.model_json_schema(), "title": "Cook-Day plan"}
