"""How large the windows of a test run are: 1280 x 720 unless SIZE says otherwise, as 1920x1080."""

from __future__ import annotations

import os


def wanted_size(width: int = 1280, height: int = 720) -> tuple[int, int]:
    """Return width and height in points: those of SIZE, or these."""
    found = os.environ.get("SIZE", "")
    return (width, height) if not found else tuple(int(part) for part in found.split("x"))  # type: ignore[return-value]
