"""Sheets: what a cook reads from paper, first as data, then typeset."""

from core.sheets.lines import Act, Line, RunSheet, Served, SheetDay
from core.sheets.run_sheet import run_sheet
from core.sheets.typeset import as_pdf

__all__ = ["Act", "Line", "RunSheet", "Served", "SheetDay", "as_pdf", "run_sheet"]
