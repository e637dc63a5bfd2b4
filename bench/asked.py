"""What was asked for on the command line beside the seconds; set once before anything is measured."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(slots=True)
class Asked:
    """A folder of benchmark files (None: a few are made here), and how many of one size are measured at most."""

    instances: Path | None = None
    most: int = 20


ASKED = Asked()
