"""Whatever a valid plan holds, its text gives the same plan back, and the place of each value can be told."""

import json
import tomllib

import pytest
from hypothesis import HealthCheck, given, settings

from core.intake.text.lines import json_lines, toml_lines
from core.intake.text_plan import FORMS, read_text, write_text
from tests.support.strategies import plans
from tests.support.tries import tries

SLOW = settings(max_examples=tries(20), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


@pytest.mark.parametrize("form", FORMS)
@SLOW
@given(plan=plans())
def test_plan_to_text_to_plan(form, plan):
    text = write_text(plan, form)
    assert read_text(text, form) == plan
    assert write_text(read_text(text, form), form) == text


@SLOW
@given(plan=plans())
def test_both_forms_hold_the_same(plan):
    assert tomllib.loads(write_text(plan, "toml")) == json.loads(write_text(plan, "json"))


def places(value, here=()):
    if here:
        yield here
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, each in items:
        yield from places(each, (*here, key))


@pytest.mark.parametrize("form", FORMS)
@SLOW
@given(plan=plans())
def test_every_value_has_its_line(form, plan):
    text = write_text(plan, form)
    lines = toml_lines(text) if form == "toml" else json_lines(text)
    data = tomllib.loads(text) if form == "toml" else json.loads(text)
    rows = text.split("\n")
    for place in places(data):
        row = rows[lines[place] - 1]
        if isinstance(place[-1], str):
            written = (place[-1], json.dumps(place[-1], ensure_ascii=False))
            assert any(each in row for each in written), (place, row)
