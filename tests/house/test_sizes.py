"""Files, functions and classes stay small enough to be read in one go."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILE_LINES = 400
FUNCTION_LINES = 60
CLASS_METHODS = 20

EXCEPTIONS: dict[str, str] = {}
"""What may be larger: "core/plan/x.py" or "core/plan/x.py::Class.function", each with its reason."""

FUNCTION = (ast.FunctionDef, ast.AsyncFunctionDef)


def found(name, count, what, limit):
    return name, f"{name} has {count} {what}, more than {limit}"


def too_large(path, source):
    """Give name and sentence of everything in one file that is over its limit."""
    lines = len(source.splitlines())
    if lines > FILE_LINES:
        yield found(path, lines, "lines", FILE_LINES)

    def walk(node, name):
        for child in ast.iter_child_nodes(node):
            if not isinstance(child, (*FUNCTION, ast.ClassDef)):
                yield from walk(child, name)
                continue
            full = f"{name}.{child.name}" if name else child.name
            if isinstance(child, ast.ClassDef):
                methods = sum(isinstance(part, FUNCTION) for part in child.body)
                if methods > CLASS_METHODS:
                    yield found(f"{path}::{full}", methods, "methods", CLASS_METHODS)
            else:
                length = child.end_lineno - child.lineno + 1
                if length > FUNCTION_LINES:
                    yield found(f"{path}::{full}", length, "lines", FUNCTION_LINES)
            yield from walk(child, full)

    yield from walk(ast.parse(source), "")


def sources():
    return [file for folder in ("app", "core") for file in sorted((ROOT / folder).rglob("*.py"))]


def all_too_large():
    return {
        name: sentence
        for file in sources()
        for name, sentence in too_large(file.relative_to(ROOT).as_posix(), file.read_text(encoding="utf-8"))
    }


def test_everything_is_small():
    over = [sentence for name, sentence in all_too_large().items() if name not in EXCEPTIONS]
    assert not over, "\n".join(over)


def test_exceptions_have_reasons_and_are_still_needed():
    assert all(reason.strip() for reason in EXCEPTIONS.values())
    assert not set(EXCEPTIONS) - set(all_too_large()), "no longer too large: take it out of EXCEPTIONS"


def test_both_packages_are_measured():
    assert {file.relative_to(ROOT).parts[0] for file in sources()} == {"app", "core"}


@pytest.mark.parametrize(
    ("source", "names"),
    [
        ("x = 1\n" * 400, []),
        ("x = 1\n" * 401, ["a.py"]),
        ("def f():\n" + "    x = 1\n" * 59, []),
        ("def f():\n" + "    x = 1\n" * 60, ["a.py::f"]),
        ("class C:\n    async def f(self):\n" + "        x = 1\n" * 60, ["a.py::C.f"]),
        ("if True:\n    def f():\n" + "        x = 1\n" * 60, ["a.py::f"]),
        ("def f():\n    def g():\n" + "        x = 1\n" * 60, ["a.py::f", "a.py::f.g"]),
        ("class C:\n" + "".join(f"    def f{n}(self): ...\n" for n in range(20)), []),
        ("class C:\n" + "".join(f"    def f{n}(self): ...\n" for n in range(21)), ["a.py::C"]),
    ],
)
def test_the_measure_itself(source, names):
    assert [name for name, _ in too_large("a.py", source)] == names
