"""The plan file: one SQLite database that holds one plan, copies kept of it, and the list of recent files.

Names are handed on when they are first asked for, so that importing this package loads no database.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.store.mark import SUFFIX

if TYPE_CHECKING:
    from core.store.backup import keep_copies, kept_copies
    from core.store.file import PlanFile
    from core.store.kept import KeptText
    from core.store.recent import forget, recent_plans, remember

__all__ = ["SUFFIX", "KeptText", "PlanFile", "forget", "keep_copies", "kept_copies", "recent_plans", "remember"]

_HOMES = {
    "KeptText": "core.store.kept",
    "PlanFile": "core.store.file",
    "keep_copies": "core.store.backup",
    "kept_copies": "core.store.backup",
    "forget": "core.store.recent",
    "recent_plans": "core.store.recent",
    "remember": "core.store.recent",
}


def __getattr__(name: str) -> object:
    """Return a public name of this package, importing its home now."""
    from importlib import import_module

    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)
