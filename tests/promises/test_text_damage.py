"""A plan's text however damaged is either read or refused in sentences; nothing else ever comes out."""

import json
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import demo_data
from core.intake.text_plan import FORMS, read_text, write_text
from core.measures.refusal import Refusal
from core.plan.plan import Plan


@cache
def sound(form):
    return write_text(read_text(demo_data.text_of("weeknight_supper.toml")), form)


def outcome(text, form):
    """Give the plan, or the sentences of the refusal."""
    try:
        return read_text(text, form)
    except Refusal as refusal:
        return refusal.text


def told_well(found):
    if isinstance(found, Plan):
        return True
    jargon = ("pydantic", "validation error", "Traceback", "value_error", "NoneType", "<class", "object at")
    return all(line.strip() for line in found.split("\n")) and not any(word in found for word in jargon)


BITS = st.sampled_from(
    [
        "",
        '"',
        "[",
        "]",
        "{",
        "}",
        "=",
        ",",
        ":",
        "\n",
        "#",
        "-",
        "0",
        "9" * 30,
        "true",
        "nan",
        "x",
        " min",
        "\\",
        "é",
    ]
)


@pytest.mark.parametrize("form", FORMS)
@settings(max_examples=150)
@given(data=st.data())
def test_a_piece_replaced(form, data):
    text = sound(form)
    at = data.draw(st.integers(0, len(text)))
    length = data.draw(st.integers(0, 12))
    assert told_well(outcome(text[:at] + data.draw(BITS) + text[at + length :], form))


@pytest.mark.parametrize("form", FORMS)
@settings(max_examples=60)
@given(data=st.data())
def test_lines_lost_doubled_and_moved(form, data):
    rows = sound(form).split("\n")
    for _time in range(data.draw(st.integers(1, 3))):
        row = rows.pop(data.draw(st.integers(0, len(rows) - 1)))
        for _copy in range(data.draw(st.integers(0, 2))):
            rows.insert(data.draw(st.integers(0, len(rows))), row)
    assert told_well(outcome("\n".join(rows), form))


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=5), inner, max_size=2),
    max_leaves=4,
)


@settings(max_examples=150)
@given(data=st.data())
def test_a_value_of_any_sort(data):

    plan = json.loads(sound("json"))
    table = plan
    while True:
        key = data.draw(st.sampled_from(sorted(table) if isinstance(table, dict) else range(len(table))))
        inner = table[key]
        if not isinstance(inner, dict | list) or not inner or data.draw(st.integers(0, 4)) == 0:
            break
        table = inner
    table[key] = data.draw(VALUES)
    assert told_well(outcome(json.dumps(plan), "json"))
