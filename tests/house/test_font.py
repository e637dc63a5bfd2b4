"""The shipped font has every figure and sign that people read on the screen and on paper."""

import ast
from pathlib import Path

import pytest

from resources import FONT_FAMILY, font_files, shipped

ROOT = Path(__file__).parents[2]

# these write what people read; core.measures and core.intake also name signs that people type
READ_BY_PEOPLE = ("app", "core/arrange", "core/desk", "core/plan", "core/sheets", "core/store", "core/timetable")


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
    return {sign for sign in "".join(texts) if not sign.isascii() and sign.isprintable()}


def test_every_sign_is_in_the_font(face):
    missing = {}
    for folder in READ_BY_PEOPLE:
        for file in (ROOT / folder).rglob("*.py"):
            for sign in signs_of(file.read_text(encoding="utf-8")):
                if not face.supportsCharacter(ord(sign)):
                    missing.setdefault(sign, []).append(file.relative_to(ROOT).as_posix())
    for folder in ("demo_data", "resources/sheets"):
        for file in (ROOT / folder).rglob("*.*"):
            if file.suffix in {".toml", ".json", ".typ"}:
                for sign in set(file.read_text(encoding="utf-8")):
                    if not sign.isascii() and not face.supportsCharacter(ord(sign)):
                        missing.setdefault(sign, []).append(file.relative_to(ROOT).as_posix())
    assert not missing, "\n".join(f"{sign} U+{ord(sign):04X}: {', '.join(files)}" for sign, files in missing.items())


def test_the_reading_itself():
    assert signs_of('"""A – dash."""\nx = f"{1} → {2}"  # ≤\ny = "½"') == {"→", "½"}


def test_the_font_lacks_arrows(face):
    """Own drawings stand for these; if a newer font brings them, this page may go."""
    assert not face.supportsCharacter(ord("→"))
    assert face.supportsCharacter(ord("½"))
