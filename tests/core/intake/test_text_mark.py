"""The plan's mark in a written plan: optional, a UUID, and back as it was."""

from __future__ import annotations

import json
import tomllib
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.intake.schema import schema
from core.intake.text_plan import FORMS, read_text, write_text
from core.measures.refusal import Refusal
from core.plan.plan import Plan
from tests.support.strategies import plans

HEAD = 'name = "Feast"\nplating = "2026-09-26 19:30 Europe/London"\n'
MARK = "0f6ae3b2-6a0e-4f0c-9a55-2f1d5c3b7e10"


def test_a_text_without_a_mark_has_none_and_none_is_written() -> None:
    plan = read_text(HEAD)
    assert plan.mark == ""
    assert "mark" not in tomllib.loads(write_text(plan))


@pytest.mark.parametrize(
    "typed", [MARK, MARK.upper(), "{" + MARK + "}", MARK.replace("-", ""), f"urn:uuid:{MARK}"]
)
def test_every_spelling_of_a_uuid_is_the_same_mark(typed: str) -> None:
    assert read_text(f'{HEAD}mark = "{typed}"\n').mark == MARK


@pytest.mark.parametrize("typed", ['"feast-7"', '""', "7", "true", '["a"]', f'"{MARK}0"'])
def test_what_is_no_uuid_is_refused_with_its_line_and_the_mend(typed: str) -> None:
    with pytest.raises(Refusal) as refusal:
        read_text(f"{HEAD}mark = {typed}\n")
    assert "Line 3" in str(refusal.value)
    assert "is not a plan's mark, which is a UUID; leave the line out" in str(refusal.value)


@pytest.mark.parametrize("form", FORMS)
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans(most_dishes=2, most_steps=3), mark=st.one_of(st.just(""), st.uuids().map(str)))
def test_a_mark_comes_back(form: str, plan: Plan, mark: str) -> None:
    plan = replace(plan, mark=mark)
    assert read_text(write_text(plan, form), form) == plan


def test_it_stands_below_the_name_where_a_person_finds_it() -> None:
    text = write_text(replace(read_text(HEAD), mark=MARK))
    assert f'\nmark = "{MARK}"\n' in text
    assert list(json.loads(write_text(replace(read_text(HEAD), mark=MARK), "json")))[:3] == ["name", "plating", "mark"]


def test_the_schema_knows_it_and_does_not_ask_for_it() -> None:
    whole: dict[str, Any] = schema()
    rule = whole["properties"]["mark"]
    assert (rule["type"], rule["format"]) == ("string", "uuid")
    assert "leave it out" in rule["description"]
    assert "mark" not in whole["required"]
