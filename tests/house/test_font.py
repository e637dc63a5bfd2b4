"""The shipped font has every figure and sign that people read on the screen and on paper."""

import ast
from pathlib import Path

import pytest

from resources import FONT_FAMILY, font_files, shipped

ROOT = Path(__file__).parents[2]

WRITTEN_FOR_PEOPLE = ("app", "core", "demo_data", "resources/sheets")
TYPED_BY_PEOPLE = {"core/measures/number.py", "core/intake/text/windows.py"}
"""These only name signs that people may type."""


@pytest.fixture(params=font_files(), ids=lambda file: file.stem)
def face(qapp, request):
    from PySide6.QtGui import QRawFont

    font = QRawFont(str(request.param), 100)
    assert font.isValid()
    assert font.familyName() == FONT_FAMILY
    return font


def test_there_is_a_regular_and_a_bold():
    assert [file.name for file in font_files()] == ["NotoSans-Bold.ttf", "NotoSans-Regular.ttf"]
    assert "SIL OPEN FONT LICENSE" in shipped("fonts", "OFL.txt").read_text(encoding="utf-8")


def test_figures_are_all_as_wide(face):
    glyphs = face.glyphIndexesForString("0123456789")
    assert len(glyphs) == 10
    assert len({round(size.x(), 3) for size in face.advancesForGlyphIndexes(glyphs)}) == 1


def beyond_ascii(text):
    return {sign for sign in text if not sign.isascii() and sign.isprintable()}


def signs_of(source):
    """Give the signs beyond ASCII in the texts of a Python source, leaving its docstrings out."""
    tree = ast.parse(source)
    spoken = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef))
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    texts = [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in spoken
    ]
    return beyond_ascii("".join(texts))


def test_every_sign_is_in_the_font(face):
    missing = []
    for file in (file for folder in WRITTEN_FOR_PEOPLE for file in sorted((ROOT / folder).rglob("*"))):
        name = file.relative_to(ROOT).as_posix()
        if file.suffix not in {".py", ".toml", ".json", ".typ"} or name in TYPED_BY_PEOPLE:
            continue
        text = file.read_text(encoding="utf-8")
        signs = signs_of(text) if file.suffix == ".py" else beyond_ascii(text)
        missing += [
            f"{name}: {s} U+{ord(s):04X}" for s in sorted(signs) if not face.supportsCharacter(ord(s))
        ]
    assert not missing, "\n".join(missing)


def test_the_reading_itself():
    assert signs_of('"""A – dash."""\nx = f"{1} → {2}"  # ≤\ny = "½"') == {"→", "½"}


def test_the_font_lacks_arrows(face):
    """Show that the check can fail; own drawings stand for arrows, ticks and warning signs."""
    assert not face.supportsCharacter(ord("→"))
    assert face.supportsCharacter(ord("½"))
