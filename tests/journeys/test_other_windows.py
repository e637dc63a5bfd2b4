"""The timeline's journeys by mouse, wheel and keys once more: in a large window, in a low one, at twice the pixels."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
JOURNEYS = (
    "tests/app/timeline/test_gestures.py",
    "tests/app/timeline/test_zoom.py",
    "tests/app/timeline/test_overview.py",
    "tests/app/timeline/test_timeline.py",
    "tests/journeys/test_timeline_gestures.py",
    "tests/journeys/test_direct_means.py",
)
LEAST = 80
"""Tests that these files have together at least: so that none is lost without notice."""


@pytest.mark.timeout(300)
@pytest.mark.parametrize("window", [{"SIZE": "1920x1080"}, {"SIZE": "1280x720", "QT_SCALE_FACTOR": "2"}], ids=str)
def test_the_journeys_hold_in_another_window(window: dict[str, str]) -> None:
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:randomly", "-p", "no:cacheprovider", *JOURNEYS]
    known = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST_")}
    done = subprocess.run(command, cwd=ROOT, env=known | window, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout[-3000:]
    assert sum(int(count) for count in re.findall(r"(\d+) passed", done.stdout)) >= LEAST, done.stdout[-500:]
    assert "skipped" not in done.stdout
