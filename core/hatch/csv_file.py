"""A table as comma-separated values: RFC 4180, UTF-8.

A text that a table program could take for a formula gets an apostrophe before it, the mark of a text in such programs.
It costs one sign in other readers, and is the published remedy (CWE-1236, potential mitigations; OWASP Application
Security Verification Standard 5.0, 1.2.10). Numbers are ours and stand bare, so that they can be added up.
"""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable
from datetime import date, datetime
from fractions import Fraction
from unicodedata import normalize

from core.hatch.table import Cell, Table

FORMULA_SIGNS = frozenset("=+-@\t\r\n\0")
"""What a formula may begin with; a full-width one counts as its usual one."""
_FIXED = (1980, 1, 1, 0, 0, 0)


def as_csv(table: Table) -> bytes:
    """Return one table: a heading line, then the rows, each ended by CR LF (RFC 4180, 2.1 and 2.3)."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, dialect="excel", lineterminator="\r\n")
    writer.writerow(column.name for column in table.columns)
    writer.writerows([_shown(cell) for cell in row] for row in table.rows)
    # with a byte order mark: without it some table programs read UTF-8 as a local code page
    return out.getvalue().encode("utf-8-sig", errors="replace")


def as_zip(tables: Iterable[Table]) -> bytes:
    """Return several tables as files of one archive; the same tables give the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for table in tables:
            archive.writestr(zipfile.ZipInfo(f"{table.name}.csv", _FIXED), as_csv(table), zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _shown(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, datetime):
        return f"{cell:%Y-%m-%d %H:%M}"
    if isinstance(cell, date):
        return cell.isoformat()
    if isinstance(cell, Fraction):
        return number_text(cell)
    if isinstance(cell, int):
        return str(cell)
    return f"'{cell}" if is_formula(cell) else cell


def is_formula(text: str) -> bool:
    """Tell whether a table program could take a text for a formula; spaces before it do not hinder some."""
    return any(normalize("NFKC", each[:1]) in FORMULA_SIGNS for each in (text, text.lstrip()) if each)


def number_text(number: Fraction) -> str:
    """Return a number with a point and at most six digits after it: "1.5", "0.333333"."""
    return f"{float(number):.6f}".rstrip("0").rstrip(".")
