"""Sheets: what a cook reads from paper, first as data, then typeset."""

from core.sheets.run_sheet import Line, RunSheet, SheetDay, run_sheet
from core.sheets.typeset import as_pdf

__all__ = ["Line", "RunSheet", "SheetDay", "as_pdf", "run_sheet"]
