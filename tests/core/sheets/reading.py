"""Reads printed sheets back by poppler: the text of a PDF's pages, and the pages of each day."""

from __future__ import annotations

import re
import subprocess
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import Any, NamedTuple
from zoneinfo import ZoneInfo

from core.plan.plan import Plan

_DAY = re.compile(r"(Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday) (\d+) ([A-Z][a-z]+)")
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip


def squeezed(text: str) -> str:
    """Return text without white space and without the signs that only let a word break."""
    return re.sub(r"[\s\u200b]+", "", text)


def pages(pdf: bytes) -> list[str]:
    """Return the text of each page, every run of white space one space; read once, as many tests ask for the same."""
    return list(_pages(pdf))


@lru_cache(maxsize=256)
def _pages(pdf: bytes) -> tuple[str, ...]:
    made = subprocess.run(["pdftotext", "-raw", "-enc", "UTF-8", "-", "-"], input=pdf, capture_output=True, check=True)
    text = made.stdout.decode("utf-8").replace("\u200b", "")
    return tuple(" ".join(page.split()) for page in text.split("\f")[:-1])


def text_of_days(pdf: bytes) -> dict[tuple[int, str], str]:
    """Return the text of each day's pages, by day of the month and month; the page's head names its day."""
    found: dict[tuple[int, str], str] = {}
    for page in pages(pdf):
        named = _DAY.search(page)
        assert named is not None, page[:200]
        key = (int(named[2]), named[3])
        found[key] = f"{found.get(key, '')} {page}"
    return found


def on_the_wall(plan: Plan, offset: int) -> datetime:
    """Return the wall-clock time of an offset, worked out apart from the program, by zoneinfo alone."""
    zone = ZoneInfo(plan.plating.zone)
    served = plan.plating.local.replace(tzinfo=zone).astimezone(UTC)
    return (served + timedelta(minutes=offset)).astimezone(zone)


def day_of(at: datetime) -> tuple[int, str]:
    """Return day of the month and month, as text_of_days knows them."""
    return at.day, _MONTHS[at.month - 1]


class Word(NamedTuple):
    """A word with its box on the page, in points from the upper left."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    @property
    def height(self) -> float:
        """How high its box is: about 1.36 times its size."""
        return self.bottom - self.top


_WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>')


def words(pdf: bytes) -> list[list[Word]]:
    """Return the words of each page with their boxes, as poppler sees them."""
    made = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True)
    found = made.stdout.decode("utf-8", errors="replace").split("<page ")[1:]  # it writes signs beyond 16 bits as two
    return [
        [Word(text, *map(float, (left, top, right, bottom))) for left, top, right, bottom, text in _WORD.findall(page)]
        for page in found
    ]


class Span(NamedTuple):
    """A piece of text on a page: where it begins and ends and stands, in points from the lower left, and its size."""

    left: float
    right: float
    foot: float
    size: float


def spans(page: Any) -> list[Span]:
    """Return every piece of text as the page draws it, its width added up from the fonts' own tables."""
    found: list[Span] = []
    now: dict[str, Any] = {}

    def see(operator: bytes, operands: Any, cm: list[float], tm: list[float]) -> None:
        if operator == b"Tf":
            now["font"], now["size"] = widths_of(page["/Resources"]["/Font"][operands[0]]), float(operands[1])
        if operator in {b"Tj", b"TJ"}:
            parts = operands[0] if operator == b"TJ" else operands
            width = sum(drawn(part, now["font"]) for part in parts) * now["size"] / 1000
            left = cm[4] + tm[4]
            found.append(Span(left, left + width, cm[5] + tm[5], now["size"]))

    page.extract_text(visitor_operand_before=see)
    return found


def drawn(part: Any, widths: dict[int, float]) -> float:
    """Return the thousandths of an em that a string of two-byte codes takes, or a move between two strings."""
    if isinstance(part, (int, float)):
        return -float(part)
    raw = part.original_bytes if isinstance(part, str) else bytes(part)
    return sum(widths.get(int.from_bytes(raw[at : at + 2]), 1000.0) for at in range(0, len(raw), 2))


def widths_of(font: Any) -> dict[int, float]:
    """Return the widths of a composite font by code (PDF 32000-1, 9.7.4.3)."""
    table = list(font["/DescendantFonts"][0].get_object()["/W"])
    found: dict[int, float] = {}
    while table:
        first, second = int(table.pop(0)), table.pop(0)
        if isinstance(second, list):
            found |= {first + number: float(width) for number, width in enumerate(second)}
        else:
            width = float(table.pop(0))
            found |= dict.fromkeys(range(first, int(second) + 1), width)
    return found
