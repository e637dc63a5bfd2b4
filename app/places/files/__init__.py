"""Sheets without paper: a page for a phone, a calendar, tables, a picture."""

from app.places.files.files_leaf import FilesLeaf

__all__ = ["FilesLeaf"]
