"""The JSON Schema of a written plan: the demo plans satisfy it, mistakes do not, everything is described."""

import copy
import json
import tomllib

import pytest

import demo_data
from core.intake.schema import DIALECT, schema
from core.intake.text.write import tables_of
from core.intake.text_plan import read_text

SCHEMA = schema()
IS = {
    "object": dict, "array": list, "string": str, "boolean": bool, "null": type(None), "integer": int,
    "number": (int, float),
}  # fmt: skip
KNOWN = {
    "$defs", "$ref", "$schema", "additionalProperties", "anyOf", "const", "default", "description", "enum",
    "items", "properties", "required", "title", "type",
}  # fmt: skip


def fits(value, rule):
    """Tell whether a value satisfies a schema made of the keywords in KNOWN, as draft 2020-12 defines them."""
    assert set(rule) <= KNOWN, set(rule) - KNOWN
    if "$ref" in rule:
        return fits(value, SCHEMA["$defs"][rule["$ref"].removeprefix("#/$defs/")])
    if "anyOf" in rule and not any(fits(value, each) for each in rule["anyOf"]):
        return False
    if "enum" in rule and value not in rule["enum"]:
        return False
    types = [rule["type"]] if isinstance(rule.get("type"), str) else rule.get("type")
    if types and not any(is_of(value, each) for each in types):
        return False
    if isinstance(value, list) and "items" in rule:
        return all(fits(each, rule["items"]) for each in value)
    return not isinstance(value, dict) or table_fits(value, rule)


def is_of(value, type_name):
    if isinstance(value, bool) and type_name in ("integer", "number"):
        return False
    return isinstance(value, IS[type_name])


def table_fits(table, rule):
    others = rule.get("additionalProperties", True)
    for key, each in table.items():
        inner = rule.get("properties", {}).get(key, others)
        if inner is False or (isinstance(inner, dict) and not fits(each, inner)):
            return False
    return set(rule.get("required", ())) <= set(table)


def test_it_says_which_dialect_it_is_in():
    assert SCHEMA["$schema"] == DIALECT == "https://json-schema.org/draft/2020-12/schema"
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA


@pytest.mark.parametrize("name", demo_data.files())
def test_demo_plans_satisfy_it(name):
    data = tomllib.loads(demo_data.text_of(name))
    assert fits(data, SCHEMA)
    written = tables_of(read_text(demo_data.text_of(name)))
    assert fits(json.loads(json.dumps(written)), SCHEMA)


@pytest.mark.parametrize(
    ("place", "value"),
    [
        (("nmae",), "x"),
        (("dish", "fish", "serves"), "four"),
        (("dish", "fish", "step", "cut", "burnr"), 1),
        (("dish", "fish", "step", "cut", "attention"), "sometimes"),
        (("dish", "fish", "step", "cut", "takes"), True),
        (("dish", "fish", "step", "cut", "oven"), {"heat": "200 C", "racks": 2}),
        (("dish", "fish", "step", "cut", "loads"), {"pieces": 4}),
        (("station", "oven", "kind"), "stove"),
        (("station", "oven", "shelves"), "2000 cm2, 18 cm"),
        (("decisions", "manner"), "quick"),
        (("plating",), 1930),
    ],
)
def test_mistakes_do_not(place, value):
    data = tomllib.loads(demo_data.text_of("weeknight_supper.toml"))
    wrong = copy.deepcopy(data)
    table = wrong
    for key in place[:-1]:
        table = table[key]
    table[place[-1]] = value
    assert fits(data, SCHEMA)
    assert not fits(wrong, SCHEMA)


def test_required_keys_are_required():
    data = tomllib.loads(demo_data.text_of("weeknight_supper.toml"))
    del data["dish"]["fish"]["step"]["cut"]["does"]
    assert not fits(data, SCHEMA)


def tables(rule):
    return [each for each in (rule, *rule.get("anyOf", ())) if each.get("type") == "object"]


def test_every_key_is_described():
    bare = [
        f"{name}.{key}"
        for name, rule in [("plan", SCHEMA), *SCHEMA["$defs"].items()]
        for table in tables(rule)
        for key, each in table.get("properties", {}).items()
        if not each.get("description")
    ]
    assert not bare


def test_unknown_keys_are_allowed_nowhere():
    for name, rule in [("plan", SCHEMA), *SCHEMA["$defs"].items()]:
        assert tables(rule), name
        assert all(table["additionalProperties"] is False for table in tables(rule)), name
