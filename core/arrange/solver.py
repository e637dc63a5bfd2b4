"""The solver's library, imported without the tables that it offers and we never use: they take as long as all the rest.

`cp_model` imports pandas for variables by the row and asks of what it is given whether it is a table. While it is
imported a stand-in takes that name; afterwards pandas can be imported as ever. Should a later version of the library
want more of pandas than that, it is imported as it is.
"""

from __future__ import annotations

import contextlib
import sys
from importlib import import_module
from types import ModuleType

_TABLES = ("Index", "Series", "DataFrame")


def _import_lightly() -> None:
    """Import the library; where pandas is there already, nothing is saved."""
    if "pandas" in sys.modules or "ortools.sat.python.cp_model" in sys.modules:
        return
    stand_in = ModuleType("pandas")
    for name in _TABLES:
        setattr(stand_in, name, type(name, (), {}))
    sys.modules["pandas"] = stand_in
    try:
        with contextlib.suppress(ImportError, AttributeError):  # then it is imported as it is below
            import_module("ortools.sat.python.cp_model")
    finally:
        del sys.modules["pandas"]


_import_lightly()

from ortools.sat.python import cp_model  # noqa: E402

__all__ = ["cp_model"]
