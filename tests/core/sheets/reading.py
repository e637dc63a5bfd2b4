"""Reads printed sheets back: the text of a PDF's pages, and the pages of each day."""

from __future__ import annotations

import io
import re
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from pypdf import PdfReader

from core.plan.plan import Plan

_DAY = re.compile(r"(Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday) (\d+) ([A-Z][a-z]+)")
_MONTHS = (
    "January February March April May June July August September October November December".split()
)


def squeezed(text: str) -> str:
    """Return text without white space and without the signs that only let a word break."""
    return re.sub(r"[\s\u200b]+", "", text)


def pages(pdf: bytes) -> list[str]:
    """Return the text of each page, every run of white space one space."""
    reader = PdfReader(io.BytesIO(pdf), strict=True)
    return [" ".join(page.extract_text().replace("\u200b", "").split()) for page in reader.pages]


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
