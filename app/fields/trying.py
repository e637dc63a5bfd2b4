"""Tries an edit: taken as one undo step, or the sentence why not, to be shown beside the field."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.bridge import OpenPlan
from core.measures.refusal import Refusal
from core.plan.edits import Edit


def tried(opened: OpenPlan, edit: Edit, by: str) -> str:
    """Apply an edit to the open plan; return "" or the sentence why the plan does not bear it.

    An edit is pure, so it is tried on the plan first: what the cook mends in a field is not also announced
    above the window.
    """
    try:
        edit(opened.plan)
    except Refusal as refusal:
        return str(refusal)
    if opened.apply(edit, by):
        return ""
    return QCoreApplication.translate("fields", "This could not be kept; what is written above says why.")
