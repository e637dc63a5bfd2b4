"""Marks a field as wrong, for the eye and for assistive technology."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget


def mark(field: QWidget, sentence: str) -> None:
    """Mark a field with the sentence why it was not taken; "" takes the mark away."""
    field.setProperty("wrong", bool(sentence))
    field.setAccessibleDescription(sentence)
    style = field.style()
    style.unpolish(field)
    style.polish(field)
    field.update()
