"""Sheets on paper: which are printed together and how, seen as real pages, printed or kept as PDF."""

from app.places.paper.print_leaf import PrintLeaf

__all__ = ["PrintLeaf"]
