"""The line of each value of a text, TOML and JSON."""

import json

from core.intake.text.lines import json_lines, toml_lines

TOML = '''# a comment with [brackets] = "x"
name = "a # b"   # and one behind
"odd key".inner = 1

[dish.pie]
note = """
one = 1
[two]
"""
list = [
  "x, y",   # comment, with, commas
  { a = 1, b = [ 2,
    3 ] },
  [[1], [2]],
]
lit = 'c:\\"'

[[link]]
before = "a"
[[link]]
before = "b"
[link.inner]
deep.er = [{ x = 1 }]
'''


def test_toml():
    lines = toml_lines(TOML)
    assert {key: lines[key] for key in lines if key[0] != "dish" and key[0] != "link"} == {
        ("name",): 2,
        ("odd key", "inner"): 3,
    }
    pie = {key[2:]: line for key, line in lines.items() if key[:2] == ("dish", "pie")}
    assert pie == {
        (): 5,
        ("note",): 6,
        ("list",): 10,
        ("list", 0): 11,
        ("list", 1): 12,
        ("list", 1, "a"): 12,
        ("list", 1, "b"): 12,
        ("list", 1, "b", 0): 12,
        ("list", 1, "b", 1): 13,
        ("list", 2): 14,
        ("list", 2, 0): 14,
        ("list", 2, 0, 0): 14,
        ("list", 2, 1): 14,
        ("list", 2, 1, 0): 14,
        ("lit",): 16,
    }
    assert lines["link", 0, "before"] == 19
    assert lines["link", 1, "before"] == 21
    assert lines["link", 1, "inner"] == 22
    assert lines["link", 1, "inner", "deep", "er", 0, "x"] == 23


def test_toml_with_windows_line_ends():
    assert toml_lines(TOML.replace("\n", "\r\n")) == toml_lines(TOML)


def test_json():
    data = {"a": [1, {"b": 'x"]\n'}, []], "c": {"d": None}, "e": {}}
    text = json.dumps(data, indent=2)
    lines = json_lines(text)
    found = {key: text.splitlines()[line - 1].strip().rstrip(",") for key, line in lines.items() if key}
    assert found == {
        ("a",): '"a": [',
        ("a", 0): "1",
        ("a", 1): "{",
        ("a", 1, "b"): '"b": "x\\"]\\n"',
        ("a", 2): "[]",
        ("c",): '"c": {',
        ("c", "d"): '"d": null',
        ("e",): '"e": {}',
    }
