"""Names in many scripts: set in shipped fonts alone, embedded, read back as they were written."""

from __future__ import annotations

import re
import subprocess
import unicodedata
from functools import cache

import pytest

from core.sheets.kinds import SheetKind
from core.sheets.printing import sheet_pdf
from core.timetable.on_paper import on_paper
from resources import fonts_more_folder
from tests.support.builders import a_dish, a_plan, a_step

NAMES = {
    "Arabic": "كباب",
    "Armenian": "Տոլմա",
    "Bengali": "সর্ষে ইলিশ",
    "Chinese": "麻婆豆腐",
    "Cyrillic": "Борщ",
    "Devanagari": "पनीर टिक्का",
    "Ethiopic": "ዶሮ ወጥ",
    "full width": "ＡＢ＝１",
    "Georgian": "ხაჭაპური",
    "Greek": "Μουσακάς",
    "Gujarati": "ઢોકળા",
    "Gurmukhi": "ਸਾਗ",
    "Hebrew": "חומוס",
    "Japanese": "お好み焼き",
    "Kannada": "ದೋಸೆ",
    "Khmer": "អាម៉ុក",
    "Korean": "비빔밥",
    "Lao": "ລາບ",
    "Malayalam": "അപ്പം",
    "Myanmar": "လက်ဖက်",
    "Sinhala": "කොත්තු",
    "Tamil": "சாம்பார்",
    "Telugu": "పులిహోర",
    "Thai": "ผัดไทย",
}


@cache
def printed(kind: SheetKind) -> bytes:
    dishes = (
        a_dish(f"dish-{number}", a_step(f"dish-{number}.cook", "Cook", 10), name=name)
        for number, name in enumerate(NAMES.values())
    )
    plan = a_plan(*dishes)
    return sheet_pdf(kind, plan, on_paper(plan), ())


@pytest.mark.parametrize("kind", [SheetKind.RUN, SheetKind.MENU])
def test_no_sign_is_missing_and_every_font_is_embedded(kind: SheetKind) -> None:
    """A sheet claims PDF/UA-1 (ISO 14289-1) only where every sign has its glyph in a font."""
    pdf = printed(kind)
    assert b"pdfuaid" in pdf
    told = subprocess.run(["pdffonts", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    rows = told.splitlines()[2:]
    assert len(rows) > len(NAMES) / 2
    for row in rows:
        assert row.split()[-5:-2] == ["yes", "yes", "yes"], row  # embedded, a part of the font, with a map to Unicode
        assert row.split()[0].split("+")[1].startswith(("NotoSans", "DroidSansFallback", "NanumSquare")), row


@pytest.mark.parametrize("script", NAMES)
def test_names_are_read_back(script: str) -> None:
    """Poppler tells a Khmer cluster once for each of its glyphs, and puts marks of direction around words."""
    made = subprocess.run(
        ["pdftotext", "-raw", "-enc", "UTF-8", "-", "-"], input=printed(SheetKind.MENU), capture_output=True, check=True
    )
    lines = [once(line) for line in made.stdout.decode("utf-8").split("\n")]
    assert once(NAMES[script]) in lines


def once(text: str) -> str:
    plain = re.sub("[\u202a-\u202e]", "", unicodedata.normalize("NFKC", text))
    return re.sub(r"(.+?)\1+", r"\1", plain)


def test_the_fonts_bring_their_licences() -> None:
    folder = fonts_more_folder()
    assert "SIL OPEN FONT LICENSE" in (folder / "OFL.txt").read_text(encoding="utf-8")
    assert "Apache License" in (folder / "Apache-2.0.txt").read_text(encoding="utf-8")
