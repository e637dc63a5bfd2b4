"""What the figures were measured on: cores, memory, Python and the libraries that count. No name, no path."""

from __future__ import annotations

import os
import platform
import sys
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

LIBRARIES = ("ortools", "networkx", "numpy", "PySide6-Essentials")


def described() -> list[str]:
    """Return the machine's description, one line each."""
    return [
        f"{_cores()} cores usable, {_processor()}, {_memory()}",
        f"{platform.system()} on {platform.machine()}, {sys.implementation.name} {platform.python_version()}",
        ", ".join(f"{name} {_version(name)}" for name in LIBRARIES),
    ]


def busy() -> str:
    """Return how much other work there was in the last minute."""
    load = getattr(os, "getloadavg", None)
    return f"load {load()[0]:.1f} over the last minute" if load else "load unknown"


def _cores() -> int:
    # What this process may use: a container often shows all cores of its host.
    usable = getattr(os, "sched_getaffinity", None)
    return len(usable(0)) if usable else os.cpu_count() or 1


def _processor() -> str:
    try:
        lines = Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
    except OSError:
        return platform.processor() or "processor unknown"
    named = (line.partition(":")[2].strip() for line in lines if line.startswith("model name"))
    return next(named, "processor unknown")


def _memory() -> str:
    try:
        total = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")
    except (ValueError, OSError, AttributeError):
        return "memory unknown"
    return f"{total / 2**30:.0f} GB"


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "not installed"
